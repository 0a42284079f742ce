"""Rules on writes: what cannot be read or written at all, and reserved bits.

Where an address is that of several registers, a finding holds for each of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from regwright.audit.address_words import listed
from regwright.audit.operands import faults
from regwright.audit.problem import CodeProblem
from regwright.audit.put import (
    NO_READ,
    NO_WRITE,
    Write,
    has_reset,
    mask_of,
    names_of,
    problems,
    registers_of,
    value_of,
)
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Branch, Where
from regwright.macros.literals import shown
from regwright.model.finding import ERROR, WARNING
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import rule
from regwright.rules.wording import bit_list

_READING = {
    "clear": "reading clears",
    "set": "reading sets",
    "modify": "reading changes",
}


# What cannot be read, or not written.


def _all_are(registers: Sequence[Placed], accesses: frozenset[str]) -> bool:
    return bool(registers) and all(item.facts.access in accesses for item in registers)


class _Reached(NamedTuple):
    """Registers that an access or an instruction reaches: how, where, and at which address."""

    registers: tuple[Placed, ...]
    how: str
    by: str
    at: Where
    branch: Branch
    space: str
    address: int | None
    bit: int | None = None


def _reached(subject: AuditSubject) -> Iterator[_Reached]:
    """Yield what every access and every instruction reaches."""
    for touch in subject.sure_touches:
        item = touch.access
        by = f" by {item.operator}" if item.how == "modify" and item.operator != "=" else " here"
        yield _Reached(
            *(touch.registers, item.how, by, item.target_at, item.branch),
            *(subject.space, item.target.address),
        )
    misled = {item.operand.at for item in faults(subject) if item.right is not None}
    for use in subject.uses:
        found = tuple(registers_of(subject, use))
        instruction, described = use.instruction, use.described
        at = instruction.operands[described.address - 1].at if found else None
        if at is not None and at not in misled:
            yield _Reached(
                *(found, described.access, f" by {instruction.mnemonic}", at, instruction.branch),
                *(described.space, use.address, use.bit),
            )


def _in_truth(subject: AuditSubject, item: _Reached, verb: str, besides: frozenset[str]) -> str:
    """Say which other register it is at that address that is read, or written."""
    if item.address is None:
        return ""
    others = [
        other.name
        for other in subject.registers_at(item.space, item.address)
        if other not in item.registers and other.facts.access not in besides
    ]
    return f": what is {verb} at {shown(item.address)} is {listed(others, last='or')}" * bool(
        others
    )


@rule("write-only-read", ERROR)
def write_only_read(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A register that is only written is read.

    ## What it catches
    A read of a write-only register, also by `|=`, `&=` or `++`, or by an instruction that reads.

    ## Why it matters
    What such a read gives is anything, or another register that has the same address for reading;
    `|=` writes it back.

    ## Example
    `UART0_TX |= 0x80;`

    ## Instead
    Write the whole value; keep it in a variable where only parts of it are to change.

    ## When to silence it
    Where the document says what a read gives.
    """
    for item in _reached(subject):
        if item.how != "write" and _all_are(item.registers, NO_READ):
            first = item.registers[0]
            yield CodeProblem(
                f"{first.name} is {first.facts.access}, and it is read{item.by}"
                f"{_in_truth(subject, item, 'read', NO_READ)}",
                item.at,
                item.branch,
            )


