"""Read tables from plain text: spaces that still stand in columns, or what is left of them."""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.importing.tables.cells import (
    LONGEST_CELL,
    MOST_CELLS,
    MOST_COLUMNS,
    MOST_ROWS,
    Cell,
    Grid,
    Row,
    Unreadable,
    cell,
)
from regwright.importing.tables.collapsed import collapsed_rows
from regwright.importing.tables.csv_form import read_csv
from regwright.importing.tables.headers import bank_of, bit_of, header, role_of
from regwright.importing.tables.recognise import is_footnote

_CHUNK = re.compile(r"\S+(?: \S+)*")
_WORD = re.compile(r"\S+")
_GAP = re.compile(r"\S {2,}\S")


def read_text(text: str) -> list[Grid]:
    """Return a grid for each page of ``text``; a form feed ends a page.

    Tabs part cells. Where there are none, the places of the header's words part them; where
    every space is single, see :mod:`regwright.importing.tables.collapsed`.
    Raises :class:`Unreadable`.
    """
    if any("\t" in line.strip() for line in text.split("\n")):
        return read_csv(text, "\t")
    text = text.replace("\u00a0", " ").replace("\r\n", "\n").replace("\r", "\n")
    if text.count("\n") > MOST_ROWS:
        raise Unreadable(f"there are more than {MOST_ROWS} lines; keep the table alone")
    pages = text.split("\f")
    grids, line, left = [], 1, MOST_CELLS
    for number, page in enumerate(pages, start=1):
        lines = [item[:LONGEST_CELL].rstrip() for item in page.split("\n")]
        place = _Place(number if len(pages) > 1 else None, line)
        has_gaps = sum(bool(_GAP.search(item)) for item in lines)
        words = sum(len(item.split()) > 2 for item in lines)
        rows = _spaced(lines, place) if has_gaps * 3 > words else collapsed_rows(lines, *place)
        left -= sum(len(row.cells) for row in rows)
        if left < 0:
            raise Unreadable("there are more words than any data sheet has; keep the table alone")
        grids.append(Grid(tuple(rows)))
        line += len(lines) - 1
    return grids


class _Place(NamedTuple):
    """A page, if there are pages, and the line of the file with which it starts."""

    page: int | None
    line: int


class _Chunk(NamedTuple):
    text: str
    start: int
    end: int


def _spaced(lines: list[str], place: _Place) -> list[Row]:
    """Return the rows of text whose columns still stand beneath their headers."""
    rows: list[Row] = []
    columns: list[_Chunk] = []
    bits: frozenset[int] = frozenset()
    after_blank = True
    for number, text in enumerate(lines, start=1):
        if not text.strip():
            after_blank = True
            continue
        at = (number, place.page, place.line + number - 1)
        chunks = _header_chunks(text)
        found = header(_row(chunks, at))
        if found.is_one and found.known * 2 > len(chunks):
            columns, bits = chunks, frozenset(found.bits)
            rows.append(found.row)
        elif not columns or _is_across(text, columns, after_blank=after_blank):
            rows.append(Row((cell(text.strip(), 0),), *at))
        else:
            rows.append(_under(text, columns, bits, at))
        after_blank = False
    return rows


def _is_across(text: str, columns: list[_Chunk], *, after_blank: bool) -> bool:
    """Tell whether a line is text across the table: a caption, a footnote."""
    if _GAP.search(text.strip()):
        return False
    start = len(text) - len(text.lstrip())
    reaches = len(columns) > 1 and start < 2 and len(text) > columns[1].start
    return after_blank or reaches or (start < 2 and is_footnote(text))


def _row(chunks: list[_Chunk], at: tuple[int, int | None, int]) -> Row:
    cells = [
        cell(item.text, column, edges=(item.start, item.end)) for column, item in enumerate(chunks)
    ]
    return Row(tuple(cells[:MOST_COLUMNS]), *at)


