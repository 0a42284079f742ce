"""Writers: the only part that touches the disk, and the two spellings of the format."""
