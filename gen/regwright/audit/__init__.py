"""Holding sources against a chip: rules about code, repairs of it, and what it uses."""
