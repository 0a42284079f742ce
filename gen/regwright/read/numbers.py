"""Turn the spelled values of a description into numbers. The schema has checked the spelling."""

from __future__ import annotations

import re
from functools import cache

from regwright.model.chip import BitRange, Condition, GivenAddress, Reset

_BASES = {"0x": 16, "0b": 2, "0d": 10}


@cache
def number(text: str | int) -> int:
    """Return the number that ``0x1F``, ``0b01``, ``0d31`` or a single digit stands for."""
    if isinstance(text, int):
        return text
    base = _BASES.get(text[:2])
    return int(text) if base is None else int(text[2:].replace("_", ""), base)


@cache
def reset(text: str | int) -> Reset:
    """Return the reset value that ``0x1F`` or ``0bxx01`` stands for."""
    if isinstance(text, int) or "x" not in text[2:]:
        return Reset(number(text))
    digits = text[2:].replace("_", "")
    base = _BASES[text[:2]]
    every_bit = {16: "F", 2: "1"}[base]
    undefined = re.sub("[^x]", "0", digits).replace("x", every_bit)
    return Reset(int(digits.replace("x", "0"), base), int(undefined, base))


@cache
def bit_ranges(text: str | int) -> tuple[BitRange, ...]:
    """Return the ranges that ``7``, ``6:4`` or ``13,6`` stands for, each as it is written."""
    ranges = []
    for piece in str(text).split(","):
        high, _, low = piece.partition(":")
        ranges.append(BitRange(int(high), int(low or high)))
    return tuple(ranges)


@cache
def addresses(text: str | int, default_space: str) -> tuple[GivenAddress, ...]:
    """Return the addresses that ``0x3C`` or ``io:0x18 data:0x38`` stands for."""
    if isinstance(text, int) or ":" not in text:
        return (GivenAddress(default_space, number(text)),)
    pairs = (item.split(":") for item in text.split(" "))
    return tuple(GivenAddress(space, number(value)) for space, value in pairs)


def conditions(text: str) -> tuple[Condition, ...]:
    """Return the conditions that ``LINE_CTRL.DLAB = 1 and …`` stands for."""
    found = []
    for item in text.split(" and "):
        field, _, value = item.rpartition("=")
        found.append(Condition(field.strip(), number(value.strip())))
    return tuple(found)
