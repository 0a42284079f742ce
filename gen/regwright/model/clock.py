"""The clock: where it comes from, what divides it, how fast it may be, what is made from it."""

from fractions import Fraction
from typing import NamedTuple

from regwright.model.configuration import SettingIs
from regwright.model.origin import Origin


class ClockSource(NamedTuple):
    """A source; frequencies in hertz, ``tolerance`` in parts of one (a tenth for 10 %)."""

    name: str
    kind: str
    title: str | None = None
    frequency: Fraction | None = None
    lowest: Fraction | None = None
    highest: Fraction | None = None
    tolerance: Fraction | None = None
    when: tuple[SettingIs, ...] = ()
    page: int | None = None
    origin: Origin = None


class ClockOption(NamedTuple):
    """What a divider does at a setting's ``choice`` or a field's ``value``."""

    choice: str | None = None
    value: int | None = None
    divide: int = 1
    multiply: int = 1
    origin: Origin = None


class ClockDivider(NamedTuple):
    """A divider that a configuration's ``setting`` or a register's ``field`` decides."""

    name: str
    options: tuple[ClockOption, ...]
    title: str | None = None
    setting: str | None = None
    field: str | None = None
    when: tuple[SettingIs, ...] = ()
    page: int | None = None
    origin: Origin = None


class ClockLimit(NamedTuple):
    """From ``supply`` (volts) on, the CPU may run at ``highest`` (hertz)."""

    supply: Fraction
    highest: Fraction
    page: int | None = None
    origin: Origin = None


class Rate(NamedTuple):
    """A rate of a timer (hertz) or serial port (baud): the ``clock`` over three factors.

    They are ``scale``, what the field ``prescale`` stands for, and the number in ``divisor`` with
    ``plus`` added. ``divisor`` names the register or field that holds it, or several from the high
    end to the low end. ``clock`` is the name of a source, ``None`` for the CPU's clock.
    """

    name: str
    kind: str
    divisor: tuple[str, ...]
    title: str | None = None
    clock: str | None = None
    scale: int = 1
    prescale: str | None = None
    plus: int = 0
    lowest: int | None = None
    highest: int | None = None
    options: tuple[ClockOption, ...] = ()
    page: int | None = None
    notes: str | None = None
    origin: Origin = None


class Clock(NamedTuple):
    """The whole tree; supplies in volts. ``constant`` is the firmware's own macro for its clock."""

    sources: tuple[ClockSource, ...]
    constant: str | None = None
    lowest_supply: Fraction | None = None
    highest_supply: Fraction | None = None
    between: str = "step"
    dividers: tuple[ClockDivider, ...] = ()
    limits: tuple[ClockLimit, ...] = ()
    rates: tuple[Rate, ...] = ()
    origin: Origin = None
