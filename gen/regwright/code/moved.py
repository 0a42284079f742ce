"""What was seen at one place of a file, as the same text at another place of it gives it."""

from __future__ import annotations

from typing import NamedTuple, TypeVar

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


class Move(NamedTuple):
    """From the bytes ``start:end`` of a file to those ``by`` further on.

    What stands elsewhere, in the body of a macro, stays where it is.
    """

    start: int
    end: int
    by: int

    def where(self, at: Where) -> Where:
        """Return the part of the file that ``at`` becomes."""
        if not self.start <= at.start < self.end:
            return at
        return Where(at.file, at.start + self.by, at.end + self.by)

    def meaning(self, means: Meaning) -> Meaning:
        """Return what a part of the text stands for."""
        if isinstance(means, Number):
            return self._number(means)
        if isinstance(means, Pointer):
            return self._placed(means)
        return self._placed(means)

    def _number(self, means: Number) -> Number:
        literal = means.literal
        return means._replace(literal=self.where(literal)) if literal is not None else means

    def _placed(self, means: _Placed) -> _Placed:
        literal, qualifier = means.literal, means.qualifier
        return means._replace(
            literal=self.where(literal) if literal is not None else None,
            qualifier=self.where(qualifier) if qualifier is not None else None,
        )

    def access(self, item: Access, steps: tuple[int, ...]) -> Access:
        """Return ``item``, of whose steps ``steps`` are the first now."""
        return Access(
            *(item.name, self._placed(item.target), item.how, item.operator, item.value),
            tuple([self._part(part) for part in item.parts]),
            *(self.where(item.at), self.where(item.target_at), item.branch),
            (*steps, *item.steps[len(steps) :]),
        )

    def _part(self, part: Part) -> Part:
        means = part.means
        if means is not None:
            means = self._number(means)
        return Part(part.name, part.role, means, self.where(part.at))

    def instruction(self, item: Instruction) -> Instruction:
        """Return ``item`` as it is there."""
        operands = tuple([self._operand(operand) for operand in item.operands])
        return item._replace(operands=operands, at=self.where(item.at))

    def _operand(self, item: Operand) -> Operand:
        means = item.means
        if means is not None:
            means = self.meaning(means)
        return item._replace(means=means, at=self.where(item.at))

    def shift(self, item: Shift) -> Shift:
        """Return ``item`` as it is there."""
        return item._replace(at=self.where(item.at))
