"""Edits to the registers of a description, their reset, reserved bits and halves."""

from __future__ import annotations

from collections.abc import Iterator

from edits import ACCESS, Edited, Thing, another, edit, of_field
from tree_facts import (
    Tree,
    addresses_of,
    bits_of,
    inherited,
    number,
    reset_of,
    shown,
    shown_reset,
    spots,
    summary_of,
    width_of,
)


@edit
def rename_register(edited: Edited) -> bool:
    """A register that stands in one place, with a title that no other has."""
    titles = [spot.node.get("title") for spot in edited.spots]
    node = edited.free(
        [
            item
            for item in edited.registers()
            if len(edited.at(item)) == 1
            and len(item.get("title", "").split()) > 2
            and titles.count(item["title"]) == 1
        ]
    )
    if node is None:
        return False
    old, new = edited.at(node)[0].name, edited.fresh()
    prefix = old.removesuffix(node["name"])
    for item in edited.registers():
        if item.get("aliasOf") == node["name"]:
            item["aliasOf"] = new
            edited.touch(item)
        if item.get("when", "").startswith(f"{node['name']}."):
            item["when"] = item["when"].replace(f"{node['name']}.", f"{new}.", 1)
            edited.touch(item)
    node["name"] = new
    edited.renamed("register-renamed", Thing(old), prefix + new)
    return True


@edit
def move_register(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if "address" in item])
    if node is None:
        return False
    given = addresses_of(node["address"], edited.tree)
    space = next(iter(given))
    add = edited.rng.choice([0x200, 0x204, 0x20A])
    if space == "io":
        add = edited.rng.choice([1, 3, 0x20])
    node["address"] = f"{space}:{given[space] + add:#x}"
    return True


@edit
def move_within_block(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if "offset" in item])
    if node is None:
        return False
    node["offset"] = f"0x{number(node['offset']) + edited.rng.choice([0x40, 0x44]):X}"
    return True


@edit
def widen_register(edited: Edited) -> bool:
    """To twice the width; the fields, the reset and the reserved bits stay."""
    node = edited.free(
        [
            item
            for item in edited.registers()
            if "halves" not in item
            and ("count" not in item or "stride" in item)
            and width_of(edited.at(item)[0], edited.tree) <= 32
        ]
    )
    if node is None:
        return False
    for spot in edited.at(node):
        width = width_of(spot, edited.tree)
        edited.differs("register-width", Thing(spot.name), f"{width} bits", f"{2 * width} bits")
    node["width"] = 2 * width_of(edited.at(node)[0], edited.tree)
    return True


@edit
def change_access(edited: Edited) -> bool:
    """With it the access of the halves; fields that say nothing go with their register."""
    node = edited.free(edited.registers())
    if node is None:
        return False
    old = inherited("access", edited.at(node)[0], edited.tree)
    node["access"] = another(edited.rng, ACCESS, old)
    for spot in edited.at(node, halves=True):
        edited.differs("register-access", Thing(spot.name), old, node["access"])
    return True


@edit
def change_reset(edited: Edited) -> bool:
    """With it that of the halves, and of the fields that do not give their own."""
    nodes = [item for item in edited.registers() if edited.is_free(item, *item.get("fields", ()))]
    node = edited.free([item for item in nodes if not item.get("flags")])
    if node is None:
        return False
    edited.touch(*node.get("fields", ()))
    fields = node.get("fields", ())
    if "reset" not in node and any("reset" in item for item in fields):
        return False
    width = width_of(edited.at(node)[0], edited.tree)
    old = reset_of(node["reset"]) if "reset" in node else None
    new = edited.rng.getrandbits(width), 0
    if new == old:
        return False
    node["reset"] = f"0x{new[0]:x}"
    for spot in edited.at(node, halves=True):
        own = width_of(spot, edited.tree)
        shift = own if spot.half == "high" else 0
        parts = [_cut(found, shift, own) for found in (old, new)]
        if parts[0] != parts[1]:
            texts = [shown_reset(part, own) for part in parts]
            edited.differs("register-reset", Thing(spot.name), *texts)
    for item in fields:
        bits = bits_of(item["bits"])
        own_old, own_new = (of_field(found, bits) for found in (old, new))
        if "reset" not in item and own_old != own_new:
            texts = [shown_reset(found, len(bits)) for found in (own_old, own_new)]
            for spot in edited.at(node):
                edited.differs("field-reset", Thing(spot.name, item["name"]), *texts)
    return True


def _cut(found: tuple[int, int] | None, shift: int, width: int) -> tuple[int, int] | None:
    if found is None:
        return None
    ones = (1 << width) - 1
    return found[0] >> shift & ones, found[1] >> shift & ones


