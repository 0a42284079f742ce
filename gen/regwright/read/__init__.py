"""Readers: one for each spelling, both landing in the same tree and then in the same model."""
