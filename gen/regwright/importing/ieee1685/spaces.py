"""Address spaces: the memory map's own, those of the component's bus masters, and windows."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.ieee1685.labels import Node, named
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.texts import one_line
from regwright.importing.names import identifier
from regwright.importing.spelled import WIDEST, hexadecimal

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts, Part

_MOST_SPACES = 16
_MOST_WINDOWS = 16
_MOST_REGIONS = 256
_LONGEST_SPACE_NAME = 24


class Span(NamedTuple):
    """So many units of a space from ``first`` on."""

    first: int
    size: int


class Spaces:
    """The spaces of a description, and the windows between them. The first is the memory map's."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._taken: set[str] = set()
        self._masters = _masters(document)
        self._elements = {
            document.text(item.find(document.tag("name"))): item
            for group in document.root.iterchildren(document.tag("addressSpaces"))
            for item in group
        }
        self._made: dict[str, Node] = {}
        self._segments: dict[etree._Element, dict[str, etree._Element]] = {}
        self.nodes: list[Node] = []
        self.windows: list[Node] = []
        #: Address spaces that a subspace map of the memory map leads to, by name.
        self.reached: dict[str, etree._Element] = {}

    def open(self, part: Part, unit: int) -> Node:
        """Add the space of a memory map and return it; its size is not known yet."""
        node = _space(part, self._taken, unit)
        if unit != 8:
            node["pointer"] = False
            message = (
                f"an address holds {unit} bits, so that no C pointer reaches it: common practice"
            )
            self._document.log.tell("no-pointer", message, part.element)
        self.nodes.append(node)
        return node

    def add_address_spaces(self, skip: etree._Element | None = None) -> None:
        """Add every address space of the component, those made already left out."""
        for name, element in self._elements.items():
            if element is not skip and name not in self._made:
                self._address_space(name, element)

    def _address_space(self, name: str, element: etree._Element) -> Node | None:
        from regwright.importing.ieee1685.documents import Part

        document = self._document
        facts = document.facts(element, "addressSpace")
        if not document.is_present(facts) or "range" not in facts:
            return None
        if len(self.nodes) >= _MOST_SPACES:
            message = f"the address space {name}: a description has at most {_MOST_SPACES} spaces"
            document.log.lose(message, element)
            return None
        try:
            size = document.number(facts["range"])
            unit = unit_of(document, facts)
        except Unclear as problem:
            message = f"the address space {name!r} was left out: {problem}"
            document.log.assume("number-unclear", message, problem.element)
            return None
        node = _space(Part(element, facts, document, facts, document), self._taken, unit)
        node["size"] = hexadecimal(max(size, 1))
        node["pointer"] = False
        for segment in facts.get("segments", ()):
            self._add_segment(node, segment)
        self.nodes.append(node)
        self._made[name] = node
        return node

    def _add_segment(self, node: Node, element: etree._Element) -> None:
        document = self._document
        facts = document.facts(element, "segment")
        if not document.is_present(facts):
            return
        span = self._segment_span(element)
        if span is not None:
            add_region(document, node, element, "other", span)

    def _segment_span(self, element: etree._Element) -> Span | None:
        document = self._document
        first = element.find(document.tag("addressOffset"))
        size = element.find(document.tag("range"))
        if first is None or size is None:
            return None
        try:
            return Span(document.number(first), document.number(size))
        except Unclear as problem:
            message = f"a segment was left out: {problem}"
            document.log.assume("number-unclear", message, problem.element)
            return None

    def made(self, element: etree._Element) -> Node | None:
        """Return the space that was made of the address space ``element``."""
        name = self._document.text(element.find(self._document.tag("name")))
        return self._made.get(name)

    # Windows

    def span_of(self, element: etree._Element) -> Span | None:
        """Return which addresses of an address space the subspace map ``element`` maps."""
        found = self._target(element)
        if found is None:
            return None
        name, space = found
        document = self._document
        wanted = document.attribute(element, "segmentRef")
        segment = self._segments_of(space).get(wanted)
        if segment is not None:
            return self._segment_span(segment)
        if wanted:
            message = f"the address space {name} has no segment {wanted!r}; all of it was taken"
            document.log.assume("reference-unclear", message, element)
        size = space.find(document.tag("range"))
        return Span(0, document.number(size)) if size is not None else None

    def _segments_of(self, space: etree._Element) -> dict[str, etree._Element]:
        """Return the segments of an address space by name."""
        document = self._document
        found = self._segments.get(space)
        if found is None:
            path = f"{document.tag('segments')}/{document.tag('segment')}"
            found = self._segments[space] = {
                document.text(item.find(document.tag("name"))): item
                for item in space.iterfind(path)
            }
        return found

    def _target(self, element: etree._Element) -> tuple[str, etree._Element] | None:
        document = self._document
        master = document.attribute(element, "masterRef") or document.attribute(
            element, "initiatorRef"
        )
        name = self._masters.get(master, "")
        if name in self._elements:
            return name, self._elements[name]
        message = f"the bus interface {master!r} of a subspace map has no address space here"
        document.log.assume("reference-unclear", message, element)
        return None

    def map(self, element: etree._Element, into: Node, base: int | None, unit: int) -> None:
        """Add the window that a subspace map at ``base`` of the space ``into`` is."""
        document = self._document
        span = self.span_of(element)
        found = self._target(element) if span is not None else None
        if span is None or found is None:
            return
        name, space = found
        node = self._made.get(name) or self._address_space(name, space)
        if node is None:
            return
        self.reached[name] = space
        offset = None if base is None else base - span.first
        why = ""
        if node.get("unit", 8) != unit:
            why = f"its addresses hold {node.get('unit', 8)} bits, those of the memory map {unit}"
        elif offset is None or offset < 0:
            why = "its addresses are moved in a way that no distance says"
        elif len(self.windows) >= _MOST_WINDOWS:
            why = f"a description has at most {_MOST_WINDOWS} windows"
        if why:
            document.log.lose(f"where the address space {name} is mapped: {why}", element)
            return
        last = span.first + max(span.size, 1) - 1
        self.windows.append(
            {
                "from": node["name"],
                "first": hexadecimal(span.first),
                "last": hexadecimal(last),
                "into": into["name"],
                "offset": hexadecimal(offset or 0),
            }
        )


