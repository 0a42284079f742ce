"""What ``regwright clock`` reads, prints and writes, and with which code it ends."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

import click

from regwright.cli.described import described
from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.outputs import refuse_inputs, reports_of
from regwright.cli.words_given import number_of, settings_of, words_of
from regwright.clock.amounts import BadAmount, hertz, read_baud, read_frequency, read_voltage
from regwright.clock.answer import Question, answer
from regwright.clock.chain import Settings, source_frequency, sources_chosen
from regwright.clock.places import RegisterPart, find, names
from regwright.clock.rates import SERIAL, TIMER
from regwright.configuration.decode import decode
from regwright.configuration.encode import encode
from regwright.configuration.words import current_words
from regwright.model.clock import Clock, ClockSource
from regwright.model.words import DESCRIPTION, nearest, visible
from regwright.reports.clock_forms import FORMS
from regwright.resolve.chip import ResolvedChip
from regwright.write.files import Pending, write

_LONGEST = 80
_MOST_LISTED = 12


def run(path: str, words: tuple[str, ...], options: dict[str, Any]) -> int:
    """Answer what the options ask of the description ``path``; return the exit code.

    Raises ``BadConfig``, ``CannotRead``, :class:`CannotWrite` and ``click.UsageError``.
    """
    outputs = reports_of(options)
    checked = described(path, "nothing was computed")
    if checked is None or checked.resolved is None:
        return COULD_NOT_RUN
    resolved = checked.resolved
    clock = resolved.chip.clock
    if clock is None:
        raise click.UsageError(
            f"{visible(path)} describes no clock: give it a clock with its sources, dividers and "
            "limits"
        )
    found = answer(resolved, clock, _question(resolved, clock, words, options))
    files = [
        Pending(Path(file), FORMS[form](found).encode("utf-8")) for form, file in outputs.files
    ]
    refuse_inputs((file for _, file in outputs.files), {path: DESCRIPTION})
    write(files)
    if outputs.stdout is not None:
        click.echo(FORMS[outputs.stdout](found).encode("utf-8"), nl=False)
    return CLEAN if found.is_fine else FINDINGS


def _question(
    resolved: ResolvedChip, clock: Clock, words: tuple[str, ...], options: dict[str, Any]
) -> Question:
    """Return what is asked. Raises ``click.UsageError``."""
    start, values = _words(resolved, words, options["settings"])
    configuration = resolved.chip.configuration
    settings = decode(configuration, values) if configuration is not None else {}
    supply = options["supply"]
    question = Question(
        values,
        settings,
        _registers(resolved, clock, options["registers"]),
        _frequencies(clock, settings, options["frequencies"]),
        None if supply is None else _amount(read_voltage, supply, "--supply"),
        tuple(_amount(read_baud, text, "--baud") for text in options["bauds"]),
        tuple(_amount(read_frequency, text, "--timer") for text in options["timers"]),
        options["rate"],
        start,
    )
    _refuse_rates(clock, question)
    return question


def _amount(read: Callable[[str], Fraction], text: str, option: str) -> Fraction:
    try:
        return read(text)
    except BadAmount as problem:
        raise _bad(f"{option}: {problem}") from None


def _bad(message: str) -> click.UsageError:
    return click.UsageError(visible(message))


def _words(
    resolved: ResolvedChip, words: tuple[str, ...], choices: tuple[str, ...]
) -> tuple[dict[str, int], dict[str, int]]:
    """Return the configuration words before settings are made, and with them."""
    configuration = resolved.chip.configuration
    if configuration is None:
        if words or choices:
            raise _bad(f"{resolved.chip.name} describes no configuration words; leave them out")
        return {}, {}
    given = words_of(words, configuration)
    values = encode(configuration, given, settings_of(choices, configuration))
    return current_words(configuration, given), values


def _registers(resolved: ResolvedChip, clock: Clock, texts: tuple[str, ...]) -> dict[str, int]:
    """Return the values of registers and fields, by their names. They decide a divider each."""
    parts = (find(resolved, divider.field) for divider in clock.dividers if divider.field)
    deciding = {part.name: part.placed.name for part in parts if part is not None}
    found: dict[str, int] = {}
    said: list[tuple[str, RegisterPart, int]] = []
    for text in texts:
        name, sign, value = (piece.strip() for piece in text.partition("="))
        if not (name and sign and value):
            example = next(iter(deciding), "CLOCK.DIVIDE")
            raise _bad(f"--register: {text[:_LONGEST]!r} is not NAME=VALUE, as {example}=0x3")
        part = find(resolved, name)
        if part is None:
            raise _unknown("register or field", name, names(resolved))
        if part.name not in deciding and part.name not in deciding.values():
            there = ", ".join(deciding) or "nothing but the configuration"
            raise _bad(f"{name} does not divide the clock on its way to the CPU; {there} does")
        number = number_of(value, name)
        if number >> part.width:
            raise _bad(f"{value} does not fit into {name}, which has {part.width} bits")
        for before, other, was in said:
            if _contradict(part, number, other, was):
                raise _bad(f"--register: {text} contradicts {before}; give one of them")
        said.append((text, part, number))
        found[part.name] = number
    return found


def _contradict(one: RegisterPart, value: int, other: RegisterPart, was: int) -> bool:
    """Tell whether two parts of one register want a bit of it to be 0 and 1."""
    if one.placed.name != other.placed.name:
        return False
    return bool((one.insert(value) ^ other.insert(was)) & one.mask & other.mask)


def _frequencies(clock: Clock, settings: Settings, texts: tuple[str, ...]) -> dict[str, Fraction]:
    """Return the frequencies of what is connected, by the names of their sources."""
    sources = {source.name: source for source in clock.sources}
    found: dict[str, Fraction] = {}
    for text in texts:
        name, sign, amount = (piece.strip() for piece in text.rpartition("="))
        if sign and name not in sources:
            raise _unknown("source of the clock", name, sources)
        source = sources[name] if sign else _chosen(clock, settings)
        read = partial(read_frequency, may_be_zero=source.lowest is not None)
        frequency = _amount(read, amount, "--frequency")
        _refuse_internal(source, frequency)
        if found.setdefault(source.name, frequency) != frequency:
            raise _bad(f"--frequency: {source.name} is given twice, and not alike; give it once")
    return found


def _chosen(clock: Clock, settings: Settings) -> ClockSource:
    chosen = sources_chosen(clock, settings)
    if len(chosen) == 1:
        return chosen[0]
    there = ", ".join(source.name for source in clock.sources)
    raise _bad(f"--frequency: the settings choose no one source; say which it is of, of {there}")


def _refuse_internal(source: ClockSource, frequency: Fraction) -> None:
    """Refuse a frequency for an oscillator of the chip that it cannot be calibrated to."""
    if source.kind != "internal":
        return
    lowest, nominal, highest = source_frequency(source)
    low, high = source.lowest or lowest, source.highest or highest
    if low is not None and high is not None and low <= frequency <= high:
        return
    own = f" of {hertz(nominal)}" if nominal is not None else ""
    raise _bad(
        f"--frequency is for a crystal or clock that is connected, but the clock comes from "
        f"{source.name}, an oscillator of the chip{own}; choose another source with --set"
    )


def _refuse_rates(clock: Clock, question: Question) -> None:
    """Refuse rates that no timer or serial port of the description can be asked for."""
    rates = {rate.name: rate for rate in clock.rates}
    if question.rate is not None and question.rate not in rates:
        raise _unknown("timer or serial port", question.rate, rates)
    asked = {SERIAL: question.bauds, TIMER: question.timers}
    if question.rate is not None:
        only = rates[question.rate]
        if not asked[only.kind]:
            option = "--baud 9600" if only.kind == SERIAL else "--timer 1kHz"
            raise _bad(f"--rate {only.name}: say which rate is wanted of it, as {option}")
        return
    for kind, noun in ((SERIAL, "serial port"), (TIMER, "timer")):
        if asked[kind] and not any(rate.kind == kind for rate in clock.rates):
            raise _bad(
                f"the clock has no rate of a {noun}: describe one with its scale, prescale and "
                "divisor"
            )


def _unknown(what: str, name: str, known: Iterable[str]) -> click.UsageError:
    there = list(known)
    near = nearest(name, there)
    few = ", ".join(there) if len(there) <= _MOST_LISTED else str(len(there))
    hint = f"did you mean {near}?" if near else f"there are {few or 'none'}"
    return _bad(f"there is no {what} {name[:_LONGEST]!r}; {hint}")
