"""The rules about code, each in the module for its subject."""
