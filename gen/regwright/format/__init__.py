"""The format of descriptions: its schemas, and the shape that both spellings share."""
