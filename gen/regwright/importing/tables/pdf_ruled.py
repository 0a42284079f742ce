"""Tables whose cells are drawn: the lines give the cells, merged ones with their span."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from regwright.importing.tables.cells import MOST_COLUMNS, Cell, cell
from regwright.importing.tables.pdf_sheet import Box, Segment, Word, in_lines, word

#: Lines that are nearer than this are one, and ends that are nearer meet; in points.
NEAR = 2.5
#: More boxes than this make no table; nor do more crossings get looked for.
_MOST_BOXES = 60_000
_MOST_CROSSINGS = 1_000_000
#: How much of a side of a box a line must cover to part it from the next one.
_PARTS = 0.6
#: How far beside a table its address may stand, in points.
_BESIDE = 110.0


class Table(NamedTuple):
    """A table on a page: its rows of cells, and the edges of its columns; ``is_drawn`` by lines.

    ``doubts`` says of rows, by their index, what is not certain of them.
    """

    box: Box
    rows: list[list[Cell]]
    edges: tuple[float, ...]
    is_drawn: bool = True
    doubts: Mapping[int, str] = MappingProxyType({})


class Frame(NamedTuple):
    """The lines of one table: where its columns and rows are parted, and the merged cells.

    A cell is its first column and row, and the column and row behind its last.
    """

    columns: list[float]
    rows: list[float]
    cells: list[tuple[int, int, int, int]]

    @property
    def box(self) -> Box:
        """The box around it."""
        return Box(self.columns[0], self.rows[0], self.columns[-1], self.rows[-1])


def frames(across: list[Segment], down: list[Segment]) -> list[Frame]:
    """Return the frames that lines make, the smallest first; one column alone makes none."""
    across, down = _straightened(across), _straightened(down)
    if len(across) * len(down) > _MOST_CROSSINGS:
        return []
    found = []
    for rows, columns in _connected(across, down):
        frame = _frame(rows, columns)
        if frame is not None and len(frame.columns) > 2:
            found.append(frame)
    return sorted(
        found, key=lambda item: (item.box.bottom - item.box.top) * (item.box.x1 - item.box.x0)
    )


def _straightened(segments: list[Segment]) -> list[Segment]:
    """Return lines that lie on one another, or end where the next begins, as one."""
    groups: list[list[Segment]] = []
    for segment in sorted(segments):
        if groups and segment.at - groups[-1][0].at <= NEAR:
            groups[-1].append(segment)
        else:
            groups.append([segment])
    found = []
    for group in groups:
        at = sum(item.at for item in group) / len(group)
        joined: list[Segment] = []
        for item in sorted(group, key=lambda item: item.start):
            if joined and item.start - joined[-1].end <= NEAR:
                joined[-1] = Segment(at, joined[-1].start, max(joined[-1].end, item.end))
            else:
                joined.append(Segment(at, item.start, item.end))
        found += joined
    return found


def _connected(
    across: list[Segment], down: list[Segment]
) -> list[tuple[list[Segment], list[Segment]]]:
    """Return the lines that hang together, those across and those down."""
    parents = list(range(len(across) + len(down)))

    def root(index: int) -> int:
        while parents[index] != index:
            parents[index] = parents[parents[index]]
            index = parents[index]
        return index

    for index, row in enumerate(across):
        for other, column in enumerate(down, start=len(across)):
            if _meet(row, column):
                parents[root(index)] = root(other)
    groups: dict[int, tuple[list[Segment], list[Segment]]] = defaultdict(lambda: ([], []))
    for index, segment in enumerate(across + down):
        groups[root(index)][index >= len(across)].append(segment)
    return [group for group in groups.values() if group[0] and group[1]]


def _meet(row: Segment, column: Segment) -> bool:
    return (
        row.start - NEAR <= column.at <= row.end + NEAR
        and column.start - NEAR <= row.at <= column.end + NEAR
    )


def _apart(values: list[float]) -> list[float]:
    found: list[float] = []
    for value in sorted(values):
        if not found or value - found[-1] > NEAR:
            found.append(value)
    return found


def _frame(across: list[Segment], down: list[Segment]) -> Frame | None:
    ends = [value for row in across for value in (row.start, row.end)]
    columns = _apart([column.at for column in down] + [min(ends), max(ends)])
    ends = [value for column in down for value in (column.start, column.end)]
    rows = _apart([row.at for row in across] + [min(ends), max(ends)])
    wide, high = len(columns) - 1, len(rows) - 1
    if wide < 1 or high < 1 or wide > MOST_COLUMNS or wide * high > _MOST_BOXES:
        return None
    below = _sides(across, rows, columns)
    right = _sides(down, columns, rows)
    return Frame(columns, rows, _cells(wide, high, below, right))


def _sides(segments: list[Segment], lines: list[float], along: list[float]) -> set[tuple[int, int]]:
    """Return between which ``lines`` (by index) and where ``along`` them something is drawn."""
    found = set()
    for segment in segments:
        line = min(range(len(lines)), key=lambda index: abs(lines[index] - segment.at))
        for place in range(len(along) - 1):
            start, end = along[place], along[place + 1]
            covered = min(segment.end, end) - max(segment.start, start)
            if covered >= _PARTS * (end - start):
                found.add((line, place))
    return found


def _cells(
    wide: int, high: int, below: set[tuple[int, int]], right: set[tuple[int, int]]
) -> list[tuple[int, int, int, int]]:
    """Return the cells that boxes without a line between them make together."""
    seen: set[tuple[int, int]] = set()
    found = []
    for row in range(high):
        for column in range(wide):
            if (column, row) in seen:
                continue
            to = column + 1
            while to < wide and (to, row) not in right and (to, row) not in seen:
                to += 1
            down = row + 1
            while down < high and _is_open(column, to, down, wide, below, right):
                down += 1
            seen.update((x, y) for x in range(column, to) for y in range(row, down))
            found.append((column, row, to, down))
    return found


def _is_open(
    column: int,
    to: int,
    row: int,
    wide: int,
    below: set[tuple[int, int]],
    right: set[tuple[int, int]],
) -> bool:
    """Tell whether a cell reaches down into ``row``: no line above it, its sides as before."""
    is_parted = any((row, x) in below for x in range(column, to))
    is_divided = any((x, row) in right for x in range(column + 1, to))
    is_closed = to == wide or (to, row) in right
    is_bordered = column == 0 or (column, row) in right
    return not is_parted and not is_divided and is_closed and is_bordered


def fill(frame: Frame, words: list[Word], beside: list[Word]) -> Table:
    """Return the table that ``words`` in ``frame`` make.

    What stands ``beside`` it in the height of its rows becomes a column of its own: the address of
    a register is printed there.
    """
    held: dict[int, list[Word]] = defaultdict(list)
    owner = {
        (x, y): index
        for index, (column, row, to, down) in enumerate(frame.cells)
        for x in range(column, to)
        for y in range(row, down)
    }
    for item in words:
        for part in _parted(item, frame.columns):
            x, y = part.box.middle
            column = min(max(bisect_right(frame.columns, x) - 1, 0), len(frame.columns) - 2)
            row = min(max(bisect_right(frame.rows, y) - 1, 0), len(frame.rows) - 2)
            held[owner[column, row]].append(part)
    left = [item for item in beside if item.box.x1 <= frame.box.x0 + NEAR]
    right = [item for item in beside if item.box.x0 >= frame.box.x1 - NEAR]
    shift = 1 if left else 0
    rows: list[list[Cell]] = [[] for _ in frame.rows[1:]]
    for index, (column, row, to, down) in enumerate(frame.cells):
        text = text_of(held[index])
        edges = (frame.columns[column], frame.columns[to])
        for y in range(row, down):
            new = cell(text, column + shift, to - column, continued=y > row, edges=edges)
            rows[y].append(new)
    for place, words_there in ((0, left), (len(frame.columns) - 1 + shift, right)):
        if words_there:
            _add_column(rows, frame.rows, place, words_there)
    edges_of_columns = tuple(frame.columns)
    return Table(
        frame.box, [sorted(row, key=lambda item: item.column) for row in rows], edges_of_columns
    )


def _add_column(
    rows: list[list[Cell]], heights: list[float], column: int, words: list[Word]
) -> None:
    by_row: dict[int, list[Word]] = defaultdict(list)
    for item in words:
        by_row[bisect_right(heights, item.box.middle[1]) - 1].append(item)
    for index, row in enumerate(rows):
        row.append(cell(text_of(by_row[index]), column))


def _parted(item: Word, columns: list[float]) -> list[Word]:
    """Return a word, in two where a line stands in a gap between its letters."""
    if not item.glyphs:
        return [item]
    for column in columns:
        if item.box.x0 + 1 < column < item.box.x1 - 1:
            left = [glyph for glyph in item.glyphs if glyph.box.middle[0] < column]
            right = [glyph for glyph in item.glyphs if glyph.box.middle[0] >= column]
            ends = max(glyph.box.x1 for glyph in left) if left else column
            starts = min(glyph.box.x0 for glyph in right) if right else column
            if (
                left
                and right
                and ends <= column + 0.3
                and starts >= column - 0.3
                and starts - ends > 0.5
            ):
                return [word(left), *_parted(word(right), columns)]
    return [item]


def text_of(words: list[Word]) -> str:
    """Return what words in one cell say, a line for each printed one."""
    upright = in_lines([item for item in words if item.glyphs])
    lines = [
        " ".join(item.text for item in sorted(line, key=lambda item: item.box.x0))
        for line in upright
    ]
    turned = [item.text for item in words if not item.glyphs]
    return "\n".join([*turned, *lines])


def is_beside(frame: Frame, item: Word) -> bool:
    """Tell whether a word stands beside a frame, in the height of its rows and near."""
    box = frame.box
    height = item.box.middle[1]
    gap = max(box.x0 - item.box.x1, item.box.x0 - box.x1)
    return box.top <= height <= box.bottom and -NEAR <= gap <= _BESIDE
