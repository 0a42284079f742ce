"""Tables without drawn cells: columns by where words stand, rows by their lines."""

from bisect import bisect_right
from collections import defaultdict
from itertools import pairwise
from statistics import median
from typing import NamedTuple

from regwright.importing.tables.cells import MOST_COLUMNS, Cell, cell
from regwright.importing.tables.notation import name_and_slice
from regwright.importing.tables.pdf_ruled import Table
from regwright.importing.tables.pdf_sheet import Box, Phrase, Segment

#: A line of a table has so many phrases, its header at least.
_FEWEST_COLUMNS = 3
#: Gaps between lines, in heights of a line, that no table has between its rows.
_WIDE_GAP = 2.6
#: Lines nearer than this, in heights of a line, may be one cell that goes on.
_TIGHT = 1.4
_CLOSE = "words stand closer than the columns; look at the bits"
#: How many names with bits weigh as much as any other phrase.
_COMMON = 10_000


class Line(NamedTuple):
    """One printed line."""

    phrases: list[Phrase]
    box: Box

    @property
    def height(self) -> float:
        """How high its letters are."""
        return self.box.bottom - self.box.top

    @property
    def text(self) -> str:
        """All of it, its phrases parted by spaces."""
        return "  ".join(phrase.text for phrase in self.phrases)


class Entry(NamedTuple):
    """What a line holds in some columns: the first, and the one behind the last."""

    first: int
    behind: int
    phrase: Phrase


def line(found: list[Phrase]) -> Line:
    """Return the line that phrases, at least one, make."""
    box = found[0].box
    for phrase in found[1:]:
        box = box.joined(phrase.box)
    return Line(found, box)


def plain_tables(
    lines: list[Line], across: list[Segment], onward: Table | None = None
) -> list[tuple[Table, int, int]]:
    """Return the tables in ``lines``, each with its first line and the one behind its last.

    ``across`` are lines drawn across the page: where there are several they part the rows. The
    first table may be the rest of the table ``onward``, with fewer columns in use.
    """
    found = []
    for start, end in blocks(lines):
        behind = start
        while (span := _table_span(lines, behind, end, onward)) is not None:
            first, behind = span
            table = _table(lines[first:behind], across, onward)
            if table is not None:
                found.append((table, first, behind))
                onward = None
    return found


def blocks(lines: list[Line]) -> list[tuple[int, int]]:
    """Return runs of lines that no wide gap parts."""
    found: list[tuple[int, int]] = []
    start = 0
    gaps: list[float] = []
    for index in range(1, len(lines) + 1):
        is_end = index == len(lines)
        if not is_end:
            gap = lines[index].box.top - lines[index - 1].box.bottom
            usual = max(_WIDE_GAP * lines[index].height, 1.8 * median(gaps) if gaps else 0.0)
            is_end = gap > usual
        if is_end:
            found.append((start, index))
            start, gaps = index, []
        else:
            gaps.append(gap)
    return found


def _table_span(
    lines: list[Line], start: int, end: int, onward: Table | None
) -> tuple[int, int] | None:
    """Return the first table in a block: from its header to where running text begins."""
    while start < end and not _starts_table(lines[start], onward):
        start += 1
    widest = max((len(item.phrases) for item in lines[start:end]), default=0)
    behind = start + 1
    while behind < end and not _is_prose(lines[start:behind], lines[behind]):
        behind += 1
    if start == end or (onward is None and (end - start < 2 or widest < _FEWEST_COLUMNS)):
        return None
    return start, behind


def _starts_table(first: Line, onward: Table | None) -> bool:
    if onward is not None and len(first.phrases) > 1:
        return abs(first.box.x0 - onward.edges[0]) < first.height
    return len(first.phrases) >= _FEWEST_COLUMNS


def _is_prose(above: list[Line], below: Line) -> bool:
    """Tell whether ``below`` is no row: one phrase from the left edge over several columns."""
    if len(below.phrases) > 1:
        return False
    left = min(item.box.x0 for item in above)
    box = below.phrases[0].box
    crossed = sum(
        1 for phrase in above[0].phrases if phrase.box.x0 < box.x1 and phrase.box.x1 > box.x0
    )
    return box.x0 <= left + below.height and crossed > 2


def _table(lines: list[Line], across: list[Segment], onward: Table | None) -> Table | None:
    anchors = _anchors(lines)
    edges = _edges(lines, anchors)
    if onward is not None and len(edges) < len(onward.edges) - 2:
        edges = list(onward.edges[1:-1])
    elif len(lines) < 2:
        return None
    width = len(edges) + 1
    if not _FEWEST_COLUMNS <= width <= MOST_COLUMNS:
        return None
    entries = [_entries(item, edges) for item in lines]
    closer = {index: _parted(found, edges) for index, found in enumerate(entries)}
    entries = [closer[index] or found for index, found in enumerate(entries)]
    groups = _by_rules(lines, across) or _by_gaps(lines, entries)
    rows = [_row([entries[index] for index in group], width) for group in groups]
    doubts = {
        index: _CLOSE if any(closer[item] for item in group) else _across(rows[index])
        for index, group in enumerate(groups)
    }
    box = lines[0].box
    for item in lines[1:]:
        box = box.joined(item.box)
    return Table(box, rows, (box.x0, *edges, box.x1), is_drawn=False, doubts=doubts)


