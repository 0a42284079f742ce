"""Bring a second import into a description without losing what was edited by hand.

What both give alike is nothing, what only one gives is taken, and what differs stays as it is and
becomes a conflict at its place in the existing description.
"""

from __future__ import annotations

from copy import deepcopy
from typing import NamedTuple

from regwright.importing.draft import Tree
from regwright.importing.merge_matching import Matches, match
from regwright.importing.merge_nodes import Conflict, Nodes, Spot, arranged, in_order, shown
from regwright.importing.merge_registers import INHERITED, Context, Registers, explicit
from regwright.model.origin import Origin, steps
from regwright.read.numbers import number

#: What is merged in a way of its own in a chip or block.
_OWN_WAY = frozenset({"registers", "blocks", "prefix", *INHERITED})


class Merged(NamedTuple):
    """What came of merging; neither tree that was merged is changed.

    ``conflicts`` speak of places in the existing description, ``added`` are places in ``tree``.
    """

    tree: Tree
    conflicts: tuple[Conflict, ...]
    added: tuple[Origin, ...]


def merge(existing: Tree, brought: Tree) -> Merged:
    """Return the description ``existing`` with what only ``brought`` gives.

    Both are descriptions that the schema accepts. Registers are the same by name, then by address;
    fields by name, then bits; values by name, then value. A mark for review goes when ``brought``
    gives everything that the marked node says, without a mark and alike.
    """
    space = existing["spaces"][0]["name"]
    brought = _with_spaces(brought, space)
    matches = match(existing, brought, space)
    nodes = Nodes(space)
    work = _Containers(nodes, matches, existing, brought)
    tree = work.container("chip", existing, brought, Spot(None, None), None)
    if nodes.other_pages:
        count = len(nodes.other_pages)
        pages = "page is another" if count == 1 else f"{count} pages, this one first, are others"
        nodes.differ(nodes.other_pages[0], f"{pages} in the import")
    return Merged(tree, tuple(dict.fromkeys(nodes.conflicts)), tuple(nodes.added))


def _with_spaces(tree: Tree, space: str) -> Tree:
    """Return ``tree`` with a space at each address that ``space`` would be meant by otherwise."""
    own = tree["spaces"][0]["name"]
    return tree if own == space else _named(tree, own)


def _named(tree: Tree, space: str) -> Tree:
    found = dict(tree)
    for key in ("address", "base"):
        if key in found and "spaces" not in found and ":" not in str(found[key]):
            found[key] = f"{space}:{found[key]}"
    for key in ("registers", "blocks", "instances"):
        if key in found:
            found[key] = [_named(item, space) for item in found[key]]
    if "halves" in found:
        halves = dict(found["halves"])
        for half in ("low", "high"):
            halves[half] = _named(halves[half], space)
        found["halves"] = halves
    return found


