"""Merge the fields, the row of flags and the reserved bits of one register."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Sequence
from copy import deepcopy
from typing import NamedTuple

from regwright.importing.draft import Tree
from regwright.importing.merge_meaning import single_bits
from regwright.importing.merge_nodes import (
    Nodes,
    Spot,
    arranged,
    in_order,
    pair,
    shown,
)
from regwright.importing.spelled import bits as spelled_bits
from regwright.model.origin import Origin

#: The properties of a register that this module merges.
FIELD_KEYS = frozenset({"flags", "fields", "reserved"})
_FLAG = re.compile("[!-~]+")
_LONGEST_FLAGS = 1000
#: What a row of flags says of a bit, or what is worth no entry of its own.
_SAID_BY_FLAG = frozenset({"name", "bits", "printed", "review", "page", "comment"})


class Item(NamedTuple):
    """A field of a register: ``key`` is ``flags`` for an entry of the row, else ``fields``."""

    key: str
    position: int
    name: str
    bits: tuple[int, ...]
    tree: Tree


class Merged(NamedTuple):
    """The register with its fields merged; ``agree`` if every field of it was confirmed."""

    tree: Tree
    agree: bool


def items(register: Tree) -> list[Item]:
    """Return every field of ``register``, those in its row of flags first."""
    found = []
    row = register.get("flags", "").split()
    for index, name in enumerate(row):
        if name != "-":
            bit = len(row) - 1 - index
            found.append(Item("flags", index, name, (bit,), {"name": name, "bits": bit}))
    for index, tree in enumerate(register.get("fields", ())):
        found.append(Item("fields", index, tree["name"], single_bits(tree["bits"]), tree))
    return found


_BY: tuple[Callable[[Item], Hashable], ...] = (
    lambda item: (item.name, item.bits, item.key),
    lambda item: (item.name, item.bits),
    lambda item: item.name,
    lambda item: frozenset(item.bits),
)


def _pairs(here: Sequence[Item], brought: Sequence[Item]) -> dict[int, int]:
    """Return which of ``here`` (by its position) is which of ``brought``: by name, then by bits."""
    pairs: dict[int, int] = {}
    taken: set[int] = set()
    for key_of in _BY:
        waiting: dict[Hashable, list[int]] = defaultdict(list)
        for position, item in enumerate(here):
            if position not in pairs:
                waiting[key_of(item)].append(position)
        for position, item in enumerate(brought):
            if position not in taken and (found := waiting.get(key_of(item))):
                pairs[found.pop(0)] = position
                taken.add(position)
    return pairs


def merge_fields(nodes: Nodes, here: Tree, brought: Tree, spot: Spot) -> Merged:
    """Return the register ``here`` with what ``brought`` knows of its fields and reserved bits.

    A flag of the row of flags stays there while nothing but its name and bit is known. When more
    is, it moves to the fields, a ``-`` takes its place, and its name and bit stay as they were.
    """
    if not brought.keys() & FIELD_KEYS:
        return Merged(here, not here.keys() & {"flags", "fields"})
    work = _Fields(nodes, here, spot)
    return work.merge(brought)


class _Fields:
    def __init__(self, nodes: Nodes, here: Tree, spot: Spot) -> None:
        self.nodes = nodes
        self.here = here
        self.spot = spot
        self.row: list[str] = here.get("flags", "").split()
        self.items = items(here)
        self.reserved = [
            (single_bits(item["bits"]), (spot.at, "reserved", index))
            for index, item in enumerate(here.get("reserved", ()))
        ]
        #: Fields that are in the list already, with what is brought for them.
        self.known: dict[int, Tree] = {}
        #: Fields of the list that are bits of a field which is brought.
        self.gone: set[int] = set()
        #: Fields that the list does not have yet, and where they stood before, if they did.
        self.new: list[tuple[Tree, Tree | None, Origin]] = []

    def merge(self, brought: Tree) -> Merged:
        before = len(self.nodes.conflicts)
        others = items(brought)
        if not self.items and not self.row:
            self.row = ["-"] * len(brought.get("flags", "").split())
        pairs = _pairs(self.items, others)
        for position, item in enumerate(self.items):
            if position in pairs:
                self._known(item, others[pairs[position]].tree)
        for position, item in enumerate(others):
            if position not in pairs.values():
                self._unknown(item)
        found = self._with_fields(self.here)
        found = self._with_row(found)
        found = self._with_reserved(found, brought.get("reserved", []))
        agree = len(self.nodes.conflicts) == before and len(pairs) == len(self.items)
        return Merged(found, agree)

    def _known(self, item: Item, brought: Tree) -> None:
        """Merge a field that both know."""
        if item.key == "fields":
            self.known[item.position] = brought
            return
        at: Origin = (self.spot.at, "flags", item.position)
        if brought.keys() <= _SAID_BY_FLAG:
            for kind, key in (("name", "name"), ("bits", "bits")):
                self.nodes.plain(kind, key, item.tree[key], brought[key], at)
            return
        self.row[item.position] = "-"
        self.new.append((item.tree, brought, at))

    def _unknown(self, item: Item) -> None:
        """Take a field that only the import has, if its bits are free."""
        taken = set(item.bits)
        if self._joins(item):
            self.new.append((item.tree, None, self.spot.at))
            return
        for other in self.items:
            if taken & set(other.bits):
                self._no_place(item, (self.spot.at, other.key, other.position), other.name)
                return
        for bits, at in self.reserved:
            if taken & set(bits):
                self._no_place(item, at, "reserved bits")
                return
        index = len(self.row) - 1 - item.bits[0]
        is_free = 0 <= index < len(self.row) and self.row[index] == "-"
        fits = len(" ".join(self.row)) + len(item.name) <= _LONGEST_FLAGS
        is_flag = len(item.bits) == 1 and item.tree.keys() <= {"name", "bits"}
        is_name = bool(_FLAG.fullmatch(item.name)) and item.name != "-"
        if is_flag and is_name and is_free and fits:
            self.row[index] = item.name
            self.nodes.added.append((self.spot.to, "flags", index))
            return
        self.new.append((item.tree, None, self.spot.at))

    def _joins(self, item: Item) -> bool:
        """Tell whether a field takes the place of its bits, and note these as gone.

        A summary prints ``MODE2``, ``MODE1`` and ``MODE0``, a list of fields ``MODE`` at 6:4. Bits
        of which more is known than that stay.
        """
        bits = {bit: index for index, bit in enumerate(reversed(item.bits))}
        within = [other for other in self.items if set(other.bits) & bits.keys()]
        is_whole = len(bits) > 1 and {bit for other in within for bit in other.bits} == set(bits)
        if not is_whole or not all(
            len(other.bits) == 1
            and other.name == f"{item.name}{bits[other.bits[0]]}"
            and other.tree.keys() <= _SAID_BY_FLAG
            for other in within
        ):
            return False
        for other in within:
            if other.key == "flags":
                self.row[other.position] = "-"
            else:
                self.gone.add(other.position)
        return True

    def _no_place(self, item: Item, at: Origin, what: str) -> None:
        bits = shown(str(item.tree["bits"]))
        message = f"the import has {shown(item.name)} at bits {bits}, where {shown(what)} stands"
        self.nodes.differ(at, message)

    def _with_fields(self, found: Tree) -> Tree:
        own = found.get("fields", [])
        new = self.nodes.if_room(
            "register", "fields", len(own), list(range(len(self.new))), self.spot
        )
        if not new:
            self.row = self._row_without_moves()
        ranks: list[int | None] = [max(single_bits(item["bits"])) for item in own]
        new_ranks: dict[int, int | None] = {
            index: -max(single_bits(self.new[index][0]["bits"])) for index in new
        }
        rises = len(ranks) > 1 and ranks == sorted(ranks, key=lambda rank: rank or 0)
        if not rises:
            ranks = [-(rank or 0) for rank in ranks]
        else:
            new_ranks = {index: -(rank or 0) for index, rank in new_ranks.items()}
        order = arranged(ranks, {index: index for index in self.known}, new_ranks)
        order = [place for place in order if place[0] not in self.gone]
        fields = [self._field(position, *place) for position, place in enumerate(order)]
        return self._with("fields", found, fields)

    def _row_without_moves(self) -> list[str]:
        """Return the row with the flags back that have no room among the fields."""
        row = list(self.row)
        for item in self.items:
            if item.key == "flags":
                row[item.position] = item.name
        return row

    def _field(self, position: int, old: int | None, brought: int | None) -> Tree:
        if old is not None:
            own: Tree = self.here["fields"][old]
            if old not in self.known:
                return own
            spot = self.spot.element("fields", old, position)
            return self.nodes.node("field", own, self.known[old], spot)
        tree, more, at = self.new[brought or 0]
        if more is None:
            self.nodes.added.append((self.spot.to, "fields", position))
            return deepcopy(tree)
        return self.nodes.node("field", tree, more, Spot(at, (self.spot.to, "fields", position)))

    def _with(self, key: str, found: Tree, value: list[Tree]) -> Tree:
        if key in found:
            return {**found, key: value}
        return in_order("register", found, {key: value}) if value else found

    def _with_row(self, found: Tree) -> Tree:
        if self.row == found.get("flags", "").split():
            return found
        rest = {key: value for key, value in found.items() if key != "flags"}
        if all(name == "-" for name in self.row):
            return rest
        row = " ".join(self.row)
        return (
            {**found, "flags": row}
            if "flags" in found
            else in_order("register", rest, {"flags": row})
        )

    def _with_reserved(self, found: Tree, brought: list[Tree]) -> Tree:
        """Return the register with the reserved bits of both."""
        own: list[Tree] = list(found.get("reserved", ()))
        pairs = pair("reservedBits", own, brought, self.nodes.space)
        for index, other in pairs.items():
            spot = self.spot.element("reserved", index, index)
            own[index] = self.nodes.node("reservedBits", own[index], brought[other], spot)
        for other, item in enumerate(brought):
            if other in pairs.values():
                continue
            bits = single_bits(item["bits"])
            rest = self._free(item, bits, own)
            if rest and self.nodes.if_room("register", "reserved", len(own), [0], self.spot):
                spelled = (
                    item["bits"]
                    if len(rest) == len(set(bits))
                    else _spelled(sorted(rest, reverse=True))
                )
                self.nodes.added.append((self.spot.to, "reserved", len(own)))
                own.append({**deepcopy(item), "bits": spelled})
        return self._with("reserved", found, own)

    def _free(self, item: Tree, bits: tuple[int, ...], own: list[Tree]) -> set[int]:
        """Return those of the reserved ``bits`` of ``item`` that mean nothing here yet."""
        rest = set(bits)
        for (taken, at), known in zip(self.reserved, own, strict=False):
            if rest & set(taken) and "write" in known and "write" in item:
                self.nodes.plain("", "write", known["write"], item["write"], (at, "write"))
            rest -= set(taken)
        for tree in own[len(self.reserved) :]:
            rest -= set(single_bits(tree["bits"]))
        if "write" not in item:  # a dash in the row of flags says as much
            rest -= {bit for bit, name in enumerate(reversed(self.row)) if name == "-"}
        for field in self.items:
            if rest & set(field.bits):
                self.nodes.differ(
                    (self.spot.at, field.key, field.position),
                    f"the import says that bits {item['bits']} are reserved, "
                    f"where {shown(field.name)} stands",
                )
                rest -= set(field.bits)
        for tree, more, _ in self.new:
            if more is None:
                rest -= set(single_bits(tree["bits"]))
        return rest


def without_slices(here: Tree, brought: Tree, shift: int) -> Tree:
    """Return the fields of a half, moved up by ``shift`` bits to where they stand in the whole.

    What is a slice of a field of ``here`` with the same name says nothing new, and is left out.
    """
    known: dict[str, set[int]] = defaultdict(set)
    for item in items(here):
        known[item.name].update(item.bits)
    fields = []
    for item in items(brought):
        bits = tuple(bit + shift for bit in item.bits)
        if set(bits) <= known[item.name] and len(bits) < len(known[item.name]):
            continue
        facts = {key: value for key, value in item.tree.items() if key not in ("name", "bits")}
        fields.append({"name": item.name, "bits": _spelled(bits), **facts})
    found: Tree = {"fields": fields} if fields else {}
    reserved = [
        {**item, "bits": _spelled(tuple(bit + shift for bit in single_bits(item["bits"])))}
        for item in brought.get("reserved", ())
    ]
    if reserved:
        found["reserved"] = reserved
    return found


def _spelled(bits: Iterable[int]) -> str | int:
    """Return bits, from the field's high end on, as a description spells them."""
    ranges: list[tuple[int, int]] = []
    for bit in bits:
        if ranges and ranges[-1][1] == bit + 1:
            ranges[-1] = (ranges[-1][0], bit)
        else:
            ranges.append((bit, bit))
    is_one = len(ranges) == 1 and ranges[0][0] == ranges[0][1]
    return ranges[0][0] if is_one else spelled_bits(ranges)
