"""Choose the memory map to read."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document

#: So many memory maps are listed when one must be chosen.
_MOST_LISTED = 40
_GROUPS = frozenset({"memoryMaps", "memoryMapDefinitions"})


class Candidate(NamedTuple):
    """A memory map that could be read; ``kind`` is ``memoryMap`` or ``localMemoryMap``."""

    name: str
    kind: str
    element: etree._Element


class Choice(NamedTuple):
    """The memory map to read, the name of a remap to read with it or nothing, and all maps."""

    map: Candidate
    remap: str
    every: list[Candidate]


class NoMap(Exception):
    """It is not clear which memory map to read; carries the element to point at."""

    def __init__(self, message: str, element: etree._Element) -> None:
        super().__init__(message)
        self.element = element


def choose(document: Document, wanted: str | None) -> Choice:
    """Return which memory map to read.

    ``wanted`` is a map's name, with ``/`` and a remap's name behind it. Raises :class:`NoMap`.
    """
    every = [item for item in _every(document) if _is_present(document, item)]
    if not every:
        raise NoMap("there is no memory map in this file, so no registers", document.root)
    listed = ", ".join(
        f"{item.name} (line {item.element.sourceline})" for item in every[:_MOST_LISTED]
    )
    if wanted is not None:
        name, _, remap = wanted.partition("/")
        for item in every:
            if item.name == name:
                return Choice(item, remap, every)
        raise NoMap(f"no memory map is called {name[:80]!r}; there are {listed}", document.root)
    usual = [item for item in every if item.kind == "memoryMap"] or every
    if len(usual) > 1:
        message = f"there are {len(usual)} memory maps: {listed}; say which one with --map NAME"
        raise NoMap(message, usual[1].element)
    return Choice(usual[0], "", every)


def _is_present(document: Document, item: Candidate) -> bool:
    condition = item.element.find(document.tag("isPresent"))
    return condition is None or document.is_present({"isPresent": condition})


def _every(document: Document) -> list[Candidate]:
    """Return the memory maps of ``document``, those of address spaces last."""
    found = []
    for group in document.root:
        for element in group if document.names[group.tag] in _GROUPS else ():
            if document.names[element.tag] in ("memoryMap", "memoryMapDefinition"):
                found.append(Candidate(_name(document, element), "memoryMap", element))
    path = f"{document.tag('addressSpaces')}/{document.tag('addressSpace')}"
    for space in document.root.iterfind(path):
        for element in space.iterchildren(document.tag("localMemoryMap")):
            found.append(Candidate(_name(document, element), "localMemoryMap", element))
    return found


def _name(document: Document, element: etree._Element) -> str:
    return document.text(element.find(document.tag("name")))
