"""Spell numbers, bits and addresses as descriptions do."""

from __future__ import annotations

from collections.abc import Iterable

#: The widest register, and the most registers in a row, that a description may have.
WIDEST = 64
LONGEST_ROW = 4096


def hexadecimal(value: int, bits: int = 8) -> str:
    """Return ``value`` in hexadecimal digits, as many as ``bits`` bits have."""
    return f"0x{value:0{max(1, (bits + 3) // 4)}X}"


def reset(value: int, undefined: int, bits: int) -> str:
    """Return a value after reset; a 1 in ``undefined`` is a bit that the document leaves open."""
    if not undefined:
        return hexadecimal(value, bits)
    digits = "".join(
        "x" if undefined >> bit & 1 else str(value >> bit & 1) for bit in reversed(range(bits))
    )
    return f"0b{digits}"


def bits(numbers: Iterable[tuple[int, int]]) -> str:
    """Return ranges of bits, each a higher and a lower number, the first the field's high end."""
    return ",".join(str(high) if high == low else f"{high}:{low}" for high, low in numbers)
