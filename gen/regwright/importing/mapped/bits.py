"""Bits as documents write them: ranges in a text, a mask, or two numbers."""

from __future__ import annotations

import re
from typing import Any

from regwright.importing.mapped.document import Value
from regwright.importing.mapped.raw import BitsRead
from regwright.importing.mapped.readings import NotRead, as_text, shown
from regwright.importing.spelled import bits as spelled_bits

Ranges = list[tuple[int, int]]
_NUMBER = re.compile("[0-9]{1,2}")
_HIGHEST = 99


def ranges_of(value: Value, written: dict[str, Any]) -> Ranges:
    """Return the ranges that ``7:4``, ``[7:4]``, ``7`` or ``9:8,3`` gives.

    The separator is the mapping's. Raises :class:`NotRead`.
    """
    text = as_text(value)
    bare = "".join(text.strip().strip("[](){}<>").split())
    separator = written.get("separator", ":")
    pieces = bare.split(",") if separator != "," else [bare]
    return [_range(piece, separator, text) for piece in pieces]


def _range(piece: str, separator: str, text: str) -> tuple[int, int]:
    first, between, last = piece.partition(separator)
    last = last if between else first
    if not (_NUMBER.fullmatch(first) and _NUMBER.fullmatch(last)):
        raise NotRead(f'{shown(text)} gives no bits; what stands between is said by "separator"')
    return max(int(first), int(last)), min(int(first), int(last))


def of_two(low: int, high: int | None, width: int | None) -> Ranges:
    """Return the range from ``low`` on, to ``high`` or ``width`` bits; one bit without both."""
    if width is not None:
        if not 1 <= width <= 64:
            raise NotRead(f"a width of {width} bits is none; it is 1 to 64")
        high = low + width - 1
    high = low if high is None else high
    if max(high, low) > _HIGHEST:
        raise NotRead(f"bit {max(high, low)} is in no register")
    return [(max(high, low), min(high, low))]


def of_mask(mask: int) -> Ranges:
    """Return the ranges of the bits that are 1 in ``mask``, the highest first."""
    if not mask:
        raise NotRead("a mask of 0 has no bits")
    found: Ranges = []
    for bit in range(mask.bit_length()):
        if mask >> bit & 1:
            if found and found[-1][0] == bit - 1:
                found[-1] = (bit, found[-1][1])
            else:
                found.append((bit, bit))
    return found[::-1]


def spelled(read: BitsRead, width: int) -> str | None:
    """Return bits as a description writes them; ``None`` when they are not in ``width`` bits."""
    if not read.from_high:
        return spelled_bits(read.ranges)
    if any(high >= width for high, _ in read.ranges):
        return None
    return spelled_bits([(width - 1 - low, width - 1 - high) for high, low in read.ranges])
