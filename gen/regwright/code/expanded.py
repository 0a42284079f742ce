"""A piece of text with its macros expanded, that knows where each byte of it came from."""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple

from regwright.code.grammar import Parsed
from regwright.code.pieces import Chunk
from regwright.code.scope import HEADER
from regwright.code.seen import Meaning, Where
from regwright.code.syntax import Node


class Site(NamedTuple):
    """The part ``start:end`` of a file from which something expanded comes.

    Where its start or end is not in the text itself but came with a macro, that is where the
    macro's name starts.
    """

    start: int
    end: int
    starts_there: bool
    ends_there: bool


class Expanded(NamedTuple):
    """A piece of text, expanded and parsed, that knows where each of its bytes came from."""

    parsed: Parsed
    chunks: list[Chunk]
    starts: list[int]
    #: What parts of it stand for, by the identity of their nodes.
    known: dict[int, Meaning | None]

    @property
    def node(self) -> Node:
        """The whole expression."""
        return self.parsed.node

    def _chunk(self, position: int) -> tuple[Chunk, int]:
        place = self.parsed.at(position)
        if len(self.chunks) == 1:
            return self.chunks[0], place
        index = max(bisect_right(self.starts, place) - 1, 0)
        return self.chunks[index], place - self.starts[index]

    def where(self, start: int, end: int) -> Where | None:
        """Return the source of the bytes ``start:end``, if they stand together in a file."""
        chunk, within = self._chunk(start)
        if chunk.file == HEADER:
            return None
        length = self.parsed.at(end) - self.parsed.at(start) if end > start else 0
        if within + length > len(chunk.text):
            return None
        return Where(chunk.file, chunk.start + within, chunk.start + within + length)

    def site(self, node: Node) -> Site:
        """Return where ``node`` stands in the text at hand."""
        first, last = self.parsed.at(node.start), max(self.parsed.at(node.end) - 1, 0)
        start, is_there = self._site(first)
        end, is_end_there = self._site(max(last, first))
        return Site(start, end + 1, is_there, is_end_there)

    def _site(self, place: int) -> tuple[int, bool]:
        index = max(bisect_right(self.starts, place) - 1, 0)
        chunk = self.chunks[index]
        return chunk.site + (place - self.starts[index] if chunk.stands else 0), chunk.stands
