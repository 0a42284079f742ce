"""Read the tables of a PDF within limits, as a process of its own.

A PDF is a program of sorts: a few kilobytes may unfold to gigabytes or draw without end. So it is
read where it can be stopped. The file comes in on standard input, the grids go out as JSON.
"""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Iterator
from typing import Any

from regwright.importing.own_process import limit_memory, limit_time

#: A data sheet's chapter of registers stays far below.
MOST_PAGES = 200


def main() -> None:
    """Read standard input and write what :func:`answer` returns for it, as JSON.

    The arguments are the seconds of computing and the bytes of memory that may be used.
    """
    limit_time(int(sys.argv[1]))
    limit_memory(int(sys.argv[2]))
    sys.stdout.write(json.dumps(answer(sys.stdin.buffer.read())))


def answer(data: bytes) -> dict[str, Any]:
    """Return the tables of a PDF as ``{"grids": …}``, or ``{"problem": …}`` with what is wrong."""
    import logging

    import pdfplumber
    from pdfminer.pdfdocument import PDFEncryptionError, PDFPasswordIncorrect

    logging.disable(logging.CRITICAL)
    try:
        with pdfplumber.open(io.BytesIO(data)) as document:
            return _read(document)
    except Exception as problem:  # a broken PDF may raise anything
        kinds = tuple(_kinds(problem))
        if {MemoryError, RecursionError}.intersection(kinds):
            return {"problem": "takes more memory than any data sheet; keep the table alone"}
        if {PDFEncryptionError, PDFPasswordIncorrect}.intersection(kinds):
            return {"problem": "is encrypted; save a copy without a password first"}
        return {"problem": f"is broken: {kinds[-1].__name__}; print it to a new PDF first"}


def _kinds(problem: BaseException) -> Iterator[type[BaseException]]:
    """Yield what was raised, and what that was raised for."""
    seen: list[BaseException] = []
    waiting: list[object] = [problem]
    while waiting:
        item = waiting.pop()
        if isinstance(item, BaseException) and item not in seen:
            seen.append(item)
            yield type(item)
            waiting += [item.__cause__, item.__context__, *item.args]


def _read(document: Any) -> dict[str, Any]:
    from regwright.importing.tables.cells import Unreadable
    from regwright.importing.tables.pdf_sheet import TooMuch, sheet
    from regwright.importing.tables.pdf_tables import read_sheets

    count = len(document.pages)
    if count > MOST_PAGES:
        return {
            "problem": f"has {count} pages, and {MOST_PAGES} at most are read; "
            "keep those with the tables"
        }
    sheets = []
    try:
        for page in document.pages:
            sheets.append(sheet(page))
            page.close()
        if not any(item.lines for item in sheets):
            return {"problem": "holds no text, only pictures; read it with OCR first"}
        return {"grids": read_sheets(sheets)}
    except TooMuch as problem:
        return {"problem": f"is no data sheet: {problem}; keep the table alone"}
    except Unreadable as problem:
        return {"problem": f"is too large: {problem}"}


if __name__ == "__main__":
    main()
