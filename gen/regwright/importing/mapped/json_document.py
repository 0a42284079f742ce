"""A JSON document that JSONPath, RFC 9535, is followed in."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Hashable
from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.importing.mapped.document import (
    BadPath,
    Lost,
    Tally,
    Unreadable,
    Value,
    WrongKind,
)
from regwright.importing.mapped.json_places import JsonPlaces, Location

if TYPE_CHECKING:
    from jsonpath import JSONPathEnvironment

#: Objects and lists within each other.
DEEPEST = 64
_HALF_ESCAPE = re.compile(r"\\u[dD][89abcdefABCDEF]")
_PLAIN = re.compile(r"\$(?:\.[A-Za-z_][A-Za-z0-9_]*)*")
_TESTED = re.compile(r"""@(?:\.([A-Za-z_]\w*)|\[\s*(?:'([^'\\]*)'|"([^"\\]*)")\s*\])""")


class Node(NamedTuple):
    """A value and the steps that lead to it."""

    value: Any
    location: Location


class Path:
    """A JSONPath, and the names of members that its conditions look at."""

    def __init__(self, text: str, environment: JSONPathEnvironment) -> None:
        """Compile ``text``. Raises :class:`BadPath`."""
        from jsonpath import JSONPathError

        try:
            self._query = environment.compile(text)
        except JSONPathError as problem:
            why = str(problem.args[0]) if problem.args else "it makes no sense"
            column = problem.token.index if problem.token is not None else 0
            raise BadPath(f"{text!r} is no JSONPath of RFC 9535: {why}", column) from None
        self._names = text.split(".")[1:] if _PLAIN.fullmatch(text) else None
        self.tested = {a or b or c for a, b, c in _TESTED.findall(text)}

    def follow(self, node: Node) -> list[Node]:
        """Return what the path selects; ``$`` is ``node``. Raises :class:`BadPath`."""
        if self._names is not None:
            return self._follow_names(node, self._names)
        if not isinstance(node.value, (dict, list)):
            return []  # nothing is in it; the library would take a text for a JSON document
        from jsonpath import JSONPathError

        try:
            matches = list(self._query.finditer(node.value))
        except JSONPathError as problem:
            why = str(problem.args[0]) if problem.args else "it goes too deep"
            raise BadPath(f"this path fails: {why}") from None
        return [Node(item.obj, (*node.location, *item.parts)) for item in matches]

    @staticmethod
    def _follow_names(node: Node, names: list[str]) -> list[Node]:
        """Follow a path of plain names, by far the most, without the library."""
        value = node.value
        for name in names:
            if not isinstance(value, dict) or name not in value:
                return []
            value = value[name]
        return [Node(value, (*node.location, *names))]


class JsonDocument:
    """A parsed document; see :class:`regwright.importing.mapped.document.Document`."""

    def __init__(self, data: bytes) -> None:
        """Parse ``data``. Raises :class:`Unreadable`."""
        self._text = _decoded(data)
        self.root = Node(_parse(self._text), ())
        self._touched: set[Location] = {()}
        self._ignored: set[Location] = set()

    @cached_property
    def _environment(self) -> JSONPathEnvironment:
        from jsonpath import JSONPathEnvironment

        return JSONPathEnvironment(strict=True, filter_caching=False)

    def compile(self, path: str) -> Path:
        """Return ``path`` ready to be followed."""
        return Path(path, self._environment)

    def nodes(self, path: Path, node: Node) -> list[Node]:
        """Return the objects, lists and values that ``path`` selects from ``node``."""
        found = path.follow(node)
        for item in found:
            self._touch(path, item)
        return found

    def values(self, path: Path, node: Node) -> list[Value]:
        """Return the texts, numbers and truth values that ``path`` selects from ``node``."""
        values: list[Value] = []
        for item in path.follow(node):
            if isinstance(item.value, (dict, list)):
                kind = "an object" if isinstance(item.value, dict) else "a list"
                raise WrongKind(f"selects {kind}, and a text or number is wanted here")
            self._touch(path, item)
            if item.value is not None:
                is_plain = isinstance(item.value, (str, int))
                values.append(item.value if is_plain else str(item.value))
        return values

    def key(self, node: Node, up: int) -> str | None:
        """Return the name of the member that the value is, or that a value around it is."""
        names = node.location[: len(node.location) - up]
        return str(names[-1]) if names else None

    def ignore(self, node: Node) -> None:
        """Note that the value is left out on purpose."""
        self._ignored.add(node.location)

    def identity(self, node: Node) -> Hashable:
        """Return the way to the value."""
        return node.location

    def place(self, node: Node) -> tuple[int, int]:
        """Return the line and column at which the value starts."""
        return self._place(node.location)

    def lost(self, ignored: frozenset[str]) -> list[Lost]:
        """Return the members that no path has read."""
        tally = Tally(ignored)
        alive = {
            location[:end]
            for location in (*self._touched, *self._ignored)
            for end in range(len(location) + 1)
        }
        waiting: list[Node] = [self.root]
        while waiting:
            value, location = waiting.pop()
            name = str(next((step for step in reversed(location) if isinstance(step, str)), "$"))
            if location in self._ignored or (location and name in ignored):
                continue
            if location not in alive:
                tally.add(self._place(location), name)
                continue
            waiting += reversed(_inside(value, location))
        return tally.lost()

    def _touch(self, path: Path, node: Node) -> None:
        self._touched.add(node.location)
        if not path.tested:
            return
        for end in range(len(node.location) + 1):
            self._touched.update((*node.location[:end], name) for name in path.tested)

    @cached_property
    def _places(self) -> JsonPlaces:
        return JsonPlaces(self._text, self.root.value)

    def _place(self, location: Location) -> tuple[int, int]:
        return self._places.place(location)


def _inside(value: Any, location: Location) -> list[Node]:
    if isinstance(value, dict):
        return [Node(item, (*location, name)) for name, item in value.items()]
    if isinstance(value, list):
        return [Node(item, (*location, index)) for index, item in enumerate(value)]
    return []


def _decoded(data: bytes) -> str:
    if not data.strip():
        raise Unreadable("the file is empty; a JSON document was expected")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = data.count(b"\n", 0, problem.start) + 1
        message = f"byte 0x{data[problem.start]:02X} is no UTF-8; save the file as UTF-8"
        raise Unreadable(message, line) from None


def _parse(text: str) -> Any:
    """Return the document as Python data; a name that stands twice is refused."""
    twice: list[str] = []

    def members(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) != len(pairs):
            counts = Counter(name for name, _ in pairs)
            twice.append(counts.most_common(1)[0][0])
        return found

    try:
        data = json.loads(text, object_pairs_hook=members)
    except json.JSONDecodeError as problem:
        words = problem.msg[:1].lower() + problem.msg[1:]
        raise Unreadable(f"no JSON: {words}", problem.lineno, problem.colno) from None
    except RecursionError:
        raise Unreadable(_too_deep()) from None
    except ValueError:
        raise Unreadable("a number has more digits than any chip needs") from None
    _refuse_depth(data)
    if twice:
        _refuse_twice(text, twice[0])
    if _HALF_ESCAPE.search(text):
        _refuse_halves(text)
    return data


def _too_deep() -> str:
    return f"objects and lists are nested more than {DEEPEST} deep; flatten the document"


def _refuse_depth(data: Any) -> None:
    level: list[Any] = [data]
    for _ in range(DEEPEST + 1):
        inner: list[Any] = []
        for value in level:
            if isinstance(value, (dict, list)):
                inner += value.values() if isinstance(value, dict) else value
        level = inner
        if not level:
            return
    raise Unreadable(_too_deep())


def _refuse_twice(text: str, name: str) -> None:
    """Refuse a name that stands twice in one object, at the second one."""
    from regwright.read.json_locate import tokens

    open_objects: list[set[str]] = []
    for token in tokens(text):
        if token.kind == "open":
            open_objects.append(set())
        elif token.kind == "close":
            open_objects.pop()
        elif token.kind == "name":
            if token.value == name and name in open_objects[-1]:
                message = f"the name {name[:60]!r} stands twice in this object; keep one of them"
                raise _unreadable_at(text, token.start, message)
            open_objects[-1].add(token.value)


def _refuse_halves(text: str) -> None:
    """Refuse a text that holds half of a surrogate pair: it is no character."""
    from regwright.read.json_locate import tokens

    for token in tokens(text):
        if any("\ud800" <= character <= "\udfff" for character in token.value):
            message = "half of a surrogate pair stands in this text; write the character itself"
            raise _unreadable_at(text, token.start, message)


def _unreadable_at(text: str, start: int, message: str) -> Unreadable:
    line = text.count("\n", 0, start) + 1
    return Unreadable(message, line, start - text.rfind("\n", 0, start))
