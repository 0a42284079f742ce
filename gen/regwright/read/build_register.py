"""Build registers and fields of the model from the tree that both spellings share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from regwright.model.chip import (
    Array,
    BitRange,
    Field,
    Half,
    Halves,
    NamedValue,
    Register,
    Reserved,
    Silence,
)
from regwright.model.origin import Origin
from regwright.read.numbers import addresses, bit_ranges, conditions, number, reset

Tree = dict[str, Any]


def build_register(tree: Tree, origin: Origin, space: str) -> Register:
    """Return the register that ``tree`` describes; ``space`` is the one an address may leave out.

    The tree has passed the schema.
    """
    get = tree.get
    fields = [
        build_field(item, (origin, "fields", index)) for index, item in enumerate(get("fields", ()))
    ]
    if "flags" in tree:
        fields[:0] = _flags(tree["flags"], origin)
    return Register(
        tree["name"],
        get("title"),
        addresses(tree["address"], space) if "address" in tree else (),
        number(tree["offset"]) if "offset" in tree else None,
        get("width"),
        get("byteOrder"),
        get("access"),
        reset(tree["reset"]) if "reset" in tree else None,
        get("readAction"),
        conditions(tree["when"]) if "when" in tree else (),
        get("aliasOf"),
        get("singleBit"),
        build_array(tree) if "count" in tree else None,
        get("page"),
        get("notes"),
        _halves(tree["halves"], (origin, "halves"), space) if "halves" in tree else None,
        tuple(fields),
        tuple(
            _reserved(item, (origin, "reserved", index))
            for index, item in enumerate(get("reserved", ()))
        ),
        len(tree["flags"].split()) if "flags" in tree else None,
        build_silences(tree, origin) if "silences" in tree else (),
        build_aliases(tree),
        get("printed"),
        get("review"),
        origin,
    )


def build_silences(tree: Tree, origin: Origin) -> tuple[Silence, ...]:
    """Return what ``tree``, the node at ``origin``, wants to be silent."""
    return tuple(
        Silence(item["rule"], item["reason"], origin, (origin, "silences", index))
        for index, item in enumerate(tree.get("silences", ()))
    )


def build_aliases(tree: Tree) -> tuple[str, ...]:
    """Return the other names that ``tree`` gives."""
    return tuple(tree["aliases"].split()) if "aliases" in tree else ()


def build_array(tree: Tree) -> Array:
    """Return the row that a block or register with a ``count`` makes."""
    stride = number(tree["stride"]) if "stride" in tree else None
    return Array(tree["count"], stride, tree.get("firstIndex", 0))


def build_field(tree: Tree, origin: Origin) -> Field:
    """Return the field that ``tree`` describes."""
    get = tree.get
    return Field(
        tree["name"],
        bit_ranges(tree["bits"]),
        get("title"),
        get("access"),
        get("modifiedWriteValue"),
        get("readAction"),
        reset(tree["reset"]) if "reset" in tree else None,
        get("volatile"),
        tuple(_value(item, (origin, "values", index)) for index, item in enumerate(tree["values"]))
        if "values" in tree
        else (),
        get("valuesComplete", False),
        get("page"),
        get("notes"),
        # fields and values are many: no call for those without
        build_aliases(tree) if "aliases" in tree else (),
        get("printed"),
        get("review"),
        origin,
    )


def _value(tree: Tree, origin: Origin) -> NamedValue:
    get = tree.get
    return NamedValue(
        tree["name"],
        number(tree["value"]),
        get("title"),
        get("usage", "read-write"),
        build_aliases(tree) if "aliases" in tree else (),
        get("printed"),
        get("review"),
        origin,
    )


def _reserved(tree: Tree, origin: Origin) -> Reserved:
    get = tree.get
    return Reserved(
        bit_ranges(tree["bits"]),
        get("write"),
        get("title"),
        get("page"),
        get("printed"),
        get("review"),
        origin,
    )


def _flags(text: str, origin: Origin) -> Iterator[Field]:
    """Yield a one-bit field for each name in a summary row, its highest bit first."""
    names = text.split()
    for index, name in enumerate(names):
        if name != "-":
            bit = len(names) - 1 - index
            yield Field(name, (BitRange(bit, bit),), origin=(origin, "flags", index))


def _halves(tree: Tree, origin: Origin, space: str) -> Halves:
    return Halves(
        _half(tree["low"], (origin, "low"), space),
        _half(tree["high"], (origin, "high"), space),
        tree.get("readFirst"),
        tree.get("writeFirst"),
        tree.get("temporary"),
        origin,
    )


def _half(tree: Tree, origin: Origin, space: str) -> Half:
    get = tree.get
    return Half(
        tree["name"],
        addresses(tree["address"], space) if "address" in tree else (),
        get("title"),
        get("page"),
        build_aliases(tree),
        get("printed"),
        get("review"),
        origin,
    )
