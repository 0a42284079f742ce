"""Work with configuration words: read what they say, set settings, find hazards and changes."""
