"""Read tables from HTML: merged cells, line breaks, raised marks; nothing is fetched or run."""

from __future__ import annotations

import re
from itertools import takewhile
from typing import TYPE_CHECKING

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
from regwright.importing.tables.recognise import is_footnote
from regwright.importing.tables.titles import title_of

if TYPE_CHECKING:
    from lxml.html import HtmlElement

_SKIPPED = {"script", "style", "head", "template", "noscript"}
_BREAKING = {"br", "p", "div", "li", "tr", "h1", "h2", "h3", "h4", "h5", "h6"}
_RAISED = str.maketrans("0123456789()", "⁰¹²³⁴⁵⁶⁷⁸⁹⁽⁾")
_MARK = re.compile(r"\(?\d{1,2}\)?|[*†‡§]")
_CELL = re.compile(rb"<t[dh]\b", re.IGNORECASE)
_TOO_MANY = "there are more cells than any data sheet has; keep the table alone"
_OVERLAP = "a merged cell reaches into one from the rows above; look at the columns"
_LONGEST_TITLE = 2_000


def read_html(text: str) -> list[Grid]:
    """Return the grids in ``text``, outer tables only, each with the text above it.

    Raises :class:`Unreadable`.
    """
    from lxml import etree, html

    parser = html.HTMLParser(
        encoding="utf-8", no_network=True, remove_comments=True, remove_pis=True, huge_tree=False
    )
    data = text.encode("utf-8", "replace")
    if not data.strip():
        return []
    if len(_CELL.findall(data)) > MOST_CELLS:
        raise Unreadable(_TOO_MANY)
    try:
        root = html.document_fromstring(data, parser=parser)
    except (etree.ParserError, etree.LxmlError, ValueError) as problem:
        raise Unreadable(f"this HTML cannot be read: {problem}") from None
    return _Reader().read(root)


class _Reader:
    """Walks a document once; ``left`` is how many cells may still come."""

    def __init__(self) -> None:
        self.left = MOST_CELLS
        self.rows_left = MOST_ROWS
        self.number = 0

    def read(self, root: HtmlElement) -> list[Grid]:
        from lxml import etree

        grids: list[Grid] = []
        title: list[str] = []
        depth = skipping = 0
        for event, element in etree.iterwalk(root, events=("start", "end")):
            tag = element.tag
            starts = event == "start"
            if tag in _SKIPPED and depth == 0:
                skipping += 1 if starts else -1
            if tag == "table":
                if starts and depth == 0:
                    above = _with_footnotes(grids, "".join(title))
                    grids.append(self._grid(element, above))
                    title = []
                depth += 1 if starts else -1
            if depth == 0 and not skipping:
                if tag in _BREAKING:
                    title.append("\n")
                if starts and tag != "table":
                    title.append(element.text or "")
                elif not starts:
                    title.append(element.tail or "")
        _with_footnotes(grids, "".join(title))
        return grids

    def _grid(self, table: HtmlElement, above: str) -> Grid:
        caption = table.find("caption")
        title = _lines(above[-_LONGEST_TITLE:])
        if caption is not None:
            title += _lines(_text(caption))
        rows: list[Row] = []
        carried: dict[int, tuple[int, Cell]] = {}
        for element in _own_rows(table):
            self.number += 1
            self.rows_left -= 1
            cells, doubt = self._cells(element, carried)
            self.left -= len(cells)
            if self.left < 0 or self.rows_left < 0:
                raise Unreadable(_TOO_MANY)
            rows.append(Row(tuple(cells), self.number, None, element.sourceline or 1, doubt))
        return Grid(tuple(rows), "\n".join(title))

    def _cells(
        self, row: HtmlElement, carried: dict[int, tuple[int, Cell]]
    ) -> tuple[list[Cell], str]:
        """Return the cells of ``row``, and what is not certain of them.

        ``carried`` has those that reach down from rows above.
        """
        doubt = ""
        found: list[Cell] = []
        for column, (left, above) in list(carried.items()):
            found.append(above._replace(continued=True))
            carried[column] = (left - 1, above)
            if left <= 1:
                del carried[column]
        taken = {column for item in found for column in range(item.column, item.column + item.span)}
        column = 0
        for element in row.iterchildren("td", "th"):
            while column in taken:
                column += 1
            if column >= MOST_COLUMNS:
                break
            span = 1
            wanted = min(_number(element.get("colspan")), MOST_COLUMNS - column)
            while span < wanted and column + span not in taken:
                span += 1
            doubt = _OVERLAP if span < wanted else doubt
            new = cell(_text(element), column, span)
            found.append(new)
            down = min(_number(element.get("rowspan")), MOST_ROWS)
            if down > 1:
                carried[column] = (down - 1, new)
            column += span
        return sorted(found, key=lambda item: item.column), doubt


def _with_footnotes(grids: list[Grid], text: str) -> str:
    """Add the footnotes with which ``text`` starts to the table above; return the rest."""
    lines = _lines(text[:_LONGEST_TITLE])
    notes = list(takewhile(_is_footnote, lines)) if grids else []
    if not notes:
        return text
    last = grids[-1]
    at = last.rows[-1] if last.rows else Row((), 0)
    rows = [
        Row((cell(note, 0),), at.number + index, None, at.line)
        for index, note in enumerate(notes, start=1)
    ]
    grids[-1] = last._replace(rows=(*last.rows, *rows))
    return "\n".join(lines[len(notes) :])


def _is_footnote(line: str) -> bool:
    return is_footnote(line) and not title_of(line).name


def _own_rows(table: HtmlElement) -> list[HtmlElement]:
    """Return the rows of ``table`` itself, not those of tables within its cells."""
    found = []
    for child in table.iterchildren("tr", "thead", "tbody", "tfoot"):
        found += [child] if child.tag == "tr" else list(child.iterchildren("tr"))
    return found


def _number(text: str | None) -> int:
    """Return a span as browsers read it: 1 for what is none, and never an endless one."""
    text = (text or "").strip()
    return max(1, int(text[:6])) if text.isascii() and text.isdigit() else 1


def _text(element: HtmlElement) -> str:
    """Return the text in a cell, with a line for each line, and marks of footnotes raised."""
    from lxml import etree

    parts: list[str] = []
    length = skipping = 0
    for event, inner in etree.iterwalk(element, events=("start", "end")):
        starts = event == "start"
        if inner.tag in _SKIPPED:
            skipping += 1 if starts else -1
        if inner.tag in _BREAKING and inner is not element and (starts or inner.tag != "br"):
            parts.append("\n")
        elif inner.tag in ("td", "th") and inner is not element and starts:
            parts.append(": " if _is_second(inner) else " ")
        piece = (inner.text if starts else inner.tail if inner is not element else "") or ""
        piece = " ".join(re.split(r"[ \t\r\n]+", piece)) if not skipping else ""
        if starts and inner.tag == "sup" and _MARK.fullmatch(piece.strip()):
            piece = piece.strip().translate(_RAISED)
        parts.append(piece)
        length += len(piece)
        if length > LONGEST_CELL:
            break
    return re.sub(r"[ ]*\n\s*", "\n", "".join(parts)).strip(" \n")


def _is_second(inner: HtmlElement) -> bool:
    """Tell whether a cell of a table within a cell is the second: a value's name, behind it."""
    before = inner.getprevious()
    return before is not None and before.getprevious() is None


def _lines(text: str) -> list[str]:
    return [" ".join(line.split()) for line in text.split("\n") if line.strip()]
