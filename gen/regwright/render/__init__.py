"""From the resolved chip to text: what templates are given, and the templates' engine."""
