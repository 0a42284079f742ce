"""Pins: which pin is which bit of which register, and where it is at its package."""
