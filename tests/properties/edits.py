"""Edits to a description, each with what it changes, worked out from the tree by itself.

An edit takes a node that no other edit of the same description has touched, and says what differs
then: kind, the thing, before, after. Addresses are worked out for all at the end.
"""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from tree_facts import Spot, Tree, picked, reach_of, shown, spots

Row = tuple[str, str, str, str, str]
ACCESS = "read-write", "read-only", "write-only", "writeOnce", "read-writeOnce"
EFFECTS = "oneToClear", "oneToSet", "zeroToClear", "clear", "modify"


class Thing(NamedTuple):
    """What a change is of: a register by its full name in A, a field, a value; or other words."""

    register: str
    field: str = ""
    value: str = ""


class Edited:
    """A copy of a description that is edited, and what differs from the description."""

    def __init__(self, tree: Tree, rng: random.Random) -> None:
        self.tree: Tree = json.loads(json.dumps(tree))  # no two nodes are one object
        self.rng = rng
        self.spots = spots(self.tree)
        self._old_addresses = {spot.name: spot.addresses for spot in self.spots}
        self._old_reach = {spot.name: reach_of(spot, self.tree) for spot in self.spots}
        self._touched: set[int] = set()
        self._rows: list[tuple[str, Thing | None, Thing | None, str, str]] = []
        self._new_names: dict[Thing, str] = {}
        self._fresh = 0
        self._keep_clock()

    def _keep_clock(self) -> None:
        """Leave alone the registers that decide how fast the CPU is: nothing follows from edits."""
        dividers = self.tree.get("clock", {}).get("dividers", ())
        names = {str(item.get("field", "")).partition(".")[0] for item in dividers}
        for spot in self.spots:
            if names & {spot.name, spot.node["name"]}:
                self.touch(spot.node, *spot.node.get("fields", ()))

    # What edits use.

    def free(self, nodes: list[Any]) -> Any:
        """Return one of ``nodes`` that no edit has touched, and note it; ``None`` for none."""
        left = [node for node in nodes if id(node) not in self._touched]
        if not left:
            return None
        node = self.rng.choice(left)
        self.touch(node)
        return node

    def touch(self, *nodes: Any) -> None:
        self._touched.update(map(id, nodes))

    def is_free(self, *nodes: Any) -> bool:
        return self._touched.isdisjoint(map(id, nodes))

    def fresh(self) -> str:
        """Return a name that nothing has, without digits."""
        self._fresh += 1
        return "NEW" + "ABCDEFGHIJKLMNOP"[self._fresh] * 3

    def registers(self) -> list[Tree]:
        """Return the registers of the tree that are no halves."""
        return list({id(spot.node): spot.node for spot in self.spots if not spot.half}.values())

    def at(self, node: Tree, *, halves: bool = False) -> list[Spot]:
        """Return where a register stands, its halves with it if wanted."""
        if halves:
            return [spot for spot in self.spots if spot.whole is node]
        return [spot for spot in self.spots if spot.node is node]

    def fields(self) -> list[tuple[Tree, Tree]]:
        """Return each field with its register."""
        return [(node, item) for node in self.registers() for item in node.get("fields", ())]

    def free_field(self, *, alone: bool = False) -> tuple[Tree, Tree] | None:
        """Return a register and a field of it, untouched; of ``alone``, the register is too."""
        found = [
            (node, item)
            for node, item in self.fields()
            if self.is_free(item) and (not alone or self.is_free(node, *node["fields"]))
        ]
        if not found:
            return None
        node, item = self.rng.choice(found)
        self.touch(item, *((node, *node["fields"]) if alone else ()))
        return node, item

    def differs(
        self,
        kind: str,
        thing: Thing,
        before: Any,
        after: Any,
        *,
        only: str = "",
        there: Thing | None = None,
    ) -> None:
        """Note a difference; ``only`` is the chip that has the thing, ``there`` what it is in B."""
        a = thing if only != "b" else None
        b = (there or thing) if only != "a" else None
        self._rows.append((kind, a, b, str(before), str(after)))

    def renamed(self, kind: str, thing: Thing, name: str) -> None:
        """Note that the last part of a thing has another name in B."""
        self._new_names[thing] = name
        old = next(part for part in reversed(thing) if part)
        self._rows.append((kind, thing, thing, old, name))

    def set(self, node: Tree, key: str, value: Any) -> Any:
        """Give a property another value, ``None`` for none, and return the old one."""
        before = node.pop(key, None)
        if value is not None:
            node[key] = value
        return before

    # What comes of them.

    def rows(self) -> list[Row]:
        """Return everything that differs."""
        found = [
            (kind, self._name(a, new=False), self._name(b, new=True), before, after)
            for kind, a, b, before, after in self._rows
        ]
        return sorted([*found, *self._addresses()])

    def _name(self, thing: Thing | None, *, new: bool) -> str:
        if thing is None:
            return ""
        parts = []
        for length in range(1, 4):
            if thing[length - 1]:
                part = Thing(*thing[:length])
                name = self._new_names.get(part) if new else None
                parts.append(name or thing[length - 1])
        return ".".join(parts)

    def _addresses(self) -> Iterator[Row]:
        """Yield where registers stand that both have, as the edited tree says it."""
        now = {spot.name: spot for spot in spots(self.tree)}
        for name, before in self._old_addresses.items():
            new_name = self._name(Thing(name), new=True)
            spot = now.get(new_name)
            if spot is None:
                continue
            for space in {**before, **spot.addresses}:
                old, new = before.get(space), spot.addresses.get(space)
                if old != new:
                    texts = ["" if value is None else shown(value, 8) for value in (old, new)]
                    yield "address", name, new_name, texts[0], texts[1]
            old_reach, new_reach = self._old_reach[name], reach_of(spot, self.tree)
            if (old_reach == "reached") != (new_reach == "reached"):
                yield "single-bit-reach", name, new_name, old_reach, new_reach


Edit = Callable[[Edited], bool]
EDITS: dict[str, Edit] = {}


def edit(function: Edit) -> Edit:
    """Note a kind of edit; it returns whether there was anything to edit."""
    EDITS[function.__name__] = function
    return function


def another(rng: random.Random, values: tuple[Any, ...], but: Any) -> Any:
    """Return one of ``values`` that is another one."""
    return rng.choice([value for value in values if value != but])


def of_field(found: tuple[int, int] | None, bits: list[int]) -> tuple[int, int] | None:
    """Return a field's part of a register's reset value."""
    return found and (picked(found[0], bits), picked(found[1], bits))