@edit
def change_read_action(edited: Edited) -> bool:
    node = edited.free(edited.registers())
    if node is None:
        return False
    new = another(edited.rng, (None, "clear", "set", "modify"), node.get("readAction"))
    old = edited.set(node, "readAction", new)
    for spot in edited.at(node):
        edited.differs("register-read-action", Thing(spot.name), old or "", new or "")
    return True


@edit
def change_aliases(edited: Edited) -> bool:
    node = edited.free(edited.registers())
    if node is None:
        return False
    old = " ".join(sorted(node.get("aliases", "").split()))
    new = edited.fresh()
    node["aliases"] = new
    for spot in edited.at(node):
        edited.differs("register-aliases", Thing(spot.name), old, new)
    return True


@edit
def change_reserved(edited: Edited) -> bool:
    """Say of the first reserved bits that something else must be written to them."""
    node = edited.free([item for item in edited.registers() if item.get("reserved")])
    if node is None:
        return False
    width = width_of(edited.at(node)[0], edited.tree)
    old = _shown_reserved(node["reserved"], width)
    first = node["reserved"][0]
    new = another(edited.rng, (None, "0", "1", "preserve"), first.get("write"))
    edited.set(first, "write", new)
    for spot in edited.at(node):
        edited.differs("reserved", Thing(spot.name), old, _shown_reserved(node["reserved"], width))
    return True


@edit
def remove_reserved(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if item.get("reserved")])
    if node is None:
        return False
    width = width_of(edited.at(node)[0], edited.tree)
    old = _shown_reserved(node["reserved"], width)
    node["reserved"] = node["reserved"][1:]
    for spot in edited.at(node):
        edited.differs("reserved", Thing(spot.name), old, _shown_reserved(node["reserved"], width))
    return True


def _shown_reserved(items: list[Tree], width: int) -> str:
    parts = []
    for write, words in (
        ("preserve", "preserve"),
        ("1", "write 1"),
        ("0", "write 0"),
        ("", "not said"),
    ):
        bits = {
            bit for item in items if item.get("write", "") == write for bit in bits_of(item["bits"])
        }
        if bits:
            parts.append(f"{shown(sum(1 << bit for bit in bits), width)}: {words}")
    return ", ".join(parts)


@edit
def change_byte_order(edited: Edited) -> bool:
    """Of a register that takes several addresses; its halves change places with it."""
    nodes = []
    for item in edited.registers():
        spot = edited.at(item)[0]
        unit = next(
            (s.get("unit", 8) for s in edited.tree["spaces"] if s["name"] in spot.addresses), 8
        )
        if width_of(spot, edited.tree) > unit:
            nodes.append(item)
    node = edited.free(nodes)
    if node is None:
        return False
    old = inherited("byteOrder", edited.at(node)[0], edited.tree)
    node["byteOrder"] = another(edited.rng, ("little", "big"), old)
    for spot in edited.at(node):
        edited.differs("byte-order", Thing(spot.name), old, node["byteOrder"])
    return True


@edit
def change_half_order(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if "halves" in item])
    if node is None:
        return False
    key, kind = edited.rng.choice(
        [("readFirst", "read-order"), ("writeFirst", "write-order"), ("temporary", "temporary")]
    )
    old = node["halves"].get(key)
    new = edited.fresh() if key == "temporary" else another(edited.rng, (None, "low", "high"), old)
    edited.set(node["halves"], key, new)
    for spot in edited.at(node):
        edited.differs(kind, Thing(spot.name), old or "", new or "")
    return True


@edit
def change_condition(edited: Edited) -> bool:
    """Answer only while the first flag of some register has a value."""
    fields = [(node, item) for node, item in edited.fields() if edited.is_free(node, item)]
    if not fields:
        return False
    other, item = edited.rng.choice(fields)
    edited.touch(other, *other["fields"])
    node = edited.free(edited.registers())
    if node is None:
        return False
    new = f"{other['name']}.{item['name']}"
    old = edited.set(node, "when", f"{new} = 1") or ""
    before = " and ".join(
        f"{name} = {number(value):#x}"
        for name, value in sorted(part.split(" = ") for part in old.split(" and ") if part)
    )
    after = f"{new} = 0x1"
    for spot in edited.at(node) if before != after else ():
        edited.differs("condition", Thing(spot.name), before, after)
    return True


