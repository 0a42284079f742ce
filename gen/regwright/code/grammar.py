"""The grammars of C and C++, and parsing with them: whole files, and the bodies of macros."""

from __future__ import annotations

import re
import zlib
from collections.abc import Callable, Iterator
from functools import cache
from importlib import import_module
from itertools import accumulate
from operator import attrgetter
from time import monotonic
from typing import Any, NamedTuple

from regwright.code.syntax import STRUCTURES, Node, expression
from regwright.code.text import CPP

#: Longer bodies are no register definitions; they are not parsed as expressions.
LONGEST = 4000
_OPEN = b"int q=("
_BODY = b"void q(void){"
#: What statements have and expressions have not.
_STATEMENT = re.compile(rb"[;{]|\b(?:if|while|for|do|switch|return)\b")
#: A number; strings and characters are passed over.
_LITERAL = re.compile(
    rb"(?<![\w.])([0-9](?:[\w.]|'[0-9A-Fa-f]|(?<=[eEpP])[+-])*+)"
    rb"|\"(?:\\.|[^\"\\])*+\"?|'(?:\\.|[^'\\])*+'?",
    re.DOTALL,
)
_KEPT = 20_000
#: Rows of what begins or ends something, without anything that it might be of. A search for a word
#: is fast; one for a sign is made only where so many stand together.
_IN_ROW = rb"(?:[^\w\s\"'/\\]|\b(?:do|sizeof|typename)\b)\s*+"
_ROWS_OF_SIGNS = re.compile(rb"(?<!/)(?:%s){200,}+" % _IN_ROW)
_ROWS_OF_WORDS = tuple(
    re.compile(rb"%s\b\s*+(?:%s){100,}+" % (word, _IN_ROW))
    for word in (rb"do", rb"sizeof", rb"typename")
)
_MANY_SIGNS = b"!" * 64
_BLANKS = b" \t\n\r\f\v"
_KINDS = bytes(
    ord(" ") if chr(sign) in "_\"'/\\" or (chr(sign).isalnum() and sign < 0x80) else ord("!")
    for sign in range(256)
)
_MOST_OPEN = 5000
_STEPS = {**dict.fromkeys(b"([{", 1), **dict.fromkeys(b")]}", -1)}
_NO_BRACKETS = bytes(set(range(256)) - set(_STEPS))
#: How much the parser gets at once, and how long it may take.
_PART = 4096
#: How much a node gets at once that is asked for its text.
_PART_OF_NODE = 256
_SECONDS, _SECONDS_FOR_A_BYTE = 2.0, 1e-5
_DEEPEST = 12

_START = attrgetter("start_byte")

Define = Callable[[Any, str], None]


@cache
def _parser(language: str) -> Any:
    import tree_sitter

    name = "tree_sitter_cpp" if language == CPP else "tree_sitter_c"
    grammar = import_module(name)
    return tree_sitter.Parser(tree_sitter.Language(grammar.language()))


class Tree(NamedTuple):
    """The root node of a tree, and the byte at which the parser gave up, or the text ends."""

    root: Any
    end: int


def parse(data: bytes, language: str) -> Tree:
    """Return the tree of ``data``.

    The time for what is no code grows with its square. So text in which thousands of brackets are
    open at once is nothing at all, long rows of signs are blanks, and after a hundred times what it
    takes for code the parser is told that the text ends.
    """
    steps = map(_STEPS.__getitem__, data.translate(None, _NO_BRACKETS))
    end = 0 if max(accumulate(steps), default=0) > _MOST_OPEN else len(data)
    data = _without_rows(data)
    stop = monotonic() + _SECONDS + len(data) * _SECONDS_FOR_A_BYTE
    is_parsing = True

    def read(offset: int, _place: object) -> bytes:
        nonlocal end
        if is_parsing and monotonic() > stop:
            end = min(end, offset)
        return data[offset : min(offset + _PART, end) if is_parsing else offset + _PART_OF_NODE]

    root = _parser(language).parse(read).root_node
    is_parsing = False
    return Tree(root, end)


def _without_rows(data: bytes) -> bytes:
    """Return ``data`` with blanks in place of long rows of signs."""
    if _MANY_SIGNS in data.translate(_KINDS, _BLANKS):
        data = _ROWS_OF_SIGNS.sub(_emptied, data)
    for words in _ROWS_OF_WORDS:
        data = words.sub(_emptied, data)
    return data


def _emptied(row: re.Match[bytes]) -> bytes:
    """Return a row of signs as blanks, but for those that may begin or end a comment."""
    return row[0][:2] + b" " * (len(row[0]) - 4) + row[0][-2:]


@cache
def _query(language: str, text: str) -> Any:
    import tree_sitter

    return tree_sitter.Query(_parser(language).language, text)


