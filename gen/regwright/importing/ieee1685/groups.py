"""Address blocks and register files, nested to any depth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from regwright.importing.ieee1685.arrays import Row, row_of
from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.labels import Node, named
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.policies import access_of
from regwright.importing.ieee1685.registers import Registers
from regwright.importing.spelled import WIDEST, hexadecimal

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts
    from regwright.importing.ieee1685.making import Within

#: Blocks of a description may be nested this deep; deeper ones are dissolved.
DEEPEST = 8
#: Register files nested deeper than this are not read.
_DEEPEST_READ = 64
_DEFINITIONS = {"registerFile": "registerFileDefinition", "addressBlock": "addressBlockDefinition"}


def block_of(
    document: Document, element: etree._Element, own: Facts, taken: set[str], within: Within
) -> Node | None:
    """Return the block that an address block or register file is; it says not yet where.

    ``own`` are its children. ``None`` when its definition is not found. Raises :class:`Unclear`.
    """
    kind = document.names[element.tag]
    reference = own.get(f"{kind}DefinitionRef")
    if reference is None:
        return _block(Part(element, own, document, own, document), taken, within)
    with document.opened(reference, _DEFINITIONS[kind]) as found:
        if found is None:
            return None
        other, definition = found
        part = Part(element, own, document, other.facts(definition, kind), other)
        return _block(part, taken, within)


def _block(part: Part, taken: set[str], within: Within) -> Node:
    element, own, own_document, facts, document = part
    node = named(part, taken, "block")
    notes = node.pop("notes", None)
    row = row_of(own_document, own) if "dim" in own or "array" in own else None
    size = document.number(facts["range"]) if "range" in facts else 0
    inner = inherited(document, facts, within, row)
    check_unit(document, facts, within)
    node["offset"] = "0x00"
    if size and not within.lane:  # in a parallel bank others lie in between
        node["size"] = hexadecimal(size)
    if row is not None:
        _put_row(node, row, size, within, element)
    if inner.width != within.width:
        node["width"] = inner.width
    if inner.access != within.access:
        node["access"] = inner.access
    if notes:
        node["notes"] = notes
    add_content(document, facts, node, inner)
    _check_size(document, node, inner, element)
    within.making.remember(node, element)
    return node


def inherited(document: Document, facts: Facts, within: Within, row: Row | None) -> Within:
    """Return what is within a group inherits."""
    width = within.width
    if "width" in facts:
        said = document.number(facts["width"])
        if 1 <= said <= WIDEST:
            width = said
        elif said:
            document.log.lose_often("how many bits a bus wider than 64 transfers", facts["width"])
    volatile = document.flag(facts["volatile"]) if "volatile" in facts else within.volatile
    return within._replace(
        times=within.times * (row.length if row else 1),
        depth=within.depth + 1,
        volatile=volatile,
        width=width,
        access=access_of(document, facts) or within.access,
    )


def check_unit(document: Document, facts: Facts, within: Within) -> None:
    """Report a unit that a definition says and that is not that of the memory map."""
    element = facts.get("addressUnitBits")
    if element is not None and document.number(element) != within.unit:
        message = f"an address has {document.number(element)} bits here and {within.unit} around"
        document.log.assume("unit-differs", f"{message}; the latter was taken", element)


def _put_row(node: Node, row: Row, size: int, within: Within, element: etree._Element) -> None:
    stride = row.stride if row.stride is not None else size
    lane = within.lane
    if lane and not lane.is_regular(stride):
        raise Unclear("an array in a part of a parallel bank fills no whole rows", element)
    node["count"] = row.length
    node["stride"] = hexadecimal(lane.place(stride) if lane else stride)


def add_content(document: Document, facts: Facts, node: Node, within: Within) -> None:
    """Add the registers and register files among ``facts`` to ``node``."""
    registers = Registers(within)
    for element in facts.get("register", ()):
        registers.add(document, element)
    blocks: list[Node] = []
    taken: set[str] = set()
    for element in facts.get("registerFile", ()):
        _add_file(document, element, blocks, taken, within)
    found = registers.all()
    kept = []
    names = {item["name"] for item in found}
    for block in blocks:
        if block.pop("dissolve", False):
            found += dissolved(block, names, within)
        else:
            kept.append(block)
    if found:
        node["registers"] = found
    if kept:
        node["blocks"] = kept


def _add_file(
    document: Document,
    element: etree._Element,
    blocks: list[Node],
    taken: set[str],
    within: Within,
) -> None:
    within.making.count(0, element)
    try:
        own = document.facts(element, "registerFile")
        if not document.is_present(own):
            return
        if "addressOffset" not in own:
            raise Unclear("it does not say its offset", element)
        if within.depth > _DEEPEST_READ:
            raise Unclear(f"register files are nested more than {_DEEPEST_READ} deep", element)
        offset = document.number(own["addressOffset"])
        node = block_of(document, element, own, taken, within)
    except Unclear as problem:
        name = document.text(element.find(document.tag("name")))
        message = f"the register file {name!r} cannot be placed: {problem}"
        document.log.refuse("number-unclear", message, problem.element)
        return
    if node is None:
        return
    lane = within.lane
    if lane and not lane.is_regular(offset):
        message = (
            f"{node['name']} starts within a row of a parallel bank; its addresses are a guess"
        )
        document.log.assume("bank-irregular", message, element)
    node["offset"] = hexadecimal(lane.place(offset) if lane else offset)
    if within.depth >= DEEPEST:
        node["dissolve"] = True
        message = f"register files more than {DEEPEST} deep became part of what is around them"
        document.log.tell_often("block-dissolved", message, element)
    blocks.append(node)


def dissolved(block: Node, taken: set[str], within: Within) -> list[Node]:
    """Return the registers of a block that holds no blocks, named and placed without it."""
    from regwright.importing.names import identifier

    found = []
    row = block.get("count")
    for number in range(row or 1):
        start = int(block["offset"], 16) + number * int(block.get("stride", "0"), 16)
        stem = f"{block['name']}{number if row else ''}_"
        for register in block.get("registers", ()):
            copy = dict(register)
            copy["name"] = identifier(stem + register["name"], taken)
            copy["offset"] = hexadecimal(start + int(register["offset"], 16))
            if "width" in block and "width" not in register:
                copy["width"] = block["width"]
            if "access" in block and "access" not in register:
                copy["access"] = block["access"]
            within.making.share(copy, register)
            found.append(copy)
    return found


def _check_size(document: Document, node: Node, within: Within, element: etree._Element) -> None:
    """Leave the size out when something reaches past it."""
    if "size" not in node:
        return
    end = extent(node, within)
    if end > int(node["size"], 16):
        name = node["name"]
        message = f"{name} says that it spans {node['size']}, but its registers reach to {end:#x}"
        document.log.assume("range-too-small", f"{message}; its size was left out", element)
        if "count" not in node or "stride" in node:
            del node["size"]


def extent(node: Node, within: Within) -> int:
    """Return how many units the registers and blocks in ``node`` reach to."""
    end = 0
    for item in node.get("registers", ()):
        units = within.units(item.get("width", within.width))
        step = int(item["stride"], 16) if "stride" in item else units
        last = (item.get("count", 1) - 1) * step
        end = max(end, int(item["offset"], 16) + last + units)
    for item in node.get("blocks", ()):
        end = max(end, int(item["offset"], 16) + span(item, within))
    return end


def span(node: Node, within: Within) -> int:
    """Return how many units a block takes, all of its row."""
    inner = within._replace(width=node.get("width", within.width))
    size = int(node["size"], 16) if "size" in node else extent(node, inner)
    count: int = node.get("count", 1)
    return size + (count - 1) * int(node.get("stride", "0"), 16)
