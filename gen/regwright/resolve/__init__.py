"""What follows from a description: every register with all its addresses, every field's mask."""
