"""From settings to words: no bit changes but those of the settings that are named."""

from __future__ import annotations

import re
from collections.abc import Mapping

from regwright.configuration.decode import choices_of, takes_number
from regwright.configuration.words import current_words, every_bit, place_of
from regwright.format.shape import definition
from regwright.model.configuration import Configuration, ConfigurationField
from regwright.read.numbers import number
from regwright.resolve.layout import layout

_LONGEST = 80


class BadSetting(ValueError):
    """A setting or choice that there is not; the message says what there is."""


def encode(
    configuration: Configuration, words: Mapping[str, int], settings: Mapping[str, str]
) -> dict[str, int]:
    """Return ``words`` with the choices in ``settings`` made, every other bit as it was.

    A word that is not in ``words`` is as delivered. Raises :class:`BadSetting`.
    """
    values = current_words(configuration, words)
    for setting, choice in settings.items():
        found = place_of(configuration, setting)
        if found is None:
            raise BadSetting(f"there is no setting {setting[:_LONGEST]!r}")
        word, field = found
        place = layout(field.bits)
        if place.mask & ~every_bit(word):
            raise BadSetting(f"{setting} takes bits that {word.name} does not have")
        placed = place.insert(value_of(configuration, field, choice))
        values[word.name] = values[word.name] & ~place.mask | placed
    return values


def value_of(configuration: Configuration, field: ConfigurationField, choice: str) -> int:
    """Return the value that ``choice`` stands for, counted from the field's own bit 0.

    Raises :class:`BadSetting`.
    """
    if takes_number(field):
        return _number(field, choice)
    for item in choices_of(configuration, field):
        if item.name == choice:
            return _fitting(field, item.value, f"{field.setting} = {choice}")
    names = ", ".join(item.name for item in choices_of(configuration, field))
    raise BadSetting(f"{field.setting} has no choice {choice[:_LONGEST]!r}; there are {names}")


def _number(field: ConfigurationField, text: str) -> int:
    if len(text) > _LONGEST or not re.fullmatch(definition("number")["pattern"], text):
        shown = text[:_LONGEST]
        raise BadSetting(f"{field.setting} is a number that says its base, as 0x1F, not {shown!r}")
    return _fitting(field, number(text), text)


def _fitting(field: ConfigurationField, value: int, shown: str) -> int:
    width = layout(field.bits).width
    if value >> width:
        raise BadSetting(f"{shown} does not fit into the {width} bits of {field.setting}")
    return value
