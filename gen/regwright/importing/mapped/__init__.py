"""Bring in any XML or JSON, by a mapping file that says where things are and how written."""
