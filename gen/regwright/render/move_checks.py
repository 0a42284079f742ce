"""What is asserted of the macros that move a field, of a register or of a configuration word."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.chip import BitRange


def move_checks(stem: str, bits: tuple[BitRange, ...], width: int) -> Iterator[str]:
    """Check that EXTRACT and INSERT move the field, nothing else, and each part to its place.

    ``stem`` is what the field's macros begin with, ``width`` that of its register or word.
    """
    size = sum(abs(high - low) + 1 for high, low in bits)
    field, whole = (1 << size) - 1, (1 << width) - 1
    yield f"{stem}EXTRACT({stem}MASK) == {field}U && {stem}INSERT(0U, {field}U) == {stem}MASK"
    yield f"{stem}EXTRACT({whole}U - {stem}MASK) == 0U"
    yield f"{stem}INSERT({whole}U, 0U) == {whole}U - {stem}MASK"
    position = size
    for pair in bits if len(bits) > 1 else ():
        position -= max(pair) - min(pair) + 1
        there, here = 1 << min(pair), 1 << position
        yield f"{stem}EXTRACT({there}U) == {here}U && {stem}INSERT(0U, {here}U) == {there}U"
