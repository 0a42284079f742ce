"""Make the tree of a description of what was read: names, widths and places settled."""

from __future__ import annotations

from typing import Any

from regwright.format.shape import definition, shapes
from regwright.importing import names
from regwright.importing.draft import Tree
from regwright.importing.mapped.bits import spelled as spelled_bits
from regwright.importing.mapped.findings import Findings, Place
from regwright.importing.mapped.gather import MOST_NODES, TooMuch
from regwright.importing.mapped.raw import BitsRead, Raw, ResetRead
from regwright.importing.mapped.readings import definition_name
from regwright.importing.spelled import hexadecimal, reset
from regwright.model.origin import Origin

UNREADABLE = "value-not-readable"
#: The width of a register for which nothing else is said.
_USUAL_WIDTH = 8
_IDENTIFIER_LENGTH = 48


class Finisher:
    """Makes the tree, and notes the place of each node in it."""

    def __init__(self, findings: Findings) -> None:
        """Say to ``findings`` which names had to be mapped."""
        self._findings = findings
        self.places: dict[Origin, Place] = {}
        self.rules: dict[Origin, Origin] = {}
        self._told: set[Raw] = set()
        self._count = 0

    def tree(self, chip: Raw) -> Tree:
        """Return the tree of the whole chip. Raises :class:`TooMuch`."""
        tree = self._tree(chip, None, _USUAL_WIDTH, set())
        return {"format": 1, **tree}

    def _tree(self, raw: Raw, origin: Origin, width: int, taken: set[str]) -> Tree:
        self._count += 1
        if self._count > MOST_NODES:
            raise TooMuch(f"what derives comes to more than {MOST_NODES:,} nodes")
        self.places[origin] = raw.place
        self.rules[origin] = raw.plan.origin
        own = raw.properties.get("width")
        width = own if isinstance(own, int) and 1 <= own <= 64 else width
        tree = self._properties(raw, width)
        self._name(raw, tree, taken)
        for name, items in raw.children.items():
            child = shapes()[raw.plan.kind].by_property[name]
            if not child.many:
                tree[name] = self._tree(items[0], (origin, name), width, set())
                continue
            before = tree.get(name)
            given: list[Any] = before if isinstance(before, list) else [before] * (name in tree)
            beside: set[str] = set()
            tree[name] = given + [
                self._tree(item, (origin, name, number), width, beside)
                for number, item in enumerate(items, len(given))
            ]
        order = definition(raw.plan.kind)["properties"]
        return {key: tree[key] for key in (*order, *(tree.keys() - order.keys())) if key in tree}

    def _properties(self, raw: Raw, width: int) -> Tree:
        tree: Tree = {}
        for name in raw.properties:
            self._add(tree, name, raw, width)
        return tree

    def _add(self, tree: Tree, name: str, raw: Raw, width: int) -> None:
        value = raw.properties[name]
        if isinstance(value, ResetRead):
            bits = width if raw.plan.kind == "register" else max(value.value.bit_length(), 1)
            value = self._reset(value, bits, raw)
        elif isinstance(value, BitsRead):
            value = spelled_bits(value, width)
            if value is None:
                message = f"bits are counted from the high end, and {width} bits have no such bit"
                self._findings.refuse(UNREADABLE, message, raw.place, raw.plan.origin)
        if value is not None:
            tree[name] = value

    @staticmethod
    def _reset(read: ResetRead, bits: int, raw: Raw) -> str:
        if read.defined is None or raw.plan.kind != "register":
            return hexadecimal(read.value, bits)
        undefined = ~read.defined & ((1 << bits) - 1)
        return reset(read.value & ~undefined, undefined, max(bits, read.value.bit_length()))

    def _name(self, raw: Raw, tree: Tree, taken: set[str]) -> None:
        """Map a name that is no identifier, or taken; the original becomes the title."""
        text = tree.get("name")
        which = definition_name(raw.plan.kind, "name") if text is not None else ""
        if not isinstance(text, str) or which not in ("name", "identifier", "spaceName"):
            return
        if which == "spaceName":
            text = text.lower()
        most = 80 if which == "name" else _IDENTIFIER_LENGTH
        name = names.identifier(text, taken, most)
        if which == "identifier":
            name = name.lstrip("_") or "N"
        tree["name"] = name
        if name == text:
            return
        if raw not in self._told:
            message = f"the name {text!r} became {name}"
            self._findings.assume("name-mapped", message, raw.place, raw.plan.origin)
            self._told.add(raw)
        if "title" not in tree and "title" in _attributes(raw):
            tree["title"] = names.line(text)


def _attributes(raw: Raw) -> tuple[str, ...]:
    return shapes()[raw.plan.kind].attributes
