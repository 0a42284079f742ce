"""The names that a chip's registers, blocks, fields and values have: their own and aliases."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import NamedTuple

from regwright.model.chip import Array, Block, Half, Instance, NamedValue, Register
from regwright.resolve.chip import MOST_REGISTERS, Placed, ResolvedChip
from regwright.resolve.facts import FieldFacts


class Loose(NamedTuple):
    """A field, or a value of it, by a name without its register.

    ``facts`` is the identity of the register's facts, which the registers of a row share.
    ``is_alias`` tells aliases from the name in the description.
    """

    facts: int
    field: FieldFacts
    value: NamedValue | None = None
    is_alias: bool = True


class OwnNames:
    """What there is on a chip, by each of its names."""

    def __init__(self, resolved: ResolvedChip) -> None:
        """Read names off ``resolved``."""
        self.resolved = resolved

    def registers(self) -> Iterator[tuple[str, int]]:
        """Yield each name of a register or half, and which of ``resolved.registers`` has it.

        In a row an alias carries the index, as the name does; without one it means the first.
        """
        facts = None
        position = 0
        for index, placed in enumerate(self.resolved.registers):
            yield placed.name, index
            if not placed.half:
                position = position + 1 if placed.facts is facts else 0
                facts = placed.facts
            if facts is None:
                continue
            array = facts.register.array
            for alias in _node_of(placed, facts.register).aliases:
                if array is not None:
                    yield f"{alias}{array.first + position}", index
                if array is None or position == 0:
                    yield alias, index

    @cached_property
    def with_facts(self) -> dict[int, list[int]]:
        """The registers that share their facts, by the identity of those."""
        found: dict[int, list[int]] = {}
        for index, placed in enumerate(self.resolved.registers):
            found.setdefault(id(placed.facts), []).append(index)
        return found

    def loose(self) -> Iterator[tuple[str, Loose]]:
        """Yield the name and each alias of each field, and each alias of each of its values."""
        for facts, (first, *_) in self.with_facts.items():
            for item in self.resolved.registers[first].facts.fields:
                field = item.field
                yield field.name, Loose(facts, item, None, is_alias=False)
                for alias in field.aliases:
                    yield alias, Loose(facts, item)
                for value in field.values:
                    for alias in value.aliases:
                        yield alias, Loose(facts, item, value)

    def blocks(self) -> Iterator[tuple[str, str]]:
        """Yield each alias of a block, with its index in a row, and the prefix that it stands for.

        A block with several instances has several prefixes.
        """
        for count, pair in enumerate(_prefixes(self.resolved.chip.blocks, self.resolved.prefix)):
            if count == MOST_REGISTERS:
                return
            yield pair


def _node_of(placed: Placed, whole: Register) -> Register | Half:
    """Return the node that names ``placed``, which is ``whole`` or one of its halves."""
    if not placed.half or whole.halves is None:
        return whole
    return whole.halves.low if placed.half == "low" else whole.halves.high


def _with_aliases(blocks: Iterable[Block]) -> list[Block]:
    """Return the blocks that have aliases, or have blocks in them that do."""
    return [block for block in blocks if block.aliases or _with_aliases(block.blocks)]


def _prefixes(blocks: Iterable[Block], around: str) -> Iterator[tuple[str, str]]:
    for block in _with_aliases(blocks):
        places: tuple[Block | Instance, ...] = block.instances or (block,)
        for place in places:
            for number in _numbers(block.array):
                own = f"{place.name}{number}_"
                if place.prefix is not None:
                    own = place.prefix + (f"{number}_" if number else "")
                for alias in block.aliases:
                    yield alias + number, around + own
                yield from _prefixes(block.blocks, around + own)


def _numbers(array: Array | None) -> Iterator[str]:
    """Yield the number in the name of each element of a row; nothing where there is none."""
    if array is None:
        yield ""
        return
    for position in range(array.length):
        yield str(array.first + position)
