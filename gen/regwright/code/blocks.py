"""The bodies of functions, classes and namespaces: where a name that is declared is known."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from typing import Any, NamedTuple

from regwright.code.syntax import text_of


class Block(NamedTuple):
    """A body, bytes ``start:end``; ``name`` is that of a class, enumeration or namespace.

    What is declared in a ``local`` one, of a function or a part of it, is known nowhere else.
    """

    start: int
    end: int
    name: str = ""
    local: bool = False

    def holds(self, offset: int) -> bool:
        """Tell whether the byte ``offset`` is in it."""
        return self.start <= offset < self.end


class Blocks:
    """The blocks of one file."""

    def __init__(self, nodes: Iterable[Any]) -> None:
        """Take bodies of functions, classes, enumerations and namespaces from ``nodes``."""
        blocks = sorted({_block(node) for node in nodes}, key=lambda item: (item.start, -item.end))
        #: From each byte of ``_starts`` on, what is innermost.
        self._starts: list[int] = [0]
        self._innermost: list[Block | None] = [None]
        open_blocks: list[Block] = []
        for block in [*blocks, Block(1 << 62, 1 << 62)]:
            while open_blocks and open_blocks[-1].end <= block.start:
                ended = open_blocks.pop()
                self._add(ended.end, open_blocks[-1] if open_blocks else None)
            open_blocks.append(block)
            self._add(block.start, block)

    def _add(self, start: int, block: Block | None) -> None:
        self._starts.append(start)
        self._innermost.append(block)

    def around(self, offset: int) -> Block | None:
        """Return the innermost block that the byte ``offset`` is in."""
        return self._innermost[bisect_right(self._starts, offset) - 1]


def _block(node: Any) -> Block:
    name = node.child_by_field_name("name")
    shown = text_of(name).rpartition(":")[2] if name is not None else ""
    return Block(node.start_byte, node.end_byte, shown, node.type == "compound_statement")
