"""A description's text, and where in it things stand."""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property
from typing import Protocol

from regwright.model.finding import LITERAL, NAME, Finding, Place
from regwright.model.origin import steps

#: Larger input is refused before it is parsed. A description of 5,000 registers is about 5 MB.
SIZE_LIMIT = 64 << 20


class Locator(Protocol):
    """Knows where the nodes of one text stand."""

    def offset(self, path: list[str | int]) -> int:
        """Return the character, counted from 0, at which the value at ``path`` starts."""
        ...

    def name_offset(self, path: list[str | int]) -> int:
        """Return the character at which the name of the property at ``path`` starts."""
        ...

    def span(self, path: list[str | int]) -> tuple[int, int] | None:
        """Return where the plain value at ``path`` starts and ends."""
        ...

    def name_spans(self, offset: int) -> list[tuple[int, int]]:
        """Return where the name at ``offset`` starts and ends, and does so again in an end tag."""
        ...


class Source:
    """The text of one description, named as messages should name it.

    Nothing is located until the first finding asks: a clean run does not pay for places.
    """

    def __init__(self, name: str, data: bytes, spelling: str) -> None:
        """Hold ``data``; ``spelling`` is ``json`` or ``xml``."""
        self.name = name
        self.data = data
        self.spelling = spelling

    @cached_property
    def text(self) -> str:
        """The text; bytes that are no UTF-8 are replaced, the reader has reported them."""
        return self.data.decode("utf-8", "replace")

    @cached_property
    def _line_starts(self) -> list[int]:
        starts = [0]
        position = self.text.find("\n")
        while position >= 0:
            starts.append(position + 1)
            position = self.text.find("\n", position + 1)
        return starts

    @cached_property
    def _locator(self) -> Locator:
        if self.spelling == "json":
            from regwright.read.json_locate import JsonLocator

            return JsonLocator(self.text)
        from regwright.read.xml_locate import XmlLocator

        return XmlLocator(self.text)

    def line_and_column(self, offset: int) -> tuple[int, int]:
        """Return line and column, both from 1, of the character ``offset``."""
        line = bisect_right(self._line_starts, offset)
        column = offset - self._line_starts[line - 1] + 1
        if line == 1 and self.text.startswith("\ufeff"):
            column = max(column - 1, 1)  # editors do not count a byte-order mark
        return line, column

    def place(self, finding: Finding) -> Place:
        """Return the place that ``finding`` speaks of."""
        if finding.at is not None:
            return Place(self.name, *finding.at)
        return Place(self.name, *self.line_and_column(self._offset(finding)))

    def span(self, finding: Finding) -> tuple[int, int]:
        """Return where the text that ``finding`` speaks of starts and ends.

        A word goes on to the next space or quote, a value to its end, its quotes left out; of an
        element or object it is the first character.
        """
        exact = self.spans(finding)
        start = self._offset(finding)
        return exact[0] if exact else (start, start + 1)

    def spans(self, finding: Finding) -> list[tuple[int, int]]:
        """Return where the texts start and end that a repair of ``finding`` takes the place of.

        That is one; two for the name of an element with an end tag; none where the text does not
        stand as such, but in other words or as an element or object.
        """
        start = self._offset(finding)
        path = steps(finding.origin)
        if finding.part == NAME:
            return self._locator.name_spans(start)
        if finding.at is not None:
            end = max(_end_of(start, self.text, _ENDS_OF_A_LITERAL), start + 1)
            return [(start, end)] if finding.part == LITERAL else []
        if finding.word or _is_flag(path):
            is_there = self.text.startswith(finding.word, start)
            return [(start, self._end_of_word(start))] if is_there else []
        return self._value_spans(path, start, with_quotes=finding.part == LITERAL)

    def _value_spans(
        self, path: list[str | int], start: int, *, with_quotes: bool
    ) -> list[tuple[int, int]]:
        span = self._locator.span(path)
        if span is None or span[0] != start:
            return []
        first = self.text[start] if self.spelling == "json" else ""
        if first in ("{", "["):
            return []
        return [(span[0] + 1, span[1] - 1)] if first == '"' and not with_quotes else [span]

    def line_start(self, line: int) -> int:
        """Return the character with which ``line``, counted from 1, starts."""
        return self._line_starts[min(line, len(self._line_starts)) - 1]

    def _offset(self, finding: Finding) -> int:
        """Return the character at which what ``finding`` speaks of starts."""
        if finding.at is not None:
            line, column = finding.at
            has_mark = line == 1 and self.text.startswith("\ufeff")
            return self.line_start(line) + column - 1 + has_mark
        path = steps(finding.origin)
        if finding.part == NAME:
            return self._locator.name_offset(path)
        if _is_flag(path):
            return self._flag_offset(path[:-1], int(path[-1]))
        start = self._locator.offset(path)
        return self._word_offset(finding.word, path, start) if finding.word else start

    def _word_offset(self, word: str, path: list[str | int], start: int) -> int:
        """Return where ``word`` starts in the value at ``path``, rather not within another word."""
        import re

        span = self._locator.span(path) or (start, len(self.text))
        whole = re.compile(rf"(?<![^\s\"';]){re.escape(word)}").search(self.text, *span)
        return whole.start() if whole else max(start, self.text.find(word, *span))

    def _end_of_word(self, start: int) -> int:
        ends = " \t\r\n\"'<&" + ("\\" if self.spelling == "json" else "")
        return max(_end_of(start, self.text, ends), start + 1)

    def _flag_offset(self, path: list[str | int], index: int) -> int:
        """Return where entry ``index``, counted from 0, of the row of flags at ``path`` starts."""
        import re

        span = self._locator.span(path)
        if span is None:
            return self._locator.offset(path)
        # The gaps may be written as escapes, in either spelling.
        pattern = r"&#0*32;|&#x0*20;|\s|((?:(?!&#0*32;|&#x0*20;)\S)+)"
        start, end = span
        if self.spelling == "json":
            pattern = r"\\u0020| |((?:\\(?!u0020).|[^ \\])+)"
            start, end = start + 1, end - 1
        pieces = re.compile(pattern).finditer(self.text, start, end)
        entries = [match.start() for match in pieces if match[1]]
        return entries[index] if index < len(entries) else start


#: Characters that end a word, number or mark of JSON; a mark is one character.
_ENDS_OF_A_LITERAL = ' \t\r\n,:[]{}"'


def _end_of(start: int, text: str, ends: str) -> int:
    """Return where the characters from ``start`` on end that are none of ``ends``."""
    end = start
    while end < len(text) and text[end] not in ends:
        end += 1
    return end


def _is_flag(path: list[str | int]) -> bool:
    return len(path) > 1 and path[-2] == "flags" and isinstance(path[-1], int)


def spelling_of(name: str, data: bytes) -> str:
    """Return ``json`` or ``xml``, by the name's ending or else by the first character."""
    ending = name.rpartition(".")[2].lower()
    if ending in ("json", "xml"):
        return ending
    return "xml" if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<") else "json"
