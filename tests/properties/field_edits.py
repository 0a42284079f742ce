"""Edits to the fields of a description: their bits, and what they say of themselves."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from edits import ACCESS, EFFECTS, Edited, Thing, another, edit, of_field
from tree_facts import Tree, bits_of, inherited, reset_of, shown_bits, shown_reset, width_of


@edit
def rename_field(edited: Edited) -> bool:
    """A field whose title no other of its register has."""
    found = []
    for node, item in edited.fields():
        titles = [other.get("title") for other in node["fields"]]
        if item.get("title") and titles.count(item["title"]) == 1 and edited.is_free(item):
            found.append((node, item))
    if not found:
        return False
    node, item = edited.rng.choice(found)
    edited.touch(item)
    old, new = item["name"], edited.fresh()
    for other in edited.registers():
        if other.get("when", "").startswith(f"{node['name']}.{old} ="):
            other["when"] = other["when"].replace(f".{old} ", f".{new} ", 1)
            edited.touch(other)
    item["name"] = new
    for spot in edited.at(node):
        edited.renamed("field-renamed", Thing(spot.name, old), new)
    return True


def _free_bits(node: Tree, width: int) -> list[int]:
    taken = {
        bit
        for item in (*node.get("fields", ()), *node.get("reserved", ()))
        for bit in bits_of(item["bits"])
    }
    return [bit for bit in range(width) if bit not in taken]


@edit
def move_bit(edited: Edited) -> bool:
    """Move a flag to a free bit; its reset is then another bit of the register's."""
    found = edited.free_field(alone=True)
    if found is None:
        return False
    node, item = found
    bits = bits_of(item["bits"])
    free = _free_bits(node, width_of(edited.at(node)[0], edited.tree))
    is_derived = "reset" not in node and any("reset" in other for other in node["fields"])
    if len(bits) > 1 or not free or "flags" in node or is_derived:
        return False
    new = [edited.rng.choice(free)]
    item["bits"] = str(new[0])
    _moved(edited, node, item, bits, new)
    return True


@edit
def widen_field(edited: Edited) -> bool:
    """Give a field one more bit at its high end."""
    found = edited.free_field(alone=True)
    if found is None:
        return False
    node, item = found
    bits = bits_of(item["bits"])
    free = _free_bits(node, width_of(edited.at(node)[0], edited.tree))
    has_reset = "reset" in item or any("reset" in other for other in node["fields"])
    if (
        bits[-1] + 1 not in free
        or "flags" in node
        or has_reset
        or len(bits) != 1 + bits[-1] - bits[0]
    ):
        return False
    new = [*bits, bits[-1] + 1]
    item["bits"] = f"{new[-1]}:{new[0]}"
    for spot in edited.at(node):
        words = "1 bit" if len(bits) == 1 else f"{len(bits)} bits"
        edited.differs("field-width", Thing(spot.name, item["name"]), words, f"{len(new)} bits")
    _moved(edited, node, item, bits, new)
    return True


def _moved(edited: Edited, node: Tree, item: Tree, bits: list[int], new: list[int]) -> None:
    """Note that a field has other bits, and perhaps another part of the register's reset."""
    whole = reset_of(node["reset"]) if "reset" in node else None
    old_reset, new_reset = of_field(whole, bits), of_field(whole, new)
    is_other = "reset" not in item and old_reset != new_reset
    if is_other and len(bits) < len(new) and old_reset and new_reset:
        # one more bit of 0 is the same reset; all bits left open are, too
        is_open = old_reset[1] == (1 << len(bits)) - 1 and new_reset[1] == (1 << len(new)) - 1
        is_other = old_reset != new_reset and not is_open
    for spot in edited.at(node):
        thing = Thing(spot.name, item["name"])
        edited.differs("field-bits", thing, shown_bits(bits), shown_bits(new))
        if is_other:
            texts = shown_reset(old_reset, len(bits)), shown_reset(new_reset, len(new))
            edited.differs("field-reset", thing, *texts)


#: Fields of the base whose names no other field has, and that say what they are.
TELLING = "HELD", "RINGS", "TONE", "RED", "GREEN", "BLINK"


@edit
def move_field(edited: Edited) -> bool:
    """Move a field to free bits of another register, whose access it has then."""
    found = [
        (node, item)
        for node, item in edited.fields()
        if item["name"] in TELLING and edited.is_free(node, *node["fields"])
    ]
    if not found:
        return False
    node, item = edited.rng.choice(found)
    edited.touch(node, *node["fields"])
    bits = bits_of(item["bits"])
    other = edited.free(
        [
            target
            for target in edited.registers()
            if len(edited.at(target)) == 1
            and len(_free_bits(target, width_of(edited.at(target)[0], edited.tree))) >= len(bits)
        ]
    )
    is_derived = "reset" in item and ("reset" not in node or "reset" not in (other or {}))
    if other is None or is_derived:
        return False
    one, two = edited.at(node)[0], edited.at(other)[0]
    new = _free_bits(other, width_of(two, edited.tree))[: len(bits)]
    resets = [
        of_field(reset_of(n["reset"]), b) if "reset" in n else None
        for n, b in ((node, bits), (other, new))
    ]
    access = [item.get("access") or inherited("access", spot, edited.tree) for spot in (one, two)]
    node["fields"] = [field for field in node["fields"] if field is not item]
    item["bits"] = ",".join(map(str, reversed(new)))
    other["fields"] = [*other.get("fields", ()), item]
    edited.touch(*other["fields"])
    facts = [("field-moved", [one.name, two.name]), ("field-access", access)]
    facts.append(("field-bits", [shown_bits(bits), shown_bits(new)]))
    if "reset" not in item:
        facts.append(("field-reset", [shown_reset(found, len(bits)) for found in resets]))
    for kind, (before, after) in facts:
        if before != after:
            thing = Thing(one.name, item["name"])
            edited.differs(kind, thing, before, after, there=Thing(two.name, item["name"]))
    return True


