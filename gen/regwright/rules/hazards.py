"""Rules on hazards, and on the settings and choices that are named elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from regwright.configuration.decode import choices_of, takes_number
from regwright.configuration.words import places
from regwright.model.chip import Chip
from regwright.model.configuration import SettingIs
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.model.words import nearest
from regwright.rules.catalogue import Problem, Subject, rule


@rule("hazard-without-caution", ERROR)
def hazard_without_caution(subject: Subject) -> Iterator[Problem]:
    """A hazard does not say what happens.

    ## What it catches
    A hazard without a `caution`, one that no choice names and that has no `when`, a hazard that
    is described twice, and a choice that names a hazard which is not described.

    ## Why it matters
    Whoever is about to make a chip unreachable has a right to know how, and what to check before.

    ## Example
    `<hazard name="no-reset-pin" kind="locks-out"/>`

    ## Instead
    Add `caution="a programmer in the circuit starts with the reset pin and …"`.

    ## When to silence it
    Never.
    """
    configuration = subject.chip.configuration
    if configuration is None:
        return
    described = [hazard.name for hazard in configuration.hazards]
    named: set[str] = set()
    for _, field in places(configuration):
        for choice in field.choices:
            named.update(choice.hazards)
            for name in choice.hazards:
                if name not in described:
                    message = f"{choice.name} of {field.setting} has the hazard {name}, which is "
                    message += f"not described{_near(name, described)}"
                    yield Problem(message, (choice.origin, "hazards"), name)
    seen: set[str] = set()
    for hazard in configuration.hazards:
        if hazard.name in seen:
            message = f"{hazard.name} is a hazard already; give this one another name"
            yield Problem(message, (hazard.origin, "name"))
        seen.add(hazard.name)
        if not hazard.caution:
            message = f"{hazard.name} has no caution; say what happens and what to check before"
            yield Problem(message, hazard.origin)
        if hazard.name not in named and not hazard.when:
            message = f"nothing causes {hazard.name}; name it at a choice, or say when"
            yield Problem(message, hazard.origin)


@rule("unknown-setting", ERROR)
def unknown_setting(subject: Subject) -> Iterator[Problem]:
    """A setting or choice is named that there is not.

    ## What it catches
    A `when` of a hazard, clock source or divider, a divider's `setting` and its options, with a
    setting or choice that the configuration does not have.

    ## Why it matters
    The hazard would never be seen, the clock never be found.

    ## Example
    `when="clock-sorce = crystal"`

    ## Instead
    `when="clock-source = crystal"`

    ## When to silence it
    Never.
    """
    chip = subject.chip
    settings = _settings(chip)
    for conditions, origin in _conditions(chip):
        for setting, choice in conditions:
            yield from _unknown(setting, choice, settings, (origin, "when"))
    for divider in chip.clock.dividers if chip.clock else ():
        if divider.setting is None:
            continue
        if divider.setting not in settings:
            message = f"there is no setting {divider.setting}{_near(divider.setting, settings)}"
            yield Problem(message, (divider.origin, "setting"))
            continue
        for option in divider.options:
            if option.choice is not None:
                where = (option.origin, "choice")
                yield from _unknown(divider.setting, option.choice, settings, where)


def _settings(chip: Chip) -> dict[str, list[str] | None]:
    """Return the choices of each setting; ``None`` for one that holds a plain number."""
    if chip.configuration is None:
        return {}
    return {
        field.setting: None
        if takes_number(field)
        else [item.name for item in choices_of(chip.configuration, field)]
        for _, field in places(chip.configuration)
    }


def _conditions(chip: Chip) -> Iterator[tuple[tuple[SettingIs, ...], Origin]]:
    for hazard in chip.configuration.hazards if chip.configuration else ():
        yield hazard.when, hazard.origin
    if chip.clock:
        for source in chip.clock.sources:
            yield source.when, source.origin
        for divider in chip.clock.dividers:
            yield divider.when, divider.origin


def _unknown(
    setting: str, choice: str, settings: dict[str, list[str] | None], origin: Origin
) -> Iterator[Problem]:
    choices = settings.get(setting)
    if setting not in settings:
        message = f"there is no setting {setting}{_near(setting, settings)}"
        yield Problem(message, origin, setting)
    elif choices is not None and choice not in choices:
        message = f"{setting} has no choice {choice}{_near(choice, choices)}"
        yield Problem(message, origin, choice)


def _near(name: str, known: Iterable[str]) -> str:
    names = list(known)
    near = nearest(name, names)
    if near:
        return f"; did you mean {near}?"
    return f"; there are {', '.join(names)}" if names else "; there are none"
