"""Say which slip of the fingers turns one number into another."""

from __future__ import annotations


def _padded(number: int, width: int) -> str:
    return f"{number:0{width}X}"


def explain_slip(written: int, meant: int) -> str:
    """Say what one slip makes ``written`` out of ``meant``; empty when none does.

    Looks at hexadecimal digits swapped or mistyped, and at a decimal number read as hexadecimal.
    """
    width = max(2, len(f"{written:X}"), len(f"{meant:X}"))
    have, want = _padded(written, width), _padded(meant, width)
    wrong = [index for index in range(width) if have[index] != want[index]]
    if len(wrong) == 1:
        index = wrong[0]
        return f"the digit {have[index]} of 0x{have} looks mistyped for {want[index]}"
    if len(wrong) == 2:
        first, second = wrong
        if have[first] == want[second] and have[second] == want[first]:
            return f"the digits {have[first]} and {have[second]} of 0x{have} look swapped"
    if f"{written:X}" == str(meant):
        return f"0x{written:X} looks like the decimal number {meant} written as hexadecimal"
    if str(written) == f"{meant:X}":
        return f"{written} (0x{have}) looks like 0x{want} read as a decimal number"
    return ""
