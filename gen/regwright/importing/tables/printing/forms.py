"""Printed tables as text of four forms."""

from __future__ import annotations

import csv
import io
from html import escape

from regwright.importing.tables.printing.table import Box, Printed

_GAP = "  "


def as_csv(tables: list[Printed]) -> str:
    """Return values separated by commas, a blank line between tables."""
    return _separated(tables, ",")


def as_tsv(tables: list[Printed]) -> str:
    """Return values separated by tabs."""
    return _separated(tables, "\t")


def _separated(tables: list[Printed], separator: str) -> str:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator="\n")
    for number, table in enumerate(tables):
        if number:
            out.write("\n")
        width = max(sum(box.span for box in row) for row in table.rows)
        rows = [[table.title], *map(_flat, table.rows), *([note] for note in table.notes)]
        for row in rows if table.title else rows[1:]:
            writer.writerow([*row, *[""] * (width - len(row))])
    return out.getvalue()


def _flat(row: list[Box]) -> list[str]:
    """Return the texts of columns: a merged one in its first column, or in each of them.

    In each, where a blank column beside it could be taken for one of its own.
    """
    found: list[str] = []
    for index, box in enumerate(row):
        beside = row[max(index - 1, 0) : index] + row[index + 1 : index + 2]
        is_clear = box.span == 1 or all(item.text for item in beside)
        found += [box.text, *[box.text if not is_clear else ""] * (box.span - 1)]
    return found


def as_text(tables: list[Printed]) -> str:
    """Return tables whose columns stand beneath each other, at least two spaces apart."""
    return "\n".join(_text(table) for table in tables)


def _text(table: Printed) -> str:
    rows = [_flat(row) for row in table.rows]
    columns = max(map(len, rows))
    rows = [[*row, *[""] * (columns - len(row))] for row in rows]
    widths = [max(len(row[column]) for row in rows) for column in range(columns)]
    lines = [
        _GAP.join(text.ljust(width) for text, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]
    above = [table.title, ""] if table.title else []
    below = ["", *table.notes] if table.notes else []
    return "\n".join([*above, *lines, *below]) + "\n"


def as_html(tables: list[Printed]) -> str:
    """Return a whole document; merged cells span their columns."""
    parts = [
        '<!DOCTYPE html>\n<html lang="en">\n<meta charset="utf-8">\n<title>Registers</title>\n'
    ]
    for table in tables:
        if table.title:
            parts.append(f"<h3>{escape(table.title)}</h3>\n")
        parts.append('<table border="1">\n')
        for index, row in enumerate(table.rows):
            tag = "th" if index in table.headers else "td"
            parts.append("<tr>" + "".join(_cell(box, tag) for box in row) + "</tr>\n")
        parts.append("</table>\n")
        parts += [f"<p>{escape(note)}</p>\n" for note in table.notes]
    return "".join([*parts, "</html>\n"])


def _cell(box: Box, tag: str) -> str:
    span = f' colspan="{box.span}"' if box.span > 1 else ""
    return f"<{tag}{span}>{escape(box.text)}</{tag}>"