@rule("read-has-a-side-effect", WARNING)
def read_has_a_side_effect(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A register that reading changes is read only to be written back.

    ## What it catches
    `|=`, `&=`, `++` and the like on a register of which a read clears, sets or changes something.

    ## Why it matters
    The read takes away what nobody has looked at yet: a byte received, an event.

    ## Example
    `EVENTS |= 1;` where reading EVENTS clears it.

    ## Instead
    Write the whole value, or read the register once into a variable, look at it, and write that.

    ## When to silence it
    Where what the read takes away is of no use.
    """

    def say(write: Write) -> str:
        facts = write.placed.facts
        if not write.put.is_modify or facts.access in NO_WRITE | NO_READ:
            return ""
        if write.is_by_header:
            return ""
        action, what = facts.register.read_action, "it"
        fields = [item for item in facts.fields if item.field.read_action]
        if action is None and fields:
            action, what = fields[0].field.read_action, names_of(fields)
        return f"{write.start} reads it, and {_READING[action]} {what}" if action else ""

    yield from problems(subject, say)


@rule("read-only-written", ERROR)
def read_only_written(subject: AuditSubject) -> Iterator[CodeProblem]:
    """What can only be read is written.

    ## What it catches
    A write to a read-only register, also by an instruction, and a write that is about nothing but
    read-only fields.

    ## Why it matters
    Nothing happens, or something happens to another register that has the same address for
    writing. Mostly a neighbour was meant: the output latch, not the input pins.

    ## Example
    `IN_B |= 0x04;` where `OUT_B` was meant.

    ## Instead
    Write the register that the document says.

    ## When to silence it
    Where a write is needed though it changes nothing the description knows of.
    """
    for item in _reached(subject):
        if item.how == "read":
            continue
        first = item.registers[0].name if item.registers else ""
        message = ""
        if _all_are(item.registers, NO_WRITE):
            message = f"{first} is {item.registers[0].facts.access}, and it is written{item.by}"
            message += _in_truth(subject, item, "written", NO_WRITE)
        elif item.bit is not None and item.registers:
            names = [_read_only(placed, 1 << item.bit) for placed in item.registers]
            message = f"{names[0]} of {first} is read-only, and is written{item.by}"
            message *= all(names)
        if message:
            yield CodeProblem(message, item.at, item.branch)

    def say(write: Write) -> str:
        name, about = write.placed.name, write.put.changed
        if write.placed.facts.access in NO_WRITE or write.put.unknown or not about:
            return ""
        fields = _read_only(write.placed, about)
        if not fields or has_reset(subject, write):
            return ""
        return f"{write.start} is about {fields} only, which can be read but not written in {name}"

    yield from problems(subject, say)


def _read_only(placed: Placed, about: int) -> str:
    """Return the read-only fields that the bits ``about`` are of, if those are all they are of."""
    fields = [item for item in placed.facts.fields if item.layout.mask & about]
    if about & ~mask_of(fields) or any(item.access not in NO_WRITE for item in fields):
        return ""
    return names_of(fields)


# Reserved bits.


class _Reserved(NamedTuple):
    """Reserved bits of a register by what is to be written there."""

    zero: int
    one: int
    kept: int


def _reserved(placed: Placed) -> _Reserved:
    masks = {"0": 0, "1": 0, "preserve": 0}
    for item in placed.facts.reserved:
        if item.reserved.write is not None:
            masks[item.reserved.write] |= item.mask
    return _Reserved(*masks.values())


@rule("reserved-bits-written", ERROR)
def reserved_bits_written(subject: AuditSubject) -> Iterator[CodeProblem]:
    """Reserved bits are not written as the document asks.

    ## What it catches
    A constant 1 in reserved bits that are to be written as 0, a constant 0 where 1 is asked, and a
    constant where they are to be written back as they were read. Not the register's own reset
    value by its name, and no bits that are not known.

    ## Why it matters
    What such bits do is not documented; on the next revision of the chip they may do something.

    ## Example
    `DIR_B = 0xFF;` where bits 7:6 are to be written as 0.

    ## Instead
    `DIR_B = DIR_B_PINS_MASK;`

    ## When to silence it
    Where an erratum or an application note asks for just that.
    """

    def say(write: Write) -> str:
        placed, put = write.placed, write.put
        if placed.facts.access in NO_WRITE or has_reset(subject, write):
            return ""
        asked = _reserved(placed)
        known = put.ones | put.zeros
        wrong = (
            (put.ones & asked.zero, "writes 1 to", "be written as 0"),
            (put.zeros & asked.one, "writes 0 to", "be written as 1"),
            (known & asked.kept, "writes a constant to", "be written back as read"),
        )
        parts = [
            f"{does} {bit_list(mask)}, reserved and to {asks}" for mask, does, asks in wrong if mask
        ]
        if not parts:
            return ""
        return f"{write.start} {', '.join(parts)}{_right(write, asked)}"

    yield from problems(subject, say)


def _right(write: Write, asked: _Reserved) -> str:
    """Say which value is right where the whole value is a constant."""
    put, placed = write.put, write.placed
    whole = (1 << placed.facts.width) - 1
    if put.reach != whole or put.kept or put.unknown:
        return ""
    value = put.ones & ~(asked.zero | asked.kept) | asked.one
    if not asked.kept:
        return f"; {value_of(placed, value)} is right"
    name, kept = placed.name, value_of(placed, asked.kept)
    return f"; {name} = ({name} & {kept}) | {value_of(placed, value)} is right"
