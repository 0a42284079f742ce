"""Reading C, C++ and assembler sources: what they define, and what they read and write."""
