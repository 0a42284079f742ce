"""How amounts are read and spelled."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from clock_chips import STEADY
from hypothesis import given, settings
from hypothesis import strategies as st

from regwright.clock import amounts


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("16MHz", 16_000_000),
        ("16 MHz", 16_000_000),
        (" 32.768kHz ", 32_768),
        ("32768Hz", 32_768),
        ("1.8432 Mhz", 1_843_200),
        ("1GHz", 10**9),
        ("8khz", 8000),
    ],
)
def test_frequencies_are_read(text: str, value: int) -> None:
    assert amounts.read_frequency(text) == value


@pytest.mark.parametrize(
    ("text", "value"), [("3.3V", "3.3"), ("3.3 V", "3.3"), ("3300mV", "3.3"), ("5v", "5")]
)
def test_voltages_are_read(text: str, value: str) -> None:
    assert amounts.read_voltage(text) == Fraction(value)


@pytest.mark.parametrize(("text", "value"), [("9600", "9600"), ("134.5", "134.5")])
def test_bauds_are_read(text: str, value: str) -> None:
    assert amounts.read_baud(text) == Fraction(value)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "16",
        "MHz",
        "16 V",
        "0MHz",
        "-1MHz",
        "+1MHz",
        "1e6Hz",
        "16mHz",
        "0x10Hz",
        "16  MHz",
        "\N{ARABIC-INDIC DIGIT ONE}Hz",
    ],
)
def test_what_is_no_frequency(text: str) -> None:
    with pytest.raises(amounts.BadAmount):
        amounts.read_frequency(text)


@pytest.mark.parametrize("text", ["3.3", "3,3V", "0V", "3.3MHz", "V", "1" * 5000 + "V"])
def test_what_is_no_voltage(text: str) -> None:
    with pytest.raises(amounts.BadAmount) as problem:
        amounts.read_voltage(text)
    assert len(str(problem.value)) < 200


@pytest.mark.parametrize("text", ["9600Hz", "0", "", "9k6", "0x9600"])
def test_what_is_no_rate(text: str) -> None:
    with pytest.raises(amounts.BadAmount):
        amounts.read_baud(text)


def test_millihertz_are_taken_for_a_slip() -> None:
    with pytest.raises(amounts.BadAmount, match="write 16MHz"):
        amounts.read_frequency("16mHz")


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("0", "0 Hz"),
        ("1", "1 Hz"),
        ("999.5", "999.5 Hz"),
        ("32768", "32.768 kHz"),
        ("1843200", "1.8432 MHz"),
        ("16000000/3", "about 5.333333 MHz"),
        ("1000000000", "1 GHz"),
        ("1/1000000000", "0.000000001 Hz"),
    ],
)
def test_frequencies_are_spelled(value: str, text: str) -> None:
    assert amounts.hertz(Fraction(value)) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("0", "0 %"),
        ("0.0016", "+0.16 %"),
        ("-0.0212", "-2.12 %"),
        ("0.085", "+8.5 %"),
        ("-0.00001", "-0.001 %"),
        ("0.0000001", "+0.00001 %"),
        ("0.000000000001", "+0.000001 %"),
        ("1/3", "+33.33 %"),
    ],
)
def test_errors_are_spelled(value: str, text: str) -> None:
    assert amounts.error(Fraction(value)) == text


def test_shares_voltages_and_factors_are_spelled() -> None:
    assert amounts.share(Fraction(1, 10)) == "10 %"
    assert amounts.share(Fraction(1, 1000)) == "0.1 %"
    assert amounts.share(Fraction(50, 1_000_000)) == "50 ppm"
    assert amounts.share(Fraction(1, 3)) == "about 33.3333 %"
    assert amounts.volts(Fraction("2.7")) == "2.7 V"
    assert amounts.factor(Fraction(1, 8)) == "÷ 8"
    assert amounts.factor(Fraction(1)) == "÷ 1"
    assert amounts.factor(Fraction(3, 2)).endswith(" 3 ÷ 2")
    assert amounts.factor(Fraction(4)).endswith(" 4")


def test_a_least_supply_is_never_rounded_down() -> None:
    assert amounts.volts(Fraction(7, 3)) == "2.334 V"


@settings(STEADY, max_examples=60)
@given(st.integers(1, 10**9), st.integers(0, 10**6 - 1))
def test_a_frequency_that_is_spelled_can_be_read_again(whole: int, millionths: int) -> None:
    value = Fraction(whole * 1_000_000 + millionths, 1_000_000)
    text = amounts.hertz(value)
    read = amounts.read_frequency(text.removeprefix("about "))
    if "about" in text:
        assert abs(read / value - 1) < Fraction(1, 10**6)
    else:
        assert read == value


@settings(STEADY, max_examples=60)
@given(st.integers(0, 10**12), st.integers(1, 10**6), st.integers(0, 9))
def test_decimals_agree_with_the_decimal_module(top: int, bottom: int, most: int) -> None:
    # an independent rounding: decimal's own, half to even, on far more digits than are kept
    exact = (Decimal(top) / Decimal(bottom)).quantize(Decimal(1).scaleb(-most))
    assert Decimal(amounts.decimal(Fraction(top, bottom), most)) == exact
