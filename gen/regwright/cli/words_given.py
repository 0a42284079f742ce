"""Read ``WORD=VALUE`` and ``SETTING=CHOICE`` of a command line, for a chip's configuration."""

from __future__ import annotations

import re
from collections.abc import Iterable

import click

from regwright.configuration.decode import choices_of, takes_number
from regwright.configuration.encode import BadSetting, value_of
from regwright.configuration.hazards import known_hazards
from regwright.configuration.words import every_bit, hexadecimal, place_of, places
from regwright.format.shape import definition
from regwright.model.configuration import Configuration, ConfigurationField
from regwright.model.words import nearest, visible
from regwright.read.hints import hint
from regwright.read.numbers import number
from regwright.resolve.layout import layout

_LONGEST = 80
_MOST_LISTED = 40


def words_of(texts: Iterable[str], configuration: Configuration) -> dict[str, int]:
    """Return the words that ``texts`` give, each as ``low=0x62``, by their names.

    Raises ``click.UsageError`` for what cannot be read, is no word or does not fit.
    """
    words = {word.name: word for word in configuration.words}
    found: dict[str, int] = {}
    for text in texts:
        name, value = _pair(text, "WORD=VALUE", "low=0x62")
        if name not in words:
            instead = ""
            if place_of(configuration, name):
                instead = f"it is a setting, give --set {name}=CHOICE"
            raise _unknown("configuration word", name, words, instead)
        read = number_of(value, name)
        if read > every_bit(words[name]):
            raise _bad(f"{value} does not fit into {name}, which has {words[name].width} bits")
        if found.setdefault(name, read) != read:
            raise _bad(f"{name} is given twice, and not alike; give it once")
    return found


def settings_of(texts: Iterable[str], configuration: Configuration) -> dict[str, str]:
    """Return the choices that ``texts`` make, each as ``clock-divider=off``, by their settings.

    Raises ``click.UsageError`` for what cannot be read, and for settings and choices that there
    are not.
    """
    found: dict[str, str] = {}
    for text in texts:
        name, choice = _pair(text, "SETTING=CHOICE", "clock-divider=off")
        place = place_of(configuration, name)
        if place is None:
            is_word = any(word.name == name for word in configuration.words)
            instead = f"it is a word, give {name}=VALUE without --set" if is_word else ""
            known = [field.setting for _, field in places(configuration)]
            raise _unknown("setting", name, known, instead)
        checked = choice_of(choice, configuration, place[1])
        if found.setdefault(name, checked) != checked:
            raise _bad(f"{name} is set twice, and not alike; set it once")
    return found


def choice_of(text: str, configuration: Configuration, field: ConfigurationField) -> str:
    """Return the choice of ``field`` that ``text`` names; of a plain number, its digits.

    Raises ``click.UsageError``.
    """
    names = [item.name for item in choices_of(configuration, field)]
    is_number = takes_number(field)
    if is_number:
        number_of(text, field.setting)
    elif text not in names:
        raise _unknown(f"choice of {field.setting}", text, names)
    try:
        value = value_of(configuration, field, text)
    except BadSetting as problem:
        raise _bad(str(problem)) from None
    return hexadecimal(value, layout(field.bits).width) if is_number else text


def hazards_named(texts: Iterable[str], configuration: Configuration) -> tuple[str, ...]:
    """Return the hazards that ``texts`` name. Raises ``click.UsageError`` for unknown ones."""
    known = [item.hazard.name for item in known_hazards(configuration)]
    names = [text.strip() for text in texts]
    for name in names:
        if name not in known:
            raise _unknown("hazard", name, known)
    return tuple(dict.fromkeys(names))


def number_of(text: str, what: str) -> int:
    """Return the number ``text``, which says its base. Raises ``click.UsageError``."""
    specification = definition("number")
    if len(text) <= specification["maxLength"] and re.fullmatch(specification["pattern"], text):
        return number(text)
    meant = hint(text, specification)
    raise _bad(
        f"{what}: {text[:_LONGEST]!r} is no number that says its base, as 0x62, 0b0110_0010 "
        f"or 0d98{meant}"
    )


def _pair(text: str, form: str, example: str) -> tuple[str, str]:
    name, sign, value = (part.strip() for part in text.partition("="))
    if not (name and sign and value):
        raise _bad(f"{text[:_LONGEST]!r} is not {form}, as {example}")
    return name, value


def _unknown(what: str, name: str, known: Iterable[str], instead: str = "") -> click.UsageError:
    """Return what to say about a name that there is not: what it may be, and what there is."""
    names = list(known)
    near = None if instead else nearest(name, names)
    start = f"did you mean {near}? There are" if near else "there are"
    listed = ", ".join(names[:_MOST_LISTED]) or "none"
    more = f" and {len(names) - _MOST_LISTED} more" if len(names) > _MOST_LISTED else ""
    advice = instead or f"{start} {listed}{more}"
    return _bad(f"there is no {what} {name[:_LONGEST]!r}; {advice}")


def _bad(message: str) -> click.UsageError:
    return click.UsageError(visible(message))
