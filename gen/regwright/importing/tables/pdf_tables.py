"""From the pages of a PDF to grids: tables in order, the text above each, parts put together."""

import re
from collections import Counter
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from regwright.importing.tables.cells import MOST_CELLS, MOST_ROWS, Cell, Grid, Row, Unreadable
from regwright.importing.tables.pdf_plain import Line, blocks, line, plain_tables
from regwright.importing.tables.pdf_ruled import Frame, Table, fill, frames, is_beside
from regwright.importing.tables.pdf_sheet import Sheet, Word, phrases

#: Columns of a table that goes on stand where they stood, within so many points.
_SAME_PLACE = 6.0
#: The parts of a page in which what is printed on other pages too is no text of this one.
_MARGIN = 0.14
_LONGEST_TITLE = 2_000
_CONTINUED = re.compile(
    r"[\s(\[]*(.{0,120}\W)?cont(inued|inuation|['\u2019.]?d|\.)?[)\].:\s]*", re.IGNORECASE
)
_NO_MEANING = "\ufffd"
_UNKNOWN = "the PDF does not say which characters some shapes of this row are"


class Part(NamedTuple):
    """A table on one page, and the text between it and the table before."""

    page: int
    table: Table
    title: list[str]


class Page(NamedTuple):
    """What is read of one page: its tables, and the lines between them by their height."""

    number: int
    tables: list[Table]
    texts: list[Line]


class _Drawn(NamedTuple):
    """A page with its drawn tables taken out: ``lines`` is the text that is left."""

    sheet: Sheet
    tables: list[Table]
    lines: list[Line]


def read_sheets(sheets: list[Sheet]) -> list[Grid]:
    """Return the grids on pages that follow each other. Raises :class:`Unreadable`."""
    drawn = [_drawn(item) for item in sheets]
    running = _running(drawn)
    pages: list[Page] = []
    for item in drawn:
        pages.append(_page(item, running, pages[-1] if pages else None))
    return _grids(pages)


def _drawn(sheet: Sheet) -> _Drawn:
    """Take the drawn tables out of a page, those within others first."""
    tables: list[Table] = []
    rest = [list(words) for words in sheet.lines]
    for frame in frames(sheet.across, sheet.down):
        inside, rest = _taken(rest, partial(_is_within, frame))
        if inside:
            beside, others = _taken(rest, partial(is_beside, frame))
            if len(beside) > 2 * (len(frame.rows) - 1):  # more than its address can be
                beside, others = [], rest
            rest = others
            tables.append(fill(frame, inside, beside))
    lines = [line(phrases(_sorted(words))) for words in rest if words]
    return _Drawn(sheet, tables, sorted(lines, key=lambda item: item.box.top))


def _taken(
    lines: list[list[Word]], is_wanted: Callable[[Word], bool]
) -> tuple[list[Word], list[list[Word]]]:
    """Return the words that are wanted, and the lines without them."""
    wanted = [item for words in lines for item in words if is_wanted(item)]
    taken = {id(item) for item in wanted}
    return wanted, [[item for item in words if id(item) not in taken] for words in lines]


def _page(drawn: _Drawn, running: set[tuple[str, int]], before: Page | None) -> Page:
    """Return the tables of a page, from top to bottom, and the lines outside them.

    The last table of the page ``before`` may go on here.
    """
    sheet, tables = drawn.sheet, list(drawn.tables)
    lines = [item for item in drawn.lines if _mark(item, sheet.height) not in running]
    onward = before.tables[-1] if before is not None and before.tables else None
    if onward is not None and (onward.is_drawn or tables):
        onward = None
    within: set[int] = set()
    for run in _runs(lines, [table.box.top for table in drawn.tables]):
        own = [lines[index] for index in run]
        for table, first, behind in plain_tables(own, sheet.across, onward):
            tables.append(table)
            within.update(run[first:behind])
            onward = None
    tables.sort(key=lambda item: (item.box.top, item.box.x0))
    texts = [item for index, item in enumerate(lines) if index not in within]
    return Page(sheet.number, tables, texts)


