"""Rules on what decides the clock: settings that no source or divider answers to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import product
from math import prod

from regwright.clock.chain import default_settings, sources_chosen
from regwright.clock.places import find
from regwright.configuration.decode import choices_of
from regwright.configuration.words import place_of
from regwright.model.clock import Clock, ClockDivider
from regwright.model.configuration import Choice
from regwright.model.finding import WARNING
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.hazards import clock_names_unknown

#: So many combinations of choices are tried.
_MOST = 4096
#: So many of those without a source are named.
_NAMED = 4


@rule("clock-incomplete", WARNING)
def clock_incomplete(subject: Subject) -> Iterator[Problem]:
    """What the clock does under some setting is not described.

    ## What it catches
    A choice of the settings that decide the source, or a combination of their choices, to which
    no source belongs; a source that no choice leads to; an internal source without a frequency; a
    choice of a divider's setting, or a named value of its field, for which the divider has no
    option. Of several settings, at most 4096 combinations are tried.

    ## Why it matters
    Whoever makes this choice gets no frequency, no divisor, and no warning that the CPU is too
    fast.

    ## Example
    Choices `internal`, `crystal` and `external`, and sources for the first two.

    ## Instead
    Add `<source name="external" kind="external" when="clock-source = external"/>`.

    ## When to silence it
    Where the choice is there, but must not be used.
    """
    clock = subject.chip.clock
    if clock is None:
        return
    for source in clock.sources:
        bounds = (source.frequency, source.lowest, source.highest)
        if source.kind == "internal" and bounds == (None, None, None):
            message = f"{source.name} is within the chip, but has no frequency; look it up"
            yield Problem(message, source.origin)
    if clock_names_unknown(subject.chip):
        return
    yield from _sources(subject, clock)
    for divider in clock.dividers:
        yield from _choices_left_out(subject, divider)
        yield from _values_left_out(subject, divider)


def _choices(subject: Subject, setting: str) -> tuple[Choice, ...]:
    """Return the choices of ``setting``; none of one that holds a plain number."""
    configuration = subject.chip.configuration
    found = place_of(configuration, setting) if configuration else None
    return choices_of(configuration, found[1]) if configuration and found else ()


def _reported(subject: Subject) -> Mapping[str, str | None]:
    """Return the settings as delivered, if another rule says that they lead to no frequency."""
    said = any(item.rule == "clock-contradicts" for item in subject.findings)
    return default_settings(subject.resolved) if said else {}


def _sources(subject: Subject, clock: Clock) -> Iterator[Problem]:
    settings = list(dict.fromkeys(item.setting for one in clock.sources for item in one.when))
    choices = [_choices(subject, setting) for setting in settings]
    if not settings or not all(choices) or prod(map(len, choices)) > _MOST:
        return
    reached: set[str] = set()
    without = []
    for row in product(*choices):
        names = {name: one.name for name, one in zip(settings, row, strict=True)}
        chosen = sources_chosen(clock, names)
        reached.update(source.name for source in chosen)
        if not chosen:
            without.append(row)
    for source in clock.sources:
        if source.name not in reached:
            message = f"no choice leads to {source.name}; each has another source, correct when="
            yield Problem(message, source.origin)
    told = _reported(subject)
    if len(settings) == 1:
        without = [row for row in without if row[0].name != told.get(settings[0])]
    yield from _without_source(settings, choices, without, clock)


def _without_source(
    settings: list[str],
    choices: list[tuple[Choice, ...]],
    rows: list[tuple[Choice, ...]],
    clock: Clock,
) -> Iterator[Problem]:
    """Report each choice that has no source whatever else is chosen, then the rest as one."""
    every = prod(len(item) for item in choices)
    alone: set[tuple[int, str]] = set()
    for index, setting in enumerate(settings):
        counted = Counter(row[index].name for row in rows)
        for choice in choices[index]:
            if counted[choice.name] * len(choices[index]) == every:
                alone.add((index, choice.name))
                message = f"{setting} = {choice.name} has no source; describe it in the clock"
                yield Problem(message, choice.origin or clock.origin)
    left = [row for row in rows if not any((i, one.name) in alone for i, one in enumerate(row))]
    if left:
        named = [
            " and ".join(f"{name} = {one.name}" for name, one in zip(settings, row, strict=True))
            for row in left[:_NAMED]
        ]
        more = f" and {len(left) - _NAMED} more" if len(left) > _NAMED else ""
        message = f"there is no source for {'; '.join(named)}{more}; describe it"
        yield Problem(message, clock.origin)


def _choices_left_out(subject: Subject, divider: ClockDivider) -> Iterator[Problem]:
    if divider.setting is None:
        return
    told = _reported(subject).get(divider.setting)
    possible = {item.choice for item in divider.when if item.setting == divider.setting}
    names = {option.choice for option in divider.options}
    values = {option.value for option in divider.options if option.choice is None}
    for choice in _choices(subject, divider.setting):
        if choice.name == told or (possible and choice.name not in possible):
            continue
        if choice.name not in names and choice.value not in values:
            message = f"{divider.name} has no option for {divider.setting} = {choice.name}"
            yield Problem(f"{message}; add it", divider.origin)


def _values_left_out(subject: Subject, divider: ClockDivider) -> Iterator[Problem]:
    part = find(subject.resolved, divider.field) if divider.field is not None else None
    if part is None or part.field is None:
        return
    values = {option.value for option in divider.options}
    for item in part.field.field.values:
        if item.value not in values and item.usage != "read":
            message = f"{divider.name} has no option for {part.name} = {item.name}"
            yield Problem(f"{message} ({item.value}); add it", divider.origin)
