"""Match the registers of two chips: by name and alias, then by what they are for.

Each step pairs what has a key in common that nothing else has, so that a step costs no more than
looking at everything once, and A against B gives the mirror image of B against A.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import NamedTuple

from regwright.compare.blocks import Blocks, block_pairs
from regwright.compare.fields import match_fields
from regwright.compare.likeness import (
    normal,
    numbers_differ,
    telling_key,
    title_key,
    titles_differ,
)
from regwright.compare.pairs import (
    ALIAS,
    ALIKE,
    BLOCK,
    FIELDS,
    HALF,
    NAME,
    PINNED,
    PLACE,
    TITLE,
    Matching,
    Pair,
)
from regwright.compare.pins import NO_PINS, Pins, Ruling
from regwright.compare.places import Places
from regwright.compare.seats import Near, Seats
from regwright.compare.unique import in_turn, unique_pairs
from regwright.resolve.chip import Placed, ResolvedChip

Keys = Callable[[Placed], Iterable[Hashable]]


def match(a: ResolvedChip, b: ResolvedChip, pins: Pins = NO_PINS) -> Matching:
    """Return which register and field of ``a`` is which of ``b``."""
    return _Matcher(a, b, pins).match()


class _Side(NamedTuple):
    """One chip: its registers that are no halves, the halves of each, and its blocks."""

    chip: ResolvedChip
    wholes: list[Placed]
    halves_of: dict[int, list[Placed]]
    blocks: Blocks


def _side(chip: ResolvedChip) -> _Side:
    wholes: list[Placed] = []
    halves: dict[int, list[Placed]] = {}
    for placed in chip.registers:
        if placed.half:
            halves.setdefault(id(wholes[-1]), []).append(placed)
        else:
            wholes.append(placed)
    return _Side(chip, wholes, halves, Blocks(chip, wholes))


class _Matcher:
    def __init__(self, a: ResolvedChip, b: ResolvedChip, pins: Pins) -> None:
        self._left, self._right = _side(a), _side(b)
        self._pins = pins
        self._ruling = Ruling(pins)
        self._pairs: dict[int, Pair] = {}
        self._taken: set[int] = set()
        self._seats = Seats([])

    def match(self) -> Matching:
        """Match blocks, then registers, then fields."""
        left, right = self._left, self._right
        self._pin()
        pinned = [(pair.a, pair.b) for pair in self._pairs.values() if pair.a and pair.b]
        self._by_name(left.wholes, right.wholes)
        blocks = block_pairs(left.blocks, right.blocks, pinned)
        self._seats = Seats(blocks)
        self._seats.place(left.wholes, right.wholes, (left.blocks, right.blocks))
        self._by_role()
        self._match_halves()
        registers = list(self._all())
        sides = (left.wholes, left.chip.prefix), (right.wholes, right.chip.prefix)
        fields = match_fields(registers, self._ruling, Near(self._seats, sides))
        return Matching(blocks, registers, fields)

    def _pin(self) -> None:
        """Make the pairs that the user wants; a name that two registers have is the first's."""
        left = {item.name: item for item in reversed(self._left.chip.registers)}
        right = {item.name: item for item in reversed(self._right.chip.registers)}
        for one, other in sorted(self._pins.pairs):
            if one in left and other in right:
                self._take(left[one], right[other], PINNED)

    def _take(self, a: Placed, b: Placed, why: str) -> None:
        if id(a) not in self._pairs and id(b) not in self._taken and self._ruling.allows(a, b):
            self._pairs[id(a)] = Pair(a, b, why)
            self._taken.add(id(b))

    def _step(self, why: str, left: Iterable[Placed], right: Iterable[Placed], keys: Keys) -> None:
        """Pair what is still alone and has a key in common with just one on the other side."""
        ones = [placed for placed in left if id(placed) not in self._pairs]
        others = [placed for placed in right if id(placed) not in self._taken]
        if not ones or not others:
            return
        for a, b in unique_pairs(ones, others, keys):
            if self._may_be_one(a, b, why):
                self._take(a, b, why)

    def _may_be_one(self, a: Placed, b: Placed, why: str) -> bool:
        """Tell whether nothing speaks against a pair; the weaker the reason, the more may."""
        if why in (NAME, ALIAS, ALIKE):
            return True
        if {a.facts.access, b.facts.access} == {"read-only", "write-only"}:
            return False
        if why not in (FIELDS, PLACE):
            return True
        if titles_differ(a.register.title, b.register.title):
            return False
        return not numbers_differ(*self._seats.names(a, b))

    def _by_name(self, left: Iterable[Placed], right: Iterable[Placed]) -> None:
        left = [placed for placed in left if id(placed) not in self._pairs]
        right = [placed for placed in right if id(placed) not in self._taken]
        turns: dict[int, Hashable] = {}
        plain: dict[int, str] = {}
        for registers, side in ((left, self._left), (right, self._right)):
            turns |= in_turn(registers, lambda placed: placed.name)
            prefix = side.chip.prefix
            plain |= {id(item): normal(item.name.removeprefix(prefix)) for item in registers}
        self._step(NAME, left, right, lambda placed: (turns[id(placed)],))
        self._step(ALIAS, left, right, _names)
        self._step(ALIKE, left, right, lambda placed: (plain[id(placed)],))

    def _by_role(self) -> None:
        """Pair what is the same within two blocks that are a pair, then wherever it stands."""
        wholes = self._left.wholes, self._right.wholes
        if not self._are_left(*wholes):
            return
        seats = self._seats
        self._step(BLOCK, *wholes, lambda placed: seats.of(placed).items())
        self._step(TITLE, *wholes, self._within(_title))
        self._step(FIELDS, *wholes, self._within(_signature))
        self._step(TITLE, *wholes, self._telling_titles())
        self._step(FIELDS, *wholes, lambda placed: () if seats.of(placed) else _signature(placed))
        places = Places(self._left.chip, self._right.chip, seats, self._pairs.values())
        self._step(PLACE, *wholes, places.within)
        if places.are_kept:
            self._step(PLACE, *wholes, places.exact)

    def _are_left(self, left: list[Placed], right: list[Placed]) -> bool:
        """Tell whether there are registers without a pair on both sides."""
        return any(id(item) not in self._pairs for item in left) and any(
            id(item) not in self._taken for item in right
        )

    def _within(self, keys_of: Keys) -> Keys:
        """Return keys that registers have in common only within blocks that are a pair."""

        def keys(placed: Placed) -> Iterator[Hashable]:
            numbers = self._seats.of(placed)
            for key in keys_of(placed) if numbers else ():
                for number in numbers:
                    yield number, key

        return keys

    def _telling_titles(self) -> Keys:
        """Return the titles that tell a register in its chip: its own, or with its block's."""
        around: dict[int, list[str]] = {}
        for side in (self._left, self._right):
            for placed in side.wholes:
                around[id(placed)] = side.blocks.titles_around(placed)

        def keys(placed: Placed) -> Iterator[Hashable]:
            title = placed.register.title
            for words in (title, *(f"{item} {title}" for item in around[id(placed)])):
                key = telling_key(words) if title else ""
                if key:
                    yield key

        return keys

    def _match_halves(self) -> None:
        """Pair the halves of pairs; then halves with registers that stand alone, by name."""
        for pair in list(self._pairs.values()):
            ones = self._left.halves_of.get(id(pair.a), ())
            others = self._right.halves_of.get(id(pair.b), ())
            for one, other in zip(ones, others, strict=False):
                self._take(one, other, HALF)
        self._by_name(self._left.chip.registers, self._right.chip.registers)

    def _all(self) -> Iterator[Pair]:
        for a in self._left.chip.registers:
            yield self._pairs.get(id(a)) or Pair(a, None)
        for b in self._right.chip.registers:
            if id(b) not in self._taken:
                yield Pair(None, b)


def _names(placed: Placed) -> Iterator[str]:
    yield placed.name
    yield from placed.register.aliases


def _title(placed: Placed) -> Iterator[str]:
    key = title_key(placed.register.title)
    if key:
        yield key


def _signature(placed: Placed) -> Iterator[Hashable]:
    """Yield the names and widths of a register's fields; nothing for one field or none."""
    fields = placed.facts.fields
    if len(fields) > 1:
        yield frozenset((normal(item.field.name), item.layout.width) for item in fields)
