"""Whether two reset values are the same where the widths are not."""

from __future__ import annotations

from regwright.model.chip import Reset


def same_reset(one: Reset | None, other: Reset | None, widths: tuple[int, int]) -> bool:
    """Tell whether a register or field starts alike in both chips; ``widths`` are its bits there.

    Bits that only the wider one has must be 0, or all left open.
    """
    if one is None or other is None or widths[0] == widths[1]:
        return one == other
    common = min(widths)
    ones = (1 << common) - 1
    wider = one if widths[0] > widths[1] else other
    rest = (1 << max(widths) - common) - 1
    return (
        (one.value ^ other.value) & ones == 0
        and (one.undefined ^ other.undefined) & ones == 0
        and wider.value >> common == 0
        and wider.undefined >> common in (0, rest)
    )
