"""Spell numbers as C and GNU as both read them."""

from __future__ import annotations

from functools import lru_cache

#: C has no integer constant for more bits than this.
WIDEST = 64


@lru_cache(maxsize=65_536)
def hexadecimal(value: int, digits: int = 2) -> str:
    """Return ``value`` as ``0x1FU``, padded to ``digits``.

    Without a length suffix: C gives a hexadecimal constant the first unsigned type that holds it.
    """
    return f"0x{value:0{digits}X}U"


def decimal(value: int) -> str:
    """Return ``value`` as ``7U``, but 0 as ``0x0U``: GNU as does not read ``0U``."""
    return f"{value}U" if value else "0x0U"


@lru_cache(maxsize=65_536)
def shown(value: int, digits: int = 2) -> str:
    """Return ``value`` as text and messages show it, ``0x1F``."""
    return f"0x{value:0{digits}X}"


def digits_of(width: int) -> int:
    """Return how many hexadecimal digits a register of ``width`` bits is shown with, at least 2."""
    return max(2, -(-width // 4))


def access_bits(width: int, unit: int) -> int | None:
    """Return how many bits C reads at once for a register, or ``None`` when no type has them."""
    taken = -(-width // unit) * unit
    return taken if taken in (8, 16, 32, 64) else None


def c_type(width: int) -> str:
    """Return the smallest unsigned type of ``<stdint.h>`` that holds ``width`` bits."""
    return next(f"uint{bits}_t" for bits in (8, 16, 32, 64) if width <= bits)
