"""Names of bits without their register (``#define LED 2``), tied to one by how they are used."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.audit.bit_uses import COUNT, BitUse, bit_uses
from regwright.audit.bit_words import fits_as_mask, is_right, reaches
from regwright.audit.names import MASK, POSITION, Match
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Branch, Definition, Number, Where

_NAMED = ("", POSITION, MASK)


class WrongLoose(NamedTuple):
    """A name of a field, what it means in the register it is used for, and its wrong number."""

    name: str
    match: Match
    number: int
    at: Where
    branch: Branch


def loose_matches(subject: AuditSubject, use: BitUse) -> list[Match]:
    """Return what a name without its register means in the registers that it is used for."""
    if subject.names.find(use.name):
        return []
    return [
        match
        for match in subject.names.fields_named(use.name)
        if match.says in _NAMED and any(match.placed is item for item in use.registers)
    ]


def is_wrong(match: Match, use: BitUse) -> bool:
    """Tell whether the number of a name is neither the field's position nor bits of it."""
    if match.field is None or use.number is None:
        return False
    layout, number = match.field.layout, use.number
    if use.role == COUNT:
        return not reaches(layout, number) and number != layout.mask
    if match.says == POSITION:
        return number not in (layout.position, layout.mask)
    is_position = number == layout.position and match.says != MASK
    return not is_position and not fits_as_mask(match, layout, number)


def wrong_loose(subject: AuditSubject) -> Iterator[WrongLoose]:
    """Yield the names of fields, without their register, whose numbers are those of no field.

    A name is tied to the register that its bits are put into, or asked of. One that is used
    nowhere is tied to the register of the names beside which it is defined, when those are used.
    """
    defined = _Defined(subject)
    homes: set[tuple[int, int]] = set()
    used: set[str] = set()
    right: set[Where] = set()
    wrong: list[tuple[WrongLoose, Definition | None]] = []
    for use in bit_uses(subject):
        used.add(use.name)
        matches = loose_matches(subject, use)
        own = defined.of(use)
        if not matches or use.number is None:
            continue
        if all(is_wrong(match, use) for match in matches):
            wrong.append((WrongLoose(use.name, matches[0], use.number, use.at, use.branch), own))
        elif own is not None:
            right.add(own.name_at)
            homes |= {(own.name_at.file, id(placed)) for placed in use.registers}
    for found, own in wrong:
        # a definition that is right for one register is not to blame for the other
        is_to_blame = own is not None and own.name_at not in right
        yield found._replace(at=own.name_at, branch=own.branch) if own and is_to_blame else found
    yield from _beside(subject, defined.by_name, homes, used)


class _Defined:
    """The constants that the sources define, by name, and by what they stand for."""

    def __init__(self, subject: AuditSubject) -> None:
        self.by_name: dict[str, list[Definition]] = {}
        self._by_value: dict[tuple[str, int, int | None], Definition] = {}
        for item in subject.seen.definitions:
            if isinstance(item.means, Number) and item.form != "equate":
                self.by_name.setdefault(item.name, []).append(item)
                key = item.name, item.means.value
                self._by_value.setdefault((*key, item.name_at.file), item)
                self._by_value.setdefault((*key, None), item)

    def of(self, use: BitUse) -> Definition | None:
        """Return the definition that gives a name the number that it has where it is used."""
        if use.number is None:
            return None
        key = use.name, use.number
        own = self._by_value.get((*key, use.at.file))
        return own or self._by_value.get((*key, None))


def _beside(
    subject: AuditSubject,
    defined: dict[str, list[Definition]],
    homes: set[tuple[int, int]],
    used: set[str],
) -> Iterator[WrongLoose]:
    """Yield the names that nothing uses, and whose neighbours are of the one register they mean."""
    mentioned = {item.name for item in subject.seen.mentions} if homes else set()
    for name, items in defined.items() if homes else ():
        if name in used or name in mentioned or subject.names.find(name):
            continue
        matches = [item for item in subject.names.fields_named(name) if item.says in _NAMED]
        if len({id(match.placed) for match in matches}) != 1:
            continue
        for item in items:
            number = item.means.value if isinstance(item.means, Number) else 0
            is_counted = item.form == "enum" and item.body == item.name_at
            if is_counted or (item.name_at.file, id(matches[0].placed)) not in homes:
                continue
            if not any(is_right(match, name, number) for match in matches):
                yield WrongLoose(name, matches[0], number, item.name_at, item.branch)
