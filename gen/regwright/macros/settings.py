"""The macros of configuration words and of the settings in them."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.configuration.decode import choices_of, takes_number
from regwright.configuration.words import verify_mask
from regwright.macros.literals import WIDEST, decimal, digits_of, hexadecimal
from regwright.macros.operations import extract, insert
from regwright.macros.parts import SETTING, WORD, Part, plain_word
from regwright.macros.registers import Macro
from regwright.model.configuration import Configuration, ConfigurationField, ConfigurationWord
from regwright.resolve.chip import ResolvedChip
from regwright.resolve.layout import layout


def setting_parts(
    configuration: Configuration, resolved: ResolvedChip, stem: str
) -> Iterator[Part]:
    """Yield the macros of each word, and behind it those of its settings."""
    for word in configuration.words:
        own = f"{stem}SETTINGS_{plain_word(word.name)}"
        digits = digits_of(word.width)
        numbers = []
        if configuration.space in resolved.spaces:
            place = hexadecimal(word.address)
            numbers.append((f"{own}_{configuration.space.upper()}_ADDR", place))
        numbers.append((f"{own}_DEFAULT", hexadecimal(word.default, digits)))
        numbers.append((f"{own}_VERIFY_MASK", hexadecimal(verify_mask(word), digits)))
        yield Part(WORD, f"the configuration word {word.name}", word, numbers, [])
        for field in word.fields:
            yield _setting(configuration, word, field, stem)


def _setting(
    configuration: Configuration, word: ConfigurationWord, field: ConfigurationField, stem: str
) -> Part:
    own = f"{stem}SETTING_{plain_word(field.setting)}"
    place, digits = layout(field.bits), digits_of(word.width)
    numbers = [
        (f"{own}_BITPOS", decimal(place.position)),
        (f"{own}_MASK", hexadecimal(place.mask, digits)),
    ]
    for choice in choices_of(configuration, field):
        value = hexadecimal(place.insert(choice.value), digits)
        numbers.append((f"{own}_{plain_word(choice.name)}", value))
    code: list[Macro] = []
    if takes_number(field) and word.width <= WIDEST:
        code.append((f"{own}_EXTRACT(value)", extract(place, word.width)))
        code.append((f"{own}_INSERT(value, field)", insert(place, word.width)))
    return Part(SETTING, f"the setting {field.setting}", field, numbers, code)
