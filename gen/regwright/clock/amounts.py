"""Spell frequencies, voltages, rates and errors; read those of a command line."""

from __future__ import annotations

import re
from fractions import Fraction

from regwright.read.quantities import quantity

_SPELLED = re.compile(r"([0-9]{1,9}(?:\.[0-9]{1,9})?) ?([A-Za-z]*)")
_FREQUENCIES = {"hz": "Hz", "khz": "kHz", "mhz": "MHz", "ghz": "GHz"}
_VOLTAGES = {"v": "V", "mv": "mV"}
_STEPS = ((10**9, "GHz"), (10**6, "MHz"), (10**3, "kHz"))
_LONGEST = 40
_TIMES = "\N{MULTIPLICATION SIGN}"
#: Frequencies are shown with this many decimals at most, voltages and errors with fewer.
_DECIMALS = 6


class BadAmount(ValueError):
    """A text is no such amount; the message says what is wanted."""


def read_frequency(text: str, *, may_be_zero: bool = False) -> Fraction:
    """Return ``16MHz`` or ``32.768 kHz`` in hertz. Raises :class:`BadAmount`."""
    wanted = "a frequency with its unit, as 16MHz or 32.768kHz"
    return _read(text, _FREQUENCIES, wanted, may_be_zero=may_be_zero)


def read_voltage(text: str) -> Fraction:
    """Return ``3.3V`` or ``3300 mV`` in volts. Raises :class:`BadAmount`."""
    return _read(text, _VOLTAGES, "a voltage with its unit, as 3.3V or 3300mV")


def read_baud(text: str) -> Fraction:
    """Return ``9600`` or ``134.5``. Raises :class:`BadAmount`."""
    return _read(text, {"": "Hz"}, "a rate in baud, as 9600 or 134.5")


def _read(text: str, units: dict[str, str], wanted: str, *, may_be_zero: bool = False) -> Fraction:
    found = _SPELLED.fullmatch(text.strip())
    unit = units.get(found[2].lower()) if found else None
    if found is None or unit is None:
        raise BadAmount(f"{text[:_LONGEST]!r} is not {wanted}")
    if unit == "MHz" and found[2].startswith("m"):
        raise BadAmount(f"{text[:_LONGEST]!r} would be millihertz; write {found[1]}MHz")
    amount = quantity(f"{found[1]} {unit}")
    if amount is None or not (amount or may_be_zero):
        raise BadAmount(f"{text[:_LONGEST]!r} is nothing; {wanted} is wanted")
    return amount


def decimal(value: Fraction, most: int) -> str:
    """Return ``value``, which is not negative, rounded to ``most`` decimals, without zeros."""
    scaled = round(value * 10**most)
    whole, rest = divmod(scaled, 10**most)
    digits = f"{rest:0{most}d}".rstrip("0") if most else ""
    return f"{whole}.{digits}" if digits else str(whole)


def _is_exact(value: Fraction, most: int) -> bool:
    scaled: Fraction = value * 10**most
    return scaled.denominator == 1


def hertz(value: Fraction) -> str:
    """Return a frequency as ``1.8432 MHz``, with ``about`` before it when it is rounded."""
    scale, unit = next(((scale, unit) for scale, unit in _STEPS if value >= scale), (1, "Hz"))
    return _about(value / scale, _DECIMALS if value >= 1 else 9) + f" {unit}"


def baud(value: Fraction) -> str:
    """Return a rate of a serial port as ``9615.385``."""
    return decimal(value, 3)


def volts(value: Fraction) -> str:
    """Return a voltage as ``3.3 V``; one that is no plain decimal is rounded up."""
    rounded = Fraction(-(-value * 1000 // 1), 1000)
    return f"{decimal(rounded, 3)} V"


def _about(value: Fraction, most: int) -> str:
    return ("" if _is_exact(value, most) else "about ") + decimal(value, most)


def share(value: Fraction) -> str:
    """Return parts of one as ``10 %``, or ``50 ppm`` when they are few."""
    if 0 < value < Fraction(1, 1000):
        return f"{_about(value * 1_000_000, 3)} ppm"
    return f"{_about(value * 100, 4)} %"


def error(value: Fraction) -> str:
    """Return an error in parts of one as ``+0.16 %`` or ``-2.12 %``; ``0 %`` is exact."""
    if not value:
        return "0 %"
    sign = "-" if value < 0 else "+"
    percent = abs(value) * 100
    for places in (2, 4, _DECIMALS):
        if round(percent, places):
            return f"{sign}{decimal(percent, places)} %"
    return f"{sign}0.000001 %"


def factor(value: Fraction) -> str:
    """Return what a step does to a frequency as ``÷ 8``, or with the sign of multiplication."""
    over = f"÷ {value.denominator}"
    if value.numerator == 1:
        return over
    return f"{_TIMES} {value.numerator}" + (f" {over}" if value.denominator > 1 else "")
