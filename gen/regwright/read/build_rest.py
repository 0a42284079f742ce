"""Build what a chip has besides registers, from the tree that both spellings share."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from regwright.model.memories import Build, Identity, Memory, Vector, VectorTable
from regwright.model.origin import Origin
from regwright.model.packages import Package, Pin, Port, PortBit
from regwright.read.build_clock import build_clock
from regwright.read.build_configuration import build_configuration
from regwright.read.build_register import Tree
from regwright.read.entries import each, optional_number
from regwright.read.numbers import bit_ranges, number


def build_rest(tree: Tree) -> dict[str, Any]:
    """Return the attributes of the chip ``tree`` that say more than its registers."""
    made: dict[str, Any] = {}
    for key, (attribute, build) in _ONE.items():
        if key in tree:
            made[attribute] = build(tree[key], (None, key))
    for key, (attribute, build) in _MANY.items():
        made[attribute] = each(tree, key, None, build)
    return made


def _memory(tree: Tree, origin: Origin) -> Memory:
    return Memory(
        tree["name"],
        tree["kind"],
        tree["space"],
        number(tree["first"]),
        number(tree["size"]),
        tree.get("title"),
        optional_number(tree, "pageSize"),
        optional_number(tree, "eraseUnit"),
        tree.get("page"),
        origin,
    )


def _vector(tree: Tree, origin: Origin) -> Vector:
    get = tree.get
    return Vector(
        tree["number"],
        tree["name"],
        optional_number(tree, "address"),
        get("title"),
        get("page"),
        get("printed"),
        get("review"),
        origin,
    )


def _vector_table(tree: Tree, origin: Origin) -> VectorTable:
    vectors = each(tree, "vectors", origin, _vector)
    base = number(tree.get("base", 0))
    return VectorTable(tree["space"], number(tree["size"]), vectors, base, origin)


def _identity(tree: Tree, origin: Origin) -> Identity:
    return Identity(
        tuple(int(item, 16) for item in tree["signature"].split()),
        tree.get("space"),
        optional_number(tree, "address"),
        tree.get("page"),
        origin,
    )


def _port(tree: Tree, origin: Origin) -> Port:
    return Port(
        tree["name"],
        bit_ranges(tree["bits"]),
        tuple(tree.get("registers", "").split()),
        tree.get("title"),
        tree.get("page"),
        origin,
    )


def _pin(tree: Tree, origin: Origin) -> Pin:
    get = tree.get
    port, _, bit = get("port", "").partition(".")
    return Pin(
        tree["number"],
        tree["name"],
        get("kind", "io"),
        PortBit(port, int(bit)) if port else None,
        tuple(get("functions", "").split()),
        get("title"),
        get("page"),
        get("printed"),
        get("review"),
        origin,
    )


def _package(tree: Tree, origin: Origin) -> Package:
    return Package(
        tree["name"],
        tree["arrangement"],
        tree["pinCount"],
        tree.get("title"),
        tree.get("page"),
        each(tree, "pins", origin, _pin),
        origin,
    )


def _build(tree: Tree, origin: Origin) -> Build:
    get = tree.get
    return Build(get("target"), get("instructionSet"), get("programmerPart"), origin)


_ONE: dict[str, tuple[str, Callable[[Tree, Origin], Any]]] = {
    "vectorTable": ("vector_table", _vector_table),
    "configuration": ("configuration", build_configuration),
    "clock": ("clock", build_clock),
    "identity": ("identity", _identity),
    "build": ("build", _build),
}
_MANY: dict[str, tuple[str, Callable[[Tree, Origin], Any]]] = {
    "memories": ("memories", _memory),
    "ports": ("ports", _port),
    "packages": ("packages", _package),
}
