"""The clock of a delivered chip in words, for comments and reports."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.clock.amounts import hertz, share
from regwright.clock.chain import ALWAYS, SETTING, Chain, Frequency, Step, default_chain
from regwright.configuration.words import hexadecimal
from regwright.model.clock import ClockSource
from regwright.resolve.chip import ResolvedChip


class DefaultClock(NamedTuple):
    """The frequency that comes of it, and a sentence for each step on the way."""

    result: str
    steps: list[str]


def default_words(resolved: ResolvedChip) -> DefaultClock:
    """Return what the CPU's clock is as the chip is delivered, and how that comes about."""
    chain = default_chain(resolved)
    return DefaultClock(frequency_words(chain.cpu), list(_steps(chain)))


def frequency_words(frequency: Frequency) -> str:
    """Return ``1 MHz``, with its bounds where it has some, or what is known without it."""
    lowest, nominal, highest = frequency
    if nominal is None:
        if lowest is None and highest is None:
            return "a clock that is not known"
        low = f"{hertz(lowest)} " if lowest is not None else ""
        high = f"to {hertz(highest)}" if highest is not None else "or more"
        return f"{low}{high}, whatever is connected"
    if lowest in (None, nominal) and highest in (None, nominal):
        return hertz(nominal)
    return f"{hertz(nominal)} ({hertz(lowest or nominal)} to {hertz(highest or nominal)})"


def source_words(source: ClockSource) -> str:
    """Return what ``source`` gives: its frequency and tolerance, or the bounds."""
    if source.frequency is not None:
        off = f", {share(source.tolerance)} off at most" if source.tolerance else ""
        return hertz(source.frequency) + off
    return frequency_words(Frequency(source.lowest, None, source.highest))


def _steps(chain: Chain) -> Iterator[str]:
    if chain.source is not None:
        yield f"{chain.source.name}: {source_words(chain.source)}"
    for step in chain.steps:
        yield f"{step.divider.name}: {factor_words(step)}{_because(step)}"
    yield from chain.problems


def factor_words(step: Step) -> str:
    """Return ``divided by 8``, ``times 3``, ``times 3, divided by 2`` or ``as it is``."""
    times, over = step.factor.numerator, step.factor.denominator
    words = [f"times {times}"] if times != 1 else []
    words += [f"divided by {over}"] if over != 1 else []
    return ", ".join(words) or "as it is"


def _because(step: Step) -> str:
    if step.by == ALWAYS:
        return ""
    if step.by == SETTING:
        return f" ({step.divider.setting} = {step.choice})"
    value = hexadecimal(step.value or 0)
    return f" ({step.divider.field} = {value} after reset)"
