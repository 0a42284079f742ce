"""Rules on the clock: what divides it, how fast it may be, and what is made from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from regwright.clock.amounts import hertz
from regwright.clock.chain import (
    Chain,
    default_chain,
    default_settings,
    factor_of,
    source_frequency,
)
from regwright.clock.limits import TOO_FAST, judge
from regwright.clock.places import RegisterPart, find
from regwright.model.clock import Clock, ClockDivider, ClockOption, ClockSource, Rate
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.hazards import clock_names_unknown


@rule("frequency-not-allowed", ERROR)
def frequency_not_allowed(subject: Subject) -> Iterator[Problem]:
    """The CPU would run at a frequency that no supply allows.

    ## What it catches
    A chip that, as it is delivered, runs faster than its highest limit at any supply it may have;
    a source that is too fast for every limit even where all dividers divide by as much as they
    can; a limit that starts above the highest supply; a highest supply below the lowest.

    ## Why it matters
    A limit, a source or a divider was mistyped. Beyond its limits a chip fails now and then.

    ## Example
    A source of 80 MHz, undivided, and limits up to 18 MHz.

    ## Instead
    `frequency="8 MHz"`

    ## When to silence it
    Never.
    """
    clock = subject.chip.clock
    if clock is None:
        return
    low, high = clock.lowest_supply, clock.highest_supply
    if low is not None and high is not None and low > high:
        message = f"the highest supply ({float(high):g} V) is below the lowest ({float(low):g} V)"
        yield Problem(f"{message}; look both up", (clock.origin, "highestSupply"))
        return
    for limit in clock.limits:
        if high is not None and limit.supply > high:
            message = (
                f"this limit starts at {float(limit.supply):g} V, above the highest supply of "
                f"{float(high):g} V; look both up"
            )
            yield Problem(message, (limit.origin, "supply"))
    chain = default_chain(subject.resolved)
    verdict = judge(clock, chain.cpu)
    is_forbidden = chain.cpu.lowest is not None and verdict.forbids
    if is_forbidden:
        cpu = chain.cpu.nominal or chain.cpu.lowest or Fraction(0)
        message = f"as delivered the CPU runs at {hertz(cpu)}, which no supply allows"
        if verdict.fastest is not None:
            message += f": {hertz(verdict.fastest)} is the highest limit"
        origin = chain.source.origin if chain.source else clock.origin
        yield Problem(f"{message}; look up source, dividers and limits", origin)
    for source in clock.sources:
        if not (is_forbidden and source is chain.source):
            yield from _always_too_fast(clock, source)


def _always_too_fast(clock: Clock, source: ClockSource) -> Iterator[Problem]:
    """Judge the lowest frequency that ``source`` can give the CPU."""
    start = source_frequency(source)
    slowest = start.times(_slowest_factor(clock))
    verdict = judge(clock, slowest)
    cpu = slowest.lowest if slowest.nominal is None else slowest.nominal
    if cpu is not None and verdict.outcome == TOO_FAST and verdict.fastest is not None:
        message = (
            f"{source.name} gives the CPU at least {hertz(cpu)}, however it is divided, but "
            f"{hertz(verdict.fastest)} is the highest limit; look up source and limits"
        )
        yield Problem(message, source.origin)


def _slowest_factor(clock: Clock) -> Fraction:
    """Return the smallest factor that all dividers together can have."""
    factor = Fraction(1)
    for divider in clock.dividers:
        factors = [factor_of(option) for option in divider.options]
        factor *= min(factors + [Fraction(1)] * bool(divider.when), default=Fraction(1))
    return factor


@rule("clock-contradicts", ERROR)
def clock_contradicts(subject: Subject) -> Iterator[Problem]:
    """Something in the clock's description cannot be followed.

    ## What it catches
    A divider that nothing decides, or whose field is none; options that say neither a choice nor
    a value where one is needed, and two options of one divider or rate for the same choice or
    value; a rate whose clock, prescaler or divisor is no source, field or register; sources whose
    lowest frequency is above the highest, or whose tolerance is 100 % or more; and a chip as it
    is delivered whose chain does not lead from one source to the CPU.

    ## Why it matters
    The frequency of the CPU, and every rate made from it, would be a guess.

    ## Example
    `<divider name="prescaler" field="CLOCK.DIVDE">`

    ## Instead
    `field="CLOCK.DIVIDE"`

    ## When to silence it
    Never.
    """
    clock = subject.chip.clock
    if clock is None:
        return
    for source in clock.sources:
        if None not in (source.lowest, source.highest) and source.lowest > source.highest:  # type: ignore[operator]
            message = f"the lowest frequency of {source.name} is above its highest; look both up"
            yield Problem(message, (source.origin, "lowest"))
        if source.tolerance is not None and source.tolerance >= 1:
            message = f"{source.name} would be off by {float(source.tolerance * 100):g} %; look up"
            yield Problem(f"{message} its tolerance", (source.origin, "tolerance"))
    before = clock_names_unknown(subject.chip) or _lacks_choice(subject, clock)
    for divider in clock.dividers:
        for problem in _divider(subject, divider):
            before = True
            yield problem
    names = {source.name for source in clock.sources}
    for rate in clock.rates:
        yield from _rate(subject, rate, names)
    chain = default_chain(subject.resolved)
    if not before and _is_stuck(subject, chain):
        message = f"as delivered the clock does not reach the CPU: {'; '.join(chain.problems)}"
        yield Problem(message, clock.origin)


def _lacks_choice(subject: Subject, clock: Clock) -> bool:
    """Tell whether a setting of the clock is delivered without meaning, as a rule has said."""
    if not any(item.rule == "configuration-default" for item in subject.findings):
        return False
    settings = default_settings(subject.resolved)
    asked = {divider.setting for divider in clock.dividers}
    asked.update(item.setting for source in clock.sources for item in source.when)
    return any(settings.get(name, "") is None for name in asked if name is not None)


def _is_stuck(subject: Subject, chain: Chain) -> bool:
    return subject.chip.kind == "chip" and bool(chain.problems)


def _divider(subject: Subject, divider: ClockDivider) -> Iterator[Problem]:
    if divider.setting is None and divider.field is None and len(divider.options) > 1:
        message = (
            f"{divider.name} has several options, but nothing decides; give a setting or field"
        )
        yield Problem(message, divider.origin)
        return
    part = None
    if divider.field is not None:
        part = find(subject.resolved, divider.field)
        if part is None:
            message = f"{divider.field} is no field here; write REGISTER.FIELD"
            yield Problem(message, (divider.origin, "field"))
            return
    for option in divider.options:
        if len(divider.options) > 1 and option.choice is None and option.value is None:
            message = f"this option of {divider.name} says neither a choice nor a value"
            yield Problem(message, option.origin)
        yield from _too_large(option, part)
    yield from _repeated_options(divider.name, divider.options)


def _repeated_options(name: str, options: Iterable[ClockOption]) -> Iterator[Problem]:
    seen: set[str | int] = set()
    for option in options:
        said = option.value if option.choice is None else option.choice
        if said is None:
            continue
        if said in seen:
            key = "value" if option.choice is None else "choice"
            message = f"{name} has an option for the {key} {said} already; look both up"
            yield Problem(message, (option.origin, key))
        seen.add(said)


def _too_large(option: ClockOption, part: RegisterPart | None) -> Iterator[Problem]:
    if part is not None and option.value is not None and option.value >> part.width:
        message = f"{option.value} is more than {part.name} holds, which has {part.width} bits"
        yield Problem(message, (option.origin, "value"))


def _rate(subject: Subject, rate: Rate, sources: set[str]) -> Iterator[Problem]:
    if rate.clock is not None and rate.clock not in sources:
        message = f"{rate.name} is made from {rate.clock}, which is no source here"
        yield Problem(message, (rate.origin, "clock"))
    for name in rate.divisor:
        if find(subject.resolved, name) is None:
            yield _no_place(rate, name, (rate.origin, "divisor"))
    if rate.prescale is None:
        if rate.options:
            message = f"{rate.name} has options, but no prescaler that they are of; name its field"
            yield Problem(message, rate.origin)
        return
    part = find(subject.resolved, rate.prescale)
    if part is None:
        yield _no_place(rate, rate.prescale, (rate.origin, "prescale"))
    for option in rate.options:
        if option.value is None:
            yield Problem(f"this option of {rate.name} says no value", option.origin)
        yield from _too_large(option, part)
    yield from _repeated_options(rate.name, rate.options)


def _no_place(rate: Rate, name: str, origin: Origin) -> Problem:
    message = f"{rate.name} names {name}, which is no register or field here"
    return Problem(f"{message}; write REGISTER or REGISTER.FIELD", origin, name)