def unit_of(document: Document, facts: Facts) -> int:
    """Return how many bits an address holds. Raises :class:`Unclear`."""
    element = facts.get("addressUnitBits")
    if element is None:
        return 8
    unit = document.number(element)
    if not 1 <= unit <= WIDEST:
        raise Unclear(f"addresses that hold {unit} bits are not 1 to {WIDEST}", element)
    return unit


def _space(part: Part, taken: set[str], unit: int) -> Node:
    """Return a node for a space, its name in lower case as spaces have it."""
    node = named(part, set(), "space")
    text = part.own_document.text(part.own.get("name")) or "memory"
    name = re.sub("[^a-z]*", "", identifier(text, set()).lower(), count=1) or "memory"
    short = identifier(re.sub("_+", "_", name).strip("_"), taken, _LONGEST_SPACE_NAME)
    made: Node = {"name": short}
    if "title" in node:
        made["title"] = node["title"]
    elif short != text.lower() and one_line(text):
        made["title"] = one_line(text)
    if "notes" in node:
        part.document.log.lose("the description of a memory map or address space", part.element)
    made["size"] = "0x100"
    if unit != 8:
        made["unit"] = unit
    return made


def add_region(
    document: Document, space: Node, element: etree._Element, kind: str, span: Span
) -> None:
    """Add what lies in ``span`` to the regions of ``space``."""
    regions = space.setdefault("regions", [])
    text = document.text(element.find(document.tag("name")))
    if len(regions) >= _MOST_REGIONS or not span.size:
        document.log.lose(f"{text!r}, for which a space has no room", element)
        return
    name = re.sub("^[^A-Za-z]+", "", identifier(text, set())) or "PART"
    taken = {region["name"] for region in regions}
    region: Node = {"name": identifier(name, taken, 48)}
    title = document.text(element.find(document.tag("displayName"))) or (
        text if region["name"] != text else ""
    )
    if one_line(title):
        region["title"] = one_line(title)
    region["kind"] = kind
    region["first"] = hexadecimal(span.first)
    region["last"] = hexadecimal(span.first + span.size - 1)
    regions.append(region)


def interfaces(document: Document) -> list[etree._Element]:
    """Return the bus interfaces of the component."""
    path = f"{document.tag('busInterfaces')}/{document.tag('busInterface')}"
    found: list[etree._Element] = document.root.findall(path)
    return found


def _masters(document: Document) -> dict[str, str]:
    """Return the address space of each bus interface that is a master."""
    found: dict[str, str] = {}
    for interface in interfaces(document):
        name = document.text(interface.find(document.tag("name")))
        for mode in ("master", "initiator"):
            own = interface.find(document.tag(mode))
            reference = own.find(document.tag("addressSpaceRef")) if own is not None else None
            if reference is not None:
                found[name] = document.attribute(reference, "addressSpaceRef")
                base = reference.find(document.tag("baseAddress"))
                if base is not None and document.text(base) not in ("0", "'h0", "0x0"):
                    message = "where a bus interface starts in its address space (baseAddress)"
                    document.log.lose_often(message, base)
    return found
