"""The divisor that makes a wanted rate of a timer or serial port, and how far it is off."""

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import NamedTuple

from regwright.clock.chain import UNKNOWN, Chain, Frequencies, Frequency, source_frequency
from regwright.clock.places import find
from regwright.model.clock import ClockOption, Rate
from regwright.resolve.chip import ResolvedChip

#: The kinds of rates.
SERIAL, TIMER = "serial", "timer"
#: How far a rate of each kind may be off, in parts of one: common practice, no source.
MOST_OFF = {SERIAL: Fraction(2, 100), TIMER: Fraction(5, 100)}
#: What is out of a prescaler's reach by no more than this is still offered.
_NEAR = Fraction(2, 100)


class Part(NamedTuple):
    """A register or field that holds the divisor or a piece of it, the high end's piece first."""

    name: str
    width: int


class Fit(NamedTuple):
    """A divisor: ``number`` is what is written, ``rate`` what comes of it, in hertz or baud.

    ``error`` is how far that is off in parts of one, above 0 when it is too fast. ``lowest`` and
    ``highest`` are the same with the tolerance of the clock. ``option`` is the prescaler's.
    """

    option: ClockOption | None
    number: int
    rate: Fraction
    error: Fraction
    lowest: Fraction
    highest: Fraction


class Rated(NamedTuple):
    """What a peripheral can make of ``clock`` for the rate ``wanted``, the best first.

    ``slowest`` and ``fastest`` are all it can make. ``problem`` says why nothing can be told.
    """

    rate: Rate
    wanted: Fraction
    clock: Frequency
    parts: tuple[Part, ...]
    fits: tuple[Fit, ...]
    slowest: Fraction | None = None
    fastest: Fraction | None = None
    problem: str = ""

    @property
    def best(self) -> Fit | None:
        """The best divisor, if one fits."""
        return self.fits[0] if self.fits else None

    @property
    def is_off(self) -> bool:
        """Whether the best divisor is further off than works, by :data:`MOST_OFF`."""
        best = self.best
        return best is not None and abs(best.error) > MOST_OFF[self.rate.kind]

    @property
    def works(self) -> bool:
        """Whether there is a divisor, and it is near enough."""
        return self.best is not None and not self.is_off

    def pieces(self, number: int) -> Iterator[tuple[Part, int]]:
        """Yield what of ``number`` is written where, the high end first."""
        left = sum(part.width for part in self.parts)
        for part in self.parts:
            left -= part.width
            yield part, number >> left & ((1 << part.width) - 1)


class Numbers(NamedTuple):
    """The numbers that may be written as a divisor, from ``lowest`` to ``highest``."""

    lowest: int
    highest: int
    plus: int


def best_number(clock: Fraction, wanted: Fraction, numbers: Numbers) -> int:
    """Return the number whose rate ``clock / (number + plus)`` is the nearest to ``wanted``.

    Of two that are equally near, the smaller.
    """
    lower = floor(clock / wanted) - numbers.plus
    near = {min(max(item, numbers.lowest), numbers.highest) for item in (lower, lower + 1)}
    return min(near, key=lambda item: (abs(clock / (item + numbers.plus) - wanted), item))


def numbers_of(rate: Rate, width: int) -> Numbers | None:
    """Return the numbers that ``rate`` takes in ``width`` bits; ``None`` when there is none."""
    first = 1 - rate.plus
    lowest = max(first, first if rate.lowest is None else rate.lowest)
    most = (1 << width) - 1
    highest = most if rate.highest is None else min(rate.highest, most)
    return Numbers(lowest, highest, rate.plus) if lowest <= highest else None


def clock_of(
    resolved: ResolvedChip, rate: Rate, chain: Chain, frequencies: Frequencies
) -> tuple[Frequency, str]:
    """Return the frequency that ``rate`` is made from, or why it is not known."""
    if rate.clock is None:
        if chain.cpu.nominal is None:
            return UNKNOWN, "how fast the CPU runs is not known"
        return chain.cpu, ""
    clock = resolved.chip.clock
    for source in clock.sources if clock else ():
        if source.name == rate.clock:
            found = source_frequency(source, frequencies.get(source.name))
            if found.nominal is not None:
                return found, ""
            return UNKNOWN, f"give --frequency {source.name}=… for what is connected there"
    return UNKNOWN, f"it is made from {rate.clock}, which is no source here"


def rated(
    resolved: ResolvedChip,
    rate: Rate,
    wanted: Fraction,
    chain: Chain,
    frequencies: Frequencies | None = None,
) -> Rated:
    """Return the best divisor for ``wanted``, in hertz or baud, at each option of the prescaler."""
    clock, problem = clock_of(resolved, rate, chain, frequencies or {})
    found = [(name, find(resolved, name)) for name in rate.divisor]
    parts = tuple(Part(part.name, part.width) for _, part in found if part)
    missing = ", ".join(name for name, part in found if part is None)
    numbers = numbers_of(rate, sum(part.width for part in parts))
    if missing:
        problem = f"its divisor is in {missing}, which is no register or field here"
    elif rate.prescale and find(resolved, rate.prescale) is None:
        problem = f"its prescaler is {rate.prescale}, which is no register or field here"
    elif rate.prescale and not rate.options:
        problem = f"the description does not say by how much {rate.prescale} divides"
    elif numbers is None:
        problem = "no number fits its divisor"
    elif clock.nominal == 0:
        problem = "its clock stands still"
    if problem or clock.nominal is None or numbers is None:
        return Rated(rate, wanted, clock, parts, (), problem=problem)
    options: tuple[ClockOption | None, ...] = rate.options or (None,)
    inputs = [(option, clock.nominal / _divides(rate, option)) for option in options]
    slowest = min(item for _, item in inputs) / (numbers.highest + numbers.plus)
    fastest = max(item for _, item in inputs) / (numbers.lowest + numbers.plus)
    fits = [
        fit
        for option, speed in inputs
        if (fit := _fit(option, speed, wanted, numbers, clock)) is not None
    ]
    fits.sort(key=lambda fit: (abs(fit.error), _divides(rate, fit.option), fit.number))
    return Rated(rate, wanted, clock, parts, tuple(fits), slowest, fastest)


def _divides(rate: Rate, option: ClockOption | None) -> Fraction:
    """Return what the clock is divided by before the divisor."""
    scale = Fraction(rate.scale)
    return scale if option is None else scale * option.divide / option.multiply


def _fit(
    option: ClockOption | None,
    speed: Fraction,
    wanted: Fraction,
    numbers: Numbers,
    clock: Frequency,
) -> Fit | None:
    """Return the best divisor of ``speed``; ``None`` when ``wanted`` is out of its reach."""
    number = best_number(speed, wanted, numbers)
    rate = speed / (number + numbers.plus)
    error = rate / wanted - 1
    ends = speed / (numbers.highest + numbers.plus), speed / (numbers.lowest + numbers.plus)
    if not ends[0] <= wanted <= ends[1] and abs(error) > _NEAR:
        return None
    nominal = clock.nominal or Fraction(1)
    low, high = (
        (1 + error) * ((end or nominal) / nominal) - 1 for end in (clock.lowest, clock.highest)
    )
    return Fit(option, number, rate, error, low, high)