@edit
def change_alias_of(edited: Edited) -> bool:
    other = edited.free(edited.registers())
    node = edited.free(edited.registers())
    if other is None or node is None or node.get("aliasOf") == other["name"]:
        return False
    old = edited.set(node, "aliasOf", other["name"]) or ""
    for spot in edited.at(node):
        edited.differs("alias-of", Thing(spot.name), old, other["name"])
    return True


@edit
def remove_register(edited: Edited) -> bool:
    node = edited.free(
        [item for item in edited.registers() if edited.is_free(item, *item.get("fields", ()))]
    )
    if node is None:
        return False
    edited.touch(*node.get("fields", ()))
    holder = next(item for item in _holders(edited.tree) if node in item.get("registers", ()))
    if len(holder["registers"]) < 2:
        return False
    holder["registers"] = [item for item in holder["registers"] if item is not node]
    for spot in edited.at(node):
        summary = summary_of(spot, edited.tree)
        edited.differs("register-only-in-a", Thing(spot.name), summary, "", only="a")
    return True


def _holders(holder: Tree) -> Iterator[Tree]:
    yield holder
    for block in holder.get("blocks", ()):
        yield from _holders(block)


@edit
def add_register(edited: Edited) -> bool:
    """Far from all others, with a row or without, in no block."""
    name = edited.fresh()
    space = edited.tree["spaces"][0]
    width = edited.rng.choice([8, 16, 64])
    address = number(space["size"]) + len(edited.tree.get("registers", ()))
    node = {"name": name, "address": f"{space['name']}:{address:#x}", "width": width}
    edited.tree["registers"] = [node, *edited.tree.get("registers", ())]
    spot = next(spot for spot in spots(edited.tree) if spot.node is node)
    edited.differs(
        "register-only-in-b", Thing(spot.name), "", summary_of(spot, edited.tree), only="b"
    )
    return True


@edit
def shorten_row(edited: Edited) -> bool:
    rows = [item for item in edited.registers() if item.get("count", 1) > 1]
    node = edited.free([item for item in rows if edited.is_free(*item.get("fields", ()))])
    if node is None:
        return False
    edited.touch(*node.get("fields", ()))
    node["count"] -= 1
    for spot in edited.at(node, halves=True):
        if spot.element == node["count"] and not spot.half:
            summary = summary_of(spot, edited.tree)
            edited.differs("register-only-in-a", Thing(spot.name), summary, "", only="a")
    return True


@edit
def change_stride(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if item.get("count", 1) > 1])
    if node is None:
        return False
    node["stride"] = edited.rng.choice([5, 6, 7])
    return True


@edit
def drop_halves(edited: Edited) -> bool:
    """Of a register that has no other half to its name: the two are gone."""
    node = edited.free([item for item in edited.registers() if "halves" in item])
    if node is None:
        return False
    edited.touch(node["halves"]["low"], node["halves"]["high"])
    names = f"{node['halves']['low']['name']}, {node['halves']['high']['name']}"
    for spot in edited.at(node, halves=True):
        if spot.half:
            summary = summary_of(spot, edited.tree)
            edited.differs("register-only-in-a", Thing(spot.name), summary, "", only="a")
        else:
            edited.differs("halves", Thing(spot.name), names, "")
    del node["halves"]
    return True


@edit
def describe_register(edited: Edited) -> bool:
    """What its halves have from it is not said of them again."""
    node = edited.free(edited.registers())
    if node is None:
        return False
    key = edited.rng.choice(["title", "page", "notes"])
    values = (1, 2, None) if key == "page" else ("some words", "other words", None)
    new = another(edited.rng, values, node.get(key))
    old = edited.set(node, key, new)
    for spot in edited.at(node):
        edited.differs(key, Thing(spot.name), old or "", new or "")
    return True


@edit
def describe_half(edited: Edited) -> bool:
    halves = [spot for spot in edited.spots if spot.half]
    node = edited.free([spot.node for spot in halves if edited.is_free(spot.whole)])
    if node is None:
        return False
    edited.touch(*(spot.whole for spot in halves if spot.node is node))
    key = edited.rng.choice(["title", "page", "aliases"])
    new = 7 if key == "page" else edited.fresh()
    old = edited.set(node, key, new)
    for spot in edited.at(node):
        kind = "register-aliases" if key == "aliases" else key
        edited.differs(kind, Thing(spot.name), old or "", new)
    return True


@edit
def describe_reserved(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if item.get("reserved")])
    if node is None:
        return False
    bits = edited.rng.choice(node["reserved"])
    key = edited.rng.choice(["title", "page"])
    new = 7 if key == "page" else "kept free"
    old = edited.set(bits, key, new)
    for spot in edited.at(node):
        edited.differs(key, Thing(spot.name), old or "", new)
    return True
