"""Find the tables in what was read, and tell which layout each is in."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Grid, Row
from regwright.importing.tables.headers import Header, header
from regwright.importing.tables.printed_address import printed_address

SUMMARY, OFFSETS, BOX = "summary", "offsets", "box"
FIELDS, GRID, MATRIX = "fields", "grid", "matrix"
#: The layouts, as ``--layout`` names them.
LAYOUTS = (SUMMARY, OFFSETS, BOX, FIELDS, GRID, MATRIX)
_STACKED = (BOX, GRID)
#: The usual order of columns, and the column of bit 7, for rows without a header.
_USUAL: dict[str, tuple[dict[str, int], int]] = {
    SUMMARY: ({headers.ADDRESS: 0, headers.NAME: 1, headers.PAGE: 10}, 2),
    OFFSETS: ({headers.OFFSET: 0, headers.NAME: 1, headers.BIT_POSITION: 2}, 3),
    FIELDS: (
        {
            headers.BITS: 0,
            headers.NAME: 1,
            headers.ACCESS: 2,
            headers.RESET: 3,
            headers.DESCRIPTION: 4,
        },
        0,
    ),
}
_PLACES = (headers.ADDRESS, headers.OFFSET, headers.IO, headers.DATA)
_MOST_TITLE_ROWS = 6
_FOOTNOTE = re.compile(
    r"\s*(?:\((?P<mark>\d{1,2}|[*†‡§])\)|(?P<raised>[⁰¹²³⁴-⁹]+|[*†‡§]+)\s*"
    r"|notes?\b[ ]?(?P<n>\d{0,2})[.:]"
    r"|(?P<plain>\d{1,2})[.)](?=\s)).*",
    re.IGNORECASE | re.DOTALL,
)
_VALUE = re.compile(
    r"\s*(0x|0b|\$)?((?=[A-Fa-f]*\d)[0-9A-Fa-f]{1,8}|F{1,8}|[A-Ea-f])[hb]?\s*([:=.\-\u2013\u2014]|\s)"
)
_CONTINUED = re.compile(r"\s*[(\[]?\bcont(inued|'d|\.)?[)\]]?\.?\s*$", re.IGNORECASE)


@dataclass
class Section:
    """A table: its layout, the text above it, and its rows, each with the header it is under.

    A header that stands in the rows itself (the second half of a register's box) is a row too.
    ``doubts`` are lines of the file and what could not be read there, when that is no register's;
    ``left_out`` are lines and what a description has no place for.
    """

    layout: str
    title: str = ""
    rows: list[tuple[Header, Row]] = field(default_factory=list)
    doubts: list[tuple[int, str]] = field(default_factory=list)
    left_out: list[tuple[int, str]] = field(default_factory=list)

    @property
    def first(self) -> Row:
        """The row it starts with."""
        return self.rows[0][1]


def layouts_of(head: Header, below: list[Row]) -> list[str]:
    """Return the layouts that a header may be of, the likeliest first."""
    roles = head.roles
    has_place = any(role in roles for role in _PLACES)
    if headers.NAME in roles and has_place:
        if headers.BIT_POSITION in roles and head.bits:
            return [OFFSETS]
        return [SUMMARY] if headers.BITS not in roles else [FIELDS]
    found: list[str] = []
    is_map = bool(head.digits) and headers.BITS not in roles and headers.NAME not in roles
    if is_map or head.banks:
        found.append(MATRIX)
    if head.bits and headers.NAME not in roles:
        found += [GRID, BOX] if max(head.bits.values()) > 15 else [BOX, GRID]
        is_box = is_map and not (has_place or len(head.digits) == 16 or _has_bases(below))
        return found[::-1] if is_box else found
    is_list = headers.BITS in roles or headers.BIT_POSITION in roles
    if is_list and not head.bits and (headers.NAME in roles or headers.DESCRIPTION in roles):
        found.append(FIELDS)
    return found


def _has_bases(below: list[Row]) -> bool:
    """Tell whether the rows beneath start with addresses, as those of a matrix do."""
    found = [row.cells[0].text for row in below[:3] if row.cells and not row.is_blank]
    addresses = [text for text in found if (item := printed_address(text)) and not item.inner]
    return len(addresses) > 1 and len(addresses) == len(found)


def sections(grids: list[Grid], forced: str = "") -> list[Section]:
    """Return the tables in ``grids``; ``forced`` is the layout that all of them have."""
    finder = _Finder(forced)
    for grid in grids:
        finder.take(grid)
    found = [section for section in finder.found if section.rows]
    return found or assumed(grids, forced)


def assumed(grids: list[Grid], forced: str) -> list[Section]:
    """Return rows that have no header as a table of the layout that was named.

    Columns are taken to stand in the usual order; rows that are too short or too wide are not
    taken at all, and no row is where one heads the columns of another layout.
    """
    roles, first_bit = _USUAL.get(forced, ({}, 0))
    if not roles or any(_heads_others(row) for grid in grids for row in grid.rows):
        return []
    bits = {first_bit + index: 7 - index for index in range(8)} if first_bit else {}
    last = max([*roles.values(), *bits])
    section = Section(forced)
    for grid in grids:
        for row in grid.rows:
            width = max((cell.column + cell.span for cell in row.cells), default=0)
            if width in (last, last + 1) and not row.is_blank:
                head = Header(roles, bits, {}, {}, Row((), 0))
                section.rows.append((head, row))
    return [section] if section.rows else []


def _heads_others(row: Row) -> bool:
    head = header(row)
    return len(head.roles) > 1 and not _is_data(head, row) and bool(layouts_of(head, []))


class _Finder:
    """Goes through the rows of all grids; a table may go on over pages."""

    def __init__(self, forced: str) -> None:
        self.forced = forced
        self.found: list[Section] = []
        self.loose: list[str] = []
        self.seen_bits: set[int] = set()
        self.head: Header | None = None

    def take(self, grid: Grid) -> None:
        """Add the tables of ``grid``, or go on with the one before."""
        if grid.title:
            self.loose = grid.title.split("\n")
        rows = grid.rows
        skip = 0
        for index, row in enumerate(rows):
            if skip:
                skip -= 1
                continue
            head, layout, skip = self._header_at(rows, index)
            if head is not None:
                self._start(head, layout)
            elif self.head is not None:
                self.found[-1].rows.append((self.head, row))
            elif not row.is_blank:
                self.loose.append(" ".join(cell.text for cell in row.cells if cell.text))
        self.loose = self.loose[-_MOST_TITLE_ROWS:]

    def _header_at(self, rows: tuple[Row, ...], index: int) -> tuple[Header | None, str, int]:
        """Return the header that starts at ``index``, its layout, and how many more rows it has."""
        row = rows[index]
        if len(row.cells) < 2:
            return None, "", 0
        below = list(rows[index + 1 : index + 5])
        head: Header | None = None
        for further in (0, 1):
            if further and not below:
                break
            if further and (head is None or not head.roles):
                break
            head = header(row, below[0] if further else None)
            possible = layouts_of(head, below[further:]) if head.is_one else []
            if _is_data(head, row) or (further and not (head.bits and _heads_registers(head))):
                continue
            is_list = not further and bool(below) and possible[:1] == [SUMMARY] and not head.bits
            if is_list and header(row, below[0]).bits:
                continue  # the bits stand in the row beneath
            if self.forced:
                possible = [item for item in possible if item == self.forced]
            if possible:
                return head, possible[0], further
        return None, "", 0

    def _start(self, head: Header, layout: str) -> None:
        title = [*self.loose, *self._trailing()]
        self.loose = []
        current = self.found[-1] if self.found else None
        text = "\n".join(title)
        if current is not None and layout in _STACKED and current.layout in _STACKED:
            layout = GRID if GRID in (layout, current.layout) and not text else layout
            if not text and not set(head.bits.values()) & self.seen_bits:
                current.layout = layout
        is_same = current is not None and current.layout == layout
        if layout in _STACKED:
            bits = set(head.bits.values())
            goes_on = is_same and not text and not bits & self.seen_bits
            self.seen_bits = self.seen_bits | bits if goes_on else bits
        else:
            goes_on = is_same and (not text or _same_title(text, current))
        if not goes_on:
            self.found.append(Section(layout, text))
        if layout in _STACKED:
            self.found[-1].rows.append((head, head.row))
        self.head = head

    def _trailing(self) -> list[str]:
        """Take the lone cells at the end of the table before: they are the next one's title."""
        taken: list[str] = []
        rows = self.found[-1].rows if self.found else []
        while rows and len(taken) < _MOST_TITLE_ROWS:
            row = rows[-1][1]
            if not row.is_blank:
                text = alone(row)
                if not text or is_footnote(text) or _VALUE.match(text):
                    break
                taken.append(text)
            rows.pop()
        return taken[::-1]


def _heads_registers(head: Header) -> bool:
    return headers.NAME in head.roles and any(role in head.roles for role in _PLACES)


def _is_data(head: Header, row: Row) -> bool:
    """Tell whether a row is no header after all: it has an address, or bits behind a name."""
    heading = {*head.bits, *head.digits, *head.banks}
    others = [cell.text for cell in row.cells if cell.column not in heading and cell.text]
    for text in others:
        found = printed_address(text)
        if found is not None and (found.inner or found.first.first.style == "hex"):
            return True
    has_unknown = any(not headers.role_of(text) for text in others)
    return bool(head.bits) and not head.digits and len(head.roles) < 2 and has_unknown


def _same_title(text: str, current: Section | None) -> bool:
    return current is not None and _bare(text) == _bare(current.title)


def _bare(title: str) -> str:
    return _CONTINUED.sub("", title.rpartition("\n")[2]).strip().lower()


def alone(row: Row) -> str:
    """Return the text of a row that has but one cell, at its start; else nothing."""
    filled = [cell for cell in row.cells if cell.text]
    return filled[0].text if len(filled) == 1 and filled[0].column == 0 else ""


def is_footnote(text: str) -> bool:
    """Tell whether a lone line is a footnote."""
    return bool(_FOOTNOTE.fullmatch(text)) and printed_address(text) is None


def footnotes(section: Section) -> dict[str, str]:
    """Return the footnotes of a table by their marks."""
    found: dict[str, str] = {}
    raised = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")
    for _, row in section.rows:
        text = alone(row)
        if text and (match := _FOOTNOTE.fullmatch(text)) and is_footnote(text):
            mark = match["mark"] or match["raised"] or match["n"] or match["plain"] or ""
            found[mark.strip().translate(raised)] = text
    return found
