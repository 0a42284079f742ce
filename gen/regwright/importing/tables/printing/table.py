"""A printed table before it has a form: rows of boxes, some over several columns."""

from typing import NamedTuple


class Box(NamedTuple):
    """What stands in one or, merged, in several columns."""

    text: str
    span: int = 1


class Printed(NamedTuple):
    """A table with the text above and below it; the first of ``rows`` is the header.

    ``headers`` are the indices of the rows that head columns.
    """

    title: str
    rows: list[list[Box]]
    notes: tuple[str, ...] = ()
    headers: tuple[int, ...] = (0,)


def boxes(*texts: str) -> list[Box]:
    """Return a box for each text."""
    return [Box(text) for text in texts]


def without_empty(rows: list[list[Box]], optional: range) -> list[list[Box]]:
    """Return ``rows`` without those ``optional`` columns that hold nothing below the header.

    No merged box stands in those columns.
    """
    found = rows
    for column in reversed(optional):
        below = [_at(row, column) for row in found[1:]]
        if not any(box.text for box in below if box):
            found = [[box for box in row if box is not _at(row, column)] for row in found]
    return found


def _at(row: list[Box], column: int) -> Box | None:
    """Return the box that starts at ``column``."""
    start = 0
    for box in row:
        if start == column:
            return box
        start += box.span
    return None
