"""Divisors of timers and serial ports: against a published table, brute force, and by hand."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

import pytest
from clock_chips import KHZ, LINE, MHZ, SOURCES, STEADY, TIMER, Tree, asked, chip, made_rate
from hypothesis import given, settings
from hypothesis import strategies as st

from conftest import DESCRIPTIONS
from regwright.clock.answer import Answer
from regwright.clock.rates import MOST_OFF, SERIAL, Numbers, Rated, best_number, numbers_of, rated
from regwright.pipeline import check
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip

#: The divisor table of the 16550's data sheet for 1.8432 MHz (values from memory).
PUBLISHED = {
    **{"50": 2304, "75": 1536, "110": 1047, "134.5": 857, "150": 768, "300": 384, "600": 192},
    **{"1200": 96, "1800": 64, "2000": 58, "2400": 48, "3600": 32, "4800": 24, "7200": 16},
    **{"9600": 12, "19200": 6, "38400": 3, "56000": 2},
}
#: The errors that the same table prints, in percent; the other rates it prints as exact.
PUBLISHED_ERRORS = {"110": "0.026", "134.5": "0.058", "2000": "0.69", "56000": "2.86"}


def uart() -> ResolvedChip:
    path = DESCRIPTIONS / "uart16550.xml"
    found = check(Source(path.name, path.read_bytes(), "xml")).resolved
    assert found is not None
    return found


def only(found: Answer) -> Rated:
    (item,) = found.rates
    return item


# Against what is published.


@pytest.mark.parametrize("baud", PUBLISHED)
def test_the_published_divisors_of_the_16550(baud: str) -> None:
    best = only(asked(uart(), bauds=(Fraction(baud),))).best
    assert best is not None
    assert best.number == PUBLISHED[baud]


@pytest.mark.parametrize("baud", PUBLISHED)
def test_the_published_errors_of_the_16550(baud: str) -> None:
    best = only(asked(uart(), bauds=(Fraction(baud),))).best
    assert best is not None
    printed = PUBLISHED_ERRORS.get(baud, "0")
    places = len(printed.partition(".")[2])
    assert round(abs(best.error) * 100, places) == Fraction(printed)


def test_the_rates_of_terminals_are_made_exactly() -> None:
    # POSIX.1-2017, <termios.h>: its B constants name the rates; B134 stands for 134.5 baud
    termios = pytest.importorskip("termios", reason="a system without termios")
    rates = [int(name[1:]) for name in dir(termios) if re.fullmatch(r"B[1-9][0-9]*", name)]
    slow = [Fraction(rate) for rate in rates if rate <= 115_200 and rate not in (110, 134)]
    assert len(slow) > 12
    found = asked(uart(), bauds=tuple(slow))
    for item in found.rates:
        assert item.best is not None
        assert item.best.error == 0, item.wanted
        assert item.best.number * item.wanted == 115_200


def test_the_divisor_of_the_16550_is_written_to_two_registers() -> None:
    item = only(asked(uart(), bauds=(Fraction(50),)))
    assert item.best is not None
    written = [(part.name, value) for part, value in item.pieces(item.best.number)]
    assert written == [("DIVISOR_HIGH", 0x09), ("DIVISOR_LOW", 0x00)]


# By hand, at 8 MHz: 8,000,000 / (64 x 125) = 1 kHz, 8,000,000 / (16 x 52) = 9615.38.


def test_a_timer_lists_each_prescale_the_best_first() -> None:
    item = only(asked(chip(), {"low": 0xE2}, timers=(Fraction(KHZ),)))
    shown = [(fit.option and fit.option.value, fit.number, fit.error) for fit in item.fits]
    # 8 x (999 + 1) does not fit into eight bits; 1024 x (7 + 1) is 2.3 % slow, but within reach
    assert shown == [
        (3, 124, 0),
        (4, 30, Fraction(8 * MHZ, 256 * 31 * KHZ) - 1),
        (5, 7, Fraction(8 * MHZ, 1024 * 8 * KHZ) - 1),
    ]


def test_among_equals_the_smallest_prescale_comes_first() -> None:
    item = only(asked(chip(), {"low": 0xE2}, timers=(Fraction(MHZ),)))
    assert [(fit.option and fit.option.divide, fit.number) for fit in item.fits] == [(1, 7), (8, 0)]


def test_a_serial_port_at_8_mhz() -> None:
    item = only(asked(chip(), {"low": 0xE2}, bauds=(Fraction(9600),)))
    best = item.best
    assert best is not None
    assert best.number == 51
    assert best.rate == Fraction(8 * MHZ, 16 * 52)
    assert best.error == Fraction(8 * MHZ, 16 * 52 * 9600) - 1
    # 10 % of tolerance either way
    assert best.lowest == (1 + best.error) * Fraction(9, 10) - 1
    assert best.highest == (1 + best.error) * Fraction(11, 10) - 1
    assert [(part.name, value) for part, value in item.pieces(51)] == [
        ("BAUD_HIGH", 3),
        ("BAUD_LOW.VALUE", 3),
    ]


def test_a_rate_that_is_too_far_off_is_not_fine() -> None:
    found = asked(chip(), bauds=(Fraction(115_200),))  # 1 MHz / 16 = 62500 at most
    assert only(found).best is None
    assert not found.is_fine
    found = asked(chip(), bauds=(Fraction(38_400),))  # 1 MHz / 16 / 2 = 31250 is 19 % off
    assert only(found).is_off
    assert not found.is_fine


def test_one_timer_that_makes_it_is_enough() -> None:
    short = {**TIMER, "name": "short", "highest": 3}
    found = asked(chip(rates=[short, TIMER]), timers=(Fraction(1),))
    assert [item.works for item in found.rates] == [False, False]
    found = asked(chip(rates=[short, TIMER]), timers=(Fraction(20),))
    assert [item.works for item in found.rates] == [False, True]
    assert found.is_fine


def test_the_rate_may_be_made_from_another_source() -> None:
    timer = {**TIMER, "clock": "watchdog"}
    item = only(asked(chip(rates=[timer]), timers=(Fraction(KHZ),)))
    assert item.clock.nominal == 128 * KHZ
    assert item.fits[0].number == 127


def test_only_the_rate_that_is_named() -> None:
    found = asked(chip(rates=[TIMER, LINE]), timers=(Fraction(KHZ),), bauds=(Fraction(300),))
    assert [item.rate.name for item in found.rates] == ["tick", "line"]
    found = asked(chip(), timers=(Fraction(KHZ),), bauds=(Fraction(300),), rate="line")
    assert [item.rate.name for item in found.rates] == ["line"]


@pytest.mark.parametrize(
    ("rate", "low", "word"),
    [
        ({**LINE, "divisor": "BAUD_HIGH BAUD"}, 0x62, "BAUD, which is no register"),
        ({**LINE, "clock": "sun"}, 0x62, "sun, which is no source"),
        ({**LINE, "clock": "crystal"}, 0x62, "--frequency crystal="),
        (
            {**TIMER, "prescale": "TMR_CTRL.CLK", "kind": "serial"},
            0x62,
            "TMR_CTRL.CLK, which is no",
        ),
        ({**LINE, "prescale": "TMR_CTRL.CLOCK"}, 0x62, "by how much TMR_CTRL.CLOCK"),
        ({**LINE, "lowest": "0xFFFF"}, 0x62, "no number fits"),
        (LINE, 0x6F, "how fast the CPU runs"),
    ],
)
def test_what_cannot_be_told_of_a_rate(rate: Tree, low: int, word: str) -> None:
    found = asked(chip(rates=[rate]), {"low": low}, bauds=(Fraction(9600),))
    assert word in only(found).problem
    assert not found.is_fine


@pytest.mark.parametrize(
    ("plus", "lowest", "highest", "numbers"),
    [
        (0, None, None, (1, 255)),
        (1, None, None, (0, 255)),
        (0, 0, None, (1, 255)),
        (0, 3, 300, (3, 255)),
        (1, 2, 100, (2, 100)),
        (1, 9, 8, None),
    ],
)
def test_the_numbers_that_may_be_written(
    plus: int, lowest: int | None, highest: int | None, numbers: tuple[int, int] | None
) -> None:
    rate = made_rate(plus=plus, lowest=lowest, highest=highest)
    assert numbers_of(rate, 8) == (numbers and Numbers(*numbers, plus))


# Laws.

clocks = st.fractions(1, 10**8, max_denominator=1000)
rates = st.fractions(Fraction(1, 10), 10**6, max_denominator=100)
spans = st.tuples(st.integers(1, 300), st.integers(0, 300), st.integers(0, 1))


@settings(STEADY, max_examples=150)
@given(clocks, rates, spans)
def test_the_best_divisor_is_that_of_brute_force(
    clock: Fraction, wanted: Fraction, span: tuple[int, int, int]
) -> None:
    first, more, plus = span
    numbers = Numbers(first - plus, first - plus + more, plus)

    def off(number: int) -> Fraction:
        return abs(clock / (number + plus) / wanted - 1)

    every = range(numbers.lowest, numbers.highest + 1)
    assert best_number(clock, wanted, numbers) == min(every, key=lambda item: (off(item), item))


@settings(STEADY, max_examples=60)
@given(
    st.integers(10_000, 30 * MHZ),
    rates,
    st.lists(st.sampled_from([1, 2, 4, 8, 64, 256, 1024]), min_size=1, max_size=4, unique=True),
    st.integers(0, 1),
    st.sampled_from([1, 8, 16]),
)
def test_the_best_of_all_options_is_that_of_brute_force(
    frequency: int, wanted: Fraction, divides: list[int], plus: int, scale: int
) -> None:
    options = [{"value": number, "divide": divide} for number, divide in enumerate(divides)]
    rate: Tree = {
        **{"name": "line", "kind": "serial", "scale": scale, "prescale": "TMR_CTRL.CLOCK"},
        **{"divisor": "TMR_COMPARE", "plus": plus, "options": options},
    }
    source = {"name": "main", "kind": "external", "frequency": f"{frequency} Hz"}
    item = only(asked(chip(sources=[source], dividers=[], rates=[rate]), bauds=(wanted,)))
    made = {
        (divide, number): Fraction(frequency, scale * divide * (number + plus))
        for divide in divides
        for number in range(1 - plus, 256)
    }
    least = min(abs(value / wanted - 1) for value in made.values())
    if item.best is None:
        assert not min(made.values()) <= wanted <= max(made.values())
        assert least > MOST_OFF[SERIAL]
        return
    best = item.best
    assert best.option is not None
    assert best.rate == made[best.option.divide, best.number]
    assert abs(best.error) == least
    equal = [key for key, value in made.items() if abs(value / wanted - 1) == least]
    assert (best.option.divide, best.number) == min(equal)
    assert (item.slowest, item.fastest) == (min(made.values()), max(made.values()))


@settings(STEADY, max_examples=40)
@given(st.integers(0, 4), st.integers(1, 1 << 20), st.integers(1, 20 * MHZ))
def test_a_divider_twice_as_large_halves_the_frequency(
    value: int, divide: int, frequency: int
) -> None:
    def runs_at(divides: int) -> Any:
        prescaler = {
            **{"name": "prescaler", "field": "CLOCK.DIVIDE"},
            "options": [{"value": value, "divide": divides}],
        }
        source = {**SOURCES[0], "frequency": f"{frequency} Hz"}
        found = chip(sources=[source], dividers=[prescaler])
        return asked(found, registers={"CLOCK.DIVIDE": value}).chain.cpu

    once = runs_at(divide)
    assert once.nominal == Fraction(frequency, divide)
    if divide <= 1 << 19:
        assert once.times(Fraction(1, 2)) == runs_at(divide * 2)


@settings(STEADY, max_examples=40)
@given(st.integers(0, (1 << 12) - 1))
def test_the_pieces_of_a_number_make_it_again(number: int) -> None:
    found = chip()
    assert found.chip.clock is not None
    item = rated(found, found.chip.clock.rates[1], Fraction(1), asked(found).chain)
    (high, top), (low, bottom) = item.pieces(number)
    assert (high.width, low.width) == (8, 4)
    assert top << 4 | bottom == number
