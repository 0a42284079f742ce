"""The summary of a chip: a row for each register, with its address, its bits and its page."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from regwright.importing.tables.printing.shown import Entry, Shown, Span, bit_boxes, halves_of
from regwright.importing.tables.printing.table import Box, Printed, boxes, without_empty

_ROWS_OF_PAGE = 1_000
_BEFORE = ("Address", "Name", "Width")
_BEHIND = ("Access", "Reset", "Description", "Page")


class _Line(NamedTuple):
    """A row, and the address by which rows are sorted."""

    at: int
    row: list[Box]


def tables(shown: Shown) -> list[Printed]:
    """Return the one table that there is; registers of twice its width take two rows."""
    width = _columns(shown.entries)
    bits = [Box(f"Bit {bit}") for bit in reversed(range(width))] if width else []
    lines = [line for entry in shown.entries for line in _lines(shown, entry, width)]
    for span in shown.reserved:
        _insert(lines, _reserved(shown, span, width))
    header = [*boxes(*_BEFORE), *bits, *boxes(*_BEHIND)]
    rows = without_empty([header, *(line.row for line in lines)], range(3 + width, 7 + width))
    notes = dict.fromkeys(note for entry in shown.entries for note in entry.notes)
    usual = str(width or 8)
    if all(row[2].text in ("", usual) for row in rows[1:]):
        rows = [[*row[:2], *row[3:]] for row in rows]
    return [Printed("", rows, tuple(notes))]


def _columns(entries: list[Entry]) -> int:
    """Return how many bits have a column: the usual width, or the widest register's."""
    if not any(entry.facts.fields or entry.facts.reserved for entry in entries):
        return 0
    widths = Counter(entry.facts.width for entry in entries)
    usual = widths.most_common(1)[0][0]
    fits = all(width <= usual or (usual == 8 and width == 16) for width in widths)
    return usual if fits else max(widths)


def _lines(shown: Shown, entry: Entry, width: int) -> Iterator[_Line]:
    if width == 8 and entry.facts.width == 16:
        yield from _halves(shown, entry)
        return
    size = str(entry.facts.width)
    high = min(entry.facts.width, width) - 1
    cells = [Box("")] * (width - high - 1) + bit_boxes(entry.facts, high, 0) if width else []
    before = boxes(shown.address(entry.placed, entry.last), entry.marked_name, size)
    behind = boxes(entry.access, entry.reset, entry.title, entry.page)
    yield _Line(shown.first_address(entry.placed), [*before, *cells, *behind])


def _halves(shown: Shown, entry: Entry) -> Iterator[_Line]:
    """Yield the rows of both bytes of a register of 16 bits, as they were printed."""
    halves = list(halves_of(shown, entry))
    if own := entry.halves:
        low, high = (_row_of(item.printed or "") for item in (own.low, own.high))
        if 0 < low < high:
            halves.reverse()
    for half in halves:
        row = [
            *boxes(half.address, half.name + entry.marks, "8"),
            *bit_boxes(entry.facts, half.low + 7, half.low),
            *boxes(entry.access, half.reset, half.title, half.page),
        ]
        yield _Line(half.at, row)


def _row_of(printed: str) -> int:
    """Return the row of which a raw text says that it stands there; 0 if it says none."""
    found = re.match(r"(?:page (\d+), )?row (\d+):", printed)
    return int(found[1] or 0) * _ROWS_OF_PAGE + int(found[2]) if found else 0


def _reserved(shown: Shown, span: Span, width: int) -> _Line:
    """Return the row that says that nothing is there."""
    cells = [Box("-")] * width
    row = [*boxes(shown.reserved_address(span), "Reserved", ""), *cells, *boxes("", "", "", "")]
    return _Line(span.first, row)


def _insert(lines: list[_Line], new: _Line) -> None:
    """Put a row between those that it lies between, whichever way they run."""
    falls = len(lines) > 1 and lines[0].at > lines[-1].at
    for index, line in enumerate(lines):
        if (line.at < new.at) if falls else (line.at > new.at):
            lines.insert(index, new)
            return
    lines.append(new)
