"""Read a table from values separated by commas, semicolons or tabs."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter

from regwright.importing.tables.cells import (
    MOST_CELLS,
    MOST_COLUMNS,
    MOST_ROWS,
    Cell,
    Grid,
    Row,
    Unreadable,
    cell,
)

_SEPARATORS = ",;\t|"
_FORMULA = re.compile(r'="(.*)"', re.DOTALL)
_SEPARATOR_LINE = re.compile(r"sep=(.)[ \t]*\r?\n")
#: A quoted cell over more lines than this has lost its closing quote.
_MOST_LINES = 60
_TOO_MANY = "there are more cells than any data sheet has; keep the table alone"


def read_csv(text: str, separator: str = "") -> list[Grid]:
    """Return the one grid in ``text``. The separator is found out where none is given.

    Raises :class:`Unreadable`.
    """
    if text.count("\n") > MOST_ROWS * 4:
        raise Unreadable(_TOO_MANY)
    skipped = 0
    if said := _SEPARATOR_LINE.match(text):
        separator, text, skipped = separator or said[1], text[said.end() :], 1
    separator = separator or separator_of(text)
    try:
        rows = _rows(text, separator, skipped, is_strict=True)
    except csv.Error:
        try:
            rows = _rows(text, separator, skipped, is_strict=False)
        except csv.Error as problem:
            raise Unreadable(f"this is no table of separated values: {problem}") from None
    return [Grid(tuple(rows))]


def separator_of(text: str) -> str:
    """Return the separator that most lines have equally often, a comma where none has any."""
    lines = [re.sub('"[^"]*"', "", line) for line in text[:200_000].split("\n")[:200]]
    lines = [line for line in lines if line.strip()]
    best, most = ",", 0
    for separator in _SEPARATORS:
        counts = Counter(line.count(separator) for line in lines)
        counts.pop(0, None)
        if counts:
            times, agreeing = counts.most_common(1)[0]
            weight = agreeing * min(times, MOST_COLUMNS)
            if weight > most:
                best, most = separator, weight
    return best


def _rows(text: str, separator: str, skipped: int, *, is_strict: bool) -> list[Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=is_strict)
    rows: list[Row] = []
    line, total = 1, 0
    for number, values in enumerate(reader, start=1):
        total += len(values)
        if number > MOST_ROWS or total > MOST_CELLS:
            raise Unreadable(_TOO_MANY)
        is_broken = reader.line_num - line >= _MOST_LINES
        doubt = "a quoted cell goes on for many lines; a quote is missing" if is_broken else ""
        if is_strict and is_broken:
            raise csv.Error(doubt)
        cells = tuple(_cells(values[:MOST_COLUMNS]))
        rows.append(Row(cells, number + skipped, None, line + skipped, doubt))
        line = reader.line_num + 1
    return rows


def _cells(values: list[str]) -> list[Cell]:
    found = []
    for column, value in enumerate(values):
        formula = _FORMULA.fullmatch(value.strip())
        found.append(cell(formula[1] if formula else value, column))
    return found
