"""What an answer about a clock says of timers and serial ports, in rows of texts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from regwright.clock import amounts
from regwright.clock.answer import Answer
from regwright.clock.chain import Frequency, factor_of
from regwright.clock.rates import MOST_OFF, SERIAL, TIMER, Fit, Rated
from regwright.configuration.words import hexadecimal

_KINDS = {"serial": "serial port", "timer": "timer"}
#: What a rate of each kind is that is too far off: common practice, no source.
BEYOND = {kind: f"beyond {amounts.share(most)}" for kind, most in MOST_OFF.items()}
_WHY = {
    SERIAL: f"A serial line that is {BEYOND[SERIAL]} may not be understood (common practice, no "
    "source).",
    TIMER: f"A timer that is {BEYOND[TIMER]} does not count as one that makes the rate (common "
    "practice, no source).",
}


class RateRow(NamedTuple):
    """A divisor: the rate wanted, what to write, what comes of it, how far that is off.

    ``worst`` is how far with the tolerance of the clock; ``note`` says what does not work.
    """

    wanted: str
    write: str
    rate: str
    error: str
    worst: str
    note: str


class RateTable(NamedTuple):
    """All that is wanted of one peripheral."""

    kind: str
    heading: str
    rows: list[RateRow]
    problems: list[str]


def rate_tables(answer: Answer) -> Iterator[RateTable]:
    """Yield a table for each peripheral of which a rate is wanted."""
    for _, group in groupby(answer.rates, key=lambda item: item.rate.name):
        items = list(group)
        first = items[0]
        made = f", made from {_clock(first.clock)}" if first.clock.nominal is not None else ""
        rows = [row for item in items for row in _rows(item)]
        problems = [text for item in items for text in _problems(item)]
        title = f"{first.rate.name} ({_KINDS[first.rate.kind]}){made}"
        yield RateTable(first.rate.kind, title, rows, list(dict.fromkeys(problems)))


def remarks(tables: list[RateTable]) -> list[str]:
    """Return what the notes of ``tables`` mean."""
    noted = {table.kind for table in tables for row in table.rows if row.note}
    return [why for kind, why in _WHY.items() if kind in noted]


def _clock(clock: Frequency) -> str:
    """Return the frequency of a clock that is known, with its bounds where they differ."""
    low, nominal, high = (amounts.hertz(item or Fraction(0)) for item in clock)
    return nominal if low == high else f"{nominal} ({low} to {high})"


def amount(item: Rated, value: Fraction) -> str:
    """Return a rate of a timer or serial port with its unit."""
    return f"{amounts.baud(value)} baud" if item.rate.kind == SERIAL else amounts.hertz(value)


def _rows(item: Rated) -> Iterator[RateRow]:
    """Yield the best divisor of a serial port; of a timer, the best for each prescale."""
    for fit in item.fits[:1] if item.rate.kind == SERIAL else item.fits:
        error = amounts.error(fit.error) if fit.error else "exact"
        worst = ""
        if fit.lowest != fit.highest:
            worst = f"{amounts.error(fit.lowest)} to {amounts.error(fit.highest)}"
        made = amount(item, fit.rate)
        yield RateRow(
            amount(item, item.wanted), _written(item, fit), made, error, worst, _note(item, fit)
        )


def _written(item: Rated, fit: Fit) -> str:
    """Return what is written where, the prescaler first."""
    texts = []
    if fit.option is not None:
        value = "" if fit.option.value is None else f" = {hexadecimal(fit.option.value)}"
        divides = amounts.factor(factor_of(fit.option))
        texts.append(f"{item.rate.prescale or 'prescaler'}{value} ({divides})")
    texts += [
        f"{part.name} = {hexadecimal(piece, part.width)}" for part, piece in item.pieces(fit.number)
    ]
    return ", ".join(texts)


def _note(item: Rated, fit: Fit) -> str:
    """Say aloud what is too far off, of a serial port also in the worst case."""
    kind = item.rate.kind
    most, beyond = MOST_OFF[kind], BEYOND[kind]
    if abs(fit.error) > most:
        return beyond
    is_off_at_worst = kind == SERIAL and max(abs(fit.lowest), abs(fit.highest)) > most
    return f"{beyond} at worst" if is_off_at_worst else ""


def _problems(item: Rated) -> Iterator[str]:
    """Yield why there is no divisor."""
    name = item.rate.name
    if item.problem:
        yield f"{name}: {item.problem}."
    elif not item.fits and item.slowest is not None and item.fastest is not None:
        ends = f"{amount(item, item.slowest)} to {amount(item, item.fastest)}"
        yield f"{name}: no divisor makes {amount(item, item.wanted)}; it makes {ends}."
