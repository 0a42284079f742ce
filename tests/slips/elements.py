"""The objects of a description's text, in either spelling, with where each property stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

_TAG = re.compile(r"<!--.*?-->|<(/?)([A-Za-z]+)((?:\s+[\w:]+=\"[^\"]*\")*)\s*(/?)>", re.DOTALL)
_ATTRIBUTE = re.compile(r"([\w:]+)=\"([^\"]*)\"")
_TOKEN = re.compile(r'"((?:[^"\\]|\\.)*)"|[{}\[\]]|-?\d+|true|false|null|[:,]')
#: What an object in a list is called in the XML spelling.
_SINGULAR = {"reserved": "reserved", "halves": "halves", "silences": "silence"}


@dataclass
class Property:
    """A property's name and value, and the spans of both in the text, quotes left out."""

    name: str
    value: str
    name_at: tuple[int, int]
    value_at: tuple[int, int]


@dataclass
class Element:
    """An object: its kind, its span in the text, its plain properties and the objects in it."""

    kind: str
    start: int
    end: int = 0
    properties: dict[str, Property] = field(default_factory=dict)
    children: list[Element] = field(default_factory=list)

    def get(self, name: str) -> Property | None:
        return self.properties.get(name)

    def of(self, kind: str) -> list[Element]:
        """Return the objects of one kind that are directly in this one."""
        return [child for child in self.children if child.kind == kind]

    def every(self, kind: str) -> Iterator[Element]:
        """Yield the objects of one kind at any depth, in the order of the text."""
        for child in self.children:
            if child.kind == kind:
                yield child
            yield from child.every(kind)


def elements(text: str, spelling: str) -> Element:
    """Return the outermost object of a description."""
    return _of_xml(text) if spelling == "xml" else _of_json(text)


def _of_xml(text: str) -> Element:
    outer = Element("", 0)
    stack = [outer]
    for tag in _TAG.finditer(text):
        closing, name, attributes, empty = tag.groups()
        if name is None:
            continue
        if closing:
            stack.pop().end = tag.end()
            continue
        element = Element(name, tag.start(), tag.end())
        for found in _ATTRIBUTE.finditer(attributes):
            base = tag.start(3)
            spans = [(base + found.start(i), base + found.end(i)) for i in (1, 2)]
            element.properties[found[1]] = Property(found[1], found[2], *spans)
        stack[-1].children.append(element)
        if not empty:
            stack.append(element)
    return outer.children[0]


def _of_json(text: str) -> Element:
    outer = Element("chip", 0)
    stack: list[Element | None] = [outer]
    kinds = ["chip"]
    name: re.Match[str] | None = None
    found: Element | None = None
    for token in _TOKEN.finditer(text):
        mark = token[0]
        owner = next(item for item in reversed(stack) if item is not None)
        if mark == "{":
            found = Element(kinds[-1] if name is None else name[1], token.start())
            owner.children.append(found)
            stack.append(found)
            name = None
        elif mark == "[":
            key = name[1] if name else ""
            kinds.append(_SINGULAR.get(key, key.removesuffix("s")))
            stack.append(None)
            name = None
        elif mark in "}]":
            closed = stack.pop()
            if closed is None:
                kinds.pop()
            else:
                closed.end = token.end()
        elif mark == ":":
            continue
        elif mark == ",":
            name = None
        elif name is None:
            name = token
        else:
            quoted = mark[0] == '"'
            at = token.span(1) if quoted else token.span()
            owner.properties[name[1]] = Property(name[1], text[slice(*at)], name.span(1), at)
            name = None
    return outer.children[0]
