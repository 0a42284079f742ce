"""Put a description together again from the standard's elements and regwright's extensions."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from regwright.format.shape import shapes
from regwright.importing import spelled
from regwright.importing.ieee1685.own_places import (
    Container,
    content,
    digits_of,
    said_of_block,
    said_of_chip,
    said_of_space,
    split_instance,
)
from regwright.importing.ieee1685.own_spelling import (
    OWN,
    Element,
    Tree,
    children,
    ordered,
    tree_of,
)
from regwright.importing.ieee1685.own_standard import (
    Evaluate,
    Inherited,
    NotOurs,
    Reader,
    Said,
    completed,
    find,
    local,
    own,
    parts,
    several,
)

#: Blocks within blocks, as deep as the standard's part may nest them.
DEEPEST = 16


@dataclass
class _Node:
    """The chip or a block: what is said of it, and its members with the place of each in its list.

    A member without a place stands where it comes in the file.
    """

    tree: Tree = field(default_factory=dict)
    members: dict[str, list[tuple[int | None, Any]]] = field(
        default_factory=lambda: {"instances": [], "registers": [], "blocks": []}
    )
    content: Any = None

    def add(self, kind: str, extension: Element | None, member: Any) -> None:
        """Add a member of this kind; its extension may say at which place."""
        text = "" if extension is None else extension.get("at", "")
        self.members[kind].append((int(text) if re.fullmatch("[0-9]{1,6}", text) else None, member))

    def ordered(self, kind: str) -> list[Any]:
        """Return the members of this kind in their order."""
        found = [member for at, member in self.members[kind] if at is None]
        placed = [(at, member) for at, member in self.members[kind] if at is not None]
        for at, member in sorted(placed, key=lambda item: item[0]):
            found.insert(at, member)
        return found


class Restoring:
    """Puts one description together again."""

    def __init__(self, root: Element, extension: Element, evaluate: Evaluate) -> None:
        self.root = root
        self.extension = extension
        self.reader = Reader(evaluate)
        self.chip = _Node()
        self.blocks: dict[str, _Node] = {}
        self.copies: list[tuple[str, Element]] = []
        self.finished: set[int] = set()

    def run(self) -> Tree:
        """Return the description's tree. Raises :class:`NotOurs`."""
        tree = completed(said_of_chip(self.root), self.extension, "chip")
        inherited = Inherited(tree.get("width", 8), tree.get("access", "read-write"))
        for kept in all_own(self.root, "kept"):
            self._kept(kept)
        tree["spaces"] = [self._space(item, inherited) for item in memory_maps(self.root)]
        for name, element in self.copies:
            if content(element) != self._named(name).content:
                raise NotOurs("the places where a block stands differ in what they hold")
        tree = self._with_members(self.chip, tree, "chip")
        if any(id(node) not in self.finished for node in self.blocks.values()):
            raise NotOurs("a block stands nowhere")
        return tree

    def _with_members(self, node: _Node, tree: Tree, kind: str) -> Tree:
        """Return ``tree`` with the members of ``node``, and theirs."""
        tree = dict(tree)
        for name in node.members:
            members = node.ordered(name)
            if name == "blocks":
                members = [self._block_tree(item) for item in members]
            if members:
                tree[name] = members
        return ordered(tree, kind)

    def _block_tree(self, block: _Node | Tree) -> Tree:
        if isinstance(block, dict):
            return block
        if id(block) in self.finished:
            raise NotOurs("a block stands in several blocks, or in itself")
        self.finished.add(id(block))
        tree = self._with_members(block, block.tree, "block")
        return self.reader.moved(tree, block.tree)

    def _named(self, name: str | None) -> _Node:
        """Return the block that the extensions call ``name``; the chip for none."""
        return self.chip if name is None else self.blocks.setdefault(name, _Node())

    def _kept(self, kept: Element) -> None:
        """Add what the standard could say nothing about."""
        around = self._named(kept.get("within"))
        for item in children(kept):
            kind = str(item.tag).removeprefix(OWN)
            if kind not in ("register", "block"):
                continue
            tree = self.reader.kept(tree_of(item, shapes()[kind]), kept)
            if kept.get("id"):
                node = self._named(kept.get("id"))
                node.tree = tree
                around.add("blocks", kept, node)
            else:
                around.add(f"{kind}s", kept, tree)

    def _space(self, element: Element, inherited: Inherited) -> Tree:
        extension = own(element, "space")
        if extension is None:
            raise NotOurs("there is a memory map of which no size is known")
        tree = completed(said_of_space(element, self.reader), extension, "space")
        for block in several(element, "addressBlock"):
            base = self.reader.number(block, "baseAddress")
            place = Container(str(tree.get("name")), base, digits_of(tree), counts=False)
            frame = own(block, "frame")
            if frame is None:
                self._block(block, self.chip, (place, 0), inherited, 1)
            else:
                around = self._named(frame.get("within"))
                self._parts(block, around, place, _inherited(frame, inherited), 1)
        return self.reader.kept(tree, element)

    def _parts(
        self, element: Element, node: _Node, place: Container, inherited: Inherited, depth: int
    ) -> None:
        """Add the registers and blocks in ``element`` to ``node``."""
        if depth > DEEPEST:
            raise NotOurs(f"register files are nested more than {DEEPEST} deep")
        for part in parts(element):
            offset = self.reader.number(part, "addressOffset")
            if local(part) == "registerFile" and own(part, "row") is None:
                self._block(part, node, (place, offset), inherited, depth)
                continue
            said, register = place.said("address", offset), part
            if local(part) == "registerFile":
                register, said = self._row_of_registers(part, said)
            tree = self.reader.register(register, said, inherited)
            node.add("registers", own(register, "register"), tree)

    def _row_of_registers(self, part: Element, said: Said) -> tuple[Element, Said]:
        """Return the register that a register file holds alone, and what is said of it there."""
        held = list(parts(part))
        is_row = len(held) == 1 and local(held[0]) == "register"
        if not is_row or self.reader.number(held[0], "addressOffset") != 0:
            raise NotOurs("a row of registers holds something else besides")
        stride = spelled.hexadecimal(self.reader.number(part, "range"))
        return held[0], Said(
            {**said.certain, **self.reader.row(part), "stride": stride}, said.repeated
        )

    def _block(
        self,
        element: Element,
        around: _Node,
        spot: tuple[Container, int],
        inherited: Inherited,
        depth: int,
    ) -> None:
        """Add the block that stands in ``element``, or one of the places where it stands."""
        place, offset = spot
        extension, instance = own(element, "block"), own(element, "instance")
        said = said_of_block(element, place.said("base", offset), self.reader)
        if instance is not None and instance.get("of") is not None:
            self._copy(element, instance, said)
            return
        name = None if extension is None else extension.get("id")
        node = _Node() if name is None else self._named(name)
        if instance is not None:
            said, of_instance = split_instance(said)
            tree = self.reader.kept(completed(of_instance, instance, "instance"), element)
            node.add("instances", instance, tree)
        node.content = content(element)
        node.tree = tree = self.reader.kept(completed(said, extension, "block"), element)
        if extension is not None:
            around = self._named(extension.get("within")) if extension.get("within") else around
            inherited = _inherited(extension, inherited)
        around.add("blocks", extension, node)
        inherited = Inherited(
            tree.get("width", inherited.width), tree.get("access", inherited.access)
        )
        counts = place.counts or "base" in tree or instance is not None
        self._parts(element, node, place.within(offset, counts=counts), inherited, depth + 1)

    def _copy(self, element: Element, instance: Element, said: Said) -> None:
        """Add another of the places where a block stands."""
        name = instance.get("of", "")
        _, of_instance = split_instance(said)
        tree = self.reader.kept(completed(of_instance, instance, "instance"), element)
        self._named(name).add("instances", instance, tree)
        self.copies.append((name, element))


def all_own(element: Element, tag: str) -> list[Element]:
    """Return every extension ``tag`` that stands at ``element``."""
    extensions = find(element, "vendorExtensions")
    found: list[Element] = [] if extensions is None else extensions.findall(OWN + tag)
    return found


def memory_maps(root: Element) -> list[Element]:
    """Return the memory maps of a component."""
    maps = find(root, "memoryMaps")
    return [] if maps is None else several(maps, "memoryMap")


def _inherited(extension: Element, around: Inherited) -> Inherited:
    """Return what registers inherit where the extension says that it is not as around them."""
    match = re.fullmatch("([0-9]{1,2}) ([A-Za-z-]{1,20})", extension.get("inherits", ""))
    return Inherited(int(match[1]), match[2]) if match else around
