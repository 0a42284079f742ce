"""A description's text, and where in it things stand."""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property
from typing import Protocol

from regwright.model.finding import Finding, Place
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
        path = steps(finding.origin)
        if len(path) > 1 and path[-2] == "flags" and isinstance(path[-1], int):
            offset = self._flag_offset(path[:-1], path[-1])
        else:
            offset = self._locator.offset(path)
        if finding.word:
            offset = max(offset, self.text.find(finding.word, offset))
        return Place(self.name, *self.line_and_column(offset))

    def place_of_name(self, path: list[str | int]) -> tuple[int, int]:
        """Return line and column of the name of the property at ``path``, not of its value."""
        return self.line_and_column(self._locator.name_offset(path))

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


def spelling_of(name: str, data: bytes) -> str:
    """Return ``json`` or ``xml``, by the name's ending or else by the first character."""
    ending = name.rpartition(".")[2].lower()
    if ending in ("json", "xml"):
        return ending
    return "xml" if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<") else "json"
