"""Ranges of bits in words."""

from __future__ import annotations

from collections.abc import Iterable

from regwright.model.chip import BitRange


def ranges_text(bits: Iterable[BitRange]) -> str:
    """Return ``bit 7`` or ``bits 5,2:0``, as a description spells them."""
    text = ",".join(str(high) if high == low else f"{high}:{low}" for high, low in bits)
    return f"bit {text}" if text.isdigit() else f"bits {text}"
