"""Find out which register of an import is which register of an existing description.

First by their names (the sure way is name and address together), then by the addresses they have.
A register in a block is also known by the name and address that it has on the chip, so that a
flat table fills a description with blocks, and the other way round.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator
from typing import NamedTuple

from regwright.importing.draft import Tree
from regwright.importing.merge_meaning import meaning
from regwright.importing.merge_nodes import pair
from regwright.model.origin import Origin
from regwright.read.build import TooDeep, build_chip
from regwright.resolve.chip import Placed, ResolvedChip, TooManyRegisters, resolve

#: More units than the widest register takes are not looked at.
_MOST_UNITS = 64


class Found(NamedTuple):
    """A register or block of a tree, and where it stands there; ``within`` is its container."""

    tree: Tree
    origin: Origin
    within: Origin


class Partner(NamedTuple):
    """What an import has for a register: ``half`` is set when it is one half of it.

    ``ours`` and ``theirs`` are the places on the chip by which they were found to be the same,
    ``None`` when they have the same name in the same container.
    """

    brought: Found
    half: str = ""
    ours: Placed | None = None
    theirs: Placed | None = None


class Clash(NamedTuple):
    """A register of the import, called ``theirs``, has no room: ``ours`` stands there."""

    at: Origin
    ours: str
    theirs: str


class Matches:
    """Which register and block is which; all keys are origins."""

    def __init__(self) -> None:
        self.partners: dict[Origin, list[Partner]] = defaultdict(list)
        self.used: set[Origin] = set()
        self.blocks: dict[Origin, Origin] = {}
        #: Registers of the import for which another stands where they would have to go.
        self.clashes: dict[Origin, Clash] = {}
        #: The lowest address of registers, in each space, in either description.
        self.our_addresses: dict[Origin, dict[str, int]] = {}
        self.their_addresses: dict[Origin, dict[str, int]] = {}

    def join(self, ours: Origin, partner: Partner) -> None:
        """Note that ``partner`` is, or belongs to, the register at ``ours``."""
        self.partners[ours].append(partner)
        self.used.add(partner.brought.origin)


def match(here: Tree, brought: Tree, space: str) -> Matches:
    """Return which registers and blocks of two descriptions are the same."""
    found = Matches()
    _pair_blocks(here, brought, None, None, space, found)
    ours, theirs = list(_registers(here, None)), list(_registers(brought, None))
    _by_name(ours, theirs, space, found)
    us, them = _resolved(here), _resolved(brought)
    if us is not None and them is not None:
        found.our_addresses = _lowest(us)
        found.their_addresses = _lowest(them)
        _Elsewhere(us, them, ours, theirs, found).match()
    return found


def _pair_blocks(
    here: Tree, brought: Tree, ours: Origin, theirs: Origin, space: str, found: Matches
) -> None:
    own, other = here.get("blocks", []), brought.get("blocks", [])
    for index, partner in pair("block", own, other, space).items():
        at, there = (ours, "blocks", index), (theirs, "blocks", partner)
        found.blocks[at] = there
        _pair_blocks(own[index], other[partner], at, there, space, found)


def _registers(tree: Tree, origin: Origin) -> Iterator[Found]:
    for index, register in enumerate(tree.get("registers", ())):
        yield Found(register, (origin, "registers", index), origin)
    for index, block in enumerate(tree.get("blocks", ())):
        yield from _registers(block, (origin, "blocks", index))


def _by_name(ours: list[Found], theirs: list[Found], space: str, found: Matches) -> None:
    """Join registers of the same name in the same container."""
    containers = {None: None, **{there: at for at, there in found.blocks.items()}}

    def place(tree: Tree) -> Hashable:
        address = meaning("address", tree["address"], space) if "address" in tree else None
        return address, meaning("number", tree["offset"], space) if "offset" in tree else None

    keys: tuple[Callable[[Tree], Hashable], ...] = (
        lambda tree: (tree["name"], place(tree)),
        lambda tree: tree["name"],
    )
    for key_of in keys:
        waiting: dict[Hashable, list[Found]] = defaultdict(list)
        for item in ours:
            if item.origin not in found.partners:
                waiting[item.within, key_of(item.tree)].append(item)
        for item in theirs:
            if item.origin in found.used or item.within not in containers:
                continue
            if same := waiting.get((containers[item.within], key_of(item.tree))):
                found.join(same.pop(0).origin, Partner(item))


def _resolved(tree: Tree) -> ResolvedChip | None:
    """Return the chip with its registers in their places; names without the chip's prefix."""
    try:
        return resolve(build_chip(tree)._replace(prefix=""))
    except (TooDeep, TooManyRegisters):
        return None


