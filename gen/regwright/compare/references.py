"""What one register of a description says of another, compared by what it is in both chips."""

from __future__ import annotations

from functools import cached_property

from regwright.compare.pairs import Matching
from regwright.model.chip import Condition


class References:
    """Tells whether two names mean the same register or field: those of the model, as given."""

    def __init__(self, matching: Matching) -> None:
        """Look names up in ``matching`` when the first is asked for."""
        self._matching = matching

    @cached_property
    def _registers(self) -> set[tuple[str, str]]:
        return {
            (a.register.name, b.register.name) for a, b, _ in self._matching.registers if a and b
        }

    @cached_property
    def _fields(self) -> set[tuple[str, str]]:
        return {
            (
                f"{a.placed.register.name}.{a.facts.field.name}",
                f"{b.placed.register.name}.{b.facts.field.name}",
            )
            for a, b, _ in self._matching.fields
            if a and b
        }

    def same_register(self, one: str | None, other: str | None) -> bool:
        """Tell whether a name in A and one in B mean the same register."""
        return one == other or (one, other) in self._registers

    def same_conditions(self, one: tuple[Condition, ...], other: tuple[Condition, ...]) -> bool:
        """Tell whether the same fields must have the same values, in whatever order."""
        return (
            len(one) == len(other)
            and all(any(self._same(item, twin) for twin in other) for item in one)
            and all(any(self._same(item, twin) for item in one) for twin in other)
        )

    def _same(self, one: Condition, other: Condition) -> bool:
        is_field = one.field == other.field or (one.field, other.field) in self._fields
        return is_field and one.value == other.value
