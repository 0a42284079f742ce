"""Two chips side by side: what differs by meaning, and what it takes to move a program."""
