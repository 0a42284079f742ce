"""A map of addresses: a row for each base, a column for each low digit, or one for each bank."""

from __future__ import annotations

import re

from regwright.importing.spelled import hexadecimal
from regwright.importing.tables.printing.shown import Shown
from regwright.importing.tables.printing.table import Box, Printed, boxes

_BANK = re.compile(r"bank(\d{1,2})")


def tables(shown: Shown) -> list[Printed]:
    """Return the one map: of the banks, if the spaces are such, or of the space that prints it."""
    banks = [space.name for space in shown.chip.spaces if _BANK.fullmatch(space.name)]
    if len(banks) > 1:
        return [_banks(shown, banks)]
    return [_digits(shown)]


def _banks(shown: Shown, banks: list[str]) -> Printed:
    """Return the map of banks: the same addresses in each."""
    held: dict[int, dict[str, str]] = {}
    last: dict[int, int] = {}
    for entry in shown.entries:
        ends = {item.space: item.value for item in (entry.last or entry.placed).addresses}
        for address in entry.placed.addresses:
            if address.space in banks:
                held.setdefault(address.value, {})[address.space] = entry.marked_name
                last[address.value] = ends[address.space]
    for span in shown.reserved:
        if span.space in banks:
            held.setdefault(span.first, {})[span.space] = "-"
            last[span.first] = span.last
    rows = [boxes("Address", *(f"Bank {name.removeprefix('bank')}" for name in banks))]
    for value in sorted(held):
        texts = (held[value].get(name, "") for name in banks)
        to = last[value]
        at = hexadecimal(value) + (f"-{hexadecimal(to)}" if to > value else "")
        rows.append(boxes(at, *texts))
    return Printed("", rows, _notes(shown))


def _digits(shown: Shown) -> Printed:
    space = shown.inner
    held: dict[int, tuple[str, int]] = {}
    for span in shown.reserved:
        if span.space == space and span.last - span.first < 4096:
            held.update(dict.fromkeys(range(span.first, span.last + 1), ("-", 1)))
    for entry in shown.entries:
        address = entry.placed.address(space)
        end = entry.last.address(space) if entry.last else address
        if address is not None and end is not None:
            units = end.value - address.value + entry.placed.units
            held.setdefault(address.value, (entry.marked_name, units))
    rows = [boxes("Base", *(f"{digit:X}" for digit in range(16)))]
    for base in sorted({at & ~15 for at in held}):
        rows.append([Box(hexadecimal(base)), *_row(held, base)])
    return Printed("", rows, _notes(shown))


def _row(held: dict[int, tuple[str, int]], base: int) -> list[Box]:
    found: list[Box] = []
    at = base
    while at < base + 16:
        text, units = held.get(at, ("", 1))
        span = 1
        while span < units and at + span < base + 16 and at + span not in held:
            span += 1
        found.append(Box(text, span))
        at += span
    return found


def _notes(shown: Shown) -> tuple[str, ...]:
    return tuple(dict.fromkeys(note for entry in shown.entries for note in entry.notes))
