"""Constants by the name of a register: its address, or the configuration value written to it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from regwright.audit.names import ADDRESS, Match
from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import OTHER_REGISTER
from regwright.code.seen import Definition, Number
from regwright.code.words import names_in
from regwright.resolve.addresses import Address
from regwright.resolve.chip import Placed

_CONDITION = re.compile(rb"#[ \t]*(?:el)?if\b[^\n]*")
#: So far a directive may be indented.
_INDENT = 80
_DEFINED = re.compile(rb"\bdefined[ \t]*(?:\([ \t]*)?\w+")
#: How far apart a board puts the registers of a device, in units; and the share of a file's
#: numbers that must agree with that.
_STEPS = (1, 2, 4, 8)
_FEWEST, _OF, _AT_LEAST = 3, 5, 4


class NamedNumber(NamedTuple):
    """The definition of a number, and the registers that its name means, the surest first."""

    definition: Definition
    value: int
    matches: list[Match]


@lru_cache(maxsize=1)
def named_numbers(subject: AuditSubject) -> tuple[NamedNumber, ...]:
    """Return the constants by the name of a register, without switches and mere counts.

    A switch is tested by ``#if``; a count is an enumerator without a value of its own, unless its
    name says that it is an address.
    """
    switches = _switches(subject)
    found = []
    for item in subject.seen.definitions:
        if not isinstance(item.means, Number) or item.name in switches:
            continue
        matches = [
            match
            for match in subject.names.find(item.name)
            if match.field is None and match.says in ("", ADDRESS)
        ]
        if item.form == "enum" and item.body == item.name_at:
            matches = [match for match in matches if match.says]
        if matches:
            found.append(NamedNumber(item, item.means.value, matches))
    return tuple(found)


def _switches(subject: AuditSubject) -> set[str]:
    """Return the names that conditional compilation tests the values of."""
    return {
        name
        for text in subject.files
        for line in _CONDITION.finditer(text.data)
        if not text.data[max(line.start() - _INDENT, 0) : line.start()].rpartition(b"\n")[2].strip()
        for name in names_in(_DEFINED.sub(b"", line[0]))
    }


class Reached:
    """Tells registers that code reaches from those that hold configuration values."""

    def __init__(self, subject: AuditSubject) -> None:
        """Take what the description of ``subject`` says of spaces, windows and instructions."""
        chip = subject.chip
        self._spaces = {item.space for item in chip.instructions}
        self._spaces |= {name for item in chip.windows for name in (item.source, item.into)}
        self._spaces |= {space.name for space in chip.spaces if space.pointer}

    def is_configuration(self, placed: Placed) -> bool:
        """Tell whether a register lies where no pointer, window or instruction goes.

        Where a description names none of them at all, that says nothing.
        """
        spaces = {address.space for address in placed.addresses}
        return bool(self._spaces and spaces) and not spaces & self._spaces


class WrongNumber(NamedTuple):
    """A constant by the name of a register, whose value is none of the addresses that are right.

    ``own`` are the spaces in which the value is the register's address all the same, ``others`` the
    registers that have it, each with the space.
    """

    definition: Definition
    value: int
    match: Match
    right: tuple[Address, ...]
    own: tuple[str, ...]
    others: tuple[tuple[str, str], ...]


def wrong_numbers(subject: AuditSubject) -> Iterator[WrongNumber]:
    """Yield the constants by the name of a register whose value is none of its addresses.

    Not those that stand behind a pointer, where a verdict is about them. The registers of a device
    may lie as a board has them: where most numbers of a file have one distance and start, those
    are not wrong.
    """
    reached = Reached(subject)
    numbers = [
        item
        for item in named_numbers(subject)
        if not any(reached.is_configuration(match.placed) for match in item.matches)
    ]
    laid_out = _laid_out(numbers) if subject.chip.kind == "device" else set()
    told = {item.claim.literal for item in subject.verdicts if item.kind == OTHER_REGISTER}
    for item in numbers:
        literal = item.definition.means.literal
        if id(item) in laid_out or (literal is not None and literal in told):
            continue
        if not any(_is_right(item.value, match) for match in item.matches):
            yield _wrong(subject, item)


def _right(match: Match) -> tuple[Address, ...]:
    """Return the addresses that a name may mean: one where it says the space."""
    addresses = match.placed.addresses
    return tuple(item for item in addresses if item.space == match.space) or addresses


def _is_right(value: int, match: Match) -> bool:
    """Tell whether a value is an address that a name may mean, or the offset in its block."""
    return any(item.value == value for item in _right(match)) or (
        not match.space and match.placed.register.offset == value
    )


def _wrong(subject: AuditSubject, item: NamedNumber) -> WrongNumber:
    match = item.matches[0]
    addresses = match.placed.addresses
    others = [
        (address.space, other.name)
        for address in addresses
        for other in subject.registers_at(address.space, item.value)
        if other is not match.placed
    ]
    own = tuple(address.space for address in addresses if address.value == item.value)
    return WrongNumber(item.definition, item.value, match, _right(match), own, tuple(others))


def _laid_out(numbers: list[NamedNumber]) -> set[int]:
    """Return the identities of the numbers that fit the layout of most numbers of their file."""
    files: dict[int, list[NamedNumber]] = {}
    for item in numbers:
        files.setdefault(item.definition.name_at.file, []).append(item)
    fitting: set[int] = set()
    for group in files.values():
        starts = Counter(start for item in group for start in _starts(item))
        best, count = starts.most_common(1)[0] if starts else ((1, 0), 0)
        if count >= _FEWEST and count * _OF >= len(group) * _AT_LEAST:
            fitting |= {id(item) for item in group if best in _starts(item)}
    return fitting


def _starts(number: NamedNumber) -> set[tuple[int, int]]:
    """Return each step with the number at which the register 0 would be then."""
    return {
        (step, number.value - step * address.value)
        for match in number.matches
        for address in match.placed.addresses
        for step in _STEPS
    }
