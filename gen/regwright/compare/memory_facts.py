"""What differs between the memories of two chips."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from operator import attrgetter

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.pairs import PLACE
from regwright.compare.part_changes import Fact, Sides, documentation, named_sides
from regwright.model.chip import Chip
from regwright.model.memories import Memory


def memory_sides(a: Chip, b: Chip) -> list[Sides]:
    """Return which memory is which: by name, then the only one of its kind in its space."""
    name = attrgetter("name")
    return named_sides("memory", a.memories, b.memories, name, [(PLACE, _kind_and_space)])


def _kind_and_space(memory: Memory) -> Iterable[Hashable]:
    yield memory.kind, memory.space


def memory_changes(a: Chip, b: Chip) -> Iterator[Change]:
    """Yield what differs between the memories of two chips."""
    left, right = Units(a), Units(b)
    for sides in memory_sides(a, b):
        one, other = sides.node_a, sides.node_b
        if one and other:
            yield from sides.changes(_facts(one, other, left, right))
        else:
            yield from sides.alone("memory", (left if one else right).summary(sides.lone))


class Units:
    """Shows sizes in the units of a chip's spaces, and in bytes."""

    def __init__(self, chip: Chip) -> None:
        """Look at the spaces of ``chip``."""
        self._units = {space.name: space.unit for space in chip.spaces}

    def size(self, size: int | None, space: str) -> str:
        """Return a size as ``0x400 units (2048 bytes)``."""
        if size is None:
            return ""
        count = f"{size:#x} unit{'' if size == 1 else 's'}"
        bits = size * self._units.get(space, 0)
        return f"{count} ({bits // 8} bytes)" if bits and bits % 8 == 0 else count

    def summary(self, memory: Memory) -> str:
        """Return what a memory is, where it is and what it holds."""
        return f"{memory.kind}, {place(memory)}, {self.size(memory.size, memory.space)}"


def place(memory: Memory) -> str:
    """Return where a memory starts."""
    return f"{memory.space} {show.number(memory.first)}"


def _facts(one: Memory, other: Memory, left: Units, right: Units) -> Iterator[Fact]:
    yield "memory-renamed", one.name, other.name
    yield "memory-kind", one.kind, other.kind
    yield "memory-place", place(one), place(other)
    for kind, attribute in (
        ("memory-size", "size"),
        ("memory-page-size", "page_size"),
        ("memory-erase-unit", "erase_unit"),
    ):
        before = left.size(getattr(one, attribute), one.space)
        yield kind, before, right.size(getattr(other, attribute), other.space)
    yield from documentation(one, other, "title", "page")
