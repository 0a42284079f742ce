"""A configuration for a terminal or a pipe: each word bit by bit, or what comes of settings."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from regwright.configuration.changes import Change
from regwright.configuration.hazards import KINDS, Caused, cause_in_words
from regwright.configuration.words import hexadecimal, inverted, verify_mask
from regwright.model.configuration import ConfigurationWord
from regwright.model.words import visible
from regwright.reports.configuration import ABSENT, CAUTION, Configured, about_word
from regwright.reports.configuration_rows import Row, binary, rows
from regwright.reports.pieces import (
    CHANGED,
    DANGER,
    HEADING,
    PLAIN,
    QUIET,
    Line,
    Piece,
    plain_text,
)

#: Text is not wrapped to less than this, however narrow the terminal is.
_NARROWEST = 24
#: What does not fit behind the start of its line stands on the next, so many columns in.
_INDENT = 6


def configuration_text(configured: Configured) -> str:
    """Return the whole configuration, no line of it wrapped."""
    return "".join(plain_text(line) + "\n" for line in configuration_lines(configured))


def configuration_lines(configured: Configured, width: int | None = None) -> Iterator[Line]:
    """Yield the configuration in lines, wrapped to ``width`` columns when that is given."""
    view = _View(configured, width)
    yield [Piece(HEADING, visible(f"{configured.chip.name}: {configured.heading}"))]
    yield []
    if configured.is_computed:
        yield from view.changes()
    for word in configured.configuration.words:
        if not configured.is_computed or configured.is_changed(word):
            yield from view.word(word)
            yield []
    yield from view.computed() if configured.is_computed else view.told()


class _View:
    def __init__(self, configured: Configured, width: int | None) -> None:
        self._configured = configured
        self._width = width
        words = [
            rows(configured.configuration, word, configured.words[word.name])
            for word in configured.configuration.words
        ]
        self._rows = dict(
            zip((word.name for word in configured.configuration.words), words, strict=True)
        )
        every = [row for own in words for row in own]
        self._columns = [max(map(len, column)) for column in zip(*map(_cells, every), strict=True)]

    def word(self, word: ConfigurationWord) -> Iterator[Line]:
        """Yield a word bit by bit, from the high end."""
        value = self._configured.words[word.name]
        shown = f"{word.name}  {hexadecimal(value, word.width)}  {binary(value, word.width)}"
        yield from self._tail([Piece(HEADING, shown)], visible(f"at {about_word(word)}"), QUIET)
        for row in self._rows[word.name]:
            yield from self._row(row)
        if word.notes:
            yield from self._tail([Piece(QUIET, "  note")], visible(" ".join(word.notes.split())))

    def _row(self, row: Row) -> Iterator[Line]:
        cells = [text.ljust(size) for text, size in zip(_cells(row), self._columns, strict=True)]
        *before, setting, mark = cells
        role = PLAIN if row.is_default else CHANGED
        start = [Piece(PLAIN, "  " + "  ".join(before) + "  "), Piece(role, setting)]
        aside = Piece(QUIET if row.is_default else CHANGED, f"  {mark}")
        used = sum(len(piece.text) for piece in [*start, aside])
        if self._width is not None and used > self._width:
            texts = (mark.strip(), visible(row.words))
            yield from self._tail(start, "; ".join(filter(None, texts)), QUIET)
            return
        yield from self._tail([*start, aside], visible(row.words), QUIET)

    def changes(self) -> Iterator[Line]:
        """Yield what is other than before, in settings and in bits."""
        found = self._configured.changes
        if not found:
            yield [Piece(PLAIN, "Nothing changes: the words have these settings already.")]
            yield []
            return
        yield [Piece(HEADING, "Changes")]
        table = [_change_cells(item) for item in found]
        sizes = [max(map(len, column)) for column in zip(*table, strict=True)]
        for setting, values, where in table:
            start = [Piece(PLAIN, f"  {setting.ljust(sizes[0])}  ")]
            yield from self._tail([*start, Piece(CHANGED, values.ljust(sizes[1]))], where)
        yield []

    def computed(self) -> Iterator[Line]:
        """Yield the values to write, and what to look out for."""
        yield from self._values()
        yield []
        yield from self._findings()
        yield from self._list("Look out", self._configured.cautions)
        yield from self._tail([Piece(DANGER, "Caution")], CAUTION)

    def _values(self) -> Iterator[Line]:
        head = ("word", "value", "mask to verify with", "inverted form", "")
        table: list[tuple[str, ...]] = [head]
        for word in self._configured.configuration.words:
            value, width = self._configured.words[word.name], word.width
            numbers = (value, verify_mask(word), inverted(word, value))
            shown = [hexadecimal(item, width) for item in numbers]
            table.append((word.name, *shown, self._configured.aside(word)))
        sizes = [max(map(len, column)) for column in zip(*table, strict=True)]
        for number, cells in enumerate(table):
            padded = [text.ljust(size) for text, size in zip(cells, sizes, strict=True)]
            is_changed = cells[-1].startswith("was")
            role = QUIET if number == 0 else CHANGED if is_changed else PLAIN
            yield from self._tail([Piece(role, "  ".join(padded[:-1]))], cells[-1], role)

    def told(self) -> Iterator[Line]:
        """Yield what cannot be right, and every hazard with what causes it."""
        yield from self._findings()
        known = self._configured.known
        if not known:
            return
        yield [Piece(HEADING, "Hazards")]
        for item in known:
            yield from self._hazard(item)

    def _hazard(self, item: Caused) -> Iterator[Line]:
        hazard = item.hazard
        is_here = self._configured.state(hazard.name) != ABSENT
        start = [Piece(DANGER if is_here else PLAIN, f"  {hazard.name}")]
        here = "these bytes have it; " if is_here else ""
        causes = ", or ".join(map(cause_in_words, item.causes)) or "no setting"
        yield from self._tail(start, f"{here}{KINDS[hazard.kind]}")
        yield from self._tail([Piece(PLAIN, "    when")], visible(causes))
        for text in filter(None, (hazard.title, hazard.caution)):
            yield from self._tail([Piece(PLAIN, "   ")], visible(text), QUIET)

    def _findings(self) -> Iterator[Line]:
        yield from self._list(
            "Cannot be right", [item.message for item in self._configured.problems]
        )

    def _list(self, heading: str, texts: Iterable[str]) -> Iterator[Line]:
        found = list(texts)
        if not found:
            return
        yield [Piece(DANGER, heading)]
        for text in found:
            yield from self._tail([Piece(PLAIN, " ")], visible(text))
        yield []

    def _tail(self, start: Line, text: str, role: str = PLAIN) -> Iterator[Line]:
        """Yield ``text`` behind ``start``, wrapped in a column of its own."""
        taken = sum(len(piece.text) for piece in start)
        gap = "  " if start[0].text.strip() else " "
        used = taken + len(gap)
        if self._width is None or not text:
            yield [*start, Piece(role, gap + text)] if text else _trimmed(start)
            return
        if used + _NARROWEST > self._width:
            yield _trimmed(start)
            start, used, gap = [], _INDENT, " " * _INDENT
        room = max(self._width - used, _NARROWEST)
        first, *rest = textwrap.wrap(text, room, break_on_hyphens=False)
        yield [*start, Piece(role, gap + first)]
        for line in rest:
            yield [Piece(role, " " * used + line)]


def _trimmed(line: Line) -> Line:
    """Return ``line`` without blanks at its end."""
    *before, last = line
    trimmed = last._replace(text=last.text.rstrip())
    return [*before, trimmed] if trimmed.text else _trimmed(before) if before else []


def _cells(row: Row) -> tuple[str, str, str, str, str]:
    """Return the cells of a row that stand in columns."""
    setting = f"{row.setting} = {row.choice}" if row.setting else row.choice
    mark = "" if not row.setting else "default" if row.is_default else f"default {row.default}"
    return row.bits, row.digits, visible(row.name), setting, mark


def _change_cells(change: Change) -> tuple[str, str, str]:
    bits = ", ".join(f"bit {item.bit}: {item.before} → {item.after}" for item in change.bits)
    before, after = (name or "no meaning" for name in (change.before, change.after))
    return change.field.setting, f"{before} → {after}", f"{change.word.name} {bits}"
