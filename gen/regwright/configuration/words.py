"""The configuration words as numbers: their values, and which of their bits mean something."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from regwright.model.configuration import Configuration, ConfigurationField, ConfigurationWord
from regwright.resolve.layout import layout


def current_words(configuration: Configuration, given: Mapping[str, int]) -> dict[str, int]:
    """Return the value of each word: the one in ``given``, else the one it is delivered with."""
    return {word.name: given.get(word.name, word.default) for word in configuration.words}


def places(configuration: Configuration) -> Iterator[tuple[ConfigurationWord, ConfigurationField]]:
    """Yield each field with the word it stands in."""
    for word in configuration.words:
        for field in word.fields:
            yield word, field


def place_of(
    configuration: Configuration, setting: str
) -> tuple[ConfigurationWord, ConfigurationField] | None:
    """Return the word and field that ``setting`` is, if there is such a setting."""
    return next((item for item in places(configuration) if item[1].setting == setting), None)


def every_bit(word: ConfigurationWord) -> int:
    """Return a 1 for each bit of ``word``."""
    return (1 << word.width) - 1


def required_bits(word: ConfigurationWord) -> tuple[int, int]:
    """Return the unused bits of ``word`` whose value is said, as a mask, and that value."""
    mask = value = 0
    for item in word.unused:
        if item.value is not None:
            own = layout(item.bits).mask
            mask |= own
            value |= own if item.value else 0
    return mask & every_bit(word), value & every_bit(word)


def verify_mask(word: ConfigurationWord) -> int:
    """Return a 1 for each bit that must read back as it was written.

    These are the bits of fields, and the unused ones whose value is said. The rest may read as
    anything.
    """
    mask, _ = required_bits(word)
    for field in word.fields:
        mask |= layout(field.bits).mask
    return mask & every_bit(word)


def undescribed_bits(word: ConfigurationWord) -> int:
    """Return a 1 for each bit of which the description says nothing at all."""
    described = 0
    for bits in (*(item.bits for item in word.fields), *(item.bits for item in word.unused)):
        described |= layout(bits).mask
    return every_bit(word) & ~described


def inverted(word: ConfigurationWord, value: int) -> int:
    """Return ``value`` with every bit of ``word`` inverted."""
    return value ^ every_bit(word)


def hexadecimal(value: int, width: int = 8) -> str:
    """Return ``value`` in as many hexadecimal digits as ``width`` bits have, at least two."""
    return f"0x{value:0{max(2, -(-width // 4))}X}"
