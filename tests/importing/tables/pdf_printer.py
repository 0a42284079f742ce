"""Print tables as PDF with fpdf2, a general-purpose library: with drawn cells and without."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from fpdf import FPDF

MARGIN = 36.0
#: A cell of a drawn table, and how many columns and rows it covers.


class Box(NamedTuple):
    text: str
    span: int = 1
    down: int = 1


Rows = Sequence[Sequence[str | Box]]


def page(orientation: str = "landscape", size: int = 7) -> FPDF:
    document = FPDF(orientation=orientation, unit="pt", format="a4")
    document.set_auto_page_break(auto=False)
    document.set_font("helvetica", size=size)
    document.set_margin(MARGIN)
    document.add_page()
    return document


def as_bytes(document: FPDF) -> bytes:
    return bytes(document.output())


def words(document: FPDF, x: float, y: float, text: str) -> None:
    document.text(x, y, text)


def ruled(
    document: FPDF,
    rows: Rows,
    widths: Sequence[float],
    top: float,
    *,
    height: float = 16,
    left: float = MARGIN,
) -> float:
    """Draw a table with a box around each cell, and return where it ends."""
    taken: set[tuple[int, int]] = set()
    for number, row in enumerate(rows):
        column = 0
        for item in row:
            while (column, number) in taken:
                column += 1
            box = item if isinstance(item, Box) else Box(item)
            x = left + sum(widths[:column])
            y = top + number * height
            width = sum(widths[column : column + box.span])
            document.rect(x, y, width, box.down * height)
            lines = box.text.split("\n")
            for index, line in enumerate(lines):
                size = document.font_size
                start = y + (box.down * height - len(lines) * size * 1.15) / 2
                shift = (width - document.get_string_width(line)) / 2
                document.text(x + shift, start + size * (0.9 + 1.15 * index), line)
            taken.update((column + x, number + y) for x in range(box.span) for y in range(box.down))
            column += box.span
    return top + len(rows) * height


def plain(
    document: FPDF,
    rows: Rows,
    widths: Sequence[float],
    top: float,
    *,
    pitch: float = 14,
    left: float = MARGIN,
) -> float:
    """Print a table without lines, its cells on the left of their columns; return where it ends.

    A merged cell stands in the middle of its columns. A line within a cell is a line of type.
    """
    y = top
    for row in rows:
        column = 0
        most = 1
        for item in row:
            box = item if isinstance(item, Box) else Box(item)
            x = left + sum(widths[:column])
            width = sum(widths[column : column + box.span])
            lines = box.text.split("\n")
            most = max(most, len(lines))
            for index, line in enumerate(lines):
                shift = (width - document.get_string_width(line)) / 2 if box.span > 1 else 0
                document.text(x + shift, y + index * document.font_size * 1.15, line)
            column += box.span
        y += pitch + (most - 1) * document.font_size * 1.15
    return y
