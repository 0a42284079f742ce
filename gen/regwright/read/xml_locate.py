"""Where the elements and attributes of an XML text stand. Works on well-formed text."""

from __future__ import annotations

import re
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
        self._parser = expat.ParserCreate("utf-8")
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._data = text.encode("utf-8")
        self._parser.Parse(self._data, True)  # noqa: FBT003
        self._is_ascii = len(self._data) == len(text)

    def _start(self, tag: str, _attributes: dict[str, str]) -> None:
        element = _Element(self._parser.CurrentByteIndex)
        if self._stack:
            self._stack[-1].children.setdefault(tag, []).append(element)
        else:
            self._root = element
        self._stack.append(element)

    def _end(self, _tag: str) -> None:
        self._stack.pop()

    def _character(self, byte: int) -> int:
        if self._is_ascii:
            return byte
        return len(self._data[:byte].decode("utf-8"))

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

    def attribute_span(self, path: list[str | int]) -> tuple[int, int] | None:
        """Return where the attribute value at ``path`` starts and ends, its quotes left out."""
        element, rest = self._find(path)
        if len(rest) != 1:
            return None
        start = self._character(element.start)
        name = _NAME.match(self._text, start)
        position = name.end() if name else start
        while True:
            match = _ATTRIBUTE.match(self._text, _skip_space(self._text, position))
            if match is None:
                return None
            if match[1] == rest[0]:
                return match.start(2) + 1, match.end(2) - 1
            position = match.end()

    def offset(self, path: list[str | int]) -> int:
        """Return where the attribute value or element at ``path`` starts, or the nearest one."""
        span = self.attribute_span(path)
        return span[0] if span else self._character(self._find(path)[0].start)


def _skip_space(text: str, position: int) -> int:
    while text[position : position + 1].isspace():
        position += 1
    return position