def _header_chunks(text: str) -> list[_Chunk]:
    """Return the headers in a line; numbers of bits are parted by single spaces too."""
    found = []
    for match in _CHUNK.finditer(text):
        words = [
            _Chunk(word[0], match.start() + word.start(), match.start() + word.end())
            for word in _WORD.finditer(match[0])
        ]
        text_is_one = role_of(match[0]) or bank_of(match[0]) or bit_of(match[0]) is not None
        if len(words) > 1 and not text_is_one:
            found += _joined_bits(words)
        else:
            found.append(_Chunk(match[0], match.start(), match.end()))
    if found and bit_of(found[0].text) is not None and found[0].start > 1:
        found.insert(0, _Chunk("", 0, found[0].start - 2))  # a column without a header
    return found


def _joined_bits(words: list[_Chunk]) -> list[_Chunk]:
    """Part words of headers that stand close together, ``Bit 7`` kept as one."""
    named = sum(word.text.lower() == "bit" for word in words)
    found: list[_Chunk] = []
    for word in words:
        before = found[-1] if found else None
        if before and before.text.lower() == "bit" and named > 1 and bit_of(word.text) is not None:
            found[-1] = _Chunk(f"{before.text} {word.text}", before.start, word.end)
        else:
            found.append(word)
    if all(bit_of(item.text) is not None or role_of(item.text) for item in found):
        return found
    text = " ".join(word.text for word in words)
    return [_Chunk(text, words[0].start, words[-1].end)]


def _under(
    text: str, columns: list[_Chunk], bits: frozenset[int], at: tuple[int, int | None, int]
) -> Row:
    """Return the row whose cells stand beneath ``columns``."""
    held: dict[int, list[_Chunk]] = {}
    doubt = ""
    for chunk in _parted(text, columns, bits):
        column = _column(chunk, columns, bits)
        if column in held and column in bits:
            doubt = "words stand closer than the columns of the header; look at the bits"
        held.setdefault(column, []).append(chunk)
    cells: list[Cell] = []
    for column in range(max(len(columns), 1 + max(held, default=0))):
        chunks = held.get(column, [])
        edges = (chunks[0].start, chunks[-1].end) if chunks else None
        cells.append(cell(" ".join(item.text for item in chunks), column, edges=edges))
    return Row(tuple(cells), *at, doubt, text)


def _parted(text: str, columns: list[_Chunk], bits: frozenset[int]) -> list[_Chunk]:
    """Return the chunks of a line; one that reaches into further columns is parted there."""
    starts = {item.start for item in columns}
    first_bit = min((columns[column].start for column in bits), default=1 << 30) - 2
    last_bit = max((columns[column].end for column in bits), default=-1) + 2
    found: list[_Chunk] = []
    for match in _CHUNK.finditer(text):
        pieces: list[_Chunk] = []
        for word in _WORD.finditer(match[0]):
            start, end = match.start() + word.start(), match.start() + word.end()
            is_bit = first_bit <= start and end <= last_bit and not word[0].startswith("(")
            if pieces and not is_bit and start not in starts:
                last = pieces[-1]
                pieces[-1] = _Chunk(text[last.start : end], last.start, end)
            else:
                pieces.append(_Chunk(word[0], start, end))
        found += pieces
    return found


def _column(chunk: _Chunk, columns: list[_Chunk], bits: frozenset[int]) -> int:
    """Return the column whose header stands above ``chunk``: begins there, or is nearest."""
    last = len(columns) - 1
    if last in bits and chunk.start >= columns[last].end + 2:
        return last + 1  # what stands at the side of a box

    def distance(column: int) -> tuple[int, float]:
        head = columns[column]
        gap = max(head.start - chunk.end, chunk.start - head.end, 0)
        middle = abs((head.start + head.end) - (chunk.start + chunk.end))
        edge = abs(head.start - chunk.start)
        return (gap, min(2 * edge, middle) if column in bits else edge)

    return min(range(len(columns)), key=distance)
