"""The chain from the clock's source through its dividers to the CPU."""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from regwright.clock.places import find, value_given
from regwright.configuration.decode import decode
from regwright.configuration.encode import BadSetting, value_of
from regwright.configuration.words import hexadecimal, place_of
from regwright.model.clock import Clock, ClockDivider, ClockOption, ClockSource
from regwright.model.configuration import SettingIs
from regwright.model.words import plural
from regwright.resolve.chip import ResolvedChip

#: What decides a step: a choice of the configuration, a register's value as it was given or as it
#: is after reset, or nothing.
SETTING, REGISTER, RESET, ALWAYS = "setting", "register", "reset", "always"

Settings = Mapping[str, str | None]
Numbers = Mapping[str, int]
Frequencies = Mapping[str, Fraction]


class Frequency(NamedTuple):
    """A frequency in hertz with its bounds.

    ``nominal`` is ``None`` when only the bounds are known: a source takes any crystal between
    them. All are ``None`` when nothing is known.
    """

    lowest: Fraction | None = None
    nominal: Fraction | None = None
    highest: Fraction | None = None

    def times(self, factor: Fraction) -> "Frequency":
        """Return it multiplied by ``factor``."""
        return Frequency(*(None if item is None else item * factor for item in self))


UNKNOWN = Frequency()


class Step(NamedTuple):
    """A divider on the way.

    ``factor`` is what the frequency is multiplied by, ``by`` what decides that
    (:data:`SETTING`, :data:`REGISTER`, :data:`RESET`, :data:`ALWAYS`), ``choice`` or ``value``
    what it says, ``after`` the frequency behind the divider.
    """

    divider: ClockDivider
    factor: Fraction
    by: str
    choice: str | None
    value: int | None
    after: Frequency


class Chain(NamedTuple):
    """The way of the clock: ``start`` is the source's frequency, ``cpu`` the CPU's.

    ``problems`` say why the chain ends before the CPU, in sentences; ``cpu`` is
    :data:`UNKNOWN` then.
    """

    source: ClockSource | None
    start: Frequency
    steps: tuple[Step, ...]
    cpu: Frequency
    problems: tuple[str, ...] = ()


def holds(when: tuple[SettingIs, ...], settings: Settings) -> bool:
    """Tell whether ``settings`` have every choice that ``when`` wants.

    A setting that is a plain number is compared as it is spelled, in hexadecimal.
    """
    return all((settings.get(name) or "").lower() == choice.lower() for name, choice in when)


def sources_chosen(clock: Clock, settings: Settings) -> list[ClockSource]:
    """Return the sources that fit ``settings``; one that they choose outdoes those always there."""
    fitting = [source for source in clock.sources if holds(source.when, settings)]
    return [source for source in fitting if source.when] or fitting


def source_frequency(source: ClockSource, given: Fraction | None = None) -> Frequency:
    """Return the frequency of ``source``; ``given`` is that of the part connected to it.

    Without a tolerance, an internal oscillator's own bounds are how far it may be off.
    """
    nominal = source.frequency if given is None else given
    if nominal is None:
        return Frequency(source.lowest, None, source.highest)
    if source.tolerance is None and source.kind == "internal":
        low, high = source.lowest or nominal, source.highest or nominal
        return Frequency(min(low, nominal), nominal, max(high, nominal))
    off = source.tolerance or Fraction(0)
    return Frequency(nominal * max(1 - off, Fraction(0)), nominal, nominal * (1 + off))


def factor_of(option: ClockOption) -> Fraction:
    """Return what ``option`` multiplies the frequency by."""
    return Fraction(option.multiply, option.divide)


