"""Where the values of a large JSON text stand, at little cost.

Objects and lists begin in the text in the order in which a walk through the data meets them, so
that one search for brackets places them all. Other values are looked for when one is asked for.
"""

from __future__ import annotations

import json
import re
from bisect import bisect_right
from typing import Any

_BRACKET = re.compile(r'"(?:[^"\\]|\\.)*+"|[{}\[\]]', re.DOTALL)
_PIECE = re.compile(r'"(?:[^"\\]|\\.)*+"|[{}\[\]:]|[^\s{}\[\]:,"]+', re.DOTALL)

Location = tuple[str | int, ...]


class JsonPlaces:
    """The places in a text that ``data`` was made of; no name stands twice in an object."""

    def __init__(self, text: str, data: Any) -> None:
        """Place the objects and lists of ``data``, which must be kept."""
        self._text = text
        self._data = data
        self._ends: dict[int, int] = {}
        self._starts = dict(zip(map(id, _containers(data)), self._brackets(), strict=True))
        self._lines = [0, *(match.end() for match in re.finditer("\n", text))]

    def _brackets(self) -> list[int]:
        """Return where objects and lists start, and note where each ends."""
        starts: list[int] = []
        still_open: list[int] = []
        for match in _BRACKET.finditer(self._text):
            if match[0] in "{[":
                starts.append(match.start())
                still_open.append(match.start())
            elif match[0] in "}]":
                self._ends[still_open.pop()] = match.end()
        return starts

    def place(self, location: Location) -> tuple[int, int]:
        """Return the line and column, from 1, of the value at ``location``."""
        start = self._offset(location)
        line = bisect_right(self._lines, start)
        return line, start - self._lines[line - 1] + 1

    def _offset(self, location: Location) -> int:
        value = around = self._data
        for step in location:
            around, value = value, value[step]
        if isinstance(value, (dict, list)):
            return self._starts[id(value)]
        return self._within(self._starts[id(around)], location[-1]) if location else 0

    def _within(self, start: int, step: str | int) -> int:
        """Return where the value ``step`` of the object or list at ``start`` starts."""
        is_object = self._text[start] == "{"
        index, name, latest = 0, "", ""
        position = start + 1
        while match := _PIECE.search(self._text, position):
            piece, position = match[0], match.end()
            if piece == ":":
                name = json.loads(latest)
                continue
            latest = piece
            if piece in "}]":
                break
            if step == (name if is_object else index) and not self._is_name(is_object, position):
                return match.start()
            if not self._is_name(is_object, position):
                index, name = index + 1, ""
            if piece in "{[":
                position = self._ends[match.start()]
        return start

    def _is_name(self, is_object: bool, end: int) -> bool:  # noqa: FBT001
        """Tell whether what ends at ``end`` is the name of a member."""
        return is_object and self._text[end : end + 80].lstrip().startswith(":")


def _containers(data: Any) -> list[Any]:
    """Return the objects and lists of ``data`` in the order in which a text has them."""
    found = []
    waiting = [data]
    while waiting:
        value = waiting.pop()
        if isinstance(value, (dict, list)):
            found.append(value)
            waiting += reversed(value.values() if isinstance(value, dict) else value)
    return found