def _lowest(chip: ResolvedChip) -> dict[Origin, dict[str, int]]:
    found: dict[Origin, dict[str, int]] = {}
    for placed in chip.registers:
        if not placed.half:
            known = found.setdefault(placed.register.origin, {})
            for address in placed.addresses:
                known[address.space] = min(address.value, known.get(address.space, address.value))
    return found


class _Elsewhere:
    """Matches what has no partner of its name in its own container."""

    def __init__(
        self,
        us: ResolvedChip,
        them: ResolvedChip,
        ours: list[Found],
        theirs: list[Found],
        found: Matches,
    ) -> None:
        self.found = found
        self.ours = {item.origin: item for item in ours}
        self.theirs = {item.origin: item for item in theirs}
        self.us = [(self._owner(placed), placed) for placed in us.registers]
        self.them = [(self._owner(placed), placed) for placed in them.registers]
        self.their_units = defaultdict(set)
        for origin, placed in self.them:
            self.their_units[origin].update(_units(placed))

    @staticmethod
    def _owner(placed: Placed) -> Origin:
        """Return the origin of the register that ``placed`` is, or is a half of."""
        origin = placed.register.origin
        if placed.half and origin is not None:
            return origin[0][0] if origin[0] is not None else None
        return origin

    def _open(self) -> list[tuple[Origin, Placed]]:
        """Return the places of imported registers that have no partner yet; no halves."""
        return [
            (origin, placed)
            for origin, placed in self.them
            if not placed.half and origin not in self.found.used
        ]

    def match(self) -> None:
        """Join by the names on the chip, then by addresses, and note what clashes."""
        names: dict[str, tuple[Origin, Placed]] = {}
        for origin, placed in self.us:
            names.setdefault(placed.name, (origin, placed))
        for origin, placed in self._open():
            if placed.name in names:
                self._join(*names[placed.name], origin, placed)
        units: dict[tuple[str, int], list[tuple[Origin, Placed]]] = defaultdict(list)
        for origin, placed in self.us:
            for unit in _units(placed):
                units[unit].append((origin, placed))
        for origin, placed in self._open():
            if origin not in self.found.used:
                self._by_address(origin, placed, units)

    def _join(self, ours: Origin, our: Placed, origin: Origin, placed: Placed) -> None:
        self.found.join(ours, Partner(self.theirs[origin], our.half, our, placed))

    def _by_address(
        self,
        origin: Origin,
        placed: Placed,
        units: dict[tuple[str, int], list[tuple[Origin, Placed]]],
    ) -> None:
        mine = _units(placed)
        candidates = [item for unit in mine for item in units.get(unit, ())]
        for ours, our in candidates:
            if _starts(our) & _starts(placed) and self._is_same(ours, our, placed):
                self._join(ours, our, origin, placed)
                return
        for ours, our in candidates:
            if not our.half and self._is_in_the_way(ours, our, placed, mine):
                self.found.clashes.setdefault(origin, Clash(ours, our.name, placed.name))
                return

    def _is_same(self, ours: Origin, our: Placed, placed: Placed) -> bool:
        is_free = not any(partner.half == our.half for partner in self.found.partners[ours])
        return is_free and our.facts.width == placed.facts.width and not _are_pair(our, placed)

    def _is_in_the_way(
        self, ours: Origin, our: Placed, placed: Placed, mine: set[tuple[str, int]]
    ) -> bool:
        """Tell whether the import does not itself have both registers at one address."""
        partners = self.found.partners[ours]
        has_both = any(self.their_units[item.brought.origin] & mine for item in partners)
        return not has_both and not _are_pair(our, placed)


def _starts(placed: Placed) -> set[tuple[str, int]]:
    return {(address.space, address.value) for address in placed.addresses}


def _units(placed: Placed) -> set[tuple[str, int]]:
    """Return the units that a register takes, in each space."""
    return {
        (address.space, address.value + step)
        for address in placed.addresses
        for step in range(min(placed.units, _MOST_UNITS))
    }


def _are_pair(first: Placed, second: Placed) -> bool:
    """Tell whether two registers may well be different ones at the same address."""
    accesses = {first.facts.access, second.facts.access}
    one, other = first.register, second.register
    return (
        accesses == {"read-only", "write-only"}
        or one.when != other.when
        or one.alias_of is not None
        or other.alias_of is not None
    )
