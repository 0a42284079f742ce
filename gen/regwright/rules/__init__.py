"""The rules: what a description must not say. Each is one small function with its own page."""
