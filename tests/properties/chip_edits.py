"""Edits to what is around the registers of a description: blocks, spaces, windows, the chip."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from edits import Edited, Thing, edit
from tree_facts import Tree, addresses_of, inherited, number, summary_of


def _blocks(holder: Tree, around: str = "") -> Iterator[tuple[str, Tree, Tree | None]]:
    """Yield the path of each block where it stands first, and of each instance, with it."""
    for block in holder.get("blocks", ()):
        for instance in block.get("instances") or [None]:
            mark = block.get("firstIndex", 0) if "count" in block else ""
            path = f"{around}{(instance or block)['name']}{mark}"
            yield path, block, instance
            if instance is (block.get("instances") or [None])[0]:
                yield from _blocks(block, f"{path}.")


def _free_block(edited: Edited) -> tuple[str, Tree] | None:
    found: dict[int, tuple[str, Tree]] = {}
    for path, block, _ in _blocks(edited.tree):
        if block.get("registers"):
            found.setdefault(id(block), (path, block))
    block = edited.free([block for _, block in found.values()])
    return found[id(block)] if block else None


def _property(
    edited: Edited, node: Tree, name: str, key: str, kind: str, values: tuple[Any, ...]
) -> bool:
    """Give a property of a node another value: what it is about is ``name``."""
    new = edited.rng.choice([value for value in values if value != node.get(key)])
    old = edited.set(node, key, new)
    edited.differs(kind, Thing(name), old or "", new or "")
    return True


@edit
def describe_block(edited: Edited) -> bool:
    found = _free_block(edited)
    if found is None:
        return False
    key = edited.rng.choice(["title", "page", "notes"])
    values = (1, 2, None) if key == "page" else ("some words", "other words", None)
    return _property(edited, found[1], found[0], key, key, values)


@edit
def change_block_aliases(edited: Edited) -> bool:
    found = _free_block(edited)
    if found is None:
        return False
    names = found[1].get("aliases", ""), edited.fresh()
    found[1]["aliases"] = names[1]
    edited.differs("register-aliases", Thing(found[0]), *names)
    return True


@edit
def describe_instance(edited: Edited) -> bool:
    places = {id(instance): path for path, _, instance in _blocks(edited.tree) if instance}
    node = edited.free([item for _, _, item in _blocks(edited.tree) if item])
    if node is None:
        return False
    key = edited.rng.choice(["title", "page"])
    values = (1, 2, None) if key == "page" else ("some words", "other words")
    return _property(edited, node, places[id(node)], key, key, values)


@edit
def move_block(edited: Edited) -> bool:
    nodes = [item or block for _, block, item in _blocks(edited.tree)]
    node = edited.free([item for item in nodes if "base" in item])
    if node is None:
        return False
    given = addresses_of(node["base"], edited.tree)
    node["base"] = " ".join(f"{space}:{value + 0x300:#x}" for space, value in given.items())
    return True


@edit
def move_nested_block(edited: Edited) -> bool:
    nodes = [block for _, block, _ in _blocks(edited.tree) if "offset" in block]
    node = edited.free(nodes)
    if node is None:
        return False
    node["offset"] = f"0x{number(node['offset']) + 2:X}"
    return True


@edit
def spread_blocks(edited: Edited) -> bool:
    """Put the elements of a row of blocks further apart."""
    node = edited.free([block for _, block, _ in _blocks(edited.tree) if "count" in block])
    if node is None:
        return False
    node["stride"] = f"0x{number(node.get('stride', node.get('size', 0))) + 0x80:X}"
    return True


@edit
def remove_block(edited: Edited) -> bool:
    """A block that is not in another, with all that is in it."""
    blocks = edited.tree.get("blocks", [])
    around: dict[int, list[Tree]] = {id(block): [block, *_inside(block)] for block in blocks}
    for spot in edited.spots:
        for block in spot.within:
            around.get(id(block), []).append(spot.node)
    node = edited.free([item for item in blocks if edited.is_free(*around[id(item)])])
    if node is None:
        return False
    edited.touch(*around[id(node)])
    edited.tree["blocks"] = [item for item in blocks if item is not node]
    for spot in edited.spots:
        if any(block is node for block in spot.within) and not spot.half:
            summary = summary_of(spot, edited.tree)
            edited.differs("register-only-in-a", Thing(spot.name), summary, "", only="a")
    return True


def _inside(block: Tree) -> Iterator[Tree]:
    """Yield everything in a block that an edit may touch."""
    for key in ("instances", "registers", "fields", "values", "reserved", "blocks"):
        for item in block.get(key, ()):
            yield item
            yield from _inside(item)


@edit
def change_default_access(edited: Edited) -> bool:
    """Of a block, for the registers in it that say nothing."""
    found = _free_block(edited)
    if found is None:
        return False
    block = found[1]
    inner = [item for item in edited.registers() if block in edited.at(item)[0].within]
    if not edited.is_free(*inner):
        return False
    edited.touch(*inner, *(field for item in inner for field in item.get("fields", ())))
    places = [spot for item in inner for spot in edited.at(item, halves=True)]
    old = [inherited("access", spot, edited.tree) for spot in places]
    block["access"] = "read-only" if block.get("access") != "read-only" else "read-write"
    for spot, before in zip(places, old, strict=True):
        after = inherited("access", spot, edited.tree)
        if before != after:
            edited.differs("register-access", Thing(spot.name), before, after)
    return True


def _free_space(edited: Edited) -> Tree | None:
    node: Tree | None = edited.free(edited.tree["spaces"])
    return node


def _shown_space(space: Tree) -> str:
    reach = "pointers reach it" if space.get("pointer", True) else "pointers do not reach it"
    return f"0x{number(space['size']):x} units of {space.get('unit', 8)} bits, {reach}"


@edit
def change_space(edited: Edited) -> bool:
    space = _free_space(edited)
    if space is None:
        return False
    old = _shown_space(space)
    if edited.rng.random() < 0.5:
        space["size"] = f"0x{number(space['size']) * 2:x}"
    else:
        space["pointer"] = not space.get("pointer", True)
    edited.differs("space", Thing(space["name"]), old, _shown_space(space))
    return True


@edit
def change_space_title(edited: Edited) -> bool:
    space = _free_space(edited)
    if space is None:
        return False
    return _property(edited, space, space["name"], "title", "title", ("one", "two", None))


@edit
def add_space(edited: Edited) -> bool:
    space = {"name": edited.fresh().lower(), "size": "0x100", "unit": 16}
    edited.tree["spaces"] = [*edited.tree["spaces"], space]
    edited.touch(space)
    thing = Thing(str(space["name"]))
    edited.differs("space-only-in-b", thing, "", _shown_space(space), only="b")
    return True


def _shown_region(region: Tree) -> str:
    first, last = number(region["first"]), number(region["last"])
    return f"0x{first:04x} to 0x{last:04x}, {region['kind']}"


def _free_region(edited: Edited) -> tuple[str, Tree, Tree] | None:
    found = [
        (f"{space['name']}.{region['name']}", space, region)
        for space in edited.tree["spaces"]
        for region in space.get("regions", ())
        if edited.is_free(region, space)
    ]
    if not found:
        return None
    name, space, region = edited.rng.choice(found)
    edited.touch(region, space)
    return name, space, region


@edit
def change_region(edited: Edited) -> bool:
    found = _free_region(edited)
    if found is None:
        return False
    name, _, region = found
    old = _shown_region(region)
    if edited.rng.random() < 0.5:
        region["last"] = f"0x{number(region['last']) + 0x100:x}"
    else:
        region["kind"] = "eeprom" if region["kind"] != "eeprom" else "other"
    edited.differs("region", Thing(name), old, _shown_region(region))
    return True


@edit
def remove_region(edited: Edited) -> bool:
    found = _free_region(edited)
    if found is None:
        return False
    name, space, region = found
    space["regions"] = [item for item in space["regions"] if item is not region]
    edited.differs("region", Thing(name), _shown_region(region), "", only="a")
    return True


@edit
def change_region_title(edited: Edited) -> bool:
    found = _free_region(edited)
    if found is None:
        return False
    return _property(edited, found[2], found[0], "title", "title", ("one", "two"))


def _shown_window(window: Tree) -> str:
    first, last, offset = (number(window[key]) for key in ("first", "last", "offset"))
    words = f"0x{first:02x} to 0x{last:02x} at +0x{offset:02x}"
    if "singleBit" in window:
        span = [number(window["singleBit"][key]) for key in ("first", "last")]
        words += f", single-bit 0x{span[0]:02x} to 0x{span[1]:02x}"
    return words


@edit
def change_window(edited: Edited) -> bool:
    """Another offset, a shorter reach of single-bit instructions, or none at all."""
    window = edited.free(edited.tree.get("windows", []))
    if window is None:
        return False
    old = _shown_window(window)
    what = edited.rng.choice(["offset", "last", "singleBit"])
    if what == "offset":
        window["offset"] = f"0x{number(window['offset']) + 0x10:x}"
    elif what == "last":
        window["last"] = f"0x{number(window['last']) - 0x1:x}"
    else:
        window["singleBit"] = {**window["singleBit"], "last": "0x10"}
    name = f"{window['from']} in {window['into']}"
    edited.differs("window", Thing(name), old, _shown_window(window))
    return True


def _shown_instruction(item: Tree) -> str:
    words = [f"{item['access']} {item['space']} by operand {item['address']}"]
    words += [f"{key} by operand {item[key]}" for key in ("bit", "value") if key in item]
    return ", ".join(words)


@edit
def change_instruction(edited: Edited) -> bool:
    item = edited.free(edited.tree.get("instructions", []))
    if item is None:
        return False
    old = _shown_instruction(item)
    item["address"] = 5
    tail = "()" if item.get("kind") == "function" else ""
    for name in item["names"].split():
        edited.differs("instruction", Thing(name + tail), old, _shown_instruction(item))
    return True


@edit
def add_instruction(edited: Edited) -> bool:
    space = edited.tree["spaces"][0]["name"]
    item = {"names": edited.fresh(), "space": space, "access": "read", "address": 1}
    edited.tree["instructions"] = [item, *edited.tree.get("instructions", ())]
    edited.touch(item)
    thing = Thing(str(item["names"]))
    edited.differs("instruction", thing, "", _shown_instruction(item), only="b")
    return True


@edit
def describe_chip(edited: Edited) -> bool:
    key, kind, values = edited.rng.choice(
        [
            ("name", "chip-name", ("one", "two")),
            ("title", "title", ("one", "two", None)),
            ("family", "family", ("one", "two", None)),
            ("notes", "notes", ("one", "two", None)),
            ("compilerMacro", "compiler-macro", ("ONE", "TWO", None)),
        ]
    )
    if not edited.is_free(edited.tree):
        return False
    edited.touch(edited.tree)
    return _property(edited, edited.tree, "chip", key, kind, values)


@edit
def change_int_width(edited: Edited) -> bool:
    if not edited.is_free(edited.tree):
        return False
    edited.touch(edited.tree)
    old = edited.tree.get("intWidth")
    new = 16 if old == 32 else 32
    edited.tree["intWidth"] = new
    edited.differs("int-width", Thing("chip"), f"{old} bits" if old else "", f"{new} bits")
    return True


@edit
def change_kind(edited: Edited) -> bool:
    if not edited.is_free(edited.tree):
        return False
    edited.touch(edited.tree)
    old = edited.tree.get("kind", "chip")
    new = "device" if old == "chip" else "chip"
    edited.tree["kind"] = new
    edited.differs("kind", Thing("chip"), old, new)
    return True


@edit
def change_document(edited: Edited) -> bool:
    document = edited.tree.get("document")
    if document is None or not edited.is_free(document):
        return False
    edited.touch(document)
    keys = "title", "revision", "date", "notes"
    old = ", ".join(document[key] for key in keys if key in document)
    document["revision"] = "another"
    new = ", ".join(document[key] for key in keys if key in document)
    edited.differs("document", Thing("chip"), old, new)
    return True
