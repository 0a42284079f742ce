"""The rule on shifts that their type does not hold."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from regwright.audit.problem import CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Shift, Where
from regwright.model.finding import WARNING
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import rule


@rule("shift-overflows", WARNING)
def shift_overflows(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A constant is shifted past the end of its type.

    ## What it catches
    In what is read or written at a register, and in the definition of a name that means something
    on the chip: a shift by as many bits as the type has or more, one that loses all of an unsigned
    number or part of a signed one, and one into the sign bit. How wide `int` is the description
    says.

    ## Why it matters
    The literal 1 is an `int`, which has 16 bits on many small chips: `1 << 16` is undefined there,
    and mostly 0. `1 << 15` is negative, and with a wider type all bits above it are 1 as well.

    ## Example
    `TMR1_COMPARE = 1 << 16;`

    ## Instead
    `1U << 15`, `1UL << 16`, or the mask of the header.

    ## When to silence it
    Where the compiler at hand defines the shift and the value is the one that is meant.
    """
    shifts = [item for item in subject.seen.shifts if _matters(item)]
    places = _Places(subject) if shifts else None
    for item in shifts:
        found = places.around(item.at) if places is not None else None
        if found is not None:
            text = f"{item.value} << {item.by}"
            message = f"{text}: {_said(subject, item)}{_instead(subject, item, found.register)}"
            yield CodeProblem(message, item.at, item.branch)


def _matters(item: Shift) -> bool:
    """Tell whether a shift loses what somebody can have wanted.

    ``~0U << 4`` drops bits on purpose, and ``~0 << 4`` is meant to.
    """
    if not 0 <= item.by < item.bits:
        return True
    if item.value < 0:
        return False
    kept = item.value << item.by & ((1 << item.bits) - 1)
    return item.signed or not kept


def _said(subject: AuditSubject, item: Shift) -> str:
    bits = subject.model.int_bits
    kind = "int" if item.signed else "unsigned int"
    has = f"{kind} has {bits} bits on this chip"
    if item.bits != bits:
        has = f"its type has {item.bits} bits"
    if item.by < 0:
        return f"a shift by {item.by} is undefined"
    if item.by >= item.bits:
        return f"{has}, so a shift by {item.by} is undefined"
    if item.value << item.by >> item.bits:
        return f"{has}, so bits are lost"
    return f"{has}, so this is the sign bit and the value is negative"


def _instead(subject: AuditSubject, item: Shift, register: Placed | None) -> str:
    """Say what to write: another type, or the mask of the field at that bit."""
    if item.value <= 0 or item.by < 0:
        return ""
    needed = item.value.bit_length() + item.by
    if register is not None and needed > register.facts.width:
        bits = register.facts.width
        return f"; {register.name} has {bits} bits, and bit {needed - 1} is none of them"
    if needed > 64:
        return ""
    suffix = "U" if needed <= subject.model.int_bits else "UL" if needed <= 32 else "ULL"
    right = f"; {item.value}{suffix} << {item.by} is right"
    mask = item.value << item.by
    for field in register.facts.fields if register is not None else ():
        name = f"{register.name}_{field.field.name}_MASK" if register is not None else ""
        if field.layout.mask == mask and name in subject.header:
            return f"{right}, or {name}"
    return right


class _Place(NamedTuple):
    """A part of a source, and the register that is touched there, if it is one."""

    at: Where
    register: Placed | None


def _at(pair: tuple[Where, Placed | None]) -> Where:
    return pair[0]


def _used(subject: AuditSubject, places: Iterable[Where]) -> set[str]:
    """Return the names in ``places``, and those in what they are defined to be."""
    bodies: dict[str, list[Where]] = {}
    for item in subject.seen.definitions:
        bodies.setdefault(item.name, []).append(item.body)
    used: set[str] = set()
    waiting = list(places)
    while waiting:
        for name in subject.names_in(waiting.pop()):
            if name not in used:
                used.add(name)
                waiting += bodies.get(name, ())
    return used


class _Places:
    """Where the sources touch the chip, or define what means something on it."""

    def __init__(self, subject: AuditSubject) -> None:
        found: dict[Where, Placed | None] = {}
        for touch in subject.touches:
            if touch.registers:
                found.setdefault(touch.access.at, touch.registers[0])
        for use in subject.uses:
            for operand in use.instruction.operands:
                found.setdefault(operand.at, None)
        used = _used(subject, found)
        for item in subject.seen.definitions:
            if item.name in used or subject.knows(item.name):
                found.setdefault(item.body, None)
        self._found = [_Place(at, register) for at, register in sorted(found.items(), key=_at)]
        self._starts = [(item.at.file, item.at.start) for item in self._found]

    def around(self, at: Where) -> _Place | None:
        """Return the place in which something stands, if it is in one."""
        index = bisect_right(self._starts, (at.file, at.start)) - 1
        if index < 0:
            return None
        found = self._found[index]
        is_within = found.at.file == at.file and at.end <= found.at.end
        return found if is_within else None
