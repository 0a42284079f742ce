"""What the place of an element in a memory map says of a register, a block or a space."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from regwright.importing import spelled
from regwright.importing.ieee1685.own_spelling import Element, Tree, children
from regwright.importing.ieee1685.own_standard import (
    NotOurs,
    Reader,
    Said,
    access_of,
    find,
    local,
    texts,
)
from regwright.read.numbers import number


@dataclass(frozen=True)
class Container:
    """Where offsets of the standard's elements count from.

    ``counts`` tells whether the description counts them from there too, rather than to give each
    register its address.
    """

    space: str
    base: int
    digits: int
    counts: bool

    def said(self, name: str, offset: int) -> Said:
        """Return what an offset says of the ``address`` of a register or ``base`` of a block."""
        at = {name: f"{self.space}:{spelled.hexadecimal(self.base + offset, self.digits)}"}
        distance = {"offset": spelled.hexadecimal(offset)}
        return Said(distance, at) if self.counts else Said(at, distance)

    def within(self, offset: int, *, counts: bool) -> Container:
        """Return the container that starts ``offset`` further on."""
        return Container(self.space, self.base + offset, self.digits, counts)


def said_of_chip(root: Element) -> Said:
    """Return what the standard's elements say of the chip itself.

    The 2014 edition has no title for a component: its description starts with it.
    """
    said = texts(root)
    if "title" not in said and "notes" in said:
        title, _, notes = said.pop("notes").partition("\n\n")
        said.update({"title": title, "notes": notes} if notes else {"title": title})
    return Said(said, {})


def said_of_space(element: Element, reader: Reader) -> Said:
    """Return what a memory map says of its space."""
    said = texts(element)
    certain: Tree = {name: said[name] for name in ("name", "title") if name in said}
    unit = reader.number(element, "addressUnitBits", default=8)
    return Said(certain, {"unit": 8}) if unit == 8 else Said({**certain, "unit": unit}, {})


def said_of_block(element: Element, place: Said, reader: Reader) -> Said:
    """Return what an address block or a register file says of the block that it is."""
    certain = {**texts(element), **reader.row(element), **place.certain}
    repeated = dict(place.repeated)
    size = spelled.hexadecimal(reader.number(element, "range"))
    if "count" in certain and find(element, "array") is None:
        certain["stride"], repeated["size"] = size, size
    else:
        certain["size"] = size
    access = access_of(element)
    if access is not None:
        certain["access"] = access
    return Said(certain, repeated)


def split_instance(said: Said) -> tuple[Said, Said]:
    """Return what is said of a block apart from what is said of its instance."""
    names = ("name", "title", "base")
    everything = {**said.repeated, **said.certain}
    instance = {name: everything[name] for name in names if name in everything}
    block = {name: value for name, value in said.certain.items() if name not in (*names, "offset")}
    return Said(block, said.repeated), Said(instance, {})


def digits_of(space: Tree) -> int:
    """Return how many bits an address in ``space`` has, for the digits to write it with."""
    try:
        return min(max((number(space.get("size", 0)) - 1).bit_length(), 8), 64)
    except (TypeError, ValueError):
        raise NotOurs("the size of a space is no number") from None


#: What may differ between the places where a block stands.
_OF_ITS_OWN = frozenset(
    {"name", "displayName", "baseAddress", "addressOffset", "vendorExtensions", "isPresent"}
)


def content(element: Element) -> Any:
    """Return what an address block or register file holds, to compare it with another."""
    return [_stripped(item) for item in children(element) if local(item) not in _OF_ITS_OWN]


def _stripped(element: Element) -> Any:
    inner = [_stripped(item) for item in children(element) if local(item) != "vendorExtensions"]
    text = "" if inner else element.text or ""
    return element.tag, sorted(element.attrib.items()), text, inner
