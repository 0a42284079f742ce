"""Hold the cells of a row against the columns of its header: one too many shifts all behind it."""

from __future__ import annotations

from regwright.importing.tables.cells import Row
from regwright.importing.tables.headers import Header


def misfit(head: Header, row: Row, *, is_matrix: bool = False) -> str:
    """Return what is wrong with the number of cells of ``row``; nothing where it fits.

    Where it does not fit, nobody can tell which cell is the one too many or the one that is
    missing, so that no column from the first bit on is certain. ``is_matrix`` says that the
    columns stand for addresses.
    """
    if not head.row.cells:
        return ""
    columns = {*head.bits, *head.digits, *head.banks}
    known = max([*columns, *head.roles.values()]) + 1
    width = max(known, *(cell.column + cell.span for cell in head.row.cells))
    used = max((cell.column + cell.span for cell in row.cells if cell.text), default=0)
    there = max((cell.column + cell.span for cell in row.cells), default=0)
    surplus = used - (width if is_matrix or not columns else known)
    if surplus <= 0:
        surplus = min(0, there - known)
    if not surplus or (surplus < 0 and _is_certain(head, row, columns)):
        return ""
    if not columns:
        return f"{width + surplus} cells for {width} columns: look at what they say"
    count = len(columns)
    cells = count + surplus if there > max(columns) else max(there - min(columns), 0)
    if not is_matrix:
        return f"{cells} cells for {count} bit columns: no bit of this row is certain"
    return f"{cells} cells for {count} columns: no address of this row is certain"


def before_bits(head: Header) -> dict[str, int]:
    """Return the columns of the roles that stand before the first bit: those that are certain."""
    first = min(head.bits, default=1 << 30)
    return {role: column for role, column in head.roles.items() if column < first}


def _is_certain(head: Header, row: Row, columns: set[int]) -> bool:
    """Tell whether a short row lacks nothing but what stands behind the bits, or holds no bits."""
    if not columns:
        return True  # a list: what is missing stands at its end, or does not look like its column
    texts = row.texts
    held = [texts[column] if column < len(texts) else "" for column in sorted(columns)]
    filled = [text for text in held if text]
    if len(filled) < 2 and head.bits:
        return len(filled) == 0 or bool(held[0])
    return all(held) and not held[-1].isdigit()
