"""The names of bits in what is put into registers and asked of them, and what each does there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from regwright.audit.put import registers_of
from regwright.audit.subject import AuditSubject, Touch, Use
from regwright.code.seen import Branch, Number, Operand, Part, Where
from regwright.resolve.chip import Placed

OPERAND, COUNT = "operand", "count"

_EVERY_BIT = (1 << 64) - 1
#: In the operand of an instruction: what is shifted by a name, and what has bits as they are.
_COUNTED = re.compile(r"<<\s*\(?\s*([A-Za-z_]\w*)")
_CALL = re.compile(r"\w\s*\(")
#: What stands before an argument of a call, and how far from it at most.
_BEFORE_ARGUMENT = re.compile(rb"(?:\w\s*\(|,)\s*\Z")
_NEAR = 40
_PLAIN = re.compile(r"[\w\s|&^~()#$]*")


class BitUse(NamedTuple):
    """A name in a value, or in the number of a bit, of what may be any of ``registers``.

    ``role`` is ``operand`` or ``count`` as in :class:`regwright.code.seen.Part`; ``number`` what
    the name stands for where that is known. ``arrives`` tells whether its bits are known to be put
    there or asked for, and not only cut out of something else.
    """

    name: str
    role: str
    number: int | None
    arrives: bool
    registers: tuple[Placed, ...]
    at: Where
    branch: Branch

    @property
    def bits(self) -> int | None:
        """The bits that it is about, where its number is known."""
        return _bits(self.role, self.number)


def _bits(role: str, number: int | None) -> int | None:
    if number is None:
        return None
    if role == OPERAND:
        return number & _EVERY_BIT
    return 1 << number if 0 <= number < 64 else None


@lru_cache(maxsize=1)
def bit_uses(subject: AuditSubject) -> tuple[BitUse, ...]:
    """Return every name in a value that is put into a register, or asked of one."""
    return tuple(_bit_uses(subject))


def _bit_uses(subject: AuditSubject) -> Iterator[BitUse]:
    for touch in subject.sure_touches:
        yield from _of_touch(subject, touch)
    for use in subject.uses:
        registers = tuple(registers_of(subject, use))
        if registers:
            yield from _of_instruction(use, registers)


def _of_touch(subject: AuditSubject, touch: Touch) -> Iterator[BitUse]:
    access = touch.access
    constants = [part for part in access.parts if part.means is not None]
    for part in access.parts:
        role = part.role
        if role not in (OPERAND, COUNT):
            # what a macro makes of its argument shows in the bits, if that is all there is
            is_argument = len(constants) == 1 and _is_argument(subject, part.at)
            role = _role_by_bits(touch, part) if is_argument else ""
        number = part.means.value if part.means else None
        if role:
            yield BitUse(
                *(part.name, role, number, _arrives(touch, _bits(role, number))),
                *(touch.registers, part.at, access.branch),
            )


def _is_argument(subject: AuditSubject, at: Where) -> bool:
    """Tell whether a name stands alone as an argument of a call."""
    data = subject.files[at.file].data
    before, after = data[max(at.start - _NEAR, 0) : at.start], data[at.end : at.end + _NEAR]
    return _BEFORE_ARGUMENT.search(before) is not None and after.lstrip()[:1] in (b")", b",")


def _role_by_bits(touch: Touch, part: Part) -> str:
    """Return what a name does whose number is the only constant in a value, by what comes of it."""
    value, number = touch.access.value, part.means.value if part.means else -1
    if value is None or number < 0:
        return ""
    width = touch.access.target.type.bits or 0
    reach = (1 << width) - 1
    kept = value.kept if touch.access.how == "modify" else 0
    for role in (COUNT, OPERAND):
        bits = _bits(role, number) or 0
        if bits & reach and bits in (reach & ~kept, value.ones & reach, value.zeros & reach):
            return role
    return ""


def _arrives(touch: Touch, bits: int | None) -> bool:
    value = touch.access.value
    if value is None or bits is None:
        return False
    return touch.access.how == "read" or not bits & ~(value.ones | value.zeros | value.kept)


def _of_instruction(use: Use, registers: tuple[Placed, ...]) -> Iterator[BitUse]:
    operands, described = use.instruction.operands, use.described
    branch = use.instruction.branch
    if described.bit is not None and described.bit <= len(operands):
        operand = operands[described.bit - 1]
        if len(operand.names) == 1:
            name, at = operand.names[0], operand.at
            yield BitUse(
                name, COUNT, use.bit, arrives=True, registers=registers, at=at, branch=branch
            )
    if described.value is not None and described.value <= len(operands):
        operand = operands[described.value - 1]
        for name, role, at in _in_operand(operand):
            number = operand.means.value if isinstance(operand.means, Number) else None
            is_alone = role == OPERAND and operand.text.strip(" ()#$") == name
            known = number if is_alone else None
            yield BitUse(name, role, known, "&" not in operand.text, registers, at, branch)


def _in_operand(operand: Operand) -> Iterator[tuple[str, str, Where]]:
    """Yield the names in an operand whose roles are plain, with what each does and where it is."""
    counted = {found[1] for found in _COUNTED.finditer(operand.text)}
    is_plain = _PLAIN.fullmatch(operand.text) and not _CALL.search(operand.text)
    for name in operand.names:
        found = re.search(rf"\b{name}\b", operand.text)
        role = COUNT if name in counted else OPERAND if is_plain else ""
        if found is not None and role:
            start = operand.at.start + len(operand.text[: found.start()].encode())
            yield name, role, Where(operand.at.file, start, start + len(name))
