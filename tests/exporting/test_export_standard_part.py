"""A reader that knows only the standard finds the registers, though it drops our extensions.

The reader is regwright's own importer for the files of others. What it must find is worked out
bit by bit from the description.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest
from exported import (
    DESCRIPTIONS,
    EDITIONS,
    OWN,
    described,
    exported,
    imported,
    without_extensions,
)

from regwright.read.build import build_chip
from regwright.resolve.chip import Placed, resolve

PAIRS = [(path, edition) for path in DESCRIPTIONS for edition in EDITIONS]


class Bit(NamedTuple):
    """What is known of one bit that belongs to a field; a reset that is open is ``x``."""

    access: str
    write: str | None
    read: str | None
    is_volatile: bool
    reset: str


def bits_of(placed: Placed) -> dict[int, Bit]:
    """Return each bit that is in a field."""
    facts, found = placed.facts, {}
    for field in facts.fields:
        for piece in field.layout.pieces:
            for number in range(piece.width):
                bit = piece.register_bit + number
                reset = "x"
                if field.reset is not None:
                    at = piece.field_bit + number
                    is_open = field.reset.undefined >> at & 1
                    reset = "x" if is_open else str(field.reset.value >> at & 1)
                read = field.field.read_action or facts.register.read_action
                write, volatile = field.field.modified_write_value, bool(field.field.volatile)
                found[bit] = Bit(field.access, write, read, volatile, reset)
    return found


def registers_of(tree: dict[str, object], space: str) -> dict[int, list[tuple[object, ...]]]:
    """Return name, width, access and bits of each whole register, by its address in ``space``."""
    found: dict[int, list[tuple[object, ...]]] = {}
    for placed in resolve(build_chip(tree)).registers:
        address = placed.address(space)
        if address is not None and not placed.half:
            facts = placed.facts
            register = (facts.register.name, facts.width, facts.access, bits_of(placed))
            found.setdefault(address.value, []).append(register)
    return found


def values_of(tree: dict[str, object]) -> list[tuple[object, ...]]:
    """Return the named values of fields in one piece, with those of registers of one place."""
    found = []
    for placed in resolve(build_chip(tree)).registers:
        for item in placed.facts.fields:
            if len(item.field.bits) == 1:
                name = placed.facts.register.name
                for value in item.field.values:
                    found.append((name, item.field.name, value.name, value.value, value.usage))
    return sorted(found)


@pytest.mark.parametrize(("path", "edition"), PAIRS, ids=lambda item: getattr(item, "stem", item))
def test_registers_come_back_without_the_extensions(path: Path, edition: str) -> None:
    tree = described(path)
    space = tree["spaces"][0]["name"]
    draft = imported(without_extensions(exported(tree, edition)), space)
    assert draft.tree is not None
    wanted, found = registers_of(tree, space), registers_of(draft.tree, space)
    assert wanted
    assert found.keys() == wanted.keys()
    for address, registers in wanted.items():
        for register, other in zip(registers, found[address], strict=True):
            *facts, bits = register
            *other_facts, other_bits = other
            assert other_facts == facts
            # a register without fields has one in the standard's part
            if bits:
                assert other_bits == bits
    assert values_of(draft.tree) == values_of(tree)


#: What the standard's elements say, by the extension that must not say it again.
SAID: dict[str, set[str]] = {
    "register": {"name", "offset", "width", "access", "reset", "count", "flags", "title", "notes"},
    "field": {"bits", "access", "modifiedWriteValue", "readAction", "reset", "volatile", "title"},
    "reserved": {"bits", "write", "title"},
    "value": {"value", "usage", "title", "name"},
    "block": {"base", "offset", "size", "count", "stride", "notes"},
    "instance": {"name", "base", "title"},
    "space": {"name", "title", "unit"},
    "chip": {"name"},
}


@pytest.mark.parametrize(("path", "edition"), PAIRS, ids=lambda item: getattr(item, "stem", item))
def test_the_extensions_do_not_repeat_the_standard(path: Path, edition: str) -> None:
    root = exported(described(path), edition)
    seen = set()
    for extensions in root.iter("{*}vendorExtensions"):
        for item in extensions:
            kind = item.tag.removeprefix(OWN)
            seen.add(kind)
            assert kind != "kept"
            children = {child.tag.removeprefix(OWN) for child in item}
            assert not children & {"field", "reserved", "block"}
            repeated = SAID.get(kind, set()) & (set(item.attrib) | children)
            if extensions.getparent().find("{*}vendorExtensions/{*}instance") is not None:
                repeated -= {"name", "title"}
            # in 2014 rows have no stride of their own
            assert repeated <= ({"size"} if edition == "2014" else set())
            if kind == "register" and "address" in item.attrib:
                assert any(":" not in part for part in item.get("address").split())
    assert {"chip", "space"} <= seen


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_description_has_something_to_say_in_each_extension(edition: str) -> None:
    """The test above would hold if nothing were exported: here is what must have been seen."""
    seen = {
        item.tag.removeprefix(OWN)
        for path in DESCRIPTIONS
        for extensions in exported(described(path), edition).iter("{*}vendorExtensions")
        for item in extensions
    }
    wanted = {"chip", "space", "frame", "register", "field", "piece", "synthesized", "value"}
    assert wanted | {"block", "instance"} <= seen
