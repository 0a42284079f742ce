"""What the reports of a comparison are made of: the changes chosen, counted and put in order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable
from functools import cached_property
from typing import NamedTuple

from regwright.compare import show
from regwright.compare.changes import (
    ACCESS,
    ADDRESSES,
    CATEGORIES,
    CONDITIONS,
    DOCUMENTATION,
    EFFECTS,
    FIELDS,
    KINDS,
    NAMES,
    ORDER,
    PRESENCE,
    RESERVED,
    RESETS,
    SPACES,
    TOOLCHAIN,
    VALUES,
    WIDTHS,
    Change,
    category,
)
from regwright.compare.differences import Comparison
from regwright.compare.groups import collapsed
from regwright.compare.pairs import Pair
from regwright.compare.rest_kinds import CLOCK, CONFIGURATION, MEMORIES, PINS, REST, VECTORS
from regwright.compare.words import Words
from regwright.model.words import plural
from regwright.read.source import Source
from regwright.reports.porting import Move

#: What cannot be counted: one change of it has the same word as several.
_UNCOUNTED = (CONFIGURATION, CLOCK, TOOLCHAIN, DOCUMENTATION)
#: What one change of each category is called; the category's own word is for several.
_ONE = {
    **{word: word for word in (PRESENCE, ACCESS, RESERVED, *_UNCOUNTED)},
    NAMES: "name",
    ADDRESSES: "address",
    WIDTHS: "width",
    EFFECTS: "effect",
    RESETS: "reset",
    FIELDS: "field",
    VALUES: "value",
    ORDER: "order",
    CONDITIONS: "condition",
    SPACES: "space",
    MEMORIES: "memory",
    VECTORS: "vector",
    PINS: "pin",
}

#: The headings of what a chip has besides registers, in the order of the reports.
PARTS = {
    MEMORIES: "Memories",
    VECTORS: "Interrupt vectors",
    CONFIGURATION: "Configuration",
    CLOCK: "Clock",
    PINS: "Ports and pins",
}


#: The kinds of changes of fields and values, which are named after their register.
_OF_PARTS = {
    kind
    for kind in KINDS
    if kind.startswith(("field-", "value")) or kind in ("write-effect", "volatile")
}


def chosen(
    changes: Iterable[Change], only: Collection[str] = (), ignore: Collection[str] = ()
) -> list[Change]:
    """Return the changes of the categories ``only``, or of all, without those of ``ignore``."""
    wanted = set(only or CATEGORIES) - set(ignore)
    return [item for item in changes if category(item) in wanted]


def touched(changes: Iterable[Change], used: Collection[str]) -> list[Change]:
    """Return the changes of what a program uses: registers of A, and ``REGISTER.FIELD``."""
    return [item for item in changes if ".".join(item.a.split(".")[:2]) in used]


class Compared:
    """A comparison, which of its changes are shown, and the two descriptions as texts."""

    def __init__(
        self,
        comparison: Comparison,
        changes: list[Change],
        sources: tuple[Source, Source],
        move: Move | None = None,
    ) -> None:
        """Report ``changes``, which are some or all of those of ``comparison``.

        ``move`` is a program that is to move from A to B, and what that takes.
        """
        self.comparison = comparison
        self.changes = changes
        self.sources = sources
        self.move = move

    @cached_property
    def labels(self) -> tuple[str, str]:
        """What the two are called: their chips' names, their files, or A and B."""
        a, b = self.comparison.a.chip.name, self.comparison.b.chip.name
        if a != b:
            return a, b
        one, other = (source.name for source in self.sources)
        return (one, other) if one != other else ("A", "B")

    @cached_property
    def words(self) -> Words:
        """The words for the changes."""
        return Words(self.comparison, self.labels)

    @property
    def is_narrowed(self) -> bool:
        """Whether some changes are left out."""
        return len(self.changes) < len(self.comparison.changes)

    @cached_property
    def counts(self) -> dict[str, int]:
        """How many changes there are of each category that has some."""
        found = Counter(map(category, self.changes))
        return {word: found[word] for word in CATEGORIES if found[word]}

    @cached_property
    def totals(self) -> str:
        """How many changes there are, of what categories."""
        total = len(self.changes)
        if not total:
            return "no such changes" if self.is_narrowed else "no changes"
        parts = [f"{number} {counted(word, number)}" for word, number in self.counts.items()]
        return f"{plural(total, 'change')}: {', '.join(parts)}"

    @property
    def stat(self) -> str:
        """The count in a line, with what is compared."""
        a, b = self.labels
        return f"{a} against {b}: {self.totals}"

    @cached_property
    def outline(self) -> Outline:
        """The changes by what they are about."""
        return _outline(self)


def counted(word: str, number: int) -> str:
    """Return what ``number`` changes of the category ``word`` are called."""
    return _ONE[word] if number == 1 else word


class Section(NamedTuple):
    """Registers whose changes are the same, in their order; ``own`` are the changes of each.

    ``numbers`` are their places among all pairs, ``distances`` says of each change of the first
    register how far all of them moved, if it is such a move.
    """

    pairs: list[Pair]
    own: list[list[Change]]
    numbers: list[int]
    distances: list[int | None]


