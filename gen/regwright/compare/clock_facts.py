"""What differs between the clocks of two chips: how fast they start, and all that decides it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from operator import attrgetter

from regwright.clock.amounts import factor, hertz, share, volts
from regwright.clock.chain import Frequency, default_chain, factor_of
from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.named_parts import SameParts
from regwright.compare.pairs import Matching
from regwright.compare.part_changes import Fact, documentation, named_sides, whole_sides
from regwright.compare.setting_facts import when
from regwright.model.clock import Clock, ClockDivider, ClockOption, ClockSource, Rate
from regwright.model.words import plural
from regwright.resolve.chip import ResolvedChip


def clock_changes(a: ResolvedChip, b: ResolvedChip, matching: Matching) -> Iterator[Change]:
    """Yield what differs between the clocks of two chips."""
    one, other = a.chip.clock, b.chip.clock
    whole = whole_sides("clock", one, other)
    if one is None or other is None:
        if one or other:
            yield from whole.alone("clock", _summary(whole.lone))
        return
    same = SameParts(a, b, matching)
    yield from whole.changes([("default-clock", default_clock(a), default_clock(b))])
    yield from whole.changes(_whole_facts(one, other))
    name = attrgetter("name")
    for sides in named_sides("clock source", one.sources, other.sources, name):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_source_facts(sides.node_a, sides.node_b))
        else:
            yield from sides.alone("clock-source", _source_summary(sides.lone))
    for sides in named_sides("clock divider", one.dividers, other.dividers, name):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_divider_facts(sides.node_a, sides.node_b, same))
        else:
            yield from sides.alone("clock-divider", _divider_summary(sides.lone))
    for sides in named_sides("rate", one.rates, other.rates, name):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_rate_facts(sides.node_a, sides.node_b, same))
        else:
            yield from sides.alone("rate", formula(sides.lone))


def default_clock(chip: ResolvedChip) -> str:
    """Return how fast the CPU runs as the chip is delivered, in words; nothing when unknown."""
    return _frequency(default_chain(chip).cpu)


def supply(clock: Clock) -> str:
    """Return between which voltages the chip works, as far as that is said."""
    low, high = clock.lowest_supply, clock.highest_supply
    if low is None or high is None:
        one = low if high is None else high
        return "" if one is None else f"{'from' if high is None else 'up to'} {volts(one)}"
    return f"{volts(low)} to {volts(high)}"


def _frequency(found: Frequency) -> str:
    if found.nominal is not None:
        return hertz(found.nominal)
    return _range(found.lowest, found.highest)


def _range(low: Fraction | None, high: Fraction | None) -> str:
    if low is None or high is None:
        one = low if high is None else high
        return "" if one is None else f"{'from' if high is None else 'up to'} {hertz(one)}"
    return f"{hertz(low)} to {hertz(high)}"


def _summary(clock: Clock) -> str:
    return f"{plural(len(clock.sources), 'source')}, {plural(len(clock.rates), 'rate')}"


def _whole_facts(one: Clock, other: Clock) -> Iterator[Fact]:
    yield "supply", supply(one), supply(other)
    yield "clock-limits", _limits(one), _limits(other)
    yield "clock-constant", show.text(one.constant), show.text(other.constant)
    pages = [sorted({item.page for item in side.limits if item.page}) for side in (one, other)]
    before, after = (", ".join(map(str, item)) for item in pages)
    yield "page", before, after


def _limits(clock: Clock) -> str:
    limits = sorted((item.supply, item.highest) for item in clock.limits)
    told = ", ".join(f"{hertz(highest)} from {volts(least)} on" for least, highest in limits)
    is_line = clock.between == "linear" and len(limits) > 1
    return f"{told}, on a line between" if is_line else told


def _source_facts(one: ClockSource, other: ClockSource) -> Iterator[Fact]:
    yield "clock-source-kind", one.kind, other.kind
    yield "clock-source-frequency", own_frequency(one), own_frequency(other)
    tolerances = [item.tolerance for item in (one, other)]
    before, after = ("" if item is None else share(item) for item in tolerances)
    yield "clock-source-tolerance", before, after
    yield "clock-source-when", when(one.when), when(other.when)
    yield from documentation(one, other, "title", "page")


def own_frequency(source: ClockSource) -> str:
    """Return a source's frequency, and its bounds."""
    bounds = _range(source.lowest, source.highest)
    if source.frequency is None:
        return bounds
    return f"{hertz(source.frequency)}{f', {bounds}' if bounds else ''}"


def _source_summary(source: ClockSource) -> str:
    parts = [source.kind, own_frequency(source), f"when {when(source.when)}" if source.when else ""]
    return ", ".join(part for part in parts if part)


def _divider_facts(one: ClockDivider, other: ClockDivider, same: SameParts) -> Iterator[Fact]:
    if one.setting != other.setting or not same.names(one.field, other.field):
        yield "clock-divider-decided", _decided(one), _decided(other)
    yield "clock-divider-when", when(one.when), when(other.when)
    yield "clock-divider-options", _options(one.options), _options(other.options)
    yield from documentation(one, other, "title", "page")


def _decided(divider: ClockDivider) -> str:
    return " and ".join(part for part in (divider.setting, divider.field) if part)


def _divider_summary(divider: ClockDivider) -> str:
    return ", ".join(part for part in (_decided(divider), _options(divider.options)) if part)


def _options(options: tuple[ClockOption, ...]) -> str:
    """Return what each option does, in one order."""
    keyed = []
    for item in options:
        value = "" if item.value is None else str(item.value)
        name = " ".join(part for part in (item.choice or "", value) if part)
        order = item.choice or "", -1 if item.value is None else item.value
        keyed.append((order, f"{name}: {factor(factor_of(item))}" if name else _times(item)))
    return ", ".join(text for _, text in sorted(keyed))


def _times(option: ClockOption) -> str:
    return factor(factor_of(option))


def _rate_facts(one: Rate, other: Rate, same: SameParts) -> Iterator[Fact]:
    if not _is_same_rate(one, other, same):
        yield "rate-formula", formula(one), formula(other)
    yield "rate-options", _options(one.options), _options(other.options)
    yield from documentation(one, other, "title", "page", "notes")


def _is_same_rate(one: Rate, other: Rate, same: SameParts) -> bool:
    """Tell whether two rates are made alike, whatever their registers are called."""
    plain = ("kind", "clock", "scale", "plus", "lowest", "highest")
    if any(getattr(one, key) != getattr(other, key) for key in plain):
        return False
    if len(one.divisor) != len(other.divisor) or not same.names(one.prescale, other.prescale):
        return False
    return all(map(same.names, one.divisor, other.divisor))


def formula(rate: Rate) -> str:
    """Return how a rate is made, as ``serial: CPU clock / 8 / (BAUD + 1)``."""
    parts = [rate.clock or "CPU clock"]
    parts += [str(rate.scale)] if rate.scale != 1 else []
    parts += [rate.prescale] if rate.prescale else []
    divisor = ":".join(rate.divisor)
    parts.append(f"({divisor} + {rate.plus})" if rate.plus else divisor)
    bounds = [f"at least {rate.lowest}"] if rate.lowest is not None else []
    bounds += [f"at most {rate.highest}"] if rate.highest is not None else []
    tail = f", {divisor} {' and '.join(bounds)}" if bounds else ""
    return f"{rate.kind}: {' / '.join(parts)}{tail}"
