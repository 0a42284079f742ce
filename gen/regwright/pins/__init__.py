"""Pins: which is which, and how a package looks."""
