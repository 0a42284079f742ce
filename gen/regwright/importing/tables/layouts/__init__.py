"""The layouts in which datasheets print registers, one module for each."""
