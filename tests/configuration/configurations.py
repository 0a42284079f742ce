"""Configurations made up by hypothesis: fields that are disjoint, choices that differ."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hypothesis import strategies as st

from regwright.configuration.decode import choices_of, takes_number
from regwright.model.chip import BitRange, Chip, Space
from regwright.model.configuration import (
    Choice,
    Configuration,
    ConfigurationField,
    ConfigurationWord,
    Hazard,
    SettingIs,
    UnusedBits,
)

HAZARDS = ("locks", "needs", "stops")
Draw = Any


def bit_numbers(bits: tuple[BitRange, ...]) -> list[int]:
    """Return each bit of a field, from its high end to its low end."""
    return [bit for high, low in bits for bit in range(high, low - 1, -1)]


def extracted(bits: tuple[BitRange, ...], word: int) -> int:
    """Return a field's value, found bit by bit, apart from the code under test."""
    return int("".join(str(word >> bit & 1) for bit in bit_numbers(bits)), 2)


def _ranges(bits: list[int]) -> tuple[BitRange, ...]:
    found: list[BitRange] = []
    for bit in bits:
        if found and found[-1].low == bit + 1:
            found[-1] = BitRange(found[-1].high, bit)
        else:
            found.append(BitRange(bit, bit))
    return tuple(found)


@st.composite
def _choices(draw: Draw, width: int) -> tuple[Choice, ...]:
    most = min(1 << width, 6)
    values = draw(st.lists(st.integers(0, (1 << width) - 1), max_size=most, unique=True))
    found = []
    for number, value in enumerate(values):
        hazards = draw(st.lists(st.sampled_from(HAZARDS), max_size=2, unique=True))
        found.append(Choice(f"choice-{number}", value, None, tuple(hazards)))
    return tuple(found)


@st.composite
def _words(draw: Draw, number: int) -> ConfigurationWord:
    width = draw(st.sampled_from([1, 5, 8, 8, 16, 32, 64]))
    bits = draw(st.permutations(range(width))) if draw(st.booleans()) else [*range(width)][::-1]
    fields: list[ConfigurationField] = []
    unused: list[UnusedBits] = []
    while bits:
        size = draw(st.integers(1, 4))
        own, bits = list(bits[:size]), bits[size:]
        kind = draw(st.sampled_from(["field", "field", "field", "unused", "nothing"]))
        if kind == "field":
            name = f"s{number}-{len(fields)}"
            polarity = draw(st.sampled_from([None, 0, 1]))
            choices = draw(_choices(len(own)))
            fields.append(
                ConfigurationField(
                    name.upper(), name, _ranges(own), programmed=polarity, choices=choices
                )
            )
        elif kind == "unused":
            unused.append(UnusedBits(_ranges(own), draw(st.sampled_from([None, 0, 1]))))
    default = draw(st.integers(0, (1 << width) - 1))
    lock = draw(st.booleans())
    return ConfigurationWord(
        f"word-{number}",
        number,
        default,
        width=width,
        lock=lock,
        fields=tuple(fields),
        unused=tuple(unused),
    )


@st.composite
def configurations(draw: Draw) -> Configuration:
    """Draw a configuration with three hazards, one of them of several settings together."""
    words = tuple(draw(_words(number)) for number in range(draw(st.integers(1, 3))))
    plain = Configuration("fuse", words, (), draw(st.sampled_from([0, 1])))
    named = [
        SettingIs(field.setting, choice.name)
        for word in words
        for field in word.fields
        for choice in choices_of(plain, field)
    ]
    when: list[SettingIs] = []
    if named:
        when = draw(
            st.lists(st.sampled_from(named), max_size=3, unique_by=lambda item: item.setting)
        )
    hazards = (
        Hazard("locks", "locks-out", "no way in"),
        Hazard("needs", "needs-hardware"),
        Hazard("stops", "other", None, "it stops", tuple(when)),
    )
    return plain._replace(hazards=hazards)


@st.composite
def words_for(draw: Draw, configuration: Configuration) -> dict[str, int]:
    """Draw any value for each word."""
    return {word.name: draw(st.integers(0, (1 << word.width) - 1)) for word in configuration.words}


@st.composite
def settings_for(draw: Draw, configuration: Configuration) -> dict[str, str]:
    """Draw choices for some of the settings, in any order."""
    found: dict[str, str] = {}
    for word in configuration.words:
        for field in word.fields:
            if draw(st.booleans()):
                continue
            if takes_number(field):
                width = len(bit_numbers(field.bits))
                value = draw(st.integers(0, (1 << width) - 1))
                found[field.setting] = f"0x{value:02X}"
            else:
                names = [item.name for item in choices_of(configuration, field)]
                found[field.setting] = draw(st.sampled_from(names))
    return dict(draw(st.permutations(list(found.items()))))


@st.composite
def cases(draw: Draw) -> tuple[Configuration, dict[str, int], dict[str, str]]:
    """Draw a configuration, words of it, and settings to make."""
    configuration = draw(configurations())
    return configuration, draw(words_for(configuration)), draw(settings_for(configuration))


def mask_of(configuration: Configuration, settings: Mapping[str, str], word: str) -> int:
    """Return a 1 for each bit of ``word`` that belongs to one of the settings."""
    found = next(item for item in configuration.words if item.name == word)
    return sum(
        1 << bit
        for field in found.fields
        if field.setting in settings
        for bit in bit_numbers(field.bits)
    )


def chip_with(configuration: Configuration) -> Chip:
    return Chip("made", (Space("fuse", 64),), configuration=configuration)
