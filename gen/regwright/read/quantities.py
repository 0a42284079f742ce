"""Turn spelled quantities into exact numbers. The schema has checked the spelling."""

from __future__ import annotations

from fractions import Fraction

from regwright.model.configuration import SettingIs

_UNITS = {
    "Hz": Fraction(1),
    "kHz": Fraction(1000),
    "MHz": Fraction(1_000_000),
    "GHz": Fraction(1_000_000_000),
    "V": Fraction(1),
    "mV": Fraction(1, 1000),
    "%": Fraction(1, 100),
    "ppm": Fraction(1, 1_000_000),
}


def quantity(text: str | None) -> Fraction | None:
    """Return ``8 MHz`` in hertz, ``2.7 V`` in volts, ``10 %`` in parts of one."""
    if text is None:
        return None
    value, _, unit = text.partition(" ")
    return Fraction(value) * _UNITS[unit]


def settings(text: str | None) -> tuple[SettingIs, ...]:
    """Return the conditions that ``clock-source = crystal and …`` stands for."""
    pairs = (item.partition("=") for item in text.split(" and ")) if text else ()
    return tuple(SettingIs(setting.strip(), choice.strip()) for setting, _, choice in pairs)
