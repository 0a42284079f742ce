"""Bring in registers from component descriptions of IEEE 1685, every edition that has them."""
