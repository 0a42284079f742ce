"""The macro of the clock: the frequency at which the CPU of a delivered chip runs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from regwright.clock.chain import default_chain
from regwright.macros.literals import decimal
from regwright.macros.parts import CLOCK, Part
from regwright.model.clock import Clock
from regwright.resolve.chip import ResolvedChip


def default_hertz(resolved: ResolvedChip) -> Fraction | None:
    """Return the CPU's frequency as the chip is delivered, in hertz.

    ``None`` for a device, which has no CPU, and where it depends on what is connected.
    """
    if resolved.chip.kind != "chip":
        return None
    return default_chain(resolved).cpu.nominal


def clock_parts(clock: Clock, resolved: ResolvedChip, stem: str) -> Iterator[Part]:
    """Yield the macro of the default frequency, if it is known and whole hertz."""
    if resolved.chip.kind != "chip":
        return
    hertz = default_hertz(resolved)
    numbers = []
    if hertz is not None and hertz.denominator == 1:
        numbers.append((f"{stem}CPU_DEFAULT_HZ", decimal(hertz.numerator)))
    yield Part(CLOCK, "the default clock", clock, numbers, [])
