"""Read tables from PDF, by the coordinates of what is printed."""

from __future__ import annotations

import json
import subprocess
from importlib.util import find_spec
from typing import Any

from regwright.importing.own_process import run
from regwright.importing.tables.cells import Cell, Grid, Row, Unreadable

#: Seconds and bytes of memory that a file may cost.
MOST_SECONDS: float = 60
MOST_MEMORY = 1 << 30
#: A PDF has its mark near its start; this far readers look: common practice, no source.
_MARK, _MARK_WITHIN = b"%PDF-", 1024


def read_pdf(data: bytes) -> list[Grid]:
    """Return the grids in a PDF, each with the text above it; rows know their page.

    Tables are read with drawn cells or without. Raises :class:`Unreadable`.
    """
    if _MARK not in data[:_MARK_WITHIN]:
        raise Unreadable("this is no PDF; --form says what else it is")
    if find_spec("pdfplumber") is None:
        raise Unreadable("reading a PDF needs an extra: pip install 'regwright[pdf]'")
    answer = _answer(data)
    if "problem" in answer:
        raise Unreadable(f"this PDF {answer['problem']}")
    return [grid(item) for item in answer["grids"]]


def _answer(data: bytes) -> dict[str, Any]:
    """Return what the process says that reads the file. Raises :class:`Unreadable`."""
    limits = [str(max(1, round(MOST_SECONDS))), str(MOST_MEMORY)]
    try:
        process = run("regwright.importing.tables.pdf_worker", data, MOST_SECONDS, *limits)
    except subprocess.TimeoutExpired:
        raise Unreadable(f"this PDF is not read within {MOST_SECONDS} seconds") from None
    except OSError as problem:
        raise Unreadable(f"this PDF cannot be read: {problem.strerror}") from None
    if process.returncode != 0 or not process.stdout:
        raise Unreadable(
            "this PDF takes more time or memory than any data sheet; keep the table alone"
        )
    answer: dict[str, Any] = json.loads(process.stdout)
    return answer


def grid(parts: list[Any]) -> Grid:
    """Return a grid that went through JSON."""
    rows, title = parts
    return Grid(tuple(_row(row) for row in rows), title)


def _row(parts: list[Any]) -> Row:
    cells, *rest = parts
    return Row(tuple(Cell(*item) for item in cells), *rest)
