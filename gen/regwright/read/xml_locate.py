"""Where the elements and attributes of an XML text stand. Works on well-formed text."""

from __future__ import annotations

import re
from contextlib import suppress
from xml.parsers import expat

from regwright.format.shape import Shape, shapes

_ATTRIBUTE = re.compile(r"""([^\s=<>/"']+)\s*=\s*("[^"]*"|'[^']*')""")
_NAME = re.compile(r"<[^\s/>]*")


class _Element:
    """An element: where its tag starts, in bytes, and the elements within it by tag."""

    __slots__ = ("children", "start")

    def __init__(self, start: int) -> None:
        self.start = start
        self.children: dict[str, list[_Element]] = {}


class XmlLocator:
    """The places in one XML text, by the same paths as in JSON."""

    def __init__(self, text: str) -> None:
        """Index ``text``, which must be well formed."""
        self._text = text
        self._root = _Element(0)
        self._stack: list[_Element] = []
        self._ends: dict[int, int] = {}
        self._parser = expat.ParserCreate("utf-8")
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._data = text.encode("utf-8")
        # Names that only a later edition of XML allows stop expat; what it saw until then serves.
        with suppress(expat.ExpatError):
            self._parser.Parse(self._data, True)  # noqa: FBT003
        self._latest: tuple[_Element, dict[str, re.Match[str]]] | None = None
        self._counted = (0, 0)
        self._is_ascii = len(self._data) == len(text)

    def _start(self, tag: str, _attributes: dict[str, str]) -> None:
        element = _Element(self._parser.CurrentByteIndex)
        if self._stack:
            self._stack[-1].children.setdefault(tag, []).append(element)
        else:
            self._root = element
        self._stack.append(element)

    def _end(self, _tag: str) -> None:
        self._ends[self._stack.pop().start] = self._parser.CurrentByteIndex

    def _character(self, byte: int) -> int:
        if self._is_ascii:
            return byte
        # Findings mostly come in the file's order: count on from the latest one.
        start, count = self._counted if self._counted[0] <= byte else (0, 0)
        count += len(self._data[start:byte].decode("utf-8"))
        self._counted = (byte, count)
        return count

    def _find(self, path: list[str | int]) -> tuple[_Element, list[str | int]]:
        """Return the innermost element on ``path`` and the steps that are left."""
        element = self._root
        shape: Shape | None = shapes()["chip"]
        position = 0
        while position < len(path):
            step = str(path[position])
            child = shape.by_property.get(step) if shape else None
            following = path[position + 1] if position + 1 < len(path) else None
            index = following if isinstance(following, int) else 0
            found = element.children.get(child.element if child else step, [])
            if index >= len(found):
                break
            element = found[index]
            shape = shapes().get(child.shape) if child and child.shape else None
            position += 2 if isinstance(following, int) else 1
        return element, path[position:]

    def _attribute(self, path: list[str | int]) -> re.Match[str] | None:
        """Return the attribute at ``path`` as it is written: its name, then its quoted value."""
        element, rest = self._find(path)
        if len(rest) != 1:
            return None
        if self._latest is None or self._latest[0] is not element:
            self._latest = element, attributes_at(self._text, self._character(element.start))
        return self._latest[1].get(str(rest[0]))

    def span(self, path: list[str | int]) -> tuple[int, int] | None:
        """Return where the attribute value at ``path`` starts and ends, its quotes left out."""
        match = self._attribute(path)
        return (match.start(2) + 1, match.end(2) - 1) if match else None

    def offset(self, path: list[str | int]) -> int:
        """Return where the attribute value or element at ``path`` starts, or the nearest one."""
        span = self.span(path)
        return span[0] if span else self._character(self._find(path)[0].start)

    def name_spans(self, offset: int) -> list[tuple[int, int]]:
        """Return where the name of the attribute or of the tags of the element starts and ends."""
        is_element = self._text.startswith("<", offset)
        match = _NAME.match(self._text, offset) if is_element else None
        if match is None:
            name = _ATTRIBUTE.match(self._text, offset)
            return [name.span(1)] if name else []
        tag = match[0].removeprefix("<")
        spans = [(match.start() + 1, match.end())]
        end = self._ends.get(len(self._text[:offset].encode("utf-8")))
        if end is not None and self._data.startswith(b"</" + tag.encode("utf-8"), end):
            start = self._character(end) + 2
            spans.append((start, start + len(tag)))
        return spans

    def name_offset(self, path: list[str | int]) -> int:
        """Return where the name of the attribute at ``path`` stands, or the nearest element."""
        match = self._attribute(path)
        return match.start(1) if match else self.offset(path)


def attributes_at(text: str, start: int) -> dict[str, re.Match[str]]:
    """Return the attributes of the tag at ``start`` by name: the name, then the quoted value."""
    name = _NAME.match(text, start)
    position = name.end() if name else start
    found: dict[str, re.Match[str]] = {}
    while match := _ATTRIBUTE.match(text, _skip_space(text, position)):
        found[match[1]] = match
        position = match.end()
    return found


def _skip_space(text: str, position: int) -> int:
    while text[position : position + 1].isspace():
        position += 1
    return position
