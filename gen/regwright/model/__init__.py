"""The neutral model of a chip: frozen data that every later stage works on."""
