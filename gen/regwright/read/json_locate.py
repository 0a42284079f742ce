"""Where the values of a JSON text stand. Works on text that ``json.loads`` has accepted."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import NamedTuple

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\]:,]|[^\s{}\[\]:,"]+', re.DOTALL)


class Token(NamedTuple):
    """A piece of JSON: ``open``, ``close``, ``name``, ``string`` or ``word``."""

    kind: str
    value: str
    start: int
    end: int


def tokens(text: str) -> Iterator[Token]:
    """Yield the tokens of ``text`` without its commas and colons."""
    pending: re.Match[str] | None = None
    for match in _TOKEN.finditer(text):
        lexeme = match.group()
        if pending is not None:
            kind = "name" if lexeme == ":" else "string"
            value: str = json.loads(pending.group(), strict=False)
            yield Token(kind, value, pending.start(), pending.end())
            pending = None
        if lexeme[0] == '"':
            pending = match
        elif lexeme in "{[":
            yield Token("open", lexeme, match.start(), match.end())
        elif lexeme in "}]":
            yield Token("close", lexeme, match.start(), match.end())
        elif lexeme not in ",:":
            yield Token("word", lexeme, match.start(), match.end())
    if pending is not None:
        yield Token("string", json.loads(pending.group()), pending.start(), pending.end())


class _Node:
    """A value: where it starts and ends, where its name stands, and the values within it."""

    __slots__ = ("children", "end", "name_start", "start")

    def __init__(self, start: int, name_start: int) -> None:
        self.start = start
        self.name_start = name_start
        self.end = start
        self.children: dict[str | int, _Node] = {}


class JsonLocator:
    """The places in one JSON text, by path."""

    def __init__(self, text: str) -> None:
        """Index ``text``, which must be well formed."""
        self._text = text
        self._root = _Node(0, 0)
        stack: list[tuple[_Node, bool]] = []
        name: str = ""
        name_start = -1
        for token in tokens(text):
            if token.kind == "name":
                name, name_start = token.value, token.start
                continue
            if token.kind == "close":
                stack.pop()[0].end = token.end
                continue
            node = _Node(token.start, name_start if name_start >= 0 else token.start)
            node.end = token.end
            if stack:
                parent, is_list = stack[-1]
                parent.children[len(parent.children) if is_list else name] = node
            else:
                self._root = node
            name_start = -1
            if token.kind == "open":
                stack.append((node, token.value == "["))

    def _find(self, path: list[str | int]) -> tuple[_Node, bool]:
        node = self._root
        for step in path:
            if step not in node.children:
                return node, False
            node = node.children[step]
        return node, True

    def offset(self, path: list[str | int]) -> int:
        """Return where the value at ``path`` starts, or the nearest one around it."""
        return self._find(path)[0].start

    def span(self, path: list[str | int]) -> tuple[int, int] | None:
        """Return where the value at ``path`` starts and ends, or ``None`` when it is not there."""
        node, found = self._find(path)
        return (node.start, node.end) if found else None

    def name_spans(self, offset: int) -> list[tuple[int, int]]:
        """Return where the name whose quote stands at ``offset`` starts and ends, without it."""
        match = _TOKEN.match(self._text, offset)
        is_name = match is not None and match[0].startswith('"')
        return [(match.start() + 1, match.end() - 1)] if match and is_name else []

    def name_offset(self, path: list[str | int]) -> int:
        """Return where the name of the property at ``path`` stands."""
        return self._find(path)[0].name_start