def chain(
    resolved: ResolvedChip,
    settings: Settings,
    registers: Numbers | None = None,
    frequencies: Frequencies | None = None,
) -> Chain:
    """Return the chain under ``settings``, each setting's choice by its name.

    ``registers`` are the values of registers and of ``REGISTER.FIELD``s that differ from reset,
    ``frequencies`` in hertz those of crystals and external clocks, by the source's name. A chip
    without a clock has a chain without a source.
    """
    clock = resolved.chip.clock
    if clock is None:
        return Chain(None, UNKNOWN, (), UNKNOWN, (f"{resolved.chip.name} describes no clock",))
    chosen = sources_chosen(clock, settings)
    if len(chosen) != 1:
        return Chain(None, UNKNOWN, (), UNKNOWN, (_no_one_source(clock, chosen, settings),))
    source = chosen[0]
    start = source_frequency(source, (frequencies or {}).get(source.name))
    decide = _Decider(resolved, settings, registers or {})
    steps, problems, now = [], [], start
    for divider in clock.dividers:
        if not holds(divider.when, settings):
            continue
        step, problem = decide.step(divider, now)
        if step is None:
            problems.append(problem)
            continue
        steps.append(step)
        now = step.after
    cpu = UNKNOWN if problems else now
    return Chain(source, start, tuple(steps), cpu, tuple(problems))


def default_settings(resolved: ResolvedChip) -> dict[str, str | None]:
    """Return the settings of the chip as it is delivered; none when it has no configuration."""
    configuration = resolved.chip.configuration
    if configuration is None:
        return {}
    return decode(configuration, {})


def default_chain(resolved: ResolvedChip) -> Chain:
    """Return the chain of the chip as it is delivered, after reset."""
    return chain(resolved, default_settings(resolved))


def _no_one_source(clock: Clock, chosen: list[ClockSource], settings: Settings) -> str:
    """Say why no source is the one."""
    if chosen:
        both = " and ".join(source.name for source in chosen)
        return f"{plural(len(chosen), 'source')} fit the settings: {both}; correct when= of them"
    asked = sorted({item.setting for source in clock.sources for item in source.when})
    has = ", ".join(f"{name} = {settings.get(name) or 'a value without a name'}" for name in asked)
    return f"no source fits the settings ({has}); choose another, or describe the source"


class _Decider:
    """Finds out what each divider does."""

    def __init__(self, resolved: ResolvedChip, settings: Settings, registers: Numbers) -> None:
        self._resolved = resolved
        self._settings = settings
        self._registers = registers

    def step(self, divider: ClockDivider, now: Frequency) -> tuple[Step | None, str]:
        """Return the step that ``divider`` is for the frequency ``now``, or why there is none."""
        by, choice, value, problem = self._decision(divider)
        if problem:
            return None, problem
        for option in divider.options:
            named = choice is not None and option.choice == choice
            numbered = value is not None and option.choice is None and option.value == value
            if by == ALWAYS or named or (numbered if by == SETTING else option.value == value):
                factor = factor_of(option)
                return Step(divider, factor, by, choice, value, now.times(factor)), ""
        decided = divider.setting if by == SETTING else divider.field
        shown = choice if by == SETTING else hexadecimal(value or 0)
        return None, f"{divider.name}: the description has no option for {decided} = {shown}"

    def _decision(self, divider: ClockDivider) -> tuple[str, str | None, int | None, str]:
        """Return what decides, the choice or value it says, and what is wrong with it, if so.

        With a setting and a field, the setting decides what the field is after reset.
        """
        part = None
        if divider.field is not None:
            part = find(self._resolved, divider.field)
            if part is None:
                return "", None, None, f"{divider.name}: {divider.field} is no field here"
            given = value_given(self._resolved, part, self._registers)
            if given is not None:
                return REGISTER, None, given, ""
        if divider.setting is not None:
            choice = self._settings.get(divider.setting)
            missing = "" if choice else f"{divider.name}: {divider.setting} has no named choice"
            return SETTING, choice, self._value_of(divider.setting, choice), missing
        if part is not None:
            unknown = f"{divider.name}: the description gives no value of {part.name} after reset"
            return RESET, None, part.reset, "" if part.reset is not None else unknown
        many = "" if len(divider.options) == 1 else f"{divider.name}: nothing decides its option"
        return ALWAYS, None, None, many

    def _value_of(self, setting: str, choice: str | None) -> int | None:
        """Return the value that ``choice`` of ``setting`` stands for, if it can be told."""
        configuration = self._resolved.chip.configuration
        found = place_of(configuration, setting) if configuration else None
        if configuration is None or found is None or choice is None:
            return None
        try:
            return value_of(configuration, found[1], choice)
        except BadSetting:
            return None
