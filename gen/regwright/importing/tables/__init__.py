"""Bring register tables in, as datasheets print them and people copy them out."""
