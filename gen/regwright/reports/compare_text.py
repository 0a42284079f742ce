"""A comparison for a terminal or a pipe: what, before and after, in columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from regwright.compare.changes import Change
from regwright.compare.pairs import Pair, sureness
from regwright.compare.words import doubt
from regwright.model.words import visible
from regwright.reports.compared import Compared, Section, moved_by, pair_name, part_name
from regwright.reports.pieces import CHANGED, GONE, HEADING, NEW, PLAIN, QUIET, Line, Piece
from regwright.reports.porting import porting_text

#: A column is aligned as long as its text is no wider than this.
_WIDEST, _WIDEST_PIPED = 28, 48
#: So many registers are named in one heading, or listed of a row that only one chip has.
_MOST_NAMED = 8
#: Text is not wrapped to less than this, however narrow the terminal is.
_NARROWEST = 20


def compare_text(compared: Compared) -> str:
    """Return the comparison with a line for each change, all in full, then the count.

    Of a program that moves it is the list of work.
    """
    if compared.move is not None:
        return porting_text(compared.move)
    rows = [_Row(compared, item) for item in compared.outline.in_order]
    names = _column((row.name for row in rows), _WIDEST_PIPED)
    whats = _column((row.what for row in rows), _WIDEST_PIPED)
    lines = [
        f"{row.name.ljust(names)}  {row.what.ljust(whats)}  {row.text}".rstrip() for row in rows
    ]
    return "\n".join([*lines, visible(compared.stat)]) + "\n"


def terminal_lines(compared: Compared, width: int) -> Iterator[Line]:
    """Yield the comparison for a terminal of ``width`` columns, by registers, then the count.

    Registers whose changes are the same are shown once.
    """
    view = _View(compared, width)
    yield from view.lines()
    for text in view.wrapped(visible(compared.stat)):
        yield [Piece(PLAIN, text)]


class _Row:
    """One change as three texts, named in full or within ``pair``."""

    def __init__(
        self, compared: Compared, change: Change, pair: Pair | None = None, note: str = ""
    ) -> None:
        words = compared.words
        self.name = visible(part_name(pair, change) if pair else words.name(change))
        self.what = visible(words.what(change))
        before, after = words.sides(change)
        unsure = words.doubt(change)
        notes = [note] if note else []
        if unsure and (pair is None or self.name):
            notes.append(unsure)
        asides = "".join(f" ({text})" for text in notes)
        self.texts = visible(before), visible(f"→ {after}{asides}")
        self.text = " ".join(self.texts)
        self.start = f"{self.name} {self.what}".strip()
        self.role = CHANGED if change.before and change.after else GONE
        if not change.before:
            self.role = NEW


def _column(texts: Iterable[str], most: int) -> int:
    """Return how wide a column is: that of its longest text that is not too long."""
    return max((len(text) for text in texts if len(text) <= most), default=0)


class _View:
    def __init__(self, compared: Compared, width: int) -> None:
        self._compared = compared
        self._width = width
        self._widest = min(_WIDEST, width * 2 // 5)

    def lines(self) -> Iterator[Line]:
        """Yield all lines but the count."""
        outline = self._compared.outline
        a, b = (visible(label) for label in self._compared.labels)
        if outline.chip:
            yield from self._list("The chip as a whole", outline.chip)
        for heading, changes in outline.parts:
            yield from self._list(heading, changes)
        yield from self._both(outline.both)
        if outline.only_a:
            yield from self._only(f"Only in {a}", outline.only_a)
        if outline.only_b:
            yield from self._only(f"Only in {b}", outline.only_b)
        if outline.documentation:
            yield from self._list("Documentation", outline.documentation)

    def _list(self, heading: str, changes: list[Change]) -> Iterator[Line]:
        yield [Piece(HEADING, heading)]
        yield from self._rows([_Row(self._compared, item) for item in changes])
        yield []

    def _both(self, sections: list[Section]) -> Iterator[Line]:
        made = []
        for section in sections:
            changes = zip(section.own[0], section.distances, strict=True)
            rows = [
                _Row(self._compared, item, section.pairs[0], moved_by(section, item, distance))
                for item, distance in changes
            ]
            made.append((section, rows))
        column = _column((row.start for _, rows in made for row in rows), self._widest)
        for section, rows in made:
            yield from self._heading(section)
            yield from self._rows(rows, column)
            yield []

    def _heading(self, section: Section) -> Iterator[Line]:
        """Yield whose changes follow: the names, cut when they are many, and the title of one."""
        pairs = section.pairs
        names = [visible(pair_name(pair)) for pair in pairs]
        first = pairs[0]
        about = visible(first.a.register.title or "") if first.a and len(pairs) == 1 else ""
        if len(names) > _MOST_NAMED:
            about = f"{len(names)} registers"
            is_run = section.numbers[-1] - section.numbers[0] == len(names) - 1
            names = [f"{names[0]} … {names[-1]}"] if is_run else [*names[:_MOST_NAMED], "…"]
        unsure = doubt(sureness(first.why), first.why)
        if unsure:
            about += f" ({unsure})" if about else f"({unsure})"
        *before, last = self.wrapped(", ".join(names))
        for text in before:
            yield [Piece(HEADING, text)]
        if about and len(last) + 2 + len(about) <= self._width:
            yield [Piece(HEADING, last), Piece(QUIET, f"  {about}")]
            return
        yield [Piece(HEADING, last)]
        for text in self.wrapped(about, 2) if about else []:
            yield [Piece(QUIET, f"  {text}")]

    def _rows(self, rows: list[_Row], column: int | None = None) -> Iterator[Line]:
        if column is None:
            column = _column((row.start for row in rows), self._widest)
        for row in rows:
            name = f"  {row.name} " if row.name else "  "
            pad = " " * max(column - len(row.start), 0)
            start = [Piece(PLAIN, name), Piece(row.role, row.what), Piece(PLAIN, pad)]
            yield from self._hanging(start, row.texts, column + 4)

    def _hanging(self, start: Line, texts: tuple[str, ...], indent: int) -> Iterator[Line]:
        """Yield ``texts`` behind ``start``, on one line where they fit, else each on its own.

        The lines after the first start ``indent`` columns in.
        """
        used = sum(len(piece.text) for piece in start) + 2
        if used + _NARROWEST > self._width and used > indent:
            yield from self._folded(start)
            start, used = [], indent
        whole = " ".join(texts)
        if used + len(whole) <= self._width:
            texts = (whole,)
        lines = [line for text in texts for line in self.wrapped(text, max(used, indent))]
        for number, line in enumerate(lines):
            if number == 0 and start:
                yield [*start, Piece(PLAIN, f"  {line}")]
            else:
                yield [Piece(PLAIN, " " * indent + line)]

    def _folded(self, start: Line) -> Iterator[Line]:
        """Yield what goes before texts; on lines of its own each piece where it is too long."""
        if sum(len(piece.text) for piece in start) <= self._width:
            yield start
            return
        for number, piece in enumerate(item for item in start if item.text.strip()):
            for line in self.wrapped(piece.text.strip(), 4):
                yield [Piece(piece.role, f"{' ' * (4 if number else 2)}{line}")]

    def wrapped(self, text: str, indent: int = 0) -> list[str]:
        """Return ``text`` in lines that leave ``indent`` columns free."""
        room = max(self._width - indent, _NARROWEST)
        return textwrap.wrap(text, room, break_on_hyphens=False) or [""]

    def _only(self, heading: str, sections: list[Section]) -> Iterator[Line]:
        """Yield the registers that one chip has; of a long row the first and the last."""
        listed = []
        for section in sections:
            entries = list(zip(section.numbers, section.own, strict=True))
            hidden = len(entries) - 2
            if len(entries) <= _MOST_NAMED:
                listed += [(number, own, 0) for number, own in entries]
            else:
                order = entries[0][0]
                listed += [(order, entries[0][1], hidden), (order, entries[-1][1], 0)]
        listed.sort(key=lambda entry: entry[0])
        names = [visible(self._compared.words.name(own[0])) for _, own, _ in listed]
        more = [[_Row(self._compared, item) for item in own[1:]] for _, own, _ in listed]
        starts = [row.start for rows in more for row in rows]
        column = _column([*names, *starts], self._widest)
        yield [Piece(HEADING, heading)]
        for name, rows, (_, own, hidden) in zip(names, more, listed, strict=True):
            text = visible(own[0].before or own[0].after)
            role = GONE if own[0].before else NEW
            start = [Piece(role, f"  {name}"), Piece(PLAIN, " " * max(column - len(name), 0))]
            yield from self._hanging(start, (text,), column + 4)
            yield from self._rows(rows, column)
            if hidden:
                yield [Piece(QUIET, f"  … and {hidden} more, to")]
        yield []
