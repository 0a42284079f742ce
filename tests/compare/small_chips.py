"""Small chips for hand-worked comparisons, and how their pairs and changes are written in tests."""

from __future__ import annotations

import json
from typing import Any

from regwright.compare.differences import compare
from regwright.compare.matching import match
from regwright.compare.pins import NO_PINS, Pins
from regwright.read.description import read_description
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip, resolve

Tree = dict[str, Any]

#: An 8-bit core as there are many: the lower I/O registers are in reach of single-bit instructions.
SPACES: list[Tree] = [
    {"name": "data", "size": "0x0400"},
    {"name": "io", "size": "0x40", "pointer": False},
]
WINDOWS: list[Tree] = [
    {
        **{"from": "io", "first": "0x00", "last": "0x3F", "into": "data", "offset": "0x20"},
        "singleBit": {"first": "0x00", "last": "0x1F"},
    }
]


def resolved(tree: Tree) -> ResolvedChip:
    """Return the chip that ``tree`` describes."""
    reading = read_description(Source("chip.json", json.dumps(tree).encode(), "json"))
    assert reading.chip is not None, reading.findings
    return resolve(reading.chip)


def chip(*registers: Tree, **more: Any) -> ResolvedChip:
    """Return a chip of ``registers``; ``more`` are properties of the chip."""
    found: Tree = {"format": 1, "name": "chip", "spaces": SPACES, "windows": WINDOWS}
    return resolved({**found, "registers": list(registers), **more})


def register(name: str, address: int | None = None, **more: Any) -> Tree:
    """Return a register; ``address`` is in data space."""
    place = {} if address is None else {"address": f"data:{address:#x}"}
    return {"name": name, **place, **more}


def field(name: str, bits: str | int, **more: Any) -> Tree:
    return {"name": name, "bits": str(bits), **more}


def flags(*names: str) -> list[Tree]:
    """Return fields of one bit each, from bit 0 up."""
    return [field(name, bit) for bit, name in enumerate(names)]


Row = tuple[str, str, str]


def pairs(a: ResolvedChip, b: ResolvedChip, pins: Pins = NO_PINS) -> list[Row]:
    """Return the registers that are pairs, with the reason, and those alone with none."""
    found = [
        (one.name if one else "", other.name if other else "", why)
        for one, other, why in match(a, b, pins).registers
    ]
    mirrored = match(b, a, pins.mirrored()).registers
    back = [(b.name if b else "", a.name if a else "", why) for a, b, why in mirrored]
    assert sorted(found) == sorted(back)
    return found


def field_pairs(a: ResolvedChip, b: ResolvedChip, pins: Pins = NO_PINS) -> list[Row]:
    """Return the fields that are pairs, with the reason, and those alone with none."""
    found = [
        (one.name if one else "", other.name if other else "", why)
        for one, other, why in match(a, b, pins).fields
    ]
    mirrored = match(b, a, pins.mirrored()).fields
    back = [(b.name if b else "", a.name if a else "", why) for a, b, why in mirrored]
    assert sorted(found) == sorted(back)
    return found


def differences(a: ResolvedChip, b: ResolvedChip, pins: Pins = NO_PINS) -> list[tuple[str, ...]]:
    """Return what differs: kind, what it is about in either chip, before and after."""
    return [change[:5] for change in compare(a, b, pins).changes]
