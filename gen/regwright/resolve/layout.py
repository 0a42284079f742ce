"""Where the bits of a field stand in its register."""

from functools import lru_cache
from typing import NamedTuple

from regwright.model.chip import BitRange


class Piece(NamedTuple):
    """``width`` bits that stand at ``register_bit`` in the register, ``field_bit`` in the field."""

    register_bit: int
    field_bit: int
    width: int


class Layout(NamedTuple):
    """The bits of a field in its register.

    ``mask`` has a 1 for each of them, ``position`` is the register bit that holds the field's
    bit 0, ``pieces`` run from the field's low end to its high end.
    """

    mask: int
    position: int
    width: int
    pieces: tuple[Piece, ...]

    def insert(self, value: int) -> int:
        """Return ``value``, counted from the field's bit 0, moved to where the field stands."""
        placed = 0
        for register_bit, field_bit, width in self.pieces:
            placed |= ((value >> field_bit) & ((1 << width) - 1)) << register_bit
        return placed

    def extract(self, register_value: int) -> int:
        """Return the field's value in ``register_value``, counted from the field's bit 0."""
        found = 0
        for register_bit, field_bit, width in self.pieces:
            found |= ((register_value >> register_bit) & ((1 << width) - 1)) << field_bit
        return found


@lru_cache(maxsize=4096)
def layout(bits: tuple[BitRange, ...]) -> Layout:
    """Return the layout of the ranges ``bits``, given from the field's high end to its low end.

    A range whose ends are swapped counts as if they were not; a rule reports it.
    """
    mask = 0
    field_bit = 0
    pieces = []
    for ends in reversed(bits):
        low, high = min(ends), max(ends)
        width = high - low + 1
        mask |= ((1 << width) - 1) << low
        pieces.append(Piece(low, field_bit, width))
        field_bit += width
    return Layout(mask, pieces[0].register_bit, field_bit, tuple(pieces))


def bits_in_words(mask: int, between: str = ",") -> str:
    """Return the bits of ``mask`` from the high end, runs as ranges: ``bit 5``, ``bits 7:6,0``."""
    spans = []
    bit = mask.bit_length() - 1
    while bit >= 0:
        if not mask >> bit & 1:
            bit -= 1
            continue
        low = bit
        while low > 0 and mask >> (low - 1) & 1:
            low -= 1
        spans.append(str(bit) if bit == low else f"{bit}:{low}")
        bit = low - 1
    return f"bit{'s' if mask.bit_count() > 1 else ''} {between.join(spans)}"
