"""Which paired blocks the registers of two chips stand in, and which registers are near another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from functools import cached_property

from regwright.compare.blocks import Blocks, starts_of
from regwright.compare.likeness import normal
from regwright.compare.pairs import BlockPair
from regwright.resolve.chip import Placed

#: In a block of more registers than this, two of them are not near each other.
_MOST_NEAR = 16


class Seats:
    """The paired blocks of each register, by their numbers, and its name within each."""

    def __init__(self, pairs: list[BlockPair]) -> None:
        """``pairs`` are the blocks that are pairs."""
        self._left = {pair.a: number for number, pair in enumerate(pairs)}
        self._right = {pair.b: number for number, pair in enumerate(pairs)}
        self._seats: dict[int, dict[int, str]] = {}

    def place(self, left: list[Placed], right: list[Placed], blocks: tuple[Blocks, Blocks]) -> None:
        """Note where the registers ``left`` of A and ``right`` of B stand."""
        sides = (left, blocks[0], self._left), (right, blocks[1], self._right)
        for registers, side, numbers in sides:
            for placed in registers:
                found = {
                    numbers[seat.path]: normal(seat.inner_name)
                    for seat in side.of(placed)
                    if seat.path in numbers
                }
                if found:
                    self._seats[id(placed)] = found

    def of(self, placed: Placed) -> dict[int, str]:
        """Return the numbers of a register's paired blocks, and what it is called there."""
        return self._seats.get(id(placed), {})

    def names(self, a: Placed, b: Placed) -> tuple[str, str]:
        """Return what two registers are called in a block that they share; else their names."""
        there = self.of(b)
        for number, name in self.of(a).items():
            if number in there:
                return name, there[number]
        return a.name, b.name


class Near:
    """Tells which registers belong together: in one small block, or with names that start alike."""

    def __init__(self, seats: Seats, sides: Iterable[tuple[list[Placed], str]]) -> None:
        """``sides`` are the registers of both chips, and what all names of each start with."""
        self._seats, self._sides = seats, sides

    @cached_property
    def _keys(self) -> dict[int, list[int | str]]:
        keys: dict[int, list[int | str]] = {}
        too_many: set[int | str] = set()
        for registers, prefix in self._sides:
            counts: Counter[int | str] = Counter()
            for placed in registers:
                name = placed.name.removeprefix(prefix)
                found: list[int | str] = [*self._seats.of(placed), *starts_of(name), name]
                keys[id(placed)] = found
                counts.update(found)
            too_many.update(key for key, count in counts.items() if count > _MOST_NEAR)
        return {one: [key for key in found if key not in too_many] for one, found in keys.items()}

    def keys(self, placed: Placed) -> list[int | str]:
        """Return what a register has in common with those that are near it."""
        return self._keys.get(id(placed), [])
