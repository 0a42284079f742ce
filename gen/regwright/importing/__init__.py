"""Bring descriptions in from other forms: each importer ends in a draft."""