class _Containers:
    """Merges the chip and its blocks, which hold registers."""

    def __init__(self, nodes: Nodes, matches: Matches, here: Tree, brought: Tree) -> None:
        self.nodes = nodes
        self.matches = matches
        self.registers = Registers(nodes, matches, here, brought)

    def container(self, shape: str, here: Tree, brought: Tree, spot: Spot, there: Origin) -> Tree:
        """Return the chip or block ``here`` merged with ``brought``, which stands at ``there``."""
        self._same_defaults(here, brought, spot)
        # what an import was taken from is not what the description was taken from
        skip = _OWN_WAY | {"document"} if "document" in here else _OWN_WAY
        found = self.nodes.node(shape, here, brought, spot, skip)
        found = self._with(shape, "registers", found, self._registers(here, brought, spot, there))
        return self._with(shape, "blocks", found, self._blocks(here, brought, spot, there))

    @staticmethod
    def _with(shape: str, key: str, found: Tree, value: list[Tree]) -> Tree:
        if key in found:
            return {**found, key: value}
        return in_order(shape, found, {key: value}) if value else found

    def _same_defaults(self, here: Tree, brought: Tree, spot: Spot) -> None:
        """Compare what registers inherit. What is not said here reaches each of them by itself."""
        for key in INHERITED:
            if key in here and key in brought:
                self.nodes.plain("", key, here[key], brought[key], (spot.at, key))
        usual = "" if spot.at is None else None
        own, theirs = here.get("prefix", usual), brought.get("prefix", usual)
        if "prefix" in brought and own != theirs:
            words = "not given" if own is None else shown(own) or "empty"
            at = (spot.at, "prefix") if "prefix" in here else spot.at
            message = f"prefix is {words} here and {shown(theirs) or 'empty'} in the import"
            self.nodes.differ(at, message)

    def _registers(self, here: Tree, brought: Tree, spot: Spot, there: Origin) -> list[Tree]:
        own: list[Tree] = here.get("registers", [])
        others: list[Tree] = brought.get("registers", [])
        new = [index for index in range(len(others)) if self._is_new((there, "registers", index))]
        ranks, new_ranks = self._ranks(own, others, new, spot, there)
        found = []
        for position, place in enumerate(arranged(ranks, {}, new_ranks)):
            if place.old is not None:
                inner = spot.element("registers", place.old, position)
                found.append(self.registers.register(own[place.old], spot.at, inner))
            else:
                self.nodes.added.append((spot.to, "registers", position))
                theirs = self.registers.theirs[there]
                register = others[place.brought or 0]
                found.append(explicit(register, theirs, self.registers.ours[spot.at]))
        return found

    def _is_new(self, origin: Origin) -> bool:
        """Tell whether a register of the import is unknown here and has its place to itself."""
        if origin in self.matches.used:
            return False
        if origin not in self.matches.clashes:
            return True
        at, name, theirs = self.matches.clashes[origin]
        self.nodes.differ(at, f"the import has {shown(theirs)} where {shown(name)} stands")
        return False

    def _ranks(
        self, own: list[Tree], others: list[Tree], new: list[int], spot: Spot, there: Origin
    ) -> tuple[list[int | None], dict[int, int | None]]:
        """Return by what number each register of a list is sorted: its offset or address."""
        if any("offset" in others[index] for index in new):
            ranks = [number(item["offset"]) if "offset" in item else None for item in own]
            return ranks, {
                index: number(others[index]["offset"]) if "offset" in others[index] else None
                for index in new
            }
        theirs = self.matches.their_addresses
        ours = self.matches.our_addresses
        old = [ours.get((spot.at, "registers", index), {}) for index in range(len(own))]
        brought = {index: theirs.get((there, "registers", index), {}) for index in new}
        spaces = [space for item in brought.values() for space in item]
        space = max(sorted(set(spaces)), key=spaces.count, default="")
        return [item.get(space) for item in old], {
            index: item.get(space) for index, item in brought.items()
        }

    def _blocks(self, here: Tree, brought: Tree, spot: Spot, there: Origin) -> list[Tree]:
        found = []
        others: list[Tree] = brought.get("blocks", [])
        for index, block in enumerate(here.get("blocks", ())):
            inner = spot.element("blocks", index, index)
            partner = self.matches.blocks.get(inner.at)
            tree = others[_last_index(partner)] if partner is not None else {}
            found.append(self.container("block", block, tree, inner, partner))
        known = set(self.matches.blocks.values())
        for index, block in enumerate(others):
            origin: Origin = (there, "blocks", index)
            if origin in known:
                continue
            new = self._new_block(block, origin, self.registers.ours[spot.at])
            if new is not None:
                self.nodes.added.append((spot.to, "blocks", len(found)))
                found.append(new)
        return found

    def _new_block(self, block: Tree, origin: Origin, ours: Context) -> Tree | None:
        """Return a block of the import with those of its registers that are not known here.

        ``None`` is for a block whose registers are all known.
        """
        found = deepcopy(block)
        inherited = {**ours, **{key: block[key] for key in INHERITED if key in block}}
        kept = 0
        if "registers" in block:
            registers = [
                explicit(item, self.registers.theirs[origin], inherited)
                for index, item in enumerate(block["registers"])
                if self._is_new((origin, "registers", index))
            ]
            found["registers"], kept = registers, len(registers)
        if "blocks" in block:
            inner = [
                self._new_block(item, (origin, "blocks", index), inherited)
                for index, item in enumerate(block["blocks"])
            ]
            found["blocks"] = [item for item in inner if item is not None]
            kept += len(found["blocks"])
        had_any = bool(block.get("registers") or block.get("blocks"))
        return found if kept or not had_any else None


def _last_index(origin: Origin) -> int:
    return int(steps(origin)[-1])
