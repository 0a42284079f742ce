"""Make the description of a memory map."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from regwright.importing.ieee1685.banks import Map, item_of
from regwright.importing.ieee1685.choosing import NoMap
from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.groups import check_unit
from regwright.importing.ieee1685.labels import Node, note
from regwright.importing.ieee1685.losses import LOST
from regwright.importing.ieee1685.making import Making, Within
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.spaces import Spaces, interfaces, unit_of
from regwright.importing.ieee1685.titles import chip_head
from regwright.importing.spelled import hexadecimal

if TYPE_CHECKING:
    from regwright.importing.ieee1685.choosing import Candidate, Choice
    from regwright.importing.ieee1685.documents import Document

_HIGHEST = 1 << 64
_TEXTS = frozenset({"name", "displayName", "shortDescription", "description"})


def description(document: Document, choice: Choice, making: Making, file: str) -> Node:
    """Return the tree of the description that a memory map makes.

    ``file`` is the name of the file. Raises :class:`Unclear`, ``TooMuch`` and :class:`NoMap`.
    """
    candidate = choice.map
    own = document.facts(candidate.element, candidate.kind)
    reference = own.get("memoryMapDefinitionRef")
    if reference is None:
        part = Part(candidate.element, own, document, own, document)
        return _description(part, choice, making, file)
    with document.opened(reference, "memoryMapDefinition") as found:
        if found is None:
            raise Unclear("the definition of the memory map is needed", reference)
        other, definition = found
        facts = other.facts(definition, "memoryMap")
        part = Part(candidate.element, own, document, facts, other)
        return _description(part, choice, making, file)


def _description(part: Part, choice: Choice, making: Making, file: str) -> Node:
    candidate = choice.map
    document = part.own_document
    unit = _unit(part, candidate)
    usual = sum(item.kind == "memoryMap" for item in choice.every)
    several = candidate.kind != "memoryMap" or usual > 1
    tree = chip_head(document, candidate.name, several=several, file=file)
    spaces = Spaces(document)
    space = spaces.open(part, unit)
    within = Within(making, unit)
    blocks: list[Node] = []
    taken: set[str] = set()
    end = _add_items(part, blocks, taken, within, Map(spaces, space))
    end = max(end, _add_remaps(part, choice, blocks, taken, within, Map(spaces, space)))
    in_space = candidate.element.getparent() if candidate.kind == "localMemoryMap" else None
    size = max(256, 1 << max(end - 1, 1).bit_length())
    if in_space is not None and "range" in (around := document.facts(in_space, "addressSpace")):
        size = max(end, document.number(around["range"]))
    space["size"] = hexadecimal(size)
    spaces.add_address_spaces(in_space)
    blocks += _local_maps(document, spaces, taken, making)
    _report_other_maps(document, spaces, choice)
    document.report_component()
    width = _common_width(blocks)
    if width != 8:
        tree["width"] = width
    _add_byte_order(document, candidate, tree)
    tree["spaces"] = spaces.nodes
    if spaces.windows:
        tree["windows"] = spaces.windows
    if blocks:
        tree["blocks"] = blocks
    return tree


def _unit(part: Part, candidate: Candidate) -> int:
    if candidate.kind == "localMemoryMap" and "addressUnitBits" not in part.facts:
        space = candidate.element.getparent()
        return unit_of(part.own_document, part.own_document.facts(space, "addressSpace"))
    if "addressUnitBits" in part.own:
        return unit_of(part.own_document, part.own)
    return unit_of(part.document, part.facts)


def _add_items(
    part: Part, blocks: list[Node], taken: set[str], within: Within, into: Map, prefix: str = ""
) -> int:
    """Add the blocks and banks of a memory map; return the first address behind them."""
    end = 0
    document = part.document
    for element in part.facts.get("items", ()):
        within.making.count(0, element)
        try:
            base_of = element.find(document.tag("baseAddress"))
            if base_of is None:
                raise Unclear("it does not say its base address", element)
            is_window = document.names[element.tag] == "subspaceMap"
            base = document.signed(base_of) if is_window else document.number(base_of)
            node, size = item_of(document, element, taken, within, into, base)
            if base + size > _HIGHEST:
                raise Unclear("it reaches past the highest address of 64 bits", element)
        except Unclear as problem:
            name = document.text(element.find(document.tag("name")))
            kind = document.names[element.tag]
            message = f"the {kind} {name!r} cannot be placed: {problem}"
            document.log.refuse("number-unclear", message, problem.element)
            continue
        end = max(end, base + size)
        if node is not None:
            blocks.append(_placed(node, f"{prefix}{hexadecimal(base)}"))
    return end


def _placed(node: Node, base: str) -> Node:
    """Turn the offset of a block into its base, in place: its identity stays."""
    old = dict(node)
    node.clear()
    for key, value in old.items():
        if key == "offset":
            node["base"] = base
        else:
            node[key] = value
    return node


def _add_remaps(
    part: Part,
    choice: Choice,
    blocks: list[Node],
    taken: set[str],
    within: Within,
    into: Map,
) -> int:
    """Add the blocks of the remap that is wanted; report the others."""
    document = part.document
    end = 0
    names = []
    for element in part.facts.get("memoryRemap", ()):
        facts = document.facts(element, "memoryRemap")
        name = document.text(facts.get("name"))
        names.append(name)
        if name == choice.remap:
            end = _remapped(
                Part(element, facts, document, facts, document), blocks, taken, within, into
            )
        elif document.is_present(facts):
            state = document.attribute(element, "state") or ", ".join(
                document.text(item) for item in facts.get("modeRef", ())
            )
            when = f" in the state {state}" if state else ""
            message = f"what else is there{when}: --map {choice.map.name}/{name} reads it too"
            document.log.lose(message, element)
    if choice.remap and choice.remap not in names:
        there = ", ".join(names[:40]) or "none"
        raise NoMap(f"no remap is called {choice.remap[:80]!r}; there are {there}", part.element)
    return end


def _remapped(part: Part, blocks: list[Node], taken: set[str], within: Within, into: Map) -> int:
    reference = part.own.get("remapDefinitionRef")
    before = len(blocks)
    if reference is None:
        end = _add_items(part, blocks, taken, within, into)
    else:
        with part.document.opened(reference, "memoryRemapDefinition") as found:
            if found is None:
                return 0
            other, element = found
            facts = other.facts(element, "memoryRemap")
            check_unit(other, facts, within)
            end = _add_items(Part(element, facts, other, facts, other), blocks, taken, within, into)
    name = part.document.text(part.own.get("name"))
    for block in blocks[before:]:
        inner: Node = {key: block.pop(key) for key in ("registers", "blocks") if key in block}
        note(block, f"There in the remap {name} alone.")
        block.update(inner)
    return end


def _local_maps(document: Document, spaces: Spaces, taken: set[str], making: Making) -> list[Node]:
    """Return the blocks of the local memory maps that a subspace map leads to."""
    blocks: list[Node] = []
    for element in list(spaces.reached.values()):
        local = element.find(document.tag("localMemoryMap"))
        node = spaces.made(element)
        if local is None or node is None:
            continue
        facts = document.facts(local, "localMemoryMap")
        if not document.is_present(facts):
            continue
        for name in sorted(_TEXTS & facts.keys()):
            document.log.lose_often(f"{LOST[name]}, within <localMemoryMap>", facts[name])
        within = Within(making, node.get("unit", 8))
        part = Part(local, facts, document, facts, document)
        _add_items(part, blocks, taken, within, Map(spaces, node), f"{node['name']}:")
    return blocks


def _report_other_maps(document: Document, spaces: Spaces, choice: Choice) -> None:
    reached = [item.find(document.tag("localMemoryMap")) for item in spaces.reached.values()]
    for item in choice.every:
        if item is not choice.map and not any(item.element is one for one in reached):
            message = f"the memory map {item.name}: --map {item.name} imports it"
            document.log.lose(message, item.element)


def _common_width(blocks: list[Node]) -> int:
    """Return the width that most blocks say, which then need not say it."""
    widths = Counter(block.get("width", 8) for block in blocks)
    common = max(widths, key=lambda width: (widths[width], width), default=8)
    for block in blocks:
        own = block.pop("width", 8)
        if own != common:
            inner: Node = {
                key: block.pop(key) for key in ("notes", "registers", "blocks") if key in block
            }
            block.update({"width": own, **inner})
    return common


def _add_byte_order(document: Document, candidate: Candidate, tree: Node) -> None:
    """Add the byte order of the bus interface that leads to the memory map."""
    for interface in interfaces(document):
        endianness = interface.find(document.tag("endianness"))
        if endianness is None or document.text(endianness) != "big":
            continue
        for reference in interface.iter(document.tag("memoryMapRef")):
            if document.attribute(reference, "memoryMapRef") == candidate.name:
                tree["byteOrder"] = "big"
