"""Edits to the named values of the fields of a description."""

from __future__ import annotations

from edits import Edited, Thing, another, edit
from tree_facts import Tree, bits_of, number, shown


def _free_value(edited: Edited) -> tuple[Tree, Tree, Tree] | None:
    """Return a register, a field of it and a value of that, whose values no edit has touched."""
    found = [
        (node, item, value)
        for node, item in edited.fields()
        for value in item.get("values", ())
        if edited.is_free(value, item)
    ]
    if not found:
        return None
    node, item, value = edited.rng.choice(found)
    edited.touch(item, *item["values"])
    return node, item, value


def _value_differs(edited: Edited, kind: str, found: tuple[Tree, Tree, Tree], *texts: str) -> None:
    node, item, value = found
    for spot in edited.at(node):
        edited.differs(kind, Thing(spot.name, item["name"], value["name"]), *texts)


@edit
def change_value(edited: Edited) -> bool:
    found = _free_value(edited)
    if found is None:
        return False
    _, item, value = found
    width = len(bits_of(item["bits"]))
    taken = {number(other["value"]) for other in item["values"]}
    left = [other for other in range(1 << width) if other not in taken]
    if not left:
        return False
    old, new = number(value["value"]), edited.rng.choice(left)
    value["value"] = f"0x{new:x}"
    _value_differs(edited, "value", found, shown(old, width), shown(new, width))
    return True


@edit
def rename_value(edited: Edited) -> bool:
    found = _free_value(edited)
    if found is None:
        return False
    node, item, value = found
    old, new = value["name"], edited.fresh()
    numbers = [number(other["value"]) for other in item["values"]]
    if numbers.count(number(value["value"])) > 1:
        return False
    value["name"] = new
    for spot in edited.at(node):
        edited.renamed("value-renamed", Thing(spot.name, item["name"], old), new)
    return True


@edit
def change_usage(edited: Edited) -> bool:
    found = _free_value(edited)
    if found is None:
        return False
    old = found[2].get("usage", "read-write")
    found[2]["usage"] = another(edited.rng, ("read", "write", "read-write"), old)
    _value_differs(edited, "value-usage", found, old, found[2]["usage"])
    return True


@edit
def change_value_title(edited: Edited) -> bool:
    found = _free_value(edited)
    if found is None:
        return False
    new = another(edited.rng, (None, "another title"), found[2].get("title"))
    old = edited.set(found[2], "title", new)
    _value_differs(edited, "title", found, old or "", new or "")
    return True


@edit
def change_value_aliases(edited: Edited) -> bool:
    found = _free_value(edited)
    if found is None:
        return False
    old = " ".join(sorted(found[2].get("aliases", "").split()))
    new = edited.fresh()
    found[2]["aliases"] = new
    _value_differs(edited, "value-aliases", found, old, new)
    return True


@edit
def remove_value(edited: Edited) -> bool:
    found = _free_value(edited)
    if found is None:
        return False
    node, item, value = found
    item["values"] = [other for other in item["values"] if other is not value]
    text = shown(number(value["value"]), len(bits_of(item["bits"])))
    for spot in edited.at(node):
        thing = Thing(spot.name, item["name"], value["name"])
        edited.differs("value-only-in-a", thing, text, "", only="a")
    return True


@edit
def add_value(edited: Edited) -> bool:
    found = edited.free_field()
    if found is None:
        return False
    node, item = found
    edited.touch(*item.get("values", ()))
    width = len(bits_of(item["bits"]))
    taken = {number(other["value"]) for other in item.get("values", ())}
    new = next((other for other in range(1 << width) if other not in taken), None)
    if new is None:
        return False
    name = edited.fresh()
    item["values"] = [{"name": name, "value": f"0x{new:x}"}, *item.get("values", ())]
    for spot in edited.at(node):
        thing = Thing(spot.name, item["name"], name)
        edited.differs("value-only-in-b", thing, "", shown(new, width), only="b")
    return True
