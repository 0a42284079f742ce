"""What was seen at one place of a file, as the same text at another place of it gives it."""

from __future__ import annotations

from typing import TypeVar

from regwright.code.seen import (
    Access,
    Instruction,
    Location,
    Meaning,
    Number,
    Operand,
    Part,
    Pointer,
    Shift,
    Where,
)

_Placed = TypeVar("_Placed", Pointer, Location)


def where(at: Where, by: int) -> Where:
    """Return the part of the file ``by`` bytes further on."""
    return Where(at.file, at.start + by, at.end + by)


def meaning(means: Meaning, by: int) -> Meaning:
    """Return ``means``, of a text that stands ``by`` bytes further on."""
    if isinstance(means, Number):
        return number(means, by)
    if isinstance(means, Pointer):
        return _placed(means, by)
    return _placed(means, by)


def number(means: Number, by: int) -> Number:
    """Return a constant that stands ``by`` bytes further on."""
    literal = means.literal
    return means._replace(literal=where(literal, by)) if literal is not None else means


def _placed(means: _Placed, by: int) -> _Placed:
    literal, qualifier = means.literal, means.qualifier
    return means._replace(
        literal=where(literal, by) if literal is not None else None,
        qualifier=where(qualifier, by) if qualifier is not None else None,
    )


def access(item: Access, by: int, steps: tuple[int, ...]) -> Access:
    """Return ``item`` as it is ``by`` bytes further on, where ``steps`` are the first of its."""
    return Access(
        *(item.name, _placed(item.target, by), item.how, item.operator, item.value),
        tuple([_part(part, by) for part in item.parts]),
        *(where(item.at, by), where(item.target_at, by), item.branch),
        (*steps, *item.steps[len(steps) :]),
    )


def _part(part: Part, by: int) -> Part:
    means = part.means
    if means is not None:
        means = number(means, by)
    return Part(part.name, part.role, means, where(part.at, by))


def instruction(item: Instruction, by: int) -> Instruction:
    """Return ``item`` as it is ``by`` bytes further on."""
    operands = tuple([_operand(operand, by) for operand in item.operands])
    return item._replace(operands=operands, at=where(item.at, by))


def _operand(item: Operand, by: int) -> Operand:
    means = item.means
    if means is not None:
        means = meaning(means, by)
    return item._replace(means=means, at=where(item.at, by))


def shift(item: Shift, by: int) -> Shift:
    """Return ``item`` as it is ``by`` bytes further on."""
    return item._replace(at=where(item.at, by))
