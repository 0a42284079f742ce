"""Which hazards words have, and by which settings they come about."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from regwright.configuration.decode import choices_of, decode
from regwright.configuration.encode import BadSetting, value_of
from regwright.configuration.words import place_of, places
from regwright.model.configuration import Configuration, Hazard, SettingIs

#: What each kind of hazard means.
KINDS = {
    "locks-out": "can keep the programmer or debugger out",
    "needs-hardware": "needs hardware that may not be there",
    "other": "is hard to undo",
}

#: Settings that together cause a hazard.
Cause = tuple[SettingIs, ...]


class Caused(NamedTuple):
    """A hazard and what causes it, each cause enough by itself."""

    hazard: Hazard
    causes: tuple[Cause, ...]


def known_hazards(configuration: Configuration) -> tuple[Caused, ...]:
    """Return every hazard with all that can cause it, in the order of the description.

    A hazard that only a choice names, and nothing describes, comes last.
    """
    found = {item.name: item for item in configuration.hazards}
    causes: dict[str, list[Cause]] = {name: [] for name in found}
    for _, field in places(configuration):
        for choice in choices_of(configuration, field):
            for name in choice.hazards:
                found.setdefault(name, Hazard(name, "other"))
                causes.setdefault(name, []).append((SettingIs(field.setting, choice.name),))
    for hazard in configuration.hazards:
        if hazard.when:
            causes[hazard.name].append(hazard.when)
    return tuple(Caused(item, tuple(causes[name])) for name, item in found.items())


def hazards_of(configuration: Configuration, words: Mapping[str, int]) -> tuple[Caused, ...]:
    """Return the hazards that ``words`` have, each with what causes it there."""
    chosen = decode(configuration, words)
    found = []
    for hazard, causes in known_hazards(configuration):
        here = tuple(cause for cause in causes if _holds(configuration, chosen, cause))
        if here:
            found.append(Caused(hazard, here))
    return tuple(found)


def added_hazards(before: Iterable[Caused], after: Iterable[Caused]) -> tuple[Caused, ...]:
    """Return the hazards of ``after`` that have a cause which those of ``before`` had not.

    Only the new causes are kept.
    """
    old = {(item.hazard.name, cause) for item in before for cause in item.causes}
    found = []
    for hazard, causes in after:
        new = tuple(cause for cause in causes if (hazard.name, cause) not in old)
        if new:
            found.append(Caused(hazard, new))
    return tuple(found)


def _holds(configuration: Configuration, chosen: Mapping[str, str | None], cause: Cause) -> bool:
    return all(_is(configuration, chosen.get(name), name, choice) for name, choice in cause)


def _is(configuration: Configuration, now: str | None, setting: str, choice: str) -> bool:
    """Tell whether a setting is what a cause names; a plain number may be spelled in any base."""
    if now is None or now == choice:
        return now == choice
    found = place_of(configuration, setting)
    if found is None:
        return False
    try:
        field = found[1]
        return value_of(configuration, field, now) == value_of(configuration, field, choice)
    except BadSetting:  # a rule reports a choice that there is not
        return False


def cause_in_words(cause: Cause) -> str:
    """Return ``reset-pin = off and debugger = off``."""
    return " and ".join(f"{setting} = {choice}" for setting, choice in cause)
