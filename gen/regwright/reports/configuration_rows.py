"""The bits of a configuration word, a row for each field, for the forms that show them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.configuration.decode import (
    PROGRAMMED,
    UNPROGRAMMED,
    choice_in,
    name_in,
    polarity,
    value_in,
)
from regwright.configuration.words import undescribed_bits
from regwright.model.chip import BitRange
from regwright.model.configuration import (
    Configuration,
    ConfigurationField,
    ConfigurationWord,
    UnusedBits,
)
from regwright.resolve.layout import bits_in_words, layout


class Row(NamedTuple):
    """Some bits of a word: ``digits`` are their values, ``bits`` their numbers, high end first.

    ``choice`` and ``default`` say what the field has, and has as delivered. For bits of no field
    ``name``, ``setting`` and ``default`` are empty, and ``choice`` says that they are unused, or
    not described. ``words`` say more.
    """

    bits: str
    digits: str
    name: str
    setting: str
    choice: str
    default: str
    words: str

    @property
    def is_default(self) -> bool:
        """Whether the field is as delivered; bits of no field always count so."""
        return not self.setting or self.choice == self.default


def spelled_bits(bits: tuple[BitRange, ...]) -> str:
    """Return ranges of bits as descriptions spell them."""
    return ",".join(
        str(item.high) if item.high == item.low else f"{item[0]}:{item[1]}" for item in bits
    )


def binary(value: int, width: int) -> str:
    """Return ``value`` in ``width`` binary digits, in groups of four from the low end."""
    digits = f"{value:0{width}b}"
    first = len(digits) % 4
    groups = [digits[:first]] if first else []
    groups += [digits[at : at + 4] for at in range(first, len(digits), 4)]
    return f"0b{'_'.join(groups)}"


def rows(configuration: Configuration, word: ConfigurationWord, value: int) -> list[Row]:
    """Return a row for each field of ``word`` and for its other bits, from the high end."""
    found = [
        (layout(field.bits).mask, _field_row(configuration, word, field, value))
        for field in word.fields
    ]
    found += [(layout(item.bits).mask, _unused_row(item, value)) for item in word.unused]
    found += [(mask, _undescribed_row(mask, value)) for mask in _runs(undescribed_bits(word))]
    return [row for _, row in sorted(found, key=lambda item: -item[0].bit_length())]


def _runs(mask: int) -> Iterator[int]:
    """Yield a mask for each run of bits in ``mask``."""
    while mask:
        lowest = mask & -mask
        run = mask & ~(mask + lowest)
        yield run
        mask &= ~run


def _field_row(
    configuration: Configuration,
    word: ConfigurationWord,
    field: ConfigurationField,
    value: int,
) -> Row:
    place = layout(field.bits)
    own = value_in(field, value)
    digits = f"{own:0{place.width}b}"
    choice = choice_in(configuration, field, value)
    parts = [_programmed(configuration, field, value), field.title, choice.title if choice else ""]
    return Row(
        spelled_bits(field.bits),
        digits,
        field.name,
        field.setting,
        in_words(configuration, field, value),
        in_words(configuration, field, word.default),
        "; ".join(part for part in parts if part),
    )


def in_words(configuration: Configuration, field: ConfigurationField, value: int) -> str:
    """Return what ``field`` has in the value of its word: its choice, or that it has no meaning."""
    digits = f"{value_in(field, value):0{layout(field.bits).width}b}"
    return name_in(configuration, field, value) or f"0b{digits}, no meaning"


def _programmed(configuration: Configuration, field: ConfigurationField, value: int) -> str:
    """Return which bits of a field count as programmed: what a list of ticks would show."""
    place = layout(field.bits)
    inside = value & place.mask
    ticked = inside if polarity(configuration, field) else place.mask & ~inside
    if place.width == 1:
        return PROGRAMMED if ticked else UNPROGRAMMED
    if not ticked:
        return f"all {UNPROGRAMMED}"
    return f"all {PROGRAMMED}" if ticked == place.mask else f"{bits_in_words(ticked)} {PROGRAMMED}"


def _unused_row(item: UnusedBits, value: int) -> Row:
    place = layout(item.bits)
    must = "" if item.value is None else f", must be {item.value}"
    digits = f"{place.extract(value):0{place.width}b}"
    return Row(spelled_bits(item.bits), digits, "", "", f"unused{must}", "", item.title or "")


def _undescribed_row(mask: int, value: int) -> Row:
    low = (mask & -mask).bit_length() - 1
    digits = f"{(value & mask) >> low:0{mask.bit_count()}b}"
    bits = bits_in_words(mask).partition(" ")[2]
    return Row(bits, digits, "", "", "not described", "", "")
