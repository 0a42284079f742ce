"""Pieces of text on their way through the preprocessor, each with where it comes from."""

from __future__ import annotations

from typing import NamedTuple

from regwright.code.directives import Arm

#: Expanded text beyond this is no constant that anybody meant.
LARGEST = 16_000


class TooLarge(Exception):
    """The text grows beyond what is looked at."""


class Chunk(NamedTuple):
    """Some bytes, and the file and place they stand at.

    ``site`` is where in the text at hand the name stands that brought them there, or their own
    place when they stand there themselves, which ``stands`` tells.
    """

    text: bytes
    file: int
    start: int
    site: int
    stands: bool = False


class Spot(NamedTuple):
    """From where names are looked up: the file, the arms around it, the place."""

    file: int
    arms: tuple[Arm, ...]
    offset: int


class Piece(NamedTuple):
    """A chunk whose macros may be expanded, but for those named in ``hidden``.

    One that ``is_settled`` has no macros in it any more.
    """

    chunk: Chunk
    hidden: frozenset[str]
    spot: Spot
    is_settled: bool = False

    @property
    def text(self) -> bytes:
        """The bytes of the chunk."""
        return self.chunk.text

    def part(self, start: int, end: int) -> Piece:
        """Return the bytes ``start:end`` of it."""
        text, file, place, site, stands = self.chunk
        if stands:
            site = place + start
        chunk = Chunk(text[start:end], file, place + start, site, stands)
        return Piece(chunk, self.hidden, self.spot)


def stripped(pieces: list[Piece]) -> list[Piece]:
    """Return ``pieces`` without the blanks around them; an empty list when they are all blank."""
    shown = [number for number, piece in enumerate(pieces) if piece.text.strip()]
    if not shown:
        return []
    made = pieces[shown[0] : shown[-1] + 1]
    text = made[0].text
    made[0] = made[0].part(len(text) - len(text.lstrip()), len(text))
    made[-1] = made[-1].part(0, len(made[-1].text.rstrip()))
    return made
