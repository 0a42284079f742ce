"""What is drawn on one page of a PDF: characters, words and straight lines, by their coordinates.

Coordinates are points from the upper left corner of the page as it is read: a page whose text runs
up or down its side is turned first.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple, TypeVar

#: What one page may hold; a page of a data sheet stays far below.
MOST_CHARACTERS = 40_000
MOST_SEGMENTS = 20_000
#: A filled or stroked shape that is thinner than this is a line, in points.
_THIN = 2.5
_RAISED = str.maketrans("0123456789()", "⁰¹²³⁴⁵⁶⁷⁸⁹⁽⁾")
_NO_MEANING = re.compile(r"\(cid:\d+\)")
#: Gaps, in sizes of the font: up to the first within a word, up to the second within a phrase.
_WORD_GAP = 0.18
_PHRASE_GAP = 0.5


class Box(NamedTuple):
    """A box; ``top`` is less than ``bottom``."""

    x0: float
    top: float
    x1: float
    bottom: float

    @property
    def middle(self) -> tuple[float, float]:
        """The point in its middle."""
        return (self.x0 + self.x1) / 2, (self.top + self.bottom) / 2

    def turned(self, quarter: int, width: float, height: float) -> "Box":
        """Return the box on a page of ``width`` by ``height`` that is turned upright.

        ``quarter`` says how its text runs: 0 to the right, 1 up, 2 to the left, 3 down.
        """
        if quarter == 1:
            return Box(height - self.bottom, self.x0, height - self.top, self.x1)
        if quarter == 2:
            return Box(width - self.x1, height - self.bottom, width - self.x0, height - self.top)
        if quarter == 3:
            return Box(self.top, width - self.x1, self.bottom, width - self.x0)
        return self

    def joined(self, other: "Box") -> "Box":
        """Return the box around both."""
        return Box(
            min(self.x0, other.x0),
            min(self.top, other.top),
            max(self.x1, other.x1),
            max(self.bottom, other.bottom),
        )


class Glyph(NamedTuple):
    """A character, or several that one shape stands for."""

    text: str
    box: Box

    @property
    def size(self) -> float:
        """The height of its line, near enough the size of the font."""
        return self.box.bottom - self.box.top


class Word(NamedTuple):
    """Characters without a gap; ``glyphs`` from left to right."""

    text: str
    box: Box
    glyphs: tuple[Glyph, ...] = ()


class Phrase(NamedTuple):
    """Words with no more than a space between them; ``words`` are they, if there are several."""

    text: str
    box: Box
    words: tuple[tuple[str, Box], ...] = ()


Printed = TypeVar("Printed", Glyph, Word)


class Segment(NamedTuple):
    """A line across the page at height ``at`` from ``start`` to ``end``, or down it."""

    at: float
    start: float
    end: float


class Sheet(NamedTuple):
    """A page, turned so that it reads from left to right."""

    number: int
    height: float
    lines: list[list[Word]]
    across: list[Segment]
    down: list[Segment]


class TooMuch(Exception):
    """A page holds more than any page of a data sheet; the message says which."""


def sheet(page: Any) -> Sheet:
    """Return what is drawn on ``page``, a page of pdfplumber. Raises :class:`TooMuch`."""
    width, height = float(page.width), float(page.height)
    groups: dict[int, list[Glyph]] = {}
    characters = page.chars
    if len(characters) > MOST_CHARACTERS:
        raise TooMuch(f"page {page.page_number} has {len(characters)} characters")
    for item in characters:
        quarter = _quarter(item["matrix"])
        if quarter is not None:
            text = _NO_MEANING.sub("\ufffd", item["text"])
            box = Box(item["x0"], item["top"], item["x1"], item["bottom"])
            turned = box.turned(quarter, width, height)
            groups.setdefault(quarter, []).append(Glyph(text, turned))
    counts = Counter({quarter: len(glyphs) for quarter, glyphs in groups.items()})
    main = counts.most_common(1)[0][0] if counts else 0
    lines = lines_of(groups.pop(main, []))
    for quarter, glyphs in groups.items():
        lines += [_turned_back(line, quarter, main, width, height) for line in lines_of(glyphs)]
    boxes = [box.turned(main, width, height) for box in _drawn(page)]
    upright = height if main in (0, 2) else width
    return Sheet(page.page_number, upright, lines, *_segments(boxes))


def _quarter(matrix: tuple[float, ...]) -> int | None:
    """Return how text runs under ``matrix``, ``None`` for text across, like DRAFT behind a page."""
    right, up = matrix[0], matrix[1]
    if abs(up) < 0.1 * abs(right):
        return 0 if right > 0 else 2
    if abs(right) < 0.1 * abs(up):
        return 1 if up > 0 else 3
    return None


def _turned_back(
    line: list[Word], quarter: int, main: int, width: float, height: float
) -> list[Word]:
    """Return words that run in a way of their own as they stand on the page."""
    size = (width, height) if quarter in (0, 2) else (height, width)
    found = []
    for word in line:
        upright = word.box.turned((4 - quarter) % 4, *size)
        found.append(Word(word.text, upright.turned(main, width, height)))
    return found


def _drawn(page: Any) -> Iterator[Box]:
    """Yield what may be a straight line: lines, edges of outlines, thin filled shapes."""
    count = 0
    for kind in ("lines", "rects", "curves"):
        for item in getattr(page, kind):
            box = Box(item["x0"], item["top"], item["x1"], item["bottom"])
            is_thin = min(box.x1 - box.x0, box.bottom - box.top) <= _THIN
            if kind == "lines" or is_thin:
                parts: Iterable[Box] = (box,)
            elif not item.get("stroke"):
                continue
            else:
                parts = _edges(item["pts"], closed=kind == "rects")
            for part in parts:
                count += 1
                if count > MOST_SEGMENTS:
                    raise TooMuch(f"page {page.page_number} has more than {MOST_SEGMENTS} lines")
                yield part


def _edges(points: list[tuple[float, float]], *, closed: bool) -> Iterator[Box]:
    ends = points[1:] + points[:1] if closed else points[1:]
    for (x, y), (to_x, to_y) in zip(points, ends, strict=False):
        yield Box(min(x, to_x), min(y, to_y), max(x, to_x), max(y, to_y))


def _segments(boxes: Iterable[Box]) -> tuple[list[Segment], list[Segment]]:
    across, down = [], []
    for box in boxes:
        width, height = box.x1 - box.x0, box.bottom - box.top
        if height <= _THIN < width:
            across.append(Segment((box.top + box.bottom) / 2, box.x0, box.x1))
        elif width <= _THIN < height:
            down.append(Segment((box.x0 + box.x1) / 2, box.top, box.bottom))
    return across, down


def lines_of(glyphs: list[Glyph]) -> list[list[Word]]:
    """Return the words of ``glyphs``, a list for each printed line, from top to bottom."""
    return [words for line in in_lines(glyphs) if (words := _words(line))]


def in_lines(items: list[Printed]) -> list[list[Printed]]:
    """Return characters or words by the line that they stand in, from top to bottom.

    What is small and raised or lowered stands in the line of what is large beside it.
    """
    lines: list[list[Printed]] = []
    middle = largest = 0.0
    for item in sorted(items, key=lambda item: item.box.middle[1]):
        height, size = item.box.middle[1], item.box.bottom - item.box.top
        if lines and height - middle < 0.5 * max(size, largest):
            lines[-1].append(item)
            if size <= largest:
                continue
        else:
            lines.append([item])
        middle, largest = height, size
    return lines


def _words(line: list[Glyph]) -> list[Word]:
    """Return the words of one line; what is printed twice, to look bold, counts once."""
    largest = max(line, key=lambda glyph: glyph.size)
    found: list[list[Glyph]] = []
    before: Glyph | None = None
    for glyph in sorted(line, key=lambda item: item.box.x0):
        if not glyph.text.strip():
            before = None
            continue
        if before is not None and _is_overprint(before, glyph):
            continue
        text = glyph.text.translate(_RAISED) if _is_raised(glyph, largest) else glyph.text
        marked = Glyph(text, glyph.box)
        gap = glyph.box.x0 - before.box.x1 if before else 0.0
        if before is None or gap > _WORD_GAP * max(before.size, glyph.size):
            found.append([marked])
        else:
            found[-1].append(marked)
        before = glyph
    return [word(glyphs) for glyphs in found]


def word(glyphs: Iterable[Glyph]) -> Word:
    """Return the word that ``glyphs``, at least one, make."""
    own = tuple(glyphs)
    box = own[0].box
    for glyph in own[1:]:
        box = box.joined(glyph.box)
    return Word("".join(glyph.text for glyph in own), box, own)


def _is_overprint(before: Glyph, glyph: Glyph) -> bool:
    near = 0.25 * glyph.size
    return (
        before.text == glyph.text
        and glyph.box.x0 - before.box.x0 < min(near, 0.6 * (glyph.box.x1 - glyph.box.x0))
        and abs(before.box.top - glyph.box.top) < near
    )


def _is_raised(glyph: Glyph, largest: Glyph) -> bool:
    """Tell whether a character is printed small and high, as the mark of a footnote is."""
    return (
        glyph.size < 0.85 * largest.size
        and glyph.box.bottom < largest.box.bottom - 0.12 * largest.size
    )


def phrases(line: list[Word]) -> list[Phrase]:
    """Return the phrases of one line of words: one more space than usual parts two of them."""
    found: list[Phrase] = []
    for item in line:
        size = item.box.bottom - item.box.top
        if found and item.box.x0 - found[-1].box.x1 <= _gap_of(item, size):
            last = found[-1]
            words = (*(last.words or ((last.text, last.box),)), (item.text, item.box))
            found[-1] = Phrase(f"{last.text} {item.text}", last.box.joined(item.box), words)
        else:
            found.append(Phrase(item.text, item.box))
    return found


def _gap_of(item: Word, size: float) -> float:
    """Return the widest gap that one space makes before a word; type of one width has wide ones."""
    widths = {round(glyph.box.x1 - glyph.box.x0, 2) for glyph in item.glyphs}
    is_of_one_width = len(item.glyphs) > 1 and max(widths) - min(widths) < 0.05
    one = (item.box.x1 - item.box.x0) / max(len(item.glyphs), 1)
    return max(_PHRASE_GAP * size, 1.3 * one if is_of_one_width else 0.0)
