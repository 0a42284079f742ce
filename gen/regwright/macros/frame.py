"""The macros of a header that are of no register: its guard, the chip's marks, the accesses."""

from typing import NamedTuple

from regwright.macros.literals import c_type
from regwright.model.chip import Chip


class Frame(NamedTuple):
    """The frame of a header: each macro's name, with its parameters, and its value.

    ``guard`` keeps the header from being read twice. ``marks`` say which chip a program is built
    for. ``accesses`` are how C reaches a register; a program may define them beforehand.
    """

    guard: str
    marks: list[tuple[str, str]]
    accesses: list[tuple[str, str]]


def frame(chip: Chip, widths: list[int], read_widths: list[int]) -> Frame:
    """Return the frame of the header of ``chip``.

    ``widths`` are those of the accesses to its registers, in bits, ``read_widths`` those of the
    accesses to read-only ones.
    """
    upper = chip.name.upper()
    marks = [("REGWRIGHT_CHIP", "1U")] if chip.kind == "chip" else []
    marks.append((f"REGWRIGHT_CHIP_{upper}", "1U"))
    reads = [_access(upper, "READ", "const volatile", width) for width in read_widths]
    accesses = reads + [_access(upper, "REG", "volatile", width) for width in widths]
    return Frame(guard(chip.name), marks, accesses)


def guard(name: str) -> str:
    """Return the macro that keeps the header ``name`` from being read twice."""
    return f"{name.upper()}_H"


def choice(chip: Chip) -> str:
    """Return the macro with which a program says that it is built for ``chip``."""
    return f"REGWRIGHT_FOR_{chip.name.upper()}"


def _access(upper: str, way: str, qualifiers: str, width: int) -> tuple[str, str]:
    return f"{upper}_{way}{width}(address)", f"(*({qualifiers} {c_type(width)} *)(address))"