def _anchors(lines: list[Line]) -> list[Box]:
    """Return where columns are: the fullest line has most, others those that it lacks.

    Of equally full lines the first counts: the header.
    """
    fullest = max(range(len(lines)), key=lambda index: (len(lines[index].phrases), -index))
    anchors = [phrase.box for phrase in lines[fullest].phrases]
    others: list[Box] = []
    for index, item in enumerate(lines):
        for phrase in item.phrases:
            box = phrase.box
            if index != fullest and not any(_overlap(box, anchor) for anchor in anchors):
                others.append(box)
    clusters: list[tuple[Box, int]] = []
    for box in sorted(others):
        if clusters and _overlap(clusters[-1][0], box):
            clusters[-1] = (clusters[-1][0].joined(box), clusters[-1][1] + 1)
        else:
            clusters.append((box, 1))
    anchors += [box for box, count in clusters if count > 1]
    return sorted(anchors)


def _overlap(first: Box, second: Box) -> bool:
    return first.x0 < second.x1 + 1 and second.x0 < first.x1 + 1


def _edges(lines: list[Line], anchors: list[Box]) -> list[float]:
    """Return where columns are parted: where the fewest phrases stand, in the widest gap.

    A name with bits, as ``NAME[3:0]``, may well stand across several columns: it counts least.
    """
    boxes = sorted(
        (phrase.box, _COMMON if name_and_slice(phrase.text).width < 2 else 1)
        for item in lines
        for phrase in item.phrases
    )
    found = []
    for left, right in pairwise(anchors):
        start, end = left.middle[0], right.middle[0]
        near = [
            (box, weight)
            for box, weight in boxes
            if box.x1 > start and box.x0 < end and not (box.x0 < start and box.x1 > end)
        ]
        found.append(_emptiest(near, start, end))
    return found


def _emptiest(boxes: list[tuple[Box, int]], start: float, end: float) -> float:
    """Return the middle of the widest stretch in which the least stands."""
    changes: dict[float, int] = defaultdict(int, {start: 0, end: 0})
    for box, weight in boxes:
        changes[min(max(box.x0, start), end)] += weight
        changes[min(max(box.x1, start), end)] -= weight
    held = 0
    stretches = []
    for place, following in pairwise(sorted(changes)):
        held += changes[place]
        stretches.append((held, place - following, (place + following) / 2))
    return min(stretches)[2] if stretches else (start + end) / 2


def _entries(item: Line, edges: list[float]) -> list[Entry]:
    """Return which columns each phrase of a line stands in."""
    found: list[Entry] = []
    for phrase in item.phrases:
        box = phrase.box
        slack = min(0.25 * (box.x1 - box.x0), 0.5 * item.height)
        first = bisect_right(edges, box.x0 + slack)
        behind = bisect_right(edges, box.x1 - slack) + 1
        if found and first < found[-1].behind:
            middle = bisect_right(edges, box.middle[0])
            first, behind = middle, max(middle + 1, behind)
            if found[-1].first < first < found[-1].behind:
                found[-1] = found[-1]._replace(behind=first)
        found.append(Entry(first, behind, phrase))
    return [_widened(found, index, edges) for index in range(len(found))]


def _widened(entries: list[Entry], index: int, edges: list[float]) -> Entry:
    """Return an entry over as many columns as its name says, as ``NAME[3:0]`` does, if it can be.

    Such a name stands in the middle of its columns, and nothing else stands there.
    """
    entry = entries[index]
    named = name_and_slice(entry.phrase.text)
    wanted = named.width if named.high >= 0 else 0
    if wanted <= entry.behind - entry.first or not edges:
        return entry
    lowest = entries[index - 1].behind if index else 0
    highest = entries[index + 1].first if index + 1 < len(entries) else len(edges) + 1
    middle = entry.phrase.box.middle[0]
    best: tuple[float, int] | None = None
    for first in range(max(lowest, entry.behind - wanted), min(entry.first, highest - wanted) + 1):
        if first == 0 or first + wanted > len(edges):
            continue
        centre = (edges[first - 1] + edges[first + wanted - 1]) / 2
        distance = abs(centre - middle)
        if best is None or distance < best[0]:
            best = (distance, first)
    return Entry(best[1], best[1] + wanted, entry.phrase) if best else entry


