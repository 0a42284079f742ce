"""The macros that a chip implies: their names and values, computed once for rules and templates."""
