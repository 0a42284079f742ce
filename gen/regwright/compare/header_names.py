"""What becomes of each macro of A's header in B's header."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from regwright.compare.pairs import FieldAt, Matching
from regwright.macros.registers import ChipMacros, Macro, macro_name, names_of_part
from regwright.resolve.chip import Placed

if TYPE_CHECKING:
    from regwright.macros.parts import Part

#: The macro is the same thing's in B; it has another name there; it has none; the name is another
#: thing's there.
SAME, RENAMED, GONE, OTHER = "same", "renamed", "gone", "other"


class Named(NamedTuple):
    """A macro of a header: the register it is of, the field if it is one's, and how it goes on."""

    placed: Placed
    field: FieldAt | None
    tail: str


class Fate(NamedTuple):
    """What becomes of a macro: one of the words above, its name in B, and what it is of in A."""

    word: str
    new_name: str
    named: Named


def header_names(macros: ChipMacros) -> dict[str, Named]:
    """Return what each macro of a header is of."""
    return dict(_all(macros))


def part_names(macros: ChipMacros) -> dict[str, Part]:
    """Return what each macro is of that no register has: a memory, a setting and the like."""
    return {name: part for part in macros.parts for name in names_of_part(part)}


def _all(macros: ChipMacros) -> Iterator[tuple[str, Named]]:
    for register in macros.registers:
        placed = register.placed
        for macro in (*register.numbers, *register.code):
            yield _named(macro, placed, None, placed.name)
        for field in register.fields:
            at = FieldAt(placed, field.facts)
            stem = f"{placed.name}_{field.facts.field.name}"
            for macro in (*field.numbers, *field.code):
                yield _named(macro, placed, at, stem)


def _named(macro: Macro, placed: Placed, at: FieldAt | None, stem: str) -> tuple[str, Named]:
    name = macro_name(macro[0])
    return name, Named(placed, at, name.removeprefix(stem))


class Fates:
    """Looks up what becomes of the macros of A's header."""

    def __init__(self, matching: Matching, a: Mapping[str, Named], b: Mapping[str, Named]) -> None:
        """``a`` and ``b`` are the macros of both headers."""
        self.a, self._b = a, b
        self._matching = matching
        self.registers = {id(pair.a): pair.b for pair in matching.registers if pair.a and pair.b}
        self._fields = {
            (id(pair.a.placed), pair.a.facts.field.name): pair.b
            for pair in matching.fields
            if pair.a and pair.b
        }

    @cached_property
    def _registers_before(self) -> dict[int, str]:
        pairs = self._matching.registers
        return {id(pair.b): pair.a.name for pair in pairs if pair.a and pair.b}

    @cached_property
    def _fields_before(self) -> dict[str, str]:
        pairs = self._matching.fields
        return {pair.b.name: pair.a.name for pair in pairs if pair.a and pair.b}

    def field(self, at: FieldAt) -> FieldAt | None:
        """Return the field of B that a field of A is."""
        return self._fields.get((id(at.placed), at.facts.field.name))

    def before(self, name: str) -> str:
        """Return what A calls the thing of which B's header has the macro ``name``, or nothing."""
        named = self._b[name]
        if named.field is None:
            return self._registers_before.get(id(named.placed), "")
        return self._fields_before.get(named.field.name, "")

    def of(self, name: str) -> Fate:
        """Return what becomes of the macro ``name``, which A's header defines."""
        named = self.a[name]
        new_name = self._new_name(named)
        there = self._b.get(name)
        if new_name == name:
            return Fate(SAME if there else GONE, name if there else "", named)
        if there is not None:
            return Fate(OTHER, new_name if new_name in self._b else "", named)
        if new_name in self._b:
            return Fate(RENAMED, new_name, named)
        return Fate(GONE, "", named)

    def _new_name(self, named: Named) -> str:
        """Return the name that the same thing has in B's header, or nothing."""
        if named.field is None:
            placed = self.registers.get(id(named.placed))
            return placed.name + named.tail if placed else ""
        there = self.field(named.field)
        if there is None:
            return ""
        tail = self._value_tail(named.field, there, named.tail)
        return f"{there.placed.name}_{there.facts.field.name}{tail}"

    @staticmethod
    def _value_tail(one: FieldAt, other: FieldAt, tail: str) -> str:
        """Return ``tail`` with the name of a value replaced by the one it has now."""
        word = tail.removeprefix("_")
        values = {item.name: item.value for item in one.facts.field.values}
        names = {item.name for item in other.facts.field.values}
        if word not in values or word in names:
            return tail
        for item in other.facts.field.values:
            if item.value == values[word] and item.name not in values:
                return f"_{item.name}"
        return tail