def _parted(entries: list[Entry], edges: list[float]) -> list[Entry] | None:
    """Return the entries of a line whose words stand closer than its columns, each in its own.

    ``None`` where no words do: columns between them that stay blank are those of a merged cell.
    """
    found: list[Entry] = []
    for entry in entries:
        groups: dict[int, list[tuple[str, Box]]] = defaultdict(list)
        for text, box in entry.phrase.words if entry.behind - entry.first > 1 else ():
            groups[bisect_right(edges, box.middle[0])].append((text, box))
        if len(groups) < 2:
            found.append(entry)
            continue
        for column, held in sorted(groups.items()):
            whole = line([Phrase(text, box) for text, box in held])
            text = " ".join(text for text, _ in held)
            found.append(Entry(column, column + 1, Phrase(text, whole.box)))
    taken = {column for item in found for column in range(item.first, item.behind)}
    is_full = set(range(min(taken), max(taken) + 1)) == taken if taken else False
    return found if len(found) > len(entries) and is_full else None


def _across(row: list[Cell]) -> str:
    """Return what is not certain of a row: a text over several columns that does not say so."""
    for item in row:
        if item.span > 1 and item.text and name_and_slice(item.text).width != item.span:
            return f"{item.text[:60]!r} reaches over {item.span} columns, and no lines part them"
    return ""


def _by_rules(lines: list[Line], across: list[Segment]) -> list[list[int]] | None:
    """Return the lines of each row, where drawn lines part the rows."""
    left = min(item.box.x0 for item in lines)
    right = max(item.box.x1 for item in lines)
    heights = sorted(
        item.at
        for item in across
        if min(item.end, right) - max(item.start, left) > 0.6 * (right - left)
    )
    groups: dict[int, list[int]] = defaultdict(list)
    for index, item in enumerate(lines):
        groups[bisect_right(heights, item.box.middle[1])].append(index)
    found = [groups[key] for key in sorted(groups)]
    return found if len(found) > 2 and max(map(len, found)) <= 8 else None


def _by_gaps(lines: list[Line], entries: list[list[Entry]]) -> list[list[int]]:
    """Return the lines of each row: a tight line goes on with a cell, rows stand further apart."""
    steps = [below.box.middle[1] - above.box.middle[1] for above, below in pairwise(lines)]
    smallest = min(steps, default=0.0)
    if max(steps, default=0.0) <= 1.2 * smallest or smallest > _TIGHT * lines[0].height:
        return _by_content(list(range(len(lines))), entries, lines)
    groups: list[list[int]] = [[0]]
    for index, step in enumerate(steps, start=1):
        if step <= 1.2 * smallest:
            groups[-1].append(index)
        else:
            groups.append([index])
    found: list[list[int]] = []
    for group in groups:
        heads = sum(1 for index in group if entries[index][0].first == 0)
        if len(group) > 1 and heads <= 1 and group[0] != 0:
            found.append(group)
        else:
            found += _by_content(group, entries, lines)
    return found


def _by_content(group: list[int], entries: list[list[Entry]], lines: list[Line]) -> list[list[int]]:
    """Return the lines of each row: one that holds little goes on with the cells above it."""
    found: list[list[int]] = []
    for index in group:
        above = found[-1] if found else []
        if above and _goes_on([entries[item] for item in above], entries[index], above[0] == 0):
            step = lines[index].box.middle[1] - lines[above[-1]].box.middle[1]
            if step <= _TIGHT * max(lines[index].height, lines[above[-1]].height):
                above.append(index)
                continue
        found.append([index])
    return found


def _goes_on(above: list[list[Entry]], below: list[Entry], is_header: bool) -> bool:  # noqa: FBT001
    held = {column for row in above for item in row for column in range(item.first, item.behind)}
    columns = {column for item in below for column in range(item.first, item.behind)}
    if is_header and any(item.phrase.text.isdigit() for item in below):
        return False
    last = above[-1]
    if below[0].first == 0:
        broken = last[0].first == 0 and last[0].phrase.text.endswith(("_", "-", "\u00ad"))
        return broken and len(below) <= 2
    return columns <= held and (len(below) <= 2 or is_header) and len(below) < len(above[0])


def _row(lines: list[list[Entry]], width: int) -> list[Cell]:
    """Return the cells of a row, empty ones too; a cell of several lines is joined."""
    merged: dict[tuple[int, int], list[Phrase]] = {}
    for entries in lines:
        last: tuple[int, int] | None = None
        for entry in entries:
            key = next(
                (known for known in merged if known[0] < entry.behind and entry.first < known[1]),
                (entry.first, entry.behind),
            )
            own = merged.setdefault(key, [])
            if own and key == last:
                own[-1] = Phrase(
                    f"{own[-1].text} {entry.phrase.text}", own[-1].box.joined(entry.phrase.box)
                )
            else:
                own.append(entry.phrase)
            last = key
    found = []
    for (first, behind), phrases in merged.items():
        box = phrases[0].box
        for phrase in phrases[1:]:
            box = box.joined(phrase.box)
        text = "\n".join(phrase.text for phrase in phrases)
        found.append(cell(text, first, behind - first, edges=(box.x0, box.x1)))
    taken = {column for item in found for column in range(item.column, item.column + item.span)}
    found += [cell("", column) for column in range(width) if column not in taken]
    return sorted(found, key=lambda item: item.column)
