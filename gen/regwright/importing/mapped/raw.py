"""What was read of one node, before inheritance and names are settled."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, NamedTuple

from regwright.importing.mapped.plan import NodePlan


class ResetRead(NamedTuple):
    """A value after reset as it was read; a 0 in ``defined`` is a bit that is not defined."""

    value: int
    defined: int | None


class BitsRead(NamedTuple):
    """Ranges of bits as they were read, each a higher and a lower number.

    ``from_high``: bit 0 is the register's highest.
    """

    ranges: list[tuple[int, int]]
    from_high: bool


@dataclass(eq=False)
class Raw:
    """One node: its properties as a description has them, and the nodes within it."""

    plan: NodePlan
    place: tuple[int, int]
    around: Raw | None
    properties: dict[str, Any] = field(default_factory=dict)
    children: dict[str, list[Raw]] = field(default_factory=dict)
    key: str = ""
    base: str = ""
