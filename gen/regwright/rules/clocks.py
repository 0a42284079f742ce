"""Rules on the clock: what divides it, how fast it may be, and what is made from it."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.clock.chain import Chain, default_chain
from regwright.clock.limits import judge
from regwright.clock.places import RegisterPart, find
from regwright.model.clock import ClockDivider, ClockOption, Rate
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.rules.catalogue import Problem, Subject, rule


def hertz(value: float) -> str:
    """Return a frequency in hertz with the unit that suits it."""
    for size, unit in ((1e9, "GHz"), (1e6, "MHz"), (1e3, "kHz")):
        if value >= size:
            return f"{value / size:.6g} {unit}"
    return f"{value:.6g} Hz"


@rule("frequency-not-allowed", ERROR)
def frequency_not_allowed(subject: Subject) -> Iterator[Problem]:
    """The CPU would run at a frequency that no supply allows.

    ## What it catches
    A chip that, as it is delivered, runs faster than its highest limit at any supply it may have;
    a limit that starts above the highest supply; a highest supply below the lowest.

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
    if chain.cpu.lowest is not None and verdict.forbids:
        cpu = float(chain.cpu.nominal or chain.cpu.lowest)
        message = f"as delivered the CPU runs at {hertz(cpu)}, which no supply allows"
        if verdict.fastest is not None:
            message += f": {hertz(float(verdict.fastest))} is the highest limit"
        origin = chain.source.origin if chain.source else clock.origin
        yield Problem(f"{message}; look up source, dividers and limits", origin)


@rule("clock-contradicts", ERROR)
def clock_contradicts(subject: Subject) -> Iterator[Problem]:
    """Something in the clock's description cannot be followed.

    ## What it catches
    A divider that nothing decides, or whose field is none; options that say neither a choice nor
    a value where one is needed; a rate whose clock, prescaler or divisor is no source, field or
    register; sources whose lowest frequency is above the highest; and a chip as it is delivered
    whose chain does not lead from one source to the CPU.

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
    before = False
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


def _no_place(rate: Rate, name: str, origin: Origin) -> Problem:
    message = f"{rate.name} names {name}, which is no register or field here"
    return Problem(f"{message}; write REGISTER or REGISTER.FIELD", origin, name)