class Outline(NamedTuple):
    """All changes, each at one place: of the chip, of registers that both have, and so on.

    ``parts`` are those of what a chip has besides registers, under the headings of :data:`PARTS`.
    """

    chip: list[Change]
    parts: list[tuple[str, list[Change]]]
    both: list[Section]
    only_a: list[Section]
    only_b: list[Section]
    documentation: list[Change]

    @property
    def in_order(self) -> list[Change]:
        """All changes in the order of the outline, register by register."""
        found = [*self.chip, *(item for _, changes in self.parts for item in changes)]
        for section in (*self.both, *self.only_a, *self.only_b):
            found += [item for changes in section.own for item in changes]
        return found + self.documentation


class Owners:
    """Finds the pair of registers that a change is about."""

    def __init__(self, pairs: list[Pair]) -> None:
        """Look at ``pairs``."""
        self._of_a = {pair.a.name: number for number, pair in enumerate(pairs) if pair.a}
        self._of_b = {pair.b.name: number for number, pair in enumerate(pairs) if pair.b}

    def of(self, change: Change) -> int | None:
        """Return the number of the pair; ``None`` for the chip as a whole."""
        if change.origin_a is None and change.origin_b is None:
            return None
        if change.kind == "registers-merged":
            return self._of_b.get(change.b)
        is_part = change.kind in _OF_PARTS
        found = _owner(change.a, self._of_a, is_part=is_part)
        return _owner(change.b, self._of_b, is_part=is_part) if found is None else found


def _owner(name: str, known: dict[str, int], *, is_part: bool) -> int | None:
    """Return what is known of ``name``, or of the longest start of it before a dot."""
    while is_part and name not in known and "." in name:
        name = name.rpartition(".")[0]
    return known.get(name)


def _outline(compared: Compared) -> Outline:
    pairs = compared.comparison.matching.registers
    owners = Owners(pairs)
    chip: list[Change] = []
    own: dict[int, list[Change]] = {}
    keys: dict[int, set[int]] = {}
    distances: dict[int, int | None] = {}
    documentation = [item for item in compared.changes if category(item) == DOCUMENTATION]
    parts = _parts(compared.changes)
    rest = [
        item
        for item in compared.changes
        if category(item) != DOCUMENTATION and item.kind not in REST
    ]
    for number, group in enumerate(collapsed(rest)):
        for change in group.all:
            owner = owners.of(change)
            if owner is None:
                chip.append(change)
                continue
            keys.setdefault(owner, set()).add(number)
            distances[id(change)] = group.distance
    chip += [item for item in compared.changes if item.kind in REST and category(item) not in PARTS]
    for change in rest:  # in their own order, whatever the groups are
        owner = owners.of(change)
        if owner is not None:
            own.setdefault(owner, []).append(change)
    sections = _sections(pairs, own, keys, distances)
    by_side: tuple[list[Section], list[Section], list[Section]] = ([], [], [])
    for section in sections:
        first = section.pairs[0]
        by_side[0 if first.a and first.b else 1 if first.a else 2].append(section)
    return Outline(chip, parts, *by_side, documentation)


def _sections(
    pairs: list[Pair],
    own: dict[int, list[Change]],
    keys: dict[int, set[int]],
    distances: dict[int, int | None],
) -> list[Section]:
    """Return the registers with the changes ``own``, those with the same ``keys`` together."""
    sections: dict[tuple[int, ...], Section] = {}
    for owner in sorted(own):
        key = tuple(sorted(keys[owner]))
        section = sections.setdefault(key, Section([], [], [], []))
        if not section.pairs:
            section.distances.extend(distances[id(item)] for item in own[owner])
        section.pairs.append(pairs[owner])
        section.own.append(own[owner])
        section.numbers.append(owner)
    return list(sections.values())


def _parts(changes: Iterable[Change]) -> list[tuple[str, list[Change]]]:
    """Return the changes of what a chip has besides registers, by heading."""
    found: dict[str, list[Change]] = {word: [] for word in PARTS}
    for item in changes:
        found.get(category(item), []).append(item)
    return [(PARTS[word], own) for word, own in found.items() if own]


def pair_name(pair: Pair) -> str:
    """Return the name of a register, or both where they differ."""
    if pair.a is None or pair.b is None:
        one = pair.a or pair.b
        return one.name if one else ""
    return pair.a.name if pair.a.name == pair.b.name else f"{pair.a.name} → {pair.b.name}"


def moved_by(section: Section, change: Change, distance: int | None) -> str:
    """Return how far all registers of a section moved, where that is more than one."""
    if change.kind != "address" or len(section.pairs) == 1:
        return ""
    if distance is None:
        is_move = change.before and change.after
        return "each by a distance of its own" if is_move else "each likewise"
    return f"all {show.number(abs(distance))} {'higher' if distance > 0 else 'lower'}"


def part_name(pair: Pair, change: Change) -> str:
    """Return the name of what ``change`` is about within its register; nothing for all of it."""
    name = change.a or change.b
    own = (pair.a if change.a else pair.b) or pair.a or pair.b
    if own is None or name == own.name:
        return ""
    return name.removeprefix(f"{own.name}.")
