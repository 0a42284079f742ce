"""All that is asked of a chip's clock at once, and what comes of it."""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from regwright.clock.amounts import hertz
from regwright.clock.chain import Chain, Frequencies, Numbers, Settings, chain
from regwright.clock.limits import Verdict, judge
from regwright.clock.places import reserved_remarks
from regwright.clock.rates import SERIAL, TIMER, Rated, rated
from regwright.configuration.decode import Problem, problems_left
from regwright.configuration.hazards import Caused, hazards_of
from regwright.model.clock import Clock, ClockSource
from regwright.resolve.chip import ResolvedChip


class Question(NamedTuple):
    """What is asked.

    ``words`` are the configuration words, ``settings`` what they say, ``registers`` the values
    that differ from reset, ``frequencies`` (hertz, by source) what is connected. ``bauds`` and
    ``timers`` (hertz) are wanted of every rate of their kind, or of the one called ``rate``.
    ``start`` are the words before any setting was made, ``None`` for those in ``words``.
    """

    words: Mapping[str, int]
    settings: Settings
    registers: Numbers
    frequencies: Frequencies
    supply: Fraction | None = None
    bauds: tuple[Fraction, ...] = ()
    timers: tuple[Fraction, ...] = ()
    rate: str | None = None
    start: Mapping[str, int] | None = None


class Answer(NamedTuple):
    """What comes of it; ``outside`` says why a frequency cannot be connected where it is said.

    ``wrong`` says why the configuration words cannot be right, ``hazards`` are those that they
    have, ``remarks`` are about what the registers were said to hold.
    """

    resolved: ResolvedChip
    clock: Clock
    question: Question
    chain: Chain
    verdict: Verdict
    rates: tuple[Rated, ...]
    outside: tuple[str, ...]
    wrong: tuple[str, ...] = ()
    hazards: tuple[Caused, ...] = ()
    remarks: tuple[str, ...] = ()

    @property
    def is_fine(self) -> bool:
        """Whether the frequency is known and allowed, and something makes each wanted rate.

        Words that cannot be right are not fine. Hazards and remarks are only said.
        """
        wanted = {(item.rate.kind, item.wanted) for item in self.rates}
        made = {(item.rate.kind, item.wanted) for item in self.rates if item.works}
        wrong = self.wrong or self.chain.problems or self.outside
        return not (wrong or self.verdict.forbids or wanted - made)


def outside_of(source: ClockSource, frequency: Fraction) -> str:
    """Say why ``source`` cannot have ``frequency`` (hertz), if it cannot."""
    if source.lowest is not None and frequency < source.lowest:
        return f"{hertz(frequency)} is too slow for {source.name}: at least {hertz(source.lowest)}"
    if source.highest is not None and frequency > source.highest:
        return f"{hertz(frequency)} is too fast for {source.name}: at most {hertz(source.highest)}"
    return ""


def answer(resolved: ResolvedChip, clock: Clock, question: Question) -> Answer:
    """Return what comes of ``question`` for the chip ``resolved``, whose clock is ``clock``."""
    found = chain(resolved, question.settings, question.registers, question.frequencies)
    wanted = {SERIAL: question.bauds, TIMER: question.timers}
    rates = tuple(
        rated(resolved, rate, value, found, question.frequencies)
        for rate in clock.rates
        if question.rate in (None, rate.name)
        for value in wanted[rate.kind]
    )
    by_name = {source.name: source for source in clock.sources}
    configuration = resolved.chip.configuration
    wrong: list[Problem] = []
    hazards: tuple[Caused, ...] = ()
    if configuration is not None:
        start = question.words if question.start is None else question.start
        wrong = problems_left(configuration, start, question.words)
        hazards = hazards_of(configuration, question.words)
    outside = (outside_of(by_name[name], given) for name, given in question.frequencies.items())
    return Answer(
        resolved,
        clock,
        question,
        found,
        judge(clock, found.cpu, question.supply),
        rates,
        tuple(item for item in outside if item),
        tuple(item.message for item in wrong),
        hazards,
        tuple(reserved_remarks(resolved, question.registers)),
    )
