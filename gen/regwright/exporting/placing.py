"""Where the registers and blocks of a description stand in the memory maps of the standard."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from typing import Any, NamedTuple

from regwright.importing.ieee1685.own_places import Container, digits_of
from regwright.importing.ieee1685.own_standard import Inherited
from regwright.model.chip import GivenAddress
from regwright.read.numbers import addresses, number
from regwright.resolve.addresses import units_of

Tree = dict[str, Any]


class Spot(NamedTuple):
    """Where members of the chip or of a block stand.

    ``key`` names the block in the extensions, empty for the chip. ``container`` is what offsets
    count from, ``None`` where there is no base. ``is_alone`` is false when the container stands
    for several places. ``names`` are taken in it.
    """

    key: str
    container: Container | None
    inherited: Inherited
    is_alone: bool
    names: set[str]


class Spaces:
    """The spaces of a description, and where in them its blocks start."""

    def __init__(self, tree: Tree) -> None:
        self._spaces: dict[str, Tree] = {}
        for space in tree["spaces"]:
            self._spaces.setdefault(space["name"], space)
        self._order = list(self._spaces)
        self._starts: dict[str, list[int]] = {name: [] for name in self._spaces}
        for place in self._bases(tree):
            if place is not None:
                self._starts[place.space].append(place.value)
        for starts in self._starts.values():
            starts.sort()

    def place(self, text: str) -> GivenAddress | None:
        """Return the address of ``text`` that counts: in the first of the chip's spaces."""
        known = [item for item in addresses(text, self._order[0]) if item.space in self._spaces]
        return min(known, key=lambda item: self._order.index(item.space), default=None)

    def container(self, space: str, base: int, *, counts: bool) -> Container:
        """Return a container that starts at ``base``."""
        return Container(space, base, digits_of(self._spaces[space]), counts)

    def unit(self, space: str) -> int:
        """Return the bits that one address holds."""
        return int(self._spaces[space].get("unit", 8))

    def size(self, space: str) -> int:
        """Return how many units the space has."""
        return number(self._spaces[space]["size"])

    def run(self, place: GivenAddress) -> int:
        """Return a number that is the same for addresses with no start of a block between."""
        return bisect_right(self._starts[place.space], place.value)

    def has_blocks(self, space: str) -> bool:
        """Tell whether any block starts in the space."""
        return bool(self._starts[space])

    def _bases(self, tree: Tree) -> Iterator[GivenAddress | None]:
        for block in tree.get("blocks", ()):
            for node in block.get("instances") or [block]:
                yield self.place(node["base"]) if "base" in node else None
            yield from self._bases(block)


def inside(register: Tree, spot: Spot, spaces: Spaces) -> int | None:
    """Return the offset of a register in the container of ``spot``, if it stands there."""
    container = spot.container
    if container is None:
        return None
    if "address" not in register:
        return number(register["offset"]) if "offset" in register else None
    if not spot.is_alone:
        return None
    given = spaces.place(register["address"])
    if given is None or given.space != container.space or given.value < container.base:
        return None
    return given.value - container.base


def qualified(tree: Tree, first: str) -> Tree:
    """Return ``tree`` with the space named in every address of a register, block or instance."""
    found = dict(tree)
    for name in ("address", "base"):
        if name in tree:
            given = str(tree[name])
            found[name] = given if ":" in given else f"{first}:{given}"
    for name in ("instances", "registers", "blocks"):
        if name in tree:
            found[name] = [qualified(item, first) for item in tree[name]]
    return found


def units(register: Tree, inherited: Inherited, unit: int) -> int:
    """Return how many units of ``unit`` bits a register takes."""
    return units_of(register.get("width", inherited.width), unit)


def step_of(tree: Tree) -> int:
    """Return the distance from one block in a row to the next; 0 if the description has none."""
    stride = number(tree["stride"]) if "stride" in tree else 0
    return stride or (number(tree["size"]) if "size" in tree else 0)


def inherited_by(tree: Tree, around: Inherited) -> Inherited:
    """Return what registers in the block ``tree`` inherit."""
    return Inherited(tree.get("width", around.width), tree.get("access", around.access))
