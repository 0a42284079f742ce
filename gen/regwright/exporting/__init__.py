"""Write descriptions in the forms of other standards."""
