"""From words to settings: which choice each setting has, and what of it cannot be right."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from regwright.configuration.words import (
    current_words,
    every_bit,
    hexadecimal,
    places,
    required_bits,
)
from regwright.model.configuration import (
    Choice,
    Configuration,
    ConfigurationField,
    ConfigurationWord,
)
from regwright.resolve.layout import bits_in_words, layout

PROGRAMMED, UNPROGRAMMED = "programmed", "unprogrammed"


class Problem(NamedTuple):
    """Why the value of ``word`` cannot be right; ``setting`` is empty for bits of no field."""

    word: str
    setting: str
    message: str


def default_words(configuration: Configuration) -> dict[str, int]:
    """Return the value of each word as the chip is delivered, by the word's name."""
    return {word.name: word.default for word in configuration.words}


def polarity(configuration: Configuration, field: ConfigurationField) -> int:
    """Return the value of a bit of ``field`` that counts as programmed, 0 or 1."""
    return configuration.programmed if field.programmed is None else field.programmed


def takes_number(field: ConfigurationField) -> bool:
    """Tell whether ``field`` holds a plain number: several bits, and no value has a name."""
    return not field.choices and layout(field.bits).width > 1


def choices_of(configuration: Configuration, field: ConfigurationField) -> tuple[Choice, ...]:
    """Return the choices of ``field``; one bit without any is programmed or unprogrammed.

    There are none for a field that holds a plain number.
    """
    if field.choices or takes_number(field):
        return field.choices
    value = polarity(configuration, field)
    return Choice(PROGRAMMED, value), Choice(UNPROGRAMMED, 1 - value)


def value_in(field: ConfigurationField, word_value: int) -> int:
    """Return the value of ``field`` in that of its word, counted from the field's own bit 0."""
    return layout(field.bits).extract(word_value)


def choice_in(
    configuration: Configuration, field: ConfigurationField, word_value: int
) -> Choice | None:
    """Return the choice that ``field`` has in its word; ``None`` for a value without a name."""
    value = value_in(field, word_value)
    return next((item for item in choices_of(configuration, field) if item.value == value), None)


def name_in(configuration: Configuration, field: ConfigurationField, word_value: int) -> str | None:
    """Return the name of what ``field`` has in its word; of a plain number, its digits."""
    if takes_number(field):
        return hexadecimal(value_in(field, word_value), layout(field.bits).width)
    found = choice_in(configuration, field, word_value)
    return found.name if found else None


def decode(configuration: Configuration, words: Mapping[str, int]) -> dict[str, str | None]:
    """Return the choice of each setting, ``None`` for a value without a name.

    A word that is not in ``words`` is as delivered. A field that holds a plain number gives it in
    hexadecimal, as ``0x1F``.
    """
    values = current_words(configuration, words)
    return {
        field.setting: name_in(configuration, field, values[word.name])
        for word, field in places(configuration)
    }


def problems(configuration: Configuration, words: Mapping[str, int]) -> list[Problem]:
    """Return why ``words`` cannot be right: too wide, wrong unused bits, values without a name."""
    values = current_words(configuration, words)
    return [
        problem
        for word in configuration.words
        for problem in _problems_of(configuration, word, values[word.name])
    ]


def problems_left(
    configuration: Configuration, before: Mapping[str, int], after: Mapping[str, int]
) -> list[Problem]:
    """Return why ``after``, which are ``before`` with settings made, cannot be right.

    What was wrong before is told of the value that it had: that is the one somebody gave.
    """
    left = problems(configuration, after)
    places_left = {(item.word, item.setting) for item in left}
    old = [item for item in problems(configuration, before) if item[:2] in places_left]
    told = {(item.word, item.setting) for item in old}
    return old + [item for item in left if item[:2] not in told]


def _problems_of(
    configuration: Configuration, word: ConfigurationWord, value: int
) -> Iterator[Problem]:
    shown = hexadecimal(value, word.width)
    if not 0 <= value <= every_bit(word):
        message = f"{word.name}: {shown} does not fit into its {word.width} bits"
        yield Problem(word.name, "", message)
        return
    mask, required = required_bits(word)
    for wanted in (0, 1):
        wrong = mask & (value ^ required) & (required if wanted else ~required)
        if wrong:
            right = hexadecimal(value & ~mask | required, word.width)
            message = (
                f"{word.name}: {bits_in_words(wrong)} of {shown} must be {wanted}; unused bits "
                f"are to be as they are in {right}"
            )
            yield Problem(word.name, "", message)
    for field in word.fields:
        if name_in(configuration, field, value) is None:
            digits = f"{value_in(field, value):0{layout(field.bits).width}b}"
            names = ", ".join(item.name for item in choices_of(configuration, field))
            message = (
                f"{word.name}: {field.setting} has the value 0b{digits} in {shown}, which has no "
                f"meaning; choose one of {names}"
            )
            yield Problem(word.name, field.setting, message)
