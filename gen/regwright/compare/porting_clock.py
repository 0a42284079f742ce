"""What of the clock is other for a program that sets a divider or a rate by its registers.

It compiles and runs, at another rate. Nothing is said of what only one of the chips describes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from regwright.audit.usage import NAMED, Place, Usage
from regwright.clock.amounts import factor, hertz
from regwright.clock.chain import factor_of
from regwright.clock.places import find
from regwright.code.seen import Where
from regwright.compare.clock_facts import formula
from regwright.compare.differences import Comparison
from regwright.compare.named_parts import SameParts
from regwright.compare.porting_kinds import WRONG
from regwright.compare.work import Work
from regwright.model.clock import Clock, ClockDivider, ClockOption, Rate

#: Behind numbers that are other registers and bits now, before what only may be wrong.
_RANK = 1

Node = TypeVar("Node", ClockDivider, Rate)


def clock_work(comparison: Comparison, used: Iterable[Usage]) -> Iterator[Work]:
    """Yield the dividers and rates that the program sets and that do something else on B.

    ``used`` is all that the program uses of A.
    """
    one, other = comparison.a.chip.clock, comparison.b.chip.clock
    if one is not None and other is not None:
        yield from _Clocks(comparison, one, other, used).work()


def changed_factors(
    one: Iterable[ClockOption], other: Iterable[ClockOption], key: Callable[[ClockOption], object]
) -> Iterator[str]:
    """Yield each option that does something else: its key, its factor, and that of ``other``.

    ``key`` returns ``None`` for an option that does not count.
    """
    there = {key(item): factor_of(item) for item in other}
    for item in one:
        what, was = key(item), factor_of(item)
        now = there.get(what)
        if what is not None and was != now:
            after = "nothing" if now is None else factor(now)
            yield f"{what}: {factor(was)} → {after}".removeprefix(": ")


def _value(option: ClockOption) -> int | None:
    return option.value


class _Clocks:
    """Two clocks, and where the program uses the registers of the first."""

    def __init__(
        self, comparison: Comparison, one: Clock, other: Clock, used: Iterable[Usage]
    ) -> None:
        self._a, self._b = comparison.a, comparison.b
        self._one, self._other = one, other
        self._same = SameParts(comparison.a, comparison.b, comparison.matching)
        self._kept = {a.name for a, b, _ in comparison.matching.registers if a and b}
        self._places: dict[str, list[Place]] = {}
        self._of_fields: set[tuple[Where, str]] = set()
        for usage in used:
            if usage.field is not None:
                self._of_fields.update((item.at, item.name) for item in usage.places)
            else:
                for name in {usage.placed.name, usage.placed.whole}:
                    self._places.setdefault(name, []).extend(usage.places)

    def work(self) -> Iterator[Work]:
        """Yield what is other of the dividers, then of the rates."""
        b, where = self._b.chip.name, "regwright clock, with the new description"
        dividers = self._pairs(self._one.dividers, self._other.dividers, self._same_divider)
        for divider, there in dividers:
            parts = (
                list(self._divider(divider, there))
                if there
                else [f"{b} describes no such divider of its clock"]
            )
            instead = f"see what is written there, and how fast the CPU runs ({where})"
            yield from self._told(f"clock divider {divider.name}", [divider.field], parts, instead)
        for rate, also in self._pairs(self._one.rates, self._other.rates, self._same_rate):
            parts = list(self._rate(rate, also)) if also else [f"{b} describes no such rate"]
            names = [*rate.divisor, rate.prescale]
            instead = f"compute anew what is written there ({where})"
            yield from self._told(f"rate {rate.name}", names, parts, instead)

    def _told(
        self, thing: str, names: Iterable[str | None], parts: list[str], instead: str
    ) -> Iterator[Work]:
        """Yield ``parts`` as one piece of work, when the program uses a register of ``names``."""
        places = self._uses(names) if parts else ()
        if places:
            yield Work(WRONG, _RANK, thing, "; ".join(parts), instead, places)

    def _uses(self, names: Iterable[str | None]) -> tuple[Place, ...]:
        """Return where the program writes the registers or takes their addresses, else any use."""
        places = dict.fromkeys(
            place for name in self._registers(names) for place in self._places.get(name, ())
        )
        written = [item for item in places if self._may_write(item)]
        return tuple(written or places)

    def _may_write(self, place: Place) -> bool:
        """Tell whether a place writes, or names a register for who knows what; not a field's."""
        if place.how == NAMED:
            return (place.at, place.name) not in self._of_fields
        return place.how != "read"

    def _registers(self, names: Iterable[str | None]) -> list[str]:
        parts = [find(self._a, name) for name in names if name]
        return list(dict.fromkeys(part.placed.name for part in parts if part))

    def _pairs(
        self,
        left: tuple[Node, ...],
        right: tuple[Node, ...],
        is_same: Callable[[Node, Node], bool],
    ) -> Iterator[tuple[Node, Node | None]]:
        """Yield each node with that of B: by name, else the one with the same registers.

        One that has none is left out where B describes none at all.
        """
        named = {item.name: item for item in right}
        known = {item.name for item in left}
        spare = [item for item in right if item.name not in known]
        for item in left:
            there = named.get(item.name) or next((one for one in spare if is_same(item, one)), None)
            if there is not None or (right and self._is_kept(item)):
                yield item, there

    def _is_kept(self, item: ClockDivider | Rate) -> bool:
        """Tell whether B has the registers; of those that it has not, there is other work."""
        names = item.divisor if isinstance(item, Rate) else (item.field,)
        return all(name in self._kept for name in self._registers(names))

    def _same_divider(self, one: ClockDivider, other: ClockDivider) -> bool:
        return one.field is not None and self._same.names(one.field, other.field)

    def _same_rate(self, one: Rate, other: Rate) -> bool:
        pairs = zip(one.divisor, other.divisor, strict=False)
        return len(one.divisor) == len(other.divisor) and all(
            self._same.names(*pair) for pair in pairs
        )

    def _divider(self, one: ClockDivider, other: ClockDivider) -> Iterator[str]:
        if not self._same.names(one.field, other.field):
            decides = other.field or other.setting or "nothing"
            yield f"decided by {one.field} → {decides}"
        yield from changed_factors(one.options, other.options, _value)

    def _rate(self, one: Rate, other: Rate) -> Iterator[str]:
        if not self._is_made_alike(one, other):
            yield f"{formula(one)} → {formula(other)}"
        if one.prescale and other.prescale:
            for text in changed_factors(one.options, other.options, _value):
                yield f"{one.prescale} {text}"
        if one.clock is not None and one.clock == other.clock:
            frequencies = [
                next((item.frequency for item in clock.sources if item.name == one.clock), None)
                for clock in (self._one, self._other)
            ]
            was, now = frequencies
            if was is not None and now is not None and was != now:
                yield f"its clock {one.clock} runs at {hertz(now)}, ran at {hertz(was)}"

    def _is_made_alike(self, one: Rate, other: Rate) -> bool:
        """Tell whether each number that A takes makes the same rate of a clock on B."""
        if (one.clock, one.scale, one.plus) != (other.clock, other.scale, other.plus):
            return False
        if not self._same_rate(one, other) or not self._same.names(one.prescale, other.prescale):
            return False
        has_low = (one.lowest or 0) >= (other.lowest or 0)
        return has_low and (other.highest is None or self._most(one) <= other.highest)

    def _most(self, rate: Rate) -> int:
        """Return the highest number that a rate's divisor takes on A."""
        if rate.highest is not None:
            return rate.highest
        parts = [find(self._a, name) for name in rate.divisor]
        return (1 << sum(part.width for part in parts if part)) - 1
