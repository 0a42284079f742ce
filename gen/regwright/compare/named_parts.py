"""Whether two names of registers and fields, one in each description, mean the same."""

from __future__ import annotations

from functools import cached_property

from regwright.clock.places import find
from regwright.compare.pairs import Matching
from regwright.resolve.chip import ResolvedChip


class SameParts:
    """Looks names up as clocks and ports use them, in two chips that have been matched."""

    def __init__(self, a: ResolvedChip, b: ResolvedChip, matching: Matching) -> None:
        """Look up names of ``a`` and of ``b``."""
        self._a, self._b, self._matching = a, b, matching

    @cached_property
    def _pairs(self) -> set[tuple[str, str]]:
        registers = {(a.name, b.name) for a, b, _ in self._matching.registers if a and b}
        return registers | {(a.name, b.name) for a, b, _ in self._matching.fields if a and b}

    def names(self, one: str | None, other: str | None) -> bool:
        """Tell whether a name in A and one in B mean the same register or field."""
        if one is None or other is None:
            return one is other
        here, there = find(self._a, one), find(self._b, other)
        if here is None or there is None:
            return one == other  # a rule says what is no register; here it is a name
        return (here.name, there.name) in self._pairs
