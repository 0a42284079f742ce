"""How fast the CPU may be at a supply."""

from __future__ import annotations

from fractions import Fraction

import pytest
from clock_chips import MHZ, STEADY, made_clock
from hypothesis import given, settings
from hypothesis import strategies as st

from regwright.clock.chain import UNKNOWN, Frequency
from regwright.clock.limits import Verdict, fastest_at, judge, least_supply
from regwright.model.clock import Clock

STEPS = made_clock({"1.8": 4 * MHZ, "2.7": 8 * MHZ, "4.5": 16 * MHZ})
LINE = made_clock({"1.8": 4 * MHZ, "2.7": 8 * MHZ, "4.5": 16 * MHZ}, between="linear")
BOUND = STEPS._replace(lowest_supply=Fraction("2.0"), highest_supply=Fraction("4.0"))


def at(frequency: int | None, off: int = 0) -> Frequency:
    if frequency is None:
        return UNKNOWN
    return Frequency(Fraction(frequency - off), Fraction(frequency), Fraction(frequency + off))


@pytest.mark.parametrize(
    ("clock", "supply", "highest"),
    [
        (STEPS, "1.79", None),
        (STEPS, "1.8", 4 * MHZ),
        (STEPS, "2.69", 4 * MHZ),
        (STEPS, "2.7", 8 * MHZ),
        (STEPS, "6", 16 * MHZ),
        (LINE, "1.7", None),
        (LINE, "1.8", 4 * MHZ),
        (LINE, "2.25", 6 * MHZ),
        (LINE, "2.7", 8 * MHZ),
        (LINE, "3.6", 12 * MHZ),
        (LINE, "5", 16 * MHZ),
        (made_clock(), "3", None),
    ],
)
def test_fastest_at(clock: Clock, supply: str, highest: int | None) -> None:
    assert fastest_at(clock, Fraction(supply)) == highest


@pytest.mark.parametrize(
    ("clock", "frequency", "supply"),
    [
        (STEPS, 4 * MHZ, "1.8"),
        (STEPS, 4 * MHZ + 1, "2.7"),
        (STEPS, 16 * MHZ, "4.5"),
        (STEPS, 16 * MHZ + 1, None),
        (LINE, 1, "1.8"),
        (LINE, 6 * MHZ, "2.25"),
        (LINE, 12 * MHZ, "3.6"),
        (LINE, 17 * MHZ, None),
        (BOUND, 1, "2.0"),
        (BOUND, 8 * MHZ, "2.7"),
        (BOUND, 16 * MHZ, None),
        (made_clock(lowest_supply=Fraction(2)), 1, "2"),
        (made_clock(), 1, None),
    ],
)
def test_least_supply(clock: Clock, frequency: int, supply: str | None) -> None:
    assert least_supply(clock, Fraction(frequency)) == (supply and Fraction(supply))


def test_of_two_limits_at_one_supply_the_lower_counts() -> None:
    limits = made_clock({"3": 9 * MHZ}).limits + made_clock({"3.0": 5 * MHZ}).limits
    for both in (limits, limits[::-1]):
        assert fastest_at(made_clock()._replace(limits=both), Fraction(3)) == 5 * MHZ


@pytest.mark.parametrize(
    ("clock", "frequency", "supply", "outcome"),
    [
        (STEPS, 8 * MHZ, "2.7", "allowed"),
        (STEPS, 8 * MHZ, "2.6", "too-fast"),
        (STEPS, 8 * MHZ, "1.7", "supply-too-low"),
        (STEPS, 8 * MHZ, None, "allowed"),
        (STEPS, 17 * MHZ, None, "too-fast"),
        (BOUND, 1 * MHZ, "1.9", "supply-too-low"),
        (BOUND, 1 * MHZ, "4.1", "supply-too-high"),
        (BOUND, 16 * MHZ, None, "too-fast"),
        (STEPS, None, "3", "not-known"),
        (made_clock(), 8 * MHZ, "3", "no-limit"),
        (made_clock(highest_supply=Fraction(3)), 8 * MHZ, "3.1", "supply-too-high"),
        (STEPS._replace(highest_supply=Fraction(1)), 1, None, "too-fast"),
    ],
)
def test_outcome(clock: Clock, frequency: int | None, supply: str | None, outcome: str) -> None:
    found = judge(clock, at(frequency), None if supply is None else Fraction(supply))
    assert found.outcome == outcome
    assert found.forbids == (outcome not in ("allowed", "no-limit", "not-known"))


def test_the_verdict_tells_the_worst_case() -> None:
    exact = judge(STEPS, at(8 * MHZ), Fraction(3))
    assert exact == Verdict("allowed", Fraction(3), Fraction(8 * MHZ), Fraction("2.7"), worst=True)
    assert judge(STEPS, at(8 * MHZ, MHZ), Fraction(3)) == exact._replace(worst=False)
    assert judge(STEPS, at(7 * MHZ, MHZ), Fraction(3)).worst is True
    assert judge(STEPS, at(9 * MHZ, 0), Fraction(3)).worst is False


def test_of_a_range_the_lowest_frequency_is_judged() -> None:
    spread = Frequency(Fraction(5 * MHZ), None, Fraction(20 * MHZ))
    assert judge(STEPS, spread, Fraction(2)).outcome == "too-fast"
    assert judge(STEPS, spread, Fraction(3)).outcome == "not-known"


# Laws.

volts = st.integers(10, 60).map(lambda tenths: Fraction(tenths, 10))
tables = st.dictionaries(volts, st.integers(1, 40), min_size=1, max_size=5)
ways = st.sampled_from(["step", "linear"])


def rising(table: dict[Fraction, int], between: str) -> Clock:
    """Return a clock whose limits never fall with the supply."""
    speeds = sorted(table.values())
    pairs = zip(sorted(table), speeds, strict=True)
    return made_clock({str(supply): speed * MHZ for supply, speed in pairs}, between=between)


@settings(STEADY, max_examples=60)
@given(tables, ways, volts, volts)
def test_more_supply_never_allows_less(
    table: dict[Fraction, int], between: str, one: Fraction, other: Fraction
) -> None:
    clock = rising(table, between)
    low, high = (fastest_at(clock, item) or 0 for item in sorted((one, other)))
    assert low <= high


@settings(STEADY, max_examples=100)
@given(tables, ways, st.integers(1, 45), st.booleans())
def test_the_least_supply_allows_it_and_no_lower_one_does(
    table: dict[Fraction, int], between: str, speed: int, is_rising: bool
) -> None:
    clock = rising(table, between)
    if not is_rising:
        spelled = {str(supply): most * MHZ for supply, most in table.items()}
        clock = made_clock(spelled, between=between)
    wanted = Fraction(speed * MHZ)
    least = least_supply(clock, wanted)
    tried = [Fraction(number, 100) for number in range(90, 620)]
    allowed = [item for item in tried if (fastest_at(clock, item) or 0) >= wanted]
    if least is None:
        assert not allowed
        return
    assert (fastest_at(clock, least) or 0) >= wanted
    assert all(item >= least for item in allowed)


@settings(STEADY, max_examples=60)
@given(tables, volts, st.integers(1, 45))
def test_the_verdict_agrees_with_the_limit(
    table: dict[Fraction, int], supply: Fraction, speed: int
) -> None:
    clock = rising(table, "linear")
    found = judge(clock, at(speed * MHZ), supply)
    assert (found.outcome == "allowed") == ((fastest_at(clock, supply) or 0) >= speed * MHZ)
