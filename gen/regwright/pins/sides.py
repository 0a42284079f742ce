"""Where each pin is at its package, seen from above with pin 1 at the top left.

Pins are counted against the clock, as is usual for packages with two or four rows of pins: common
practice, no source.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.model.packages import Package, Pin

_BALL = re.compile(r"([A-Z]{1,2})([0-9]{1,2})")


class Sides(NamedTuple):
    """The pins at each side: left and right from the top down, top and bottom from the left on.

    ``None`` stands for a place whose pin is not described.
    """

    left: list[Pin | None]
    bottom: list[Pin | None]
    right: list[Pin | None]
    top: list[Pin | None]


def sides(package: Package) -> Sides:
    """Return where the pins of ``package`` are, which has two or four rows of them.

    A package whose pins cannot be shared equally has the rest at its last sides.
    """
    by_number = {pin.number: pin for pin in package.pins}
    places = [by_number.get(str(number)) for number in range(1, package.pin_count + 1)]
    parts = 4 if package.arrangement == "quad" else 2
    least, more = divmod(len(places), parts)
    runs, start = [], 0
    for part in range(parts):
        end = start + least + (part >= parts - more)
        runs.append(places[start:end])
        start = end
    if parts == 2:
        return Sides(runs[0], [], runs[1][::-1], [])
    return Sides(runs[0], runs[1], runs[2][::-1], runs[3][::-1])


def grid(package: Package) -> tuple[list[str], list[int], dict[tuple[str, int], Pin]]:
    """Return the rows and columns of a grid of balls, and the pin at each place."""
    found: dict[tuple[str, int], Pin] = {}
    for pin in package.pins:
        match = _BALL.fullmatch(pin.number)
        if match:
            found[match[1], int(match[2])] = pin
    rows = sorted({row for row, _ in found}, key=lambda row: (len(row), row))
    columns = sorted({column for _, column in found})
    return rows, columns, found


def label(pin: Pin | None) -> str:
    """Return what stands beside a pin: its name, its port bit unless that is it, its functions."""
    if pin is None:
        return "?"
    names = [pin.name]
    if pin.port and pin.name not in (
        f"{pin.port.port}{pin.port.bit}",
        f"{pin.port.port}.{pin.port.bit}",
    ):
        names.append(f"{pin.port.port}.{pin.port.bit}")
    return " ".join(dict.fromkeys([*names, *pin.functions]))