def _sorted(words: list[Word]) -> list[Word]:
    return sorted(words, key=lambda item: item.box.x0)


def _runs(lines: list[Line], tops: list[float]) -> list[list[int]]:
    """Return the lines between drawn tables: no table without lines goes on past one."""
    runs: dict[int, list[int]] = {}
    for index, item in enumerate(lines):
        runs.setdefault(sum(1 for top in tops if top <= item.box.top), []).append(index)
    return list(runs.values())


def _is_within(frame: Frame, item: Word) -> bool:
    x, y = item.box.middle
    box = frame.box
    return box.x0 <= x <= box.x1 and box.top <= y <= box.bottom


def _grids(pages: list[Page]) -> list[Grid]:
    """Return the grids of all pages; a table that goes on over pages is one."""
    grids: list[Grid] = []
    last: Part | None = None
    cells = rows = 0
    for page in pages:
        number = 0
        for index, part in enumerate(_parts(page)):
            own = [
                _row(row, number + place, page.number, part.table.doubts.get(place - 1, ""))
                for place, row in enumerate(part.table.rows, 1)
            ]
            own = [row for row in own if not row.is_blank]
            number += len(part.table.rows)
            rows += len(own)
            cells += sum(len(row.cells) for row in own)
            if rows > MOST_ROWS or cells > MOST_CELLS:
                raise Unreadable(
                    "there are more cells than any data sheet has; keep the table alone"
                )
            if index == 0 and last is not None and _goes_on(last, part):
                grids[-1] = grids[-1]._replace(rows=grids[-1].rows + tuple(own))
            else:
                grids.append(Grid(tuple(own), "\n".join(part.title)[-_LONGEST_TITLE:]))
            last = part
    return grids


def _row(cells: list[Cell], number: int, page: int, doubt: str) -> Row:
    doubt = _UNKNOWN if any(_NO_MEANING in item.raw for item in cells) else doubt
    return Row(tuple(cells), number, page, 1, doubt)


def _parts(page: Page) -> list[Part]:
    """Return the tables of a page with the text above each."""
    found = []
    start = 0.0
    for table in page.tables:
        title = [item.text for item in page.texts if start <= item.box.top < table.box.top]
        found.append(Part(page.number, table, title))
        start = max(start, table.box.top)
    return found


def _running(pages: list[_Drawn]) -> set[tuple[str, int]]:
    """Return what stands at the same place in the margin of several pages, numbers apart."""
    counts: Counter[tuple[str, int]] = Counter()
    for page in pages:
        found: set[tuple[str, int]] = set()
        for start, end in blocks(page.lines):
            marks = {_mark(item, page.sheet.height) for item in page.lines[start:end]}
            if all(place >= 0 for _, place in marks):
                found |= marks
        counts.update(found)
    return {mark for mark, count in counts.items() if count > 1}


def _mark(item: Line, height: float) -> tuple[str, int]:
    """Return a line without its numbers, and where it stands; -1 is outside the margins."""
    is_margin = item.box.bottom < _MARGIN * height or item.box.top > (1 - _MARGIN) * height
    words = re.sub(r"\d+", "0", " ".join(item.text.split()))
    return words, round(item.box.top) if is_margin else -1


def _goes_on(last: Part, part: Part) -> bool:
    """Tell whether a table is the rest of the last one on the page before."""
    if part.page != last.page + 1 or len(part.table.edges) != len(last.table.edges):
        return False
    if part.title and not (len(part.title) == 1 and _CONTINUED.fullmatch(part.title[0])):
        return False
    pairs = zip(part.table.edges[1:-1], last.table.edges[1:-1], strict=True)
    is_alike = all(abs(one - other) <= 2 * _SAME_PLACE for one, other in pairs)
    return is_alike or _texts(part.table) == _texts(last.table)


def _texts(table: Table) -> list[str]:
    return [item.text for item in table.rows[0]]
