"""Lines of text for a terminal: pieces, each with what it is, so that it can have a colour."""

from __future__ import annotations

from typing import NamedTuple

#: What a piece of a line is: plain text, a heading, an aside; what is gone, new or changed; a
#: danger.
PLAIN, HEADING, QUIET, GONE, NEW, CHANGED = "plain", "heading", "quiet", "gone", "new", "changed"
DANGER = "danger"


class Piece(NamedTuple):
    """A piece of a line and what it is."""

    role: str
    text: str


Line = list[Piece]


def plain_text(line: Line) -> str:
    """Return ``line`` without what its pieces are."""
    return "".join(piece.text for piece in line).rstrip()
