"""Read the values after reset that a row prints beneath the bits of a register."""

from __future__ import annotations

import re

from regwright.importing.tables import words
from regwright.importing.tables.cells import Row
from regwright.importing.tables.facts import RegisterFacts

_HEX = re.compile(r"[0-9A-Fa-fxX]+")


def row_of_resets(register: RegisterFacts, row: Row, bits: dict[int, int]) -> None:
    """Note the digit under each bit; a merged cell holds one digit for all, or their value."""
    held: dict[int, list[int]] = {}
    for column, bit in bits.items():
        if cell := row.at(column):
            held.setdefault(cell.column, []).append(bit)
    for column, covered in held.items():
        cell = row.at(column)
        if cell is not None and cell.text:
            value_of_bits(register, cell.text, max(covered), min(covered))


def value_of_bits(register: RegisterFacts, text: str, high: int, low: int) -> None:
    """Note the value after reset that ``text`` is for the bits ``high`` to ``low``."""
    width = high - low + 1
    if text in ("0", "x", "X"):
        digits = text.lower() * width
    else:
        is_hex = len(text) * 4 == width and _HEX.fullmatch(text)
        found = words.reset(f"0x{text}" if is_hex else text, width)
        if found is None:
            return
        if found.doubt:
            register.review(found.doubt)
        digits = "".join(
            "x" if found.undefined >> bit & 1 else str(found.value >> bit & 1)
            for bit in reversed(range(width))
        )
    register.resets.update({low + place: digit for place, digit in enumerate(reversed(digits))})
