"""An XML document that XPath 1.0 is followed in."""

from __future__ import annotations

import math
import re
from collections.abc import Hashable, Iterator
from typing import Any

from regwright.importing.mapped.document import (
    BadPath,
    Lost,
    Tally,
    Unreadable,
    Value,
    WrongKind,
)
from regwright.read import hardened

#: Attributes for schema processors, which mean nothing to a chip.
_FOR_SCHEMAS = "{http://www.w3.org/2001/XMLSchema-instance}"
_IN_OTHER_WORDS = {
    "Excessive depth": "elements are nested more than 255 deep; flatten the document",
    "Resource limit exceeded": "a text here is longer than 10,000,000 characters; shorten it",
    "Maximum entity amplification": "entities blow this document up; write out what they stand for",
}
_TEXTS = re.compile(r"\"[^\"]*\"|'[^']*'")
_NAMES = re.compile(r"(@?)((?:[\w.-]+:)?\w[\w.-]*+)(?!\s*\(|\s*::|:)")
_OPERATORS = frozenset(("and", "or", "div", "mod"))


class Path:
    """An XPath, and the names of elements and attributes that it works with."""

    def __init__(self, text: str, namespaces: dict[str, str]) -> None:
        """Compile ``text``. Raises :class:`BadPath`."""
        from lxml import etree

        try:
            self.select = etree.XPath(text, namespaces=namespaces, regexp=False)
            self.select(etree.Element("nothing"))
        except (etree.XPathError, ValueError) as problem:
            raise BadPath(f"{text!r} is no XPath 1.0: {_why(problem)}") from None
        bare = _TEXTS.sub(" ", text)
        named = {(at, self._full(name, namespaces)) for at, name in _NAMES.findall(bare)}
        self.attributes = {name for at, name in named if at}
        self.elements = {name for at, name in named if not at and name not in _OPERATORS}
        self.has_conditions = "[" in bare
        self.goes_up = ".." in bare or "parent::" in bare or "ancestor" in bare

    @staticmethod
    def _full(name: str, namespaces: dict[str, str]) -> str:
        prefix, colon, local = name.partition(":")
        return f"{{{namespaces.get(prefix, '')}}}{local}" if colon else name


def _why(problem: Exception) -> str:
    words = str(problem)
    known = {
        "Undefined namespace prefix": "a prefix is not declared; add it to namespaces",
        "Unregistered function": "there is no such function in XPath 1.0",
        "Undefined variable": "there are no variables here",
    }
    return known.get(words, words[:1].lower() + words[1:])


