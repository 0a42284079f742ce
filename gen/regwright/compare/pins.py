"""What the user says about pairs: some are pinned, some forbidden."""

from __future__ import annotations

from typing import NamedTuple

from regwright.compare.pairs import FieldAt
from regwright.resolve.chip import Placed


class Pins(NamedTuple):
    """Pairs by name: a register's, or ``REGISTER.FIELD``.

    ``pairs`` are made whatever else speaks for or against them, and each name is in one of them at
    most; ``forbidden`` are never made; ``alone_in_a`` and ``alone_in_b`` are names that have no
    counterpart. The fields of a register that has none have none either, unless they are pinned.
    """

    pairs: frozenset[tuple[str, str]] = frozenset()
    forbidden: frozenset[tuple[str, str]] = frozenset()
    alone_in_a: frozenset[str] = frozenset()
    alone_in_b: frozenset[str] = frozenset()

    def mirrored(self) -> Pins:
        """Return the same for the two chips the other way round."""
        return Pins(
            frozenset((b, a) for a, b in self.pairs),
            frozenset((b, a) for a, b in self.forbidden),
            self.alone_in_b,
            self.alone_in_a,
        )


NO_PINS = Pins()


class Ruling:
    """Tells what pins want and what they allow."""

    def __init__(self, pins: Pins) -> None:
        """Look at ``pins``."""
        self._pins = pins
        self._to_b = dict(pins.pairs)
        self._to_a = {b: a for a, b in pins.pairs}
        self._is_silent = pins == NO_PINS

    def wanted_field(self, a: FieldAt) -> str | None:
        """Return the name in B that is pinned to the field ``a``."""
        return self._to_b.get(a.name) if self._to_b else None

    def allows(self, a: Placed, b: Placed) -> bool:
        """Tell whether two registers may be found to be a pair."""
        return self._is_silent or self._allows((a.name,), (b.name,))

    def allows_fields(self, a: FieldAt, b: FieldAt) -> bool:
        """Tell whether two fields may be found to be a pair."""
        return self._is_silent or self._allows((a.name, a.placed.name), (b.name, b.placed.name))

    def _allows(self, a: tuple[str, ...], b: tuple[str, ...]) -> bool:
        """Tell whether two names may be a pair; behind each, the register that it stands in."""
        if a[0] in self._to_b or b[0] in self._to_a:
            return self._to_b.get(a[0]) == b[0]
        pins = self._pins
        if not pins.alone_in_a.isdisjoint(a) or not pins.alone_in_b.isdisjoint(b):
            return False
        return (a[0], b[0]) not in pins.forbidden
