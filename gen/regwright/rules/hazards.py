"""Rules on hazards, and on the settings and choices that are named elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from regwright.configuration.decode import choices_of, takes_number
from regwright.configuration.encode import BadSetting, value_of
from regwright.configuration.words import place_of, places
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
    """A setting or choice is named that there is not, or that can never be.

    ## What it catches
    A `when` of a hazard, clock source or divider, a divider's `setting` and its options, with a
    setting or choice that the configuration does not have; a `when` that wants two choices of one
    setting at once.

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
    for hazard in chip.configuration.hazards if chip.configuration else ():
        yield from _condition(chip, hazard.when, settings, hazard.origin)
    yield from _of_clock(chip, settings)


def clock_names_unknown(chip: Chip) -> bool:
    """Tell whether the clock names a setting or choice that there is not, or can never be."""
    return next(_of_clock(chip, _settings(chip)), None) is not None


def is_contradiction(chip: Chip, when: tuple[SettingIs, ...]) -> bool:
    """Tell whether ``when`` wants two choices of one setting at once."""
    wanted: dict[str, int | str] = {}
    for setting, choice in when:
        value = _value(chip, setting, choice)
        if wanted.setdefault(setting, value) != value:
            return True
    return False


def _value(chip: Chip, setting: str, choice: str) -> int | str:
    """Return the value of ``choice``; its name when it has none."""
    found = place_of(chip.configuration, setting) if chip.configuration else None
    if chip.configuration is None or found is None:
        return choice
    try:
        return value_of(chip.configuration, found[1], choice)
    except BadSetting:
        return choice


def _of_clock(chip: Chip, settings: dict[str, list[str] | None]) -> Iterator[Problem]:
    if chip.clock is None:
        return
    for source in chip.clock.sources:
        yield from _condition(chip, source.when, settings, source.origin)
    for divider in chip.clock.dividers:
        yield from _condition(chip, divider.when, settings, divider.origin)
    for divider in chip.clock.dividers:
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


def _condition(
    chip: Chip,
    when: tuple[SettingIs, ...],
    settings: dict[str, list[str] | None],
    origin: Origin,
) -> Iterator[Problem]:
    is_known = True
    for setting, choice in when:
        for problem in _unknown(setting, choice, settings, (origin, "when")):
            is_known = False
            yield problem
    if is_known and is_contradiction(chip, when):
        message = "this can never be: it wants two choices of one setting at once; correct when="
        yield Problem(message, (origin, "when"))


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
