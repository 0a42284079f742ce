"""Match the fields of registers that are pairs, and fields that moved to another register."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator

from regwright.compare.likeness import (
    is_telling,
    normal,
    numbers_differ,
    telling_key,
    title_key,
    titles_differ,
)
from regwright.compare.pairs import (
    ALIAS,
    ALIKE,
    ELSEWHERE,
    MOVED,
    NAME,
    PINNED,
    PLACE,
    TITLE,
    FieldAt,
    FieldPair,
    Pair,
)
from regwright.compare.pins import Ruling
from regwright.compare.seats import Near
from regwright.compare.unique import in_turn, unique_pairs
from regwright.resolve.chip import Placed

Keys = Callable[[FieldAt], Iterable[Hashable]]


def match_fields(registers: list[Pair], ruling: Ruling, near: Near) -> list[FieldPair]:
    """Return the pairs of fields: in the order of A, then of B, register by register.

    A field is sought in the register that is the pair of its own; what is left over is sought in
    the registers ``near`` it, then in all of them.
    """
    found: list[list[FieldPair]] = []
    lone_a: list[FieldAt] = []
    lone_b: list[FieldAt] = []
    for pair in registers:
        ones, others = _fields(pair.a), _fields(pair.b)
        made: list[FieldPair] = []
        if ones and others:
            quick = _all_by_name(ones, others, ruling)
            if quick is not None:
                found.append(quick)
                continue
            made, ones, others = _within(ones, others, ruling)
        found.append(made)
        lone_a += ones
        lone_b += others
    if lone_a or lone_b:
        order = {id(pair.a): number for number, pair in enumerate(registers) if pair.a}
        order |= {id(pair.b): number for number, pair in enumerate(registers) if pair.b}
        for item in _elsewhere(registers, (lone_a, lone_b), ruling, near):
            at = item.a or item.b
            if at is not None:
                found[order[id(at.placed)]].append(item)
    return [item for made in found for item in _in_order(made)]


def _in_order(pairs: list[FieldPair]) -> list[FieldPair]:
    """Return the pairs of one register in the order of its description."""
    if all(pair.why == NAME for pair in pairs):
        return pairs
    places = [pair.a or pair.b for pair in pairs]
    order = {
        id(facts): number
        for placed in {id(at.placed): at.placed for at in places if at}.values()
        for number, facts in enumerate(placed.facts.fields)
    }
    first = [
        (pair.a is None, order[id(at.facts)]) for pair, at in zip(pairs, places, strict=True) if at
    ]
    return [pairs[number] for number in sorted(range(len(pairs)), key=first.__getitem__)]


def _fields(placed: Placed | None) -> list[FieldAt]:
    return [FieldAt(placed, facts) for facts in placed.facts.fields] if placed else []


def _all_by_name(
    left: list[FieldAt], right: list[FieldAt], ruling: Ruling
) -> list[FieldPair] | None:
    """Return the pairs when both sides have the same names, which is the rule."""
    others = {item.facts.field.name: item for item in right}
    if len(others) < len(right) or len(left) != len(right):
        return None
    made = []
    for one in left:
        other = others.pop(one.facts.field.name, None)
        if other is None or not ruling.allows_fields(one, other):
            return None
        made.append(FieldPair(one, other, PINNED if ruling.wanted_field(one) else NAME))
    return made


class _Fields:
    """Pairs of fields of two lists, found step by step."""

    def __init__(self, left: list[FieldAt], right: list[FieldAt], ruling: Ruling) -> None:
        self.left, self.right = left, right
        self.pairs: list[FieldPair] = []
        self._ruling = ruling
        self._pin()

    def _pin(self) -> None:
        """Make the pairs that the user wants."""
        wanted = {a.name: other for a in self.left if (other := self._ruling.wanted_field(a))}
        if wanted:
            right = {item.name: item for item in reversed(self.right)}
            left = {item.name: item for item in reversed(self.left)}
            self._take(
                (left[name], right[other], PINNED)
                for name, other in wanted.items()
                if other in right
            )

    def step(self, why: str, keys: Keys) -> None:
        """Pair what has a key in common that nothing else has."""
        if self.left and self.right:
            self._take((a, b, why) for a, b in unique_pairs(self.left, self.right, keys))

    def _take(self, pairs: Iterable[tuple[FieldAt, FieldAt, str]]) -> None:
        made = [
            FieldPair(a, b, why)
            for a, b, why in pairs
            if self._ruling.allows_fields(a, b) and _may_be_one(a, b, why)
        ]
        self.pairs += made
        gone = {id(side) for pair in made for side in (pair.a, pair.b)}
        if gone:
            self.left = [item for item in self.left if id(item) not in gone]
            self.right = [item for item in self.right if id(item) not in gone]


def _may_be_one(a: FieldAt, b: FieldAt, why: str) -> bool:
    """Tell whether nothing speaks against a pair."""
    if why in (MOVED, ELSEWHERE):
        return a.facts.layout.width == b.facts.layout.width
    if why != PLACE:
        return True
    one, other = a.facts.field, b.facts.field
    if titles_differ(one.title, other.title) or numbers_differ(one.name, other.name):
        return False
    return one.modified_write_value == other.modified_write_value


def _within(
    left: list[FieldAt], right: list[FieldAt], ruling: Ruling
) -> tuple[list[FieldPair], list[FieldAt], list[FieldAt]]:
    """Return the pairs of the fields of two registers, and what is left of either."""
    matching = _Fields(left, right, ruling)
    turns = in_turn(matching.left, _own_name) | in_turn(matching.right, _own_name)
    matching.step(NAME, lambda at: (turns[id(at)],))
    matching.step(ALIAS, lambda at: (at.facts.field.name, *at.facts.field.aliases))
    matching.step(ALIKE, lambda at: (normal(at.facts.field.name),))
    matching.step(TITLE, _title)
    matching.step(PLACE, lambda at: ((at.facts.field.bits, at.facts.access),))
    return matching.pairs, matching.left, matching.right


def _own_name(at: FieldAt) -> str:
    return at.facts.field.name


def _title(at: FieldAt) -> Iterator[Hashable]:
    key = title_key(at.facts.field.title)
    if key:
        yield key


def _elsewhere(
    registers: list[Pair], lone: tuple[list[FieldAt], list[FieldAt]], ruling: Ruling, near: Near
) -> list[FieldPair]:
    """Pair fields that stand in registers which are no pair; the rest stays alone."""
    matching = _Fields(*lone, ruling)

    def nearby(at: FieldAt) -> Iterator[Hashable]:
        name = normal(at.facts.field.name)
        return ((key, name) for key in near.keys(at.placed))

    matching.step(MOVED, nearby)
    matching.step(ALIAS, _other_names)
    matching.step(TITLE, _telling_title)
    if matching.left and matching.right:
        only = _only_names(pair.a for pair in registers) & _only_names(p.b for p in registers)
        matching.step(ELSEWHERE, lambda at: only & {at.facts.field.name})
    alone = [FieldPair(item, None) for item in matching.left]
    return matching.pairs + alone + [FieldPair(None, item) for item in matching.right]


def _other_names(at: FieldAt) -> Iterator[Hashable]:
    """Yield the aliases of a field that say what it is without its register."""
    return (alias for alias in at.facts.field.aliases if is_telling(alias))


def _telling_title(at: FieldAt) -> Iterator[Hashable]:
    key = telling_key(at.facts.field.title)
    if key:
        yield key


def _only_names(registers: Iterable[Placed | None]) -> set[str]:
    """Return the telling names that only one field of a chip has."""
    counts = Counter(
        facts.field.name for placed in registers if placed for facts in placed.facts.fields
    )
    return {name for name, count in counts.items() if count == 1 and is_telling(name)}