def _field_property(
    edited: Edited, key: str, kind: str, values: tuple[Any, ...], words: Callable[[Any], str] = str
) -> bool:
    """Give a field another value of a property."""
    found = edited.free_field()
    if found is None:
        return False
    node, item = found
    new = another(edited.rng, values, item.get(key))
    old = edited.set(item, key, new)
    for spot in edited.at(node):
        texts = ["" if value is None else words(value) for value in (old, new)]
        edited.differs(kind, Thing(spot.name, item["name"]), *texts)
    return True


def _truth(value: bool) -> str:
    return "yes" if value else "no"


@edit
def change_field_access(edited: Edited) -> bool:
    found = edited.free_field(alone=True)
    if found is None:
        return False
    node, item = found
    old = item.get("access") or inherited("access", edited.at(node)[0], edited.tree)
    item["access"] = another(edited.rng, ACCESS, old)
    for spot in edited.at(node):
        edited.differs("field-access", Thing(spot.name, item["name"]), old, item["access"])
    return True


@edit
def change_write_effect(edited: Edited) -> bool:
    return _field_property(edited, "modifiedWriteValue", "write-effect", (None, *EFFECTS))


@edit
def change_field_read_action(edited: Edited) -> bool:
    return _field_property(edited, "readAction", "field-read-action", (None, "clear", "set"))


@edit
def change_volatile(edited: Edited) -> bool:
    return _field_property(edited, "volatile", "volatile", (None, True, False), _truth)


@edit
def change_field_title(edited: Edited) -> bool:
    return _field_property(edited, "title", "title", (None, "another title", "a third title"))


@edit
def change_field_page(edited: Edited) -> bool:
    return _field_property(edited, "page", "page", (None, 1, 2))


@edit
def change_field_notes(edited: Edited) -> bool:
    return _field_property(edited, "notes", "notes", (None, "one", "two"))


@edit
def change_field_aliases(edited: Edited) -> bool:
    found = edited.free_field()
    if found is None:
        return False
    node, item = found
    old, new = " ".join(sorted(item.get("aliases", "").split())), edited.fresh()
    item["aliases"] = new
    for spot in edited.at(node):
        edited.differs("field-aliases", Thing(spot.name, item["name"]), old, new)
    return True


@edit
def change_values_complete(edited: Edited) -> bool:
    found = edited.free_field()
    if found is None:
        return False
    node, item = found
    old = item.get("valuesComplete", False)
    item["valuesComplete"] = not old
    for spot in edited.at(node):
        thing = Thing(spot.name, item["name"])
        edited.differs("values-complete", thing, _truth(old), _truth(not old))
    return True


@edit
def change_field_reset(edited: Edited) -> bool:
    """Of a field in a register that gives its own: that stays."""
    found = edited.free_field(alone=True)
    if found is None or "reset" not in found[0]:
        return False
    node, item = found
    bits = bits_of(item["bits"])
    old = of_field(reset_of(node["reset"]), bits)
    if "reset" in item:
        old = reset_of(item["reset"])
    new = edited.rng.getrandbits(len(bits)), 0
    if new == old:
        return False
    item["reset"] = f"0x{new[0]:x}"
    texts = shown_reset(old, len(bits)), shown_reset(new, len(bits))
    for spot in edited.at(node):
        edited.differs("field-reset", Thing(spot.name, item["name"]), *texts)
    return True


@edit
def add_field(edited: Edited) -> bool:
    node = edited.free([item for item in edited.registers() if "flags" not in item])
    if node is None:
        return False
    free = _free_bits(node, width_of(edited.at(node)[0], edited.tree))
    if not free:
        return False
    name, bit = edited.fresh(), edited.rng.choice(free)
    node["fields"] = [*node.get("fields", ()), {"name": name, "bits": bit, "access": "read-only"}]
    edited.touch(*node["fields"])
    for spot in edited.at(node):
        thing = Thing(spot.name, name)
        edited.differs("field-only-in-b", thing, "", f"bit {bit}, read-only", only="b")
    return True


@edit
def remove_field(edited: Edited) -> bool:
    found = edited.free_field(alone=True)
    if found is None:
        return False
    node, item = found
    is_derived = "reset" not in node and "reset" in item
    if is_derived:
        return False
    access = item.get("access") or inherited("access", edited.at(node)[0], edited.tree)
    words = f"{shown_bits(bits_of(item['bits']))}, {access}"
    node["fields"] = [other for other in node["fields"] if other is not item]
    for spot in edited.at(node):
        edited.differs("field-only-in-a", Thing(spot.name, item["name"]), words, "", only="a")
    return True
