"""Blocks as address blocks and register files, and what stands in them."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element

from regwright.exporting.extensions import extension
from regwright.exporting.placing import Spaces, Spot, inherited_by, inside, step_of, units
from regwright.exporting.registers import register_element
from regwright.exporting.standard import Row, Standard, Texts
from regwright.format.shape import shapes
from regwright.importing.ieee1685.own_places import Container, said_of_block, split_instance
from regwright.importing.ieee1685.own_spelling import element_of
from regwright.importing.ieee1685.own_standard import Inherited, Said
from regwright.importing.names import identifier
from regwright.model.chip import GivenAddress
from regwright.read.numbers import number

Tree = dict[str, Any]


class Member(NamedTuple):
    """That ``element`` is number ``number`` of the members ``kind`` of the block ``key``.

    ``tag`` is the extension that says so, if it must be said.
    """

    element: Element
    tag: str
    key: str
    kind: str
    number: int


@dataclass
class _Content:
    """What stands in a container, and how many units it reaches."""

    elements: list[Element] = field(default_factory=list)
    reach: int = 0

    def add(self, element: Element, end: int) -> None:
        """Add a register or register file that ends before the unit ``end``."""
        self.elements.append(element)
        self.reach = max(self.reach, end)


class _Stands(NamedTuple):
    """A block in the place ``said``; ``node`` is the instance or the block itself."""

    block: Tree
    node: Tree
    key: str
    said: Said
    is_copy: bool = False


class Blocks:
    """Builds the address blocks of every space.

    ``maps`` has them by space; ``kept`` are the extensions for what the standard cannot place.
    """

    def __init__(self, standard: Standard, spaces: Spaces, inherited: Inherited) -> None:
        self.maps: dict[str, list[Element]] = {}
        self.kept: list[Element] = []
        self.members: list[Member] = []
        self._standard = standard
        self._spaces = spaces
        self._inherited = inherited
        self._names: dict[str, set[str]] = {}
        self._number = 0

    def place(self, tree: Tree) -> None:
        """Place everything in the chip ``tree``."""
        self._members(tree, Spot("", None, self._inherited, is_alone=True, names=set()))

    # What stands in the chip or in a block

    def _members(self, tree: Tree, spot: Spot) -> tuple[_Content, list[Element]]:
        """Place the members of ``tree``; return those in the container, and the frames.

        A frame is an address block for registers that stand elsewhere.
        """
        content = _Content()
        apart: dict[tuple[str, int], list[tuple[int, Tree, GivenAddress]]] = {}
        for index, register in enumerate(tree.get("registers", ())):
            offset = inside(register, spot, self._spaces)
            given = self._spaces.place(register["address"]) if "address" in register else None
            if spot.container is not None and offset is not None:
                self._put(register, (spot.container, offset), spot, index, content)
            elif given is not None:
                run = (given.space, self._spaces.run(given))
                apart.setdefault(run, []).append((index, register, given))
            else:
                self._keep("register", register, spot, index)
        name = tree["name"] if spot.key else "REGISTERS"
        frames = [self._frame(name, spot, items) for items in apart.values()]
        for index, block in enumerate(tree.get("blocks", ())):
            self._block(block, spot, index, content)
        return content, [frame for frame in frames if frame is not None]

    def _frame(
        self, name: str, spot: Spot, items: list[tuple[int, Tree, GivenAddress]]
    ) -> Element | None:
        """Add an address block for registers of one space; ``None`` if it would be empty."""
        space = items[0][2].space
        is_whole = not spot.key and not self._spaces.has_blocks(space)
        base = 0 if is_whole else min(given.value for _, _, given in items)
        container = self._spaces.container(space, base, counts=False)
        here = Spot(spot.key, container, spot.inherited, is_alone=True, names=set())
        content = _Content(reach=self._spaces.size(space) if is_whole else 1)
        for index, register, given in items:
            self._put(register, (container, given.value - base), here, index, content)
        if not content.elements:
            return None
        return self._add_frame(Texts(name), GivenAddress(space, base), content, spot)

    def _add_frame(self, texts: Texts, place: GivenAddress, parts: _Content, spot: Spot) -> Element:
        element = self._address_block(texts, place, parts.reach, parts)
        frame = self._standard.extension(element, "frame")
        for name, value in self._hints(spot).items():
            frame.set(name, value)
        self.maps.setdefault(place.space, []).append(element)
        return element

    def _address_block(
        self,
        texts: Texts,
        place: GivenAddress,
        reach: int,
        parts: _Content,
        access: str | None = None,
    ) -> Element:
        """Return an address block of the widest of its registers."""
        taken = self._names.setdefault(place.space, set())
        named = texts._replace(name=identifier(texts.name, taken))
        sizes = [
            int(size.text or "0")
            for part in parts.elements
            for size in part.iter(f"{{{self._standard.namespace}}}size")
        ]
        width = max(sizes, default=self._spaces.unit(place.space))
        element = self._standard.address_block(named, place.value, reach, width)
        self._standard.add_access(element, access)
        element.extend(parts.elements)
        return element

    def _hints(self, spot: Spot) -> dict[str, str]:
        """Return what must be said of something that does not stand in the block around it."""
        if not spot.key:
            return {}
        hints = {"within": spot.key}
        if spot.inherited != self._inherited:
            hints["inherits"] = f"{spot.inherited.width} {spot.inherited.access}"
        return hints

    def _keep(self, kind: str, tree: Tree, spot: Spot, index: int, key: str = "") -> None:
        """Put ``tree`` into the extensions: the standard cannot say where it stands.

        With ``key``, only the block itself and not its members.
        """
        kept = element_of("kept", {}, shapes()[kind])
        hints = {"within": spot.key, "at": str(index), "id": key}
        for name, value in hints.items():
            if value:
                kept.set(name, value)
        kept.append(element_of(kind, tree, shapes()[kind], members=not key))
        self.kept.append(kept)

    def _note(self, element: Element, tag: str, key: str, kind: str, index: int) -> None:
        self.members.append(Member(element, tag, key, kind, index))

    # Registers

    def _put(
        self, register: Tree, at: tuple[Container, int], spot: Spot, index: int, content: _Content
    ) -> None:
        """Add a register to the content of a container, at an offset.

        It is kept apart if the edition cannot say how far its row goes from one to the next. In
        the 2014 edition registers in a row stand side by side: where there is more between them,
        each stands in a register file of its own, and these are side by side.
        """
        container, offset = at
        width = units(register, spot.inherited, self._spaces.unit(container.space))
        stride = number(register["stride"]) if "stride" in register else width
        row = None
        if "count" in register:
            row = Row(register["count"], stride if "stride" in register else None)
            if stride < (1 if self._standard.is_2022 else width):
                self._keep("register", register, spot, index)
                return
        name = identifier(register["name"], spot.names)
        said = container.said("address", offset)
        end = offset + width + ((row.length - 1) * stride if row else 0)
        if row is None or stride == width or self._standard.is_2022:
            where = (name, offset, row)
            element = register_element(self._standard, register, where, said, spot.inherited)
            content.add(element, end)
        else:
            count = {"count": row.length, "stride": register["stride"]}
            said = Said({**said.certain, **count}, said.repeated)
            where = (name, 0, None)
            element = register_element(self._standard, register, where, said, spot.inherited)
            outer = self._standard.register_file(Texts(name), offset, row, stride)
            outer.append(element)
            self._standard.extension(outer, "row")
            content.add(outer, end)
        self._note(element, "register", spot.key, "registers", index)

    # Blocks

    def _block(self, block: Tree, spot: Spot, index: int, content: _Content) -> None:
        """Place a block, in ``content`` if it stands in the container of ``spot``."""
        self._number += 1
        key = f"block{self._number}"
        is_apart = "instances" in block or "base" in block
        if not is_apart and spot.container is None:
            self._block_without_place(block, spot, index, key)
            return
        nodes = (block.get("instances") or [block]) if is_apart else []
        places = [self._spaces.place(node["base"]) for node in nodes]
        known = [place for place in places if place is not None]
        if len(known) < len(places) or ("count" in block and not step_of(block)):
            self._keep("block", block, spot, index)
        elif known:
            self._block_apart(block, known, (spot, index, key))
        elif spot.container is not None:
            at = (spot.container, number(block.get("offset", 0)))
            self._block_inside(block, at, (spot, index, key), content)

    def _spot_in(
        self, block: Tree, spot: Spot, key: str, container: Container | None, *, is_alone: bool
    ) -> Spot:
        is_alone = is_alone and "count" not in block
        return Spot(key, container, inherited_by(block, spot.inherited), is_alone, set())

    def _block_inside(
        self,
        block: Tree,
        at: tuple[Container, int],
        where: tuple[Spot, int, str],
        content: _Content,
    ) -> None:
        """Add a block to the content of a container, as a register file at an offset."""
        (container, offset), (spot, index, key) = at, where
        name = identifier(block["name"], spot.names)
        inner = container.within(offset, counts=True)
        here = self._spot_in(block, spot, key, inner, is_alone=spot.is_alone)
        members, _ = self._members(block, here)
        element, end = self._register_file(block, block, name, offset, members)
        stands = _Stands(block, block, key, container.said("base", offset))
        self._extend(element, stands, {})
        self._note(element, "block", spot.key, "blocks", index)
        content.add(element, end)

    def _register_file(
        self, block: Tree, node: Tree, name: str, offset: int, parts: _Content
    ) -> tuple[Element, int]:
        """Return a register file for a block, and how far it and its row reach."""
        size = _size(block, parts)
        step, row = step_of(block), None
        if "count" in block:
            row = Row(block["count"], step)
        texts = Texts(name, node.get("title"), block.get("notes"))
        is_side_by_side = row is not None and not self._standard.is_2022
        element = self._standard.register_file(
            texts, offset, row, step if is_side_by_side else size
        )
        if self._standard.is_2022:
            self._standard.add_access(element, block.get("access"))
        element.extend(parts.elements)
        return element, offset + size + ((row.length - 1) * step if row else 0)

    def _block_apart(
        self, block: Tree, places: list[GivenAddress], where: tuple[Spot, int, str]
    ) -> None:
        """Add a block with a base of its own: an address block for each place where it stands."""
        spot, index, key = where
        first = places[0]
        slot = len(self.maps.setdefault(first.space, []))
        container = self._spaces.container(*first, counts=True)
        here = self._spot_in(block, spot, key, container, is_alone=len(places) == 1)
        parts, _ = self._members(block, here)
        nodes = block.get("instances") or [block]
        for copy, (node, place) in enumerate(zip(nodes, places, strict=True)):
            said = self._spaces.container(*place, counts=False).said("base", 0)
            stands = _Stands(block, node, key, said, is_copy=copy > 0)
            content = self._copied(parts) if copy else parts
            whole, element = self._at_its_base(stands, place, content, spot)
            self.maps.setdefault(place.space, []).append(whole)
            if copy == 0:
                self.maps[first.space].insert(slot, self.maps[first.space].pop())
                self._note(element, "block", spot.key, "blocks", index)
            if "instances" in block:
                self._note(element, "instance", key, "instances", copy)

    def _at_its_base(
        self, stands: _Stands, place: GivenAddress, parts: _Content, spot: Spot
    ) -> tuple[Element, Element]:
        """Return an address block, and in it the element that is the block.

        That is the same, unless the block stands in a row: only register files do in 2014.
        """
        block, node = stands.block, stands.node
        if "count" not in block:
            texts = Texts(node["name"], node.get("title"), block.get("notes"))
            size = _size(block, parts)
            element = self._address_block(texts, place, size, parts, block.get("access"))
            self._extend(element, stands, self._hints(spot))
            return element, element
        name = identifier(node["name"], set())
        element, reach = self._register_file(block, node, name, 0, parts)
        self._extend(element, stands, {})
        whole = self._address_block(Texts(node["name"]), place, reach, _Content([element], reach))
        frame = self._standard.extension(whole, "frame")
        for hint, value in self._hints(spot).items():
            frame.set(hint, value)
        return whole, element

    def _extend(self, element: Element, stands: _Stands, hints: dict[str, str]) -> None:
        """Add the extensions of a block, or of one of its places, to its element."""
        said = said_of_block(element, stands.said, self._standard.reader)
        instance = None
        if stands.node is not stands.block:
            said, of_instance = split_instance(said)
            of = {"of": stands.key} if stands.is_copy else {}
            instance = extension("instance", stands.node, of_instance, "instance", of)
            if instance is None:
                instance = element_of("instance", {}, shapes()["instance"])
        whole = None
        if not stands.is_copy:
            hints = {"id": stands.key, **hints}
            whole = extension("block", stands.block, said, "block", hints)
        self._standard.extend(element, whole, instance)

    def _copied(self, parts: _Content) -> _Content:
        """Return a copy without extensions: they stand at the first place."""
        elements = deepcopy(parts.elements)
        tag = f"{{{self._standard.namespace}}}vendorExtensions"
        for part in elements:
            for item in list(part.iter()):
                for extensions in item.findall(tag):
                    item.remove(extensions)
        return _Content(elements, parts.reach)

    def _block_without_place(self, block: Tree, spot: Spot, index: int, key: str) -> None:
        """Place a block that has no base: its registers stand where their addresses say."""
        kept, members = len(self.kept), len(self.members)
        _, frames = self._members(block, self._spot_in(block, spot, key, None, is_alone=True))
        if frames:
            element = frames[0]
            self._drop_extensions(element)
            said = self._spaces.container(self._space_of(element), 0, counts=False).said("base", 0)
            stands = _Stands(block, block, key, said)
            self._extend(element, stands, self._hints(spot))
            self._note(element, "block", spot.key, "blocks", index)
        elif len(self.members) > members:
            self._keep("block", block, spot, index, key)
        else:
            del self.kept[kept:]
            self._keep("block", block, spot, index)

    def _drop_extensions(self, element: Element) -> None:
        for item in element.findall(f"{{{self._standard.namespace}}}vendorExtensions"):
            element.remove(item)

    def _space_of(self, element: Element) -> str:
        return next(space for space, items in self.maps.items() if element in items)


def _size(block: Tree, parts: _Content) -> int:
    """Return how many units a block spans."""
    given = number(block["size"]) if "size" in block else 0
    return given or max(parts.reach, 1)
