"""What an access or an instruction puts into the bits of a register."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from regwright.audit.address_words import listed
from regwright.audit.names import ADDRESS, EXACT, OTHER, RESET
from regwright.audit.problem import CodeProblem
from regwright.audit.subject import AuditSubject, Touch, Use
from regwright.code.seen import Access, Bits, Branch, Number, Where
from regwright.code.written import constant
from regwright.macros.literals import digits_of, shown
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts

#: The access words of IEEE 1685 with which nothing can be read, or written.
NO_READ = frozenset({"write-only", "writeOnce", "no-access"})
NO_WRITE = frozenset({"read-only", "no-access"})


class Put(NamedTuple):
    """What a write puts into a register: masks of the bits that are 1, 0, as they were, unknown.

    ``reach`` are the bits that it writes at all. ``is_modify`` tells whether the register is read
    for it.
    """

    reach: int
    ones: int
    zeros: int
    kept: int
    unknown: int
    is_modify: bool

    @property
    def changed(self) -> int:
        """The bits that it is about: set, or else changed while the others stay as they were."""
        return (self.ones | self.zeros) if self.is_modify else self.ones


class Write(NamedTuple):
    """A write to one register. ``start`` says what does it, as the start of a message.

    ``operator`` is empty for an instruction. ``names`` are those in the value. ``is_by_header``
    tells whether a macro of the header does it that knows how, as ``R_F_CLEAR()``.
    """

    placed: Placed
    put: Put
    start: str
    operator: str
    names: tuple[str, ...]
    is_by_header: bool = False


class Writing(NamedTuple):
    """A place that writes, and the write to each of the registers that it may be of."""

    at: Where
    branch: Branch
    writes: list[Write]


@lru_cache(maxsize=1)
def writings(subject: AuditSubject) -> tuple[Writing, ...]:
    """Return each place that writes to a register what is known, in part at least."""
    return tuple(_writings(subject))


def _writings(subject: AuditSubject) -> Iterator[Writing]:
    for touch in subject.sure_touches:
        access = touch.access
        if access.how != "read":
            found = [_of_access(subject, touch, placed) for placed in touch.registers]
            yield from _sure(access.target_at, access.branch, found)
    for use in subject.uses:
        registers = registers_of(subject, use) if use.described.access != "read" else []
        if registers:
            operand = use.instruction.operands[use.described.address - 1]
            made = [_of_instruction(use, placed) for placed in registers]
            yield from _sure(operand.at, use.instruction.branch, made)


def _sure(at: Where, branch: Branch, found: list[Write | None]) -> Iterator[Writing]:
    writes = [item for item in found if item is not None]
    if writes and len(writes) == len(found):
        yield Writing(at, branch, writes)


def _of_access(subject: AuditSubject, touch: Touch, placed: Placed) -> Write | None:
    access = touch.access
    bits = access.target.type.bits
    if access.value is None or bits is None:
        return None
    made = _put(access.value, bits, placed, is_modify=access.how == "modify")
    operator = access.operator
    start = f"this write to {placed.name}" if operator == "=" else f"{operator} on {placed.name}"
    names = tuple(part.name for part in access.parts)
    return made and Write(placed, made, start, operator, names, _is_by_header(subject, access))


def _of_instruction(use: Use, placed: Placed) -> Write | None:
    operands, number = use.instruction.operands, use.described.value
    if number is None or number > len(operands) or use.described.access != "write":
        return None
    value = operands[number - 1]
    if not isinstance(value.means, Number):
        return None
    made = _put(constant(value.means.value), placed.facts.width, placed, is_modify=False)
    start = f"{use.instruction.mnemonic} to {placed.name}"
    return made and Write(placed, made, start, "", value.names)


def _put(value: Bits, bits: int, placed: Placed, *, is_modify: bool) -> Put | None:
    """Return what a write of ``bits`` bits puts into ``placed``; ``None`` where it is not sure.

    A write of another width than the register's reaches its low bits, if they come first.
    """
    width = placed.facts.width
    if bits != width and placed.facts.byte_order != "little":
        return None
    reach = (1 << min(width, bits)) - 1
    ones, zeros, kept = (mask & reach for mask in value)
    return Put(reach, ones, zeros, kept, reach & ~(ones | zeros | kept), is_modify)


def _is_by_header(subject: AuditSubject, access: Access) -> bool:
    return access.name in subject.header and any(
        item.certainty == EXACT and item.says == OTHER for item in subject.names.find(access.name)
    )


def has_reset(subject: AuditSubject, write: Write) -> bool:
    """Tell whether the value that is written is called the register's reset value."""
    return any(
        match.placed is write.placed and match.says == RESET and match.field is None
        for name in write.names
        for match in subject.names.find(name)
    )


def registers_of(subject: AuditSubject, use: Use) -> list[Placed]:
    """Return the registers that an instruction may be of: by name, or else by the address."""
    number = use.described.address - 1
    operands = use.instruction.operands
    if number >= len(operands):
        return []
    named = [
        match.placed
        for name in operands[number].names
        for match in subject.names.find(name)
        if match.field is None and match.says in ("", ADDRESS)
    ]
    here = []
    if use.address is not None:
        here = subject.registers_at(use.described.space, use.address)
    return [item for item in here if item in named] or named or here


def writable(placed: Placed) -> Iterator[FieldFacts]:
    """Yield the fields of a register that a write can reach."""
    for item in placed.facts.fields:
        if item.access not in NO_WRITE:
            yield item


def value_of(placed: Placed, value: int) -> str:
    """Return a value of a register as messages show it."""
    return shown(value, digits_of(placed.facts.width))


def names_of(fields: Iterable[FieldFacts]) -> str:
    """Return the names of fields in words."""
    return listed(item.field.name for item in fields)


def mask_of(fields: Iterable[FieldFacts]) -> int:
    """Return the mask of all bits of ``fields``."""
    mask = 0
    for item in fields:
        mask |= item.layout.mask
    return mask


#: Says what is wrong with a write to one register; nothing when it is right.
Say = Callable[[Write], str]


def problems(subject: AuditSubject, say: Say) -> Iterator[CodeProblem]:
    """Yield a problem for each place about which ``say`` says something for every register."""
    for at, branch, writes in writings(subject):
        messages = [say(item) for item in writes]
        if all(messages):
            yield CodeProblem(messages[0], at, branch)