class XmlDocument:
    """A parsed document; see :class:`regwright.importing.mapped.document.Document`."""

    def __init__(self, data: bytes, namespaces: dict[str, str]) -> None:
        """Parse ``data``. Raises :class:`Unreadable`."""
        self.root = _parse(data)
        self._namespaces = namespaces
        self._nodes: set[Any] = set()  # selected as nodes
        self._texts: set[Any] = set()  # read as text, with all that is in them
        self._ignored: set[Any] = set()
        self._attributes: set[tuple[Any, str]] = set()

    def compile(self, path: str) -> Path:
        """Return ``path`` ready to be followed."""
        return Path(path, self._namespaces)

    def nodes(self, path: Path, node: Any) -> list[Any]:
        """Return the elements that ``path`` selects from ``node``."""
        found = self._follow(path, node)
        if not isinstance(found, list):
            raise WrongKind(f"gives {_kind_of(found)}, and elements are wanted here")
        for item in found:
            if not _is_element(item):
                raise WrongKind(f"selects {_kind_of(item)}, and elements are wanted here")
            self._nodes.add(item)
            self._touch_conditions(path, item)
        return found

    def values(self, path: Path, node: Any) -> list[Value]:
        """Return the texts, numbers or truth values that ``path`` gives from ``node``."""
        found = self._follow(path, node)
        if isinstance(found, list):
            return [self._value(path, item) for item in found]
        self._touch_names(path, node)
        if isinstance(found, float):
            if not math.isfinite(found):
                return []
            return [int(found) if found.is_integer() else str(found)]
        if isinstance(found, bool):
            return [found]
        return [str(found)] if found else []

    def key(self, node: Any, up: int) -> str | None:
        """Return the name of the element, or of one around it."""
        for _ in range(up):
            node = None if node is None else node.getparent()
        return None if node is None else str(_local(node.tag))

    def ignore(self, node: Any) -> None:
        """Note that the element is left out on purpose."""
        self._ignored.add(node)

    def identity(self, node: Any) -> Hashable:
        """Return the element itself."""
        return node  # type: ignore[no-any-return]

    def place(self, node: Any) -> tuple[int, int]:
        """Return the line of the element; its column is not known."""
        return node.sourceline or 1, 1

    def lost(self, ignored: frozenset[str]) -> list[Lost]:
        """Return the elements, attributes and texts that no path has read."""
        tally = Tally(ignored)
        alive = self._with_all_around()
        waiting = [self.root]
        while waiting:
            element = waiting.pop()
            if element in self._ignored:
                continue
            tag = _shown(element, element.tag)
            if element not in alive:
                tally.add(self.place(element), tag)
                continue
            if tag in ignored:
                continue
            for name in self._unread_attributes(element):
                shown = f"@{_shown(element, name)}"
                tally.add(self.place(element), f"{tag}/{shown}", shown)
            if element not in self._texts:
                self._add_text(tally, element, tag)
                waiting += reversed([item for item in element if isinstance(item.tag, str)])
        return tally.lost()

    def _follow(self, path: Path, node: Any) -> Any:
        from lxml import etree

        try:
            return path.select(node)
        except etree.XPathError as problem:
            raise BadPath(f"this path fails: {_why(problem)}") from None

    def _value(self, path: Path, item: Any) -> Value:
        """Return the text of an element, attribute or text, and note that it was read."""
        if isinstance(item, str):
            parent = item.getparent()  # type: ignore[attr-defined]
            if parent is not None and item.is_attribute:  # type: ignore[attr-defined]
                self._attributes.add((parent, item.attrname))  # type: ignore[attr-defined]
            elif parent is not None:
                self._texts.add(parent)
            if parent is not None:
                self._nodes.add(parent)
                self._touch_conditions(path, parent)
            return str(item)
        if not _is_element(item):
            raise WrongKind(f"selects {_kind_of(item)}, which has no value")
        self._texts.add(item)
        self._touch_conditions(path, item)
        return str(item.xpath("string()"))

    def _touch_conditions(self, path: Path, element: Any) -> None:
        """Note the attributes and elements that the path's conditions have looked at."""
        if not path.has_conditions:
            return
        while element is not None:
            self._touch_named(path, element)
            element = element.getparent()

    def _touch_names(self, path: Path, node: Any) -> None:
        """Note what a path that computes something has looked at, by its names."""
        waiting = [node]
        if path.goes_up:
            waiting += node.iterancestors()
        seen: set[Any] = set()
        while waiting:
            element = waiting.pop()
            if element not in seen:
                seen.add(element)
                waiting += self._touch_named(path, element)

    def _touch_named(self, path: Path, element: Any) -> Iterator[Any]:
        for name in path.attributes.intersection(element.attrib):
            self._attributes.add((element, name))
            self._nodes.add(element)
        found = [item for name in path.elements for item in element.iterchildren(name)]
        for item in found:
            if not len(item):
                self._texts.add(item)
        return iter(found)

    def _with_all_around(self) -> set[Any]:
        """Return what was touched, and every element around it."""
        alive: set[Any] = {self.root}
        for element in (*self._nodes, *self._texts, *self._ignored):
            while element is not None and element not in alive:
                alive.add(element)
                element = element.getparent()  # noqa: PLW2901
        return alive

    def _unread_attributes(self, element: Any) -> list[str]:
        return [
            name
            for name in element.attrib
            if (element, name) not in self._attributes and not name.startswith(_FOR_SCHEMAS)
        ]

    def _add_text(self, tally: Tally, element: Any, tag: str) -> None:
        texts = [element.text, *(item.tail for item in element)]
        if any(text and text.strip() for text in texts):
            tally.add(self.place(element), f"text of {tag}", f"{tag}/text()")


def _parse(data: bytes) -> Any:
    """Return the outermost element. No network, no entities, nothing outside the document."""
    if not data.strip():
        raise Unreadable("the file is empty; an XML document was expected")
    try:
        root = hardened.parse(data, _IN_OTHER_WORDS)
    except hardened.NotWellFormed as problem:
        raise Unreadable(problem.message, problem.line, problem.column) from None
    dtd = root.getroottree().docinfo.internalDTD
    if dtd is not None and any(True for _ in dtd.iterentities()):
        raise Unreadable("the document declares entities (<!ENTITY …>); write out their texts")
    return root


def _is_element(item: Any) -> bool:
    return isinstance(getattr(item, "tag", None), str)


def _kind_of(item: Any) -> str:
    if isinstance(item, bool):
        return "a truth value"
    if isinstance(item, float):
        return "a number"
    if isinstance(item, str):
        is_attribute = getattr(item, "is_attribute", False)
        return "an attribute" if is_attribute else "a text"
    return "a namespace" if isinstance(item, tuple) else "a comment"


def _local(name: str) -> str:
    return name.rpartition("}")[2]


def _shown(element: Any, name: str) -> str:
    """Return a name as the document writes it, with the prefix of its namespace."""
    namespace, _, local = name.removeprefix("{").rpartition("}")
    prefixes = [prefix for prefix, uri in element.nsmap.items() if uri == namespace and prefix]
    return f"{prefixes[0]}:{local}" if prefixes else local
