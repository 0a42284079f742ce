"""What is different between two sets of words, in settings and in bits."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from regwright.configuration.decode import name_in, polarity, value_in
from regwright.configuration.words import places
from regwright.model.configuration import Configuration, ConfigurationField, ConfigurationWord
from regwright.resolve.layout import layout


class BitChange(NamedTuple):
    """A bit of a word that has another value."""

    bit: int
    before: int
    after: int


class Change(NamedTuple):
    """A setting that has another value; ``before`` and ``after`` are its choices, by name.

    ``None`` is a value without a name.
    """

    word: ConfigurationWord
    field: ConfigurationField
    before: str | None
    after: str | None
    bits: tuple[BitChange, ...]


class LockChange(NamedTuple):
    """Bits of a word of lock bits that become programmed, and that cease to be, as masks."""

    word: ConfigurationWord
    set: int
    released: int


def changes(
    configuration: Configuration, before: Mapping[str, int], after: Mapping[str, int]
) -> list[Change]:
    """Return the settings that differ, in the order of the description. Both have every word."""
    found = []
    for word, field in places(configuration):
        old, new = before[word.name], after[word.name]
        if value_in(field, old) == value_in(field, new):
            continue
        names = name_in(configuration, field, old), name_in(configuration, field, new)
        found.append(Change(word, field, *names, _bits(field, old, new)))
    return found


def _bits(field: ConfigurationField, old: int, new: int) -> tuple[BitChange, ...]:
    differ = (old ^ new) & layout(field.bits).mask
    return tuple(
        BitChange(bit, old >> bit & 1, new >> bit & 1)
        for bit in reversed(range(differ.bit_length()))
        if differ >> bit & 1
    )


def lock_changes(
    configuration: Configuration, before: Mapping[str, int], after: Mapping[str, int]
) -> list[LockChange]:
    """Return the words of lock bits that differ, and how. Both have every word."""
    found = []
    for word in configuration.words:
        if not word.lock:
            continue
        programmed = released = 0
        for field in word.fields:
            differ = (before[word.name] ^ after[word.name]) & layout(field.bits).mask
            now_one = after[word.name] & differ
            now_programmed = now_one if polarity(configuration, field) else differ & ~now_one
            programmed |= now_programmed
            released |= differ & ~now_programmed
        if programmed or released:
            found.append(LockChange(word, programmed, released))
    return found
