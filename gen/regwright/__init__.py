"""Register definitions that are right: from a chip description to a C header."""

__version__ = "0.1.0"