def query(language: str, text: str, root: Any) -> dict[str, list[Any]]:
    """Return the nodes below ``root`` that the patterns ``text`` of tree-sitter capture, in order.

    The library gives them in the order of their hashes, which is another one each time.
    """
    import tree_sitter

    found = tree_sitter.QueryCursor(_query(language, text)).captures(root)
    return {name: sorted(nodes, key=_START) for name, nodes in found.items()}


class Parsed(NamedTuple):
    """An expression of a text in which each number was 0 when it was parsed.

    Texts that differ only in their numbers share one tree. ``shifts`` has, for each literal, where
    it ends in the shared text and by how much what follows it is further on in this one.
    """

    text: bytes
    node: Node
    literals: tuple[str, ...]
    starts: tuple[int, ...]
    shifts: tuple[tuple[int, int], ...]

    def literal(self, node: Node) -> str:
        """Return the literal at a ``number``."""
        for start, text in zip(self.starts, self.literals, strict=True):
            if start == node.start:
                return text
        return node.text

    def at(self, position: int) -> int:
        """Return where in its own text the byte ``position`` of the shared text stands."""
        moved = 0
        for end, shift in self.shifts:
            if position < end:
                break
            moved = shift
        return position + moved


class Shapes:
    """Parses bodies of macros. Each shape, the text with every number 0, is parsed once."""

    def __init__(self, language: str, define: Define | None = None) -> None:
        """Parse with the grammar of ``language``; ``define`` is told of each structure in a body.

        It gets the structure's node and the name by which types in that body know it.
        """
        self.language = language
        self._define = define
        self._known: dict[bytes, Node | None] = {}

    def parse(self, text: bytes) -> Parsed | None:
        """Return the expression that ``text`` is, if it is one; places count from its start."""
        if len(text) > LONGEST:
            return None
        literals = []
        starts = []
        shifts = []
        parts = []
        done = moved = 0
        for match in _LITERAL.finditer(text):
            if match[1] is None:
                continue
            start, end = match.span()
            parts.append(text[done:start])
            starts.append(start - moved)
            literals.append(match[1].decode("ascii", "replace"))
            moved += end - start - 1
            shifts.append((starts[-1] + 1, moved))
            done = end
        node = self._shape(b"0".join([*parts, text[done:]]))
        if node is None:
            return None
        return Parsed(text, node, tuple(literals), tuple(starts), tuple(shifts))

    def _shape(self, shape: bytes) -> Node | None:
        if shape not in self._known:
            if len(self._known) >= _KEPT:
                self._known.clear()
            self._known[shape] = self._parse_shape(shape)
        return self._known[shape]

    def _parse_shape(self, shape: bytes) -> Node | None:
        value = _value(shape, self.language)
        if value is None:
            return _statements(shape, self.language)
        if not value.named_child_count:
            return None
        mark = ""
        if b"{" in shape and self._define is not None:
            mark = f":{zlib.crc32(shape):08x}"
            for node in _structures(value):
                self._define(node, f"@{node.start_byte}{mark}")
        return _moved(expression(value).kids[0], -len(_OPEN), mark)


def _structures(node: Any, depth: int = 0) -> Iterator[Any]:
    """Yield the structures without a name in a body."""
    if node.type in STRUCTURES and node.child_by_field_name("name") is None:
        yield node
    elif depth < _DEEPEST:
        for kid in node.named_children:
            yield from _structures(kid, depth + 1)


def _statements(shape: bytes, language: str) -> Node | None:
    """Return the statements that ``shape`` is, as ``do { … } while (0)``, if it is some.

    They have no value; the expressions in them are parts of the node.
    """
    if not _STATEMENT.search(shape):
        return None
    root = parse(_BODY + shape + b";}", language).root
    if root.has_error or len(root.named_children) != 1:
        return None
    body = root.named_children[0].child_by_field_name("body")
    return _moved(expression(body), -len(_BODY), "") if body is not None else None


def _value(shape: bytes, language: str) -> Any:
    """Return the node of the expression that ``shape`` is, in parentheses, if it is one."""
    root = parse(_OPEN + shape + b");", language).root
    if root.has_error or len(root.named_children) != 1:
        return None
    declaration = root.named_children[0]
    declarator = declaration.child_by_field_name("declarator")
    value = declarator.child_by_field_name("value") if declarator is not None else None
    if value is None or value.type != "parenthesized_expression":
        return None
    return value if value.end_byte == len(_OPEN) + len(shape) + 1 else None


def _moved(node: Node, by: int, mark: str) -> Node:
    """Return ``node`` with every place ``by`` further on, and ``mark`` behind made-up names."""
    kind = node.type
    if kind is not None:
        kind = kind._replace(start=kind.start + by)
        if mark and kind.tag.startswith("@"):
            kind = kind._replace(tag=kind.tag + mark)
    kids = tuple(_moved(kid, by, mark) for kid in node.kids)
    return Node(node.kind, node.start + by, node.end + by, node.text, kids, kind)
