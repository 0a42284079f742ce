"""What every program must know of another chip's clock: how fast, how exact, from which supply.

Nothing is said of what the two descriptions do not both describe.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from regwright.clock.amounts import share
from regwright.clock.chain import default_chain
from regwright.clock.limits import fastest_at
from regwright.compare.clock_facts import own_frequency
from regwright.compare.differences import Comparison
from regwright.compare.porting_clock import changed_factors
from regwright.model.clock import Clock, ClockSource

#: What it is about, what is different, what to do.
Told = Iterator[tuple[str, str, str]]


def limit_work(comparison: Comparison) -> Told:
    """Tell that B allows less than A at a supply that both work at."""
    one, other = comparison.a.chip.clock, comparison.b.chip.clock
    if one is None or other is None or not one.limits or not other.limits:
        return
    change = next((item for item in comparison.changes if item.kind == "clock-limits"), None)
    if change is not None and is_slower(one, other):
        message = f"slower at some supplies: {change.before} → {change.after}"
        instead = "see that the supply allows the program's clock"
        yield "clock limits", message, f"{instead} (regwright clock, with the new description)"


def is_slower(one: Clock, other: Clock) -> bool:
    """Tell whether ``other`` allows less than ``one`` at any supply that both work at."""
    lows = [item.lowest_supply for item in (one, other) if item.lowest_supply is not None]
    highs = [item.highest_supply for item in (one, other) if item.highest_supply is not None]
    steps = {item.supply for clock in (one, other) for item in clock.limits}
    low, high = max(lows, default=min(steps)), min(highs, default=max(steps))
    points = sorted({low, high} | {item for item in steps if low <= item <= high})
    if low > high:
        return False
    ends = [(_at(one, item), _at(other, item)) for item in points]
    ends += [
        (_before(one, *span), _before(other, *span)) for span in pairwise(points)
    ]  # a limit that ends at a supply holds until right before it
    return any(now < was for was, now in ends)


def _at(clock: Clock, supply: Fraction) -> Fraction:
    return fastest_at(clock, supply) or Fraction(0)


def _before(clock: Clock, start: Fraction, end: Fraction) -> Fraction:
    """Return what is allowed right before ``end``; it is a line from ``start`` on."""
    return 2 * _at(clock, (start + end) / 2) - _at(clock, start)


def source_work(comparison: Comparison) -> Told:
    """Tell which sources run at another frequency, take less, or are less exact."""
    one, other = comparison.a.chip.clock, comparison.b.chip.clock
    if one is None or other is None:
        return
    told = _as_delivered(comparison)
    there = {item.name: item for item in other.sources}
    for source in one.sources:
        also = there.get(source.name)
        if also is None:
            continue
        thing = f"clock source {source.name}"
        frequencies = f"{own_frequency(source)} → {own_frequency(also)}"
        if _takes_less(source, also):
            instead = "see that the crystal or clock on the board is within it"
            yield thing, f"takes {frequencies}", instead
        parts = []
        if _is_other(source, also) and source.name != told:
            parts.append(f"runs at {frequencies}")
        if _grew(source.tolerance, also.tolerance):
            parts.append(f"is off by up to {_off(source)} → {_off(also)}")
        if parts:
            instead = "see that delays, timers and baud rates made from it are still right"
            yield thing, "; ".join(parts), instead


def _as_delivered(comparison: Comparison) -> str:
    """Return the source whose frequency is told as the CPU's as delivered, or comes to the same.

    With dividers that a program or a programmer may set, the same CPU clock does not tell all.
    """
    is_told = any(item.kind == "default-clock" for item in comparison.changes)
    clock = comparison.a.chip.clock
    if not is_told and clock is not None and clock.dividers:
        return ""
    chains = [default_chain(chip) for chip in (comparison.a, comparison.b)]
    names = {item.source.name if item.source and item.cpu.nominal else "" for item in chains}
    return names.pop() if len(names) == 1 else ""


def _is_other(one: ClockSource, other: ClockSource) -> bool:
    """Tell whether a source with a frequency of its own has another one."""
    return None not in (one.frequency, other.frequency) and one.frequency != other.frequency


def _takes_less(one: ClockSource, other: ClockSource) -> bool:
    """Tell whether a source, as a crystal, takes no longer every frequency that it took."""
    if one.frequency is not None or other.frequency is not None:
        return False
    return _grew(one.lowest, other.lowest) or _grew(other.highest, one.highest)


def _grew(before: Fraction | None, after: Fraction | None) -> bool:
    """Tell whether both are said, and the second is more."""
    return before is not None and after is not None and before < after


def _off(source: ClockSource) -> str:
    return share(source.tolerance or Fraction(0))


def choice_work(comparison: Comparison) -> Told:
    """Tell which choices of the configuration divide the clock by something else."""
    one, other = comparison.a.chip.clock, comparison.b.chip.clock
    if one is None or other is None:
        return
    there = {item.name: item for item in other.dividers}
    for divider in one.dividers:
        also = there.get(divider.name)
        if also is None:
            continue
        names = {item.choice for item in also.options}
        both = [item for item in divider.options if item.choice in names and item.value is None]
        parts = list(changed_factors(both, also.options, lambda item: item.choice or ""))
        if parts:
            instead = "choose anew, and see how fast the CPU runs (regwright clock)"
            yield f"clock divider {divider.name}", "; ".join(parts), instead
