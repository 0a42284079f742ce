"""Banks: blocks one after the other (serial), or side by side in each row (parallel).

Only the outer bank has an address. In a parallel bank a row is as wide as all its parts together,
and each part has its own bits of every row: from memory of the standard, which the schema does
not say.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.groups import block_of, check_unit, inherited, span
from regwright.importing.ieee1685.labels import Node, named
from regwright.importing.ieee1685.making import Lane
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.spaces import Spaces, Span, add_region
from regwright.importing.spelled import hexadecimal

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts
    from regwright.importing.ieee1685.making import Within

_DEEPEST_BANK = 6
#: What is said of memory that has no place in a region.
_LOST_OF_MEMORY = frozenset({"width", "description", "shortDescription", "volatile", "array"})


class Map(NamedTuple):
    """The memory map that is read: its space, and all spaces."""

    spaces: Spaces
    space: Node


def item_of(
    document: Document,
    element: etree._Element,
    taken: set[str],
    within: Within,
    into: Map,
    base: int | None,
) -> tuple[Node | None, int]:
    """Return the block that an address block or bank is, and how many units it takes.

    ``base`` is its address, ``None`` when its parts do not follow each other. What is no block
    becomes a region or window; what is not there takes nothing. Raises :class:`Unclear`.
    """
    kind = document.names[element.tag]
    if kind == "bank":
        return _bank(document, element, taken, within, into, base)
    if kind == "subspaceMap":
        return None, _subspace(document, element, within, into, base)
    facts = document.facts(element, "addressBlock")
    if not document.is_present(facts):
        return None, 0
    document.lose_attribute(element, "misalignmentAllowed")
    usage = document.text(facts.get("usage"))
    if usage in ("memory", "reserved") and "register" not in facts and "registerFile" not in facts:
        return None, _memory(document, element, facts, into, base)
    node = block_of(document, element, facts, taken, within)
    if node is None:
        return None, 0
    size = span(node, within)
    return node, _own_size(document, element, size) if within.lane else size


def _memory(
    document: Document, element: etree._Element, facts: Facts, into: Map, base: int | None
) -> int:
    """Add a region for a block of memory or of reserved addresses; return its size."""
    from regwright.importing.ieee1685.policies import access_of

    if "range" not in facts:
        raise Unclear("it does not say its range", element)
    size = document.number(facts["range"])
    kind = "reserved"
    is_memory = document.text(facts["usage"]) == "memory"
    if is_memory:
        kind = "flash" if access_of(document, facts) == "read-only" else "ram"
    if base is None:
        document.log.lose("memory that is spread over the rows of a parallel bank", element)
    else:
        add_region(document, into.space, element, kind, Span(base, size))
    for name in sorted(_LOST_OF_MEMORY & facts.keys()):
        document.log.lose_often(f"<{name}> of a part without registers", facts[name])
    return size


def _subspace(
    document: Document, element: etree._Element, within: Within, into: Map, base: int | None
) -> int:
    facts = document.facts(element, "subspaceMap")
    if not document.is_present(facts):
        return 0
    into.spaces.map(element, into.space, base, within.unit)
    found = into.spaces.span_of(element)
    return found.size if found else 0


def _bank(
    document: Document,
    element: etree._Element,
    taken: set[str],
    within: Within,
    into: Map,
    base: int | None,
) -> tuple[Node | None, int]:
    own = document.facts(element, "bank")
    if not document.is_present(own):
        return None, 0
    if within.depth >= _DEEPEST_BANK:
        raise Unclear(f"banks are nested more than {_DEEPEST_BANK} deep", element)
    reference = own.get("bankDefinitionRef")
    if reference is None:
        part = Part(element, own, document, own, document)
        return _bank_of(part, taken, within, into, base)
    with document.opened(reference, "bankDefinition") as found:
        if found is None:
            return None, 0
        other, definition = found
        part = Part(element, own, document, other.facts(definition, "bank"), other)
        return _bank_of(part, taken, within, into, base)


def _bank_of(
    part: Part, taken: set[str], within: Within, into: Map, base: int | None
) -> tuple[Node, int]:
    facts, document = part.facts, part.document
    within.making.count(0, part.element)
    node = named(part, taken, "block")
    notes = node.pop("notes", None)
    inner = inherited(document, facts, within, None)
    check_unit(document, facts, within)
    if document.text(facts.get("usage")) in ("memory", "reserved"):
        document.log.lose_often("what a bank is used for (usage)", facts["usage"])
    if inner.access != within.access:
        node["access"] = inner.access
    node["offset"] = "0x00"
    alignment = part.own_document.attribute(part.element, "bankAlignment")
    if alignment not in ("serial", "parallel"):
        message = f"the bank {node['name']} is neither serial nor parallel; serial was taken"
        part.own_document.log.assume("reference-unclear", message, part.element)
    if alignment == "parallel":
        blocks, size = _side_by_side(document, facts, inner, into)
    else:
        blocks, size = _one_after_the_other(document, facts, inner, into, base)
    if size and not within.lane:
        node["size"] = hexadecimal(size)
    if notes:
        node["notes"] = notes
    if blocks:
        node["blocks"] = blocks
    within.making.remember(node, part.element)
    return node, size


def _one_after_the_other(
    document: Document, facts: Facts, within: Within, into: Map, base: int | None
) -> tuple[list[Node], int]:
    blocks: list[Node] = []
    taken: set[str] = set()
    at = 0
    lane = within.lane
    for element in facts.get("items", ()):
        here = None if base is None or lane else base + at
        node, size = item_of(document, element, taken, within, into, here)
        if node is not None:
            node["offset"] = hexadecimal(lane.place(at) if lane else at)
            blocks.append(node)
        at += size
    return blocks, at


def _side_by_side(
    document: Document, facts: Facts, within: Within, into: Map
) -> tuple[list[Node], int]:
    items = list(facts.get("items", ()))
    widths = [_width(document, element, 0) for element in items]
    blocks: list[Node] = []
    taken: set[str] = set()
    unit = within.unit
    total = sum(widths)
    if any(width % unit or not width for width in widths):
        raise Unclear("the parts of a parallel bank are no whole addresses wide", items[0])
    start = rows = 0
    for element, width in zip(items, widths, strict=True):
        lane = Lane(width // unit, total // unit, within.lane)
        inner = within._replace(lane=lane)
        node, size = item_of(document, element, taken, inner, into, None)
        if node is not None:
            node["offset"] = hexadecimal(start)
            blocks.append(node)
        rows = max(rows, -(-size // lane.own))
        start += lane.own
    return blocks, rows * (total // unit)


def _own_size(document: Document, element: etree._Element, size: int) -> int:
    """Return the range that ``element`` says, in units of its own; ``size`` if it says none."""
    found = element.find(document.tag("range"))
    return document.number(found) if found is not None else size


def _width(document: Document, element: etree._Element, depth: int) -> int:
    """Return how many bits of a row a part of a parallel bank takes."""
    found = element.find(document.tag("width"))
    if found is not None:
        return document.number(found)
    inner = [
        _width(document, child, depth + 1)
        for child in element
        if document.names[child.tag] in ("addressBlock", "bank") and depth < _DEEPEST_BANK
    ]
    if not inner:
        raise Unclear("a part of a parallel bank does not say its width", element)
    is_parallel = document.attribute(element, "bankAlignment") == "parallel"
    return sum(inner) if is_parallel else max(inner)
