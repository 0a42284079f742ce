"""The summary of a block: offsets, and a row for each byte of a wide register."""

from __future__ import annotations

from regwright.importing.spelled import hexadecimal
from regwright.importing.tables.printing.shown import Entry, Shown, bit_boxes
from regwright.importing.tables.printing.table import Box, Printed, boxes, without_empty

_BEHIND = ("Access", "Reset", "Description", "Page")


def tables(shown: Shown) -> list[Printed]:
    """Return a table for each block or instance, and one for the registers of none."""
    groups: dict[tuple[str, bool], list[Entry]] = {}
    for entry in shown.entries:
        groups.setdefault((entry.block, entry.offset is not None), []).append(entry)
    return [
        _table(shown, block, entries, is_offset=is_offset)
        for (block, is_offset), entries in groups.items()
    ]


def _table(shown: Shown, block: str, entries: list[Entry], *, is_offset: bool) -> Printed:
    place = "Offset" if is_offset else "Address"
    header = boxes(place, "Name", "Bit Pos.", *map(str, range(7, -1, -1)), *_BEHIND)
    rows = [header]
    for entry in entries:
        rows += _rows(shown, entry, is_offset=is_offset)
    notes = dict.fromkeys(note for entry in entries for note in entry.notes)
    return Printed(_title(block, entries), without_empty(rows, range(11, 15)), tuple(notes))


def _title(block: str, entries: list[Entry]) -> str:
    name = block.rpartition(".")[2]
    placed, offset = entries[0].placed, entries[0].offset
    if not name or offset is None or not placed.addresses:
        return name
    return f"{name} base address {hexadecimal(placed.addresses[0].value - offset)}"


def _rows(shown: Shown, entry: Entry, *, is_offset: bool) -> list[list[Box]]:
    """Return the rows of one register; what is not of one byte stands in the first."""
    place = hexadecimal(entry.offset or 0) if is_offset else shown.address(entry.placed)
    found = []
    lows = list(range(0, entry.facts.width, 8))
    if entry.facts.byte_order == "big":
        lows.reverse()
    for low in lows:
        high = min(low + 7, entry.facts.width - 1)
        cells = [Box("")] * (low + 7 - high) + bit_boxes(entry.facts, high, low)
        is_first = low == lows[0]
        before = boxes(place, entry.marked_name) if is_first else boxes("", "")
        behind = (entry.access, entry.reset, entry.title, entry.page)
        last = boxes(*behind) if is_first else boxes("", "", "", "")
        found.append([*before, Box(f"{low + 7}:{low}"), *cells, *last])
    return found
