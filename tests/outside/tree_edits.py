"""Random edits of a description, of the kind that a new version of it may bring.

They may lead to a description that says nonsense, but never to one that cannot be read for its
form alone: values come from the same property elsewhere in the description, or from the lists here.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from random import Random
from typing import Any

from regwright.format.shape import definition, shapes

Tree = dict[str, Any]

WRITES = ["oneToClear", "zeroToClear", "oneToSet", "clear", "modify"]
ACCESS = ["read-only", "read-write", "write-only", "writeOnce"]
#: Values to try for a property, besides those that it has elsewhere.
VALUES: dict[str, list[Any]] = {
    "name": ["NEW", "EN", "A1", "CTRL_NEW", "KEEP"],
    "prefix": ["", "P_", "NEW_"],
    "title": ["Another title"],
    "page": [99],
    "access": ACCESS,
    "width": [1, 7, 8, 9, 12, 16, 24, 32, 64],
    "address": ["0x21", "data:0x3A", "io:0x05", "io:0x06 data:0x26"],
    "offset": [0, "0x3", "0d12"],
    "base": ["0x40", "data:0x60"],
    "reset": ["0x0", "0x00", "0x01", "0b0000_x001", "0xF"],
    "bits": ["0", "3", "7:4", "5:0", "1,0", "7,2:0"],
    "value": [0, "0x1", "0x2", "0b11"],
    "modifiedWriteValue": WRITES,
    "byteOrder": ["little", "big"],
    "readFirst": ["low", "high"],
    "writeFirst": ["low", "high"],
    "write": ["0", "1", "preserve"],
    "kind": ["chip", "device"],
    "compilerMacro": ["OLD_TARGET", "NEW_TARGET"],
    "pointer": [True, False],
    "unit": [8, 16],
    "count": [2, 3],
    "stride": ["0x2"],
    "firstIndex": [0, 4],
    "flags": ["A B - - C - - D", "A - EN IE"],
    "intWidth": [16, 32],
}
#: What a chip, space, window or region is called is an identifier of its own sort.
NAMES = {
    "chip": ["newer", "Sorrel15"],
    "space": ["mem", "data", "io"],
    "region": ["ROM"],
}
#: Kinds of object, and properties, that are worth more tries than the others.
TELLING = ("width", "width", "bits", "address", "reset", "value", "access", "modifiedWriteValue")
LIVELY = ("register", "field", "value", "block", "instance", "reserved")


def objects(tree: Tree, name: str = "chip") -> Iterator[tuple[str, Tree]]:
    """Yield each object of the description with its kind."""
    yield name, tree
    for key, child in shapes()[name].by_property.items():
        for item in tree.get(key, []) if child.many else [tree.get(key)]:
            if isinstance(item, dict) and child.shape:
                yield from objects(item, child.shape)


def edited(tree: Tree, random: Random, times: int) -> Tree:
    """Return a copy of ``tree`` with so many edits."""
    tree = copy.deepcopy(tree)
    for _ in range(times):
        every = list(objects(tree))
        lively = [item for item in every if item[0] in LIVELY]
        kind, item = random.choice(lively if lively and random.random() < 0.8 else every)
        random.choice([_set, _set, _set, _remove, _lists])(random, every, kind, item)
    return tree


def _set(random: Random, every: list[tuple[str, Tree]], kind: str, item: Tree) -> None:
    """Give a property another value, perhaps one that it had not."""
    keys = [key for key in shapes()[kind].attributes if key != "format"]
    telling = [key for key in TELLING if key in keys]
    key = random.choice(telling if telling and random.random() < 0.6 else keys)
    known = [other[key] for name, other in every if name == kind and key in other]
    own = NAMES.get(kind, []) if key == "name" and kind in NAMES else VALUES.get(key, [])
    if known or own:
        item[key] = random.choice(random.choice([part for part in (known, own) if part]))


def _remove(random: Random, _every: list[tuple[str, Tree]], kind: str, item: Tree) -> None:
    """Take a property out, unless it must be there."""
    free = [key for key in item if key not in definition(kind)["required"]]
    if free:
        del item[random.choice(free)]


def _lists(random: Random, _every: list[tuple[str, Tree]], kind: str, item: Tree) -> None:
    """Take something out of a list, say it twice under another name, or turn the list round."""
    keys = [key for key, child in shapes()[kind].by_property.items() if child.many]
    lists = [item[key] for key in keys if item.get(key)]
    if not lists:
        return
    found = random.choice(lists)
    way = random.choice(["out", "twice", "round"])
    if way == "out" and len(found) > 1:
        del found[random.randrange(len(found))]
    elif way == "round":
        found.reverse()
    else:
        again = copy.deepcopy(random.choice(found))
        if isinstance(again, dict) and "name" in again:
            again["name"] += "_2"
        found.append(again)
