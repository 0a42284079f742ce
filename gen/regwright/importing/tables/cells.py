"""The grid that every form of table ends in: rows of cells, each knowing where it was printed."""

from typing import NamedTuple

from regwright.importing.tables.characters import plain

#: The most rows and cells that are read of one file, and characters of one cell; a real data
#: sheet's whole summary stays far below.
MOST_ROWS = 20_000
MOST_CELLS = 200_000
LONGEST_CELL = 4_000
#: The most columns of a grid: 32 bits, and what stands beside them.
MOST_COLUMNS = 80


class Cell(NamedTuple):
    """One printed cell.

    ``text`` is what it says, on one line, with the accidents of typesetting taken away
    (:func:`regwright.importing.tables.characters.plain`); ``raw`` is what the file holds.
    ``column`` counts from 0; a merged cell covers ``span`` columns from there. A cell that is
    merged over several rows stands in each of them, ``continued`` in all but the first.
    ``x0`` and ``x1`` are its left and right edge, where the form knows them: points in a PDF,
    characters in text.
    """

    text: str
    raw: str
    column: int
    span: int = 1
    continued: bool = False
    x0: float | None = None
    x1: float | None = None


class Row(NamedTuple):
    """One printed row: its cells from left to right, without holes where the form has none.

    ``number`` counts from 1, on its page where there are pages (else ``page`` is ``None``),
    otherwise in the file. ``line`` is the line of the file, 1 where a file has no lines. ``doubt``
    says what the form could not be sure of in this row, for a person to look at. ``whole`` is the
    row as printed, where the form had to part it into cells itself.
    """

    cells: tuple[Cell, ...]
    number: int
    page: int | None = None
    line: int = 1
    doubt: str = ""
    whole: str = ""

    @property
    def texts(self) -> list[str]:
        """What each column says: a merged cell in each of its columns, nothing where none is."""
        width = max((cell.column + cell.span for cell in self.cells), default=0)
        found = [""] * width
        for cell in self.cells:
            for column in range(cell.column, cell.column + cell.span):
                found[column] = cell.text
        return found

    @property
    def raw(self) -> str:
        """The row as it was printed; cells that the form itself parts have bars between them."""
        if self.whole:
            return " ".join(self.whole.split())
        return " | ".join(" ".join(cell.raw.split()) for cell in self.cells)

    @property
    def is_blank(self) -> bool:
        """Whether nothing is printed in it."""
        return not any(cell.text for cell in self.cells)

    def at(self, column: int) -> Cell | None:
        """Return the cell that covers ``column``."""
        for cell in self.cells:
            if cell.column <= column < cell.column + cell.span:
                return cell
        return None


class Grid(NamedTuple):
    """One printed table, or the part of one that stands on one page.

    ``title`` is the text that is printed above it since the table before, its lines parted by
    newlines. Captions may as well stand among the rows, as rows of one cell.
    """

    rows: tuple[Row, ...]
    title: str = ""


class Unreadable(Exception):
    """A file cannot be read as a table, or is far too large; the message says what to do."""


def cell(
    raw: str,
    column: int,
    span: int = 1,
    *,
    continued: bool = False,
    edges: tuple[float, float] | None = None,
) -> Cell:
    """Return the cell that holds ``raw``, its text cleaned."""
    x0, x1 = edges or (None, None)
    raw = raw[:LONGEST_CELL]
    return Cell(plain(raw), raw, column, span, continued, x0, x1)
