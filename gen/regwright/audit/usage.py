"""Which registers and bits of a chip the sources use, and where."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from regwright.audit.names import ADDRESS
from regwright.audit.subject import AuditSubject, Touch, Use
from regwright.code.seen import Operand, Where
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts

#: How a place uses something: the words of accesses, and for a name without one.
NAMED = "named"


class Place(NamedTuple):
    """A place that uses something.

    ``how`` is read, write, modify or named; ``name`` is what it is called there, if it has one.
    """

    at: Where
    how: str
    name: str


class Usage(NamedTuple):
    """A register, or one of its fields, and the places that use it, in the order of the sources."""

    placed: Placed
    field: FieldFacts | None
    places: tuple[Place, ...]


def name_of(usage: Usage) -> str:
    """Return ``REGISTER`` or ``REGISTER.FIELD``."""
    field = usage.field
    return f"{usage.placed.name}.{field.field.name}" if field else usage.placed.name


_Found = tuple[Placed, FieldFacts | None, Place]


def usages(subject: AuditSubject) -> list[Usage]:
    """Return what the sources use, in the order of the chip's registers."""
    found: dict[tuple[str, str], dict[Place, None]] = {}
    nodes: dict[tuple[str, str], tuple[Placed, FieldFacts | None]] = {}
    for placed, field, place in _all(subject):
        key = placed.name, field.field.name if field else ""
        nodes.setdefault(key, (placed, field))
        found.setdefault(key, {})[place] = None
    order = {placed.name: number for number, placed in enumerate(subject.resolved.registers)}

    def position(key: tuple[str, str]) -> tuple[int, int]:
        _, field = nodes[key]
        return order[key[0]], -1 if field is None else field.layout.position

    return [
        Usage(*nodes[key], tuple(_without_repeats(sorted(found[key]))))
        for key in sorted(found, key=position)
    ]


def _without_repeats(places: list[Place]) -> Iterator[Place]:
    """Leave out a bare name within a place of which an access says more; ``places`` are sorted."""
    starts: list[tuple[int, int]] = []
    ends: list[tuple[int, int]] = []  # as far as any access reaches that starts there or before
    for (file, start, end), how, _ in places:
        if how != NAMED:
            starts.append((file, start))
            ends.append(max(ends[-1], (file, end)) if ends else (file, end))
    for place in places:
        before = bisect_right(starts, place.at[:2])
        is_within = before > 0 and ends[before - 1] >= (place.at.file, place.at.end)
        if place.how != NAMED or not is_within:
            yield place


def _all(subject: AuditSubject) -> Iterator[_Found]:
    for touch in subject.touches:
        yield from _of_access(subject, touch)
    for use in subject.uses:
        yield from _of_instruction(subject, use)
    for mention in subject.seen.mentions:
        for match in subject.names.find(mention.name):
            place = Place(mention.at, NAMED, mention.name)
            yield match.placed, None, place
            if match.field is not None:
                yield match.placed, match.field, place


def _of_access(subject: AuditSubject, touch: Touch) -> Iterator[_Found]:
    access = touch.access
    for placed in touch.registers:
        place = Place(access.target_at, access.how, access.name)
        yield placed, None, place
        named = set()
        for part in access.parts:
            for field in _fields(subject, part.name, placed):
                named.add(id(field))
                yield placed, field, Place(part.at, access.how, part.name)
        mask = _written(touch, placed)
        for field in placed.facts.fields:
            if field.layout.mask & mask and id(field) not in named:
                yield placed, field, _by_what(subject, touch, placed, field)


def _fields(subject: AuditSubject, name: str, placed: Placed) -> list[FieldFacts]:
    """Return the fields of ``placed`` that ``name`` means."""
    matches = subject.names.find(name) or subject.names.fields_named(name)
    return [item.field for item in matches if item.placed is placed and item.field is not None]


def _by_what(subject: AuditSubject, touch: Touch, placed: Placed, field: FieldFacts) -> Place:
    """Return the place of the name that gives a field's bits, or of the access where none does."""
    access = touch.access
    for part in access.parts:
        if part.means is None:
            continue
        value = part.means.value
        bits = 1 << value if part.role == "count" and 0 <= value < 64 else value
        if part.role != "other" and bits & field.layout.mask:
            return Place(part.at, access.how, part.name)
    whole = any(
        match.placed is placed and match.field is field for match in subject.names.find(access.name)
    )
    return Place(access.target_at, access.how, access.name if whole else "")


def _written(touch: Touch, placed: Placed) -> int:
    """Return the bits that an access is about: set, changed while others are kept, or tested."""
    value = touch.access.value
    if value is None:
        return 0
    every = (1 << placed.facts.width) - 1
    is_known = touch.access.how == "modify" and value.kept & every
    return every & ~value.kept if is_known else every & value.ones


def _of_instruction(subject: AuditSubject, use: Use) -> Iterator[_Found]:
    number = use.described.address
    if number > len(use.instruction.operands):
        return
    operand = use.instruction.operands[number - 1]
    for placed, name in _registers(subject, use, operand):
        yield placed, None, Place(operand.at, use.described.access, name)
        for field in placed.facts.fields:
            if use.bit is not None and field.layout.mask >> use.bit & 1:
                yield placed, field, _of_bit(use, operand)


def _registers(subject: AuditSubject, use: Use, operand: Operand) -> Iterator[tuple[Placed, str]]:
    """Yield the registers that an operand means, with their names there, or else by its number."""
    named = {
        match.placed.name: (match.placed, name)
        for name in operand.names
        for match in subject.names.find(name)
        if match.field is None and match.says in ("", ADDRESS)
    }
    yield from named.values()
    if not named and use.address is not None:
        name = operand.names[0] if len(operand.names) == 1 else ""
        for placed in subject.registers_at(use.described.space, use.address):
            yield placed, name


def _of_bit(use: Use, address: Operand) -> Place:
    """Return the place of the operand that is the bit's number."""
    number = use.described.bit
    given = use.instruction.operands
    bit = given[number - 1] if number and number <= len(given) else address
    name = bit.names[0] if len(bit.names) == 1 else ""
    return Place(bit.at, use.described.access, name)


def registers_used(found: list[Usage]) -> Counter[int]:
    """Return how many registers each file uses."""
    return Counter(
        file
        for usage in found
        if usage.field is None
        for file in {place.at.file for place in usage.places}
    )
