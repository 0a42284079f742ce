"""What differs between the ports, the packages and the pins of two chips.

Pins are told apart by the bit of a port that they are, others by their name; several of one name,
as of the ground, are one thing with several numbers. What a pin can do besides is compared over
all packages: a function is where it is, whatever the housing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from operator import attrgetter
from typing import NamedTuple

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.named_parts import SameParts
from regwright.compare.pairs import Matching
from regwright.compare.part_changes import Fact, Sides, documentation, named_sides
from regwright.model.chip import Chip
from regwright.model.origin import Origin
from regwright.model.packages import Package, Pin, Port
from regwright.resolve.chip import ResolvedChip
from regwright.resolve.layout import layout


class Pins(NamedTuple):
    """All pins of a package that are one thing, in the order of their numbers."""

    key: str
    pins: list[Pin]

    @property
    def origin(self) -> Origin:
        """Where the first stands."""
        return self.pins[0].origin

    @property
    def numbers(self) -> str:
        """Their numbers."""
        return ", ".join(pin.number for pin in self.pins)


class Function(NamedTuple):
    """What pins can be, and which pins those are: bits of ports, or names."""

    name: str
    pins: list[Pin]

    @property
    def origin(self) -> Origin:
        """Where the first stands."""
        return self.pins[0].origin

    @property
    def places(self) -> str:
        """Which pins it is at, in one order."""
        return ", ".join(sorted({key_of(pin) for pin in self.pins}, key=_natural))


def key_of(pin: Pin) -> str:
    """Return what a pin is known by: the bit of its port as ``B.4``, else its name."""
    return f"{pin.port.port}.{pin.port.bit}" if pin.port else pin.name


def _natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """Return what sorts 2 before 10 and A2 before A10."""
    parts = re.findall(r"\d+|\D+", text)
    return tuple((0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts)


def pin_changes(a: ResolvedChip, b: ResolvedChip, matching: Matching) -> Iterator[Change]:
    """Yield what differs between the ports, packages and pins of two chips."""
    one, other = a.chip, b.chip
    same = SameParts(a, b, matching)
    name = attrgetter("name")
    for sides in named_sides("port", one.ports, other.ports, name):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_port_facts(sides.node_a, sides.node_b, same))
        else:
            yield from sides.alone("port", _port_summary(sides.lone))
    yield from _functions(one, other)
    for sides in named_sides("package", one.packages, other.packages, name):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_package_facts(sides.node_a, sides.node_b))
            yield from _pins(sides.node_a, sides.node_b)
        else:
            yield from sides.alone("package", form(sides.lone))


def _port_facts(one: Port, other: Port, same: SameParts) -> Iterator[Fact]:
    yield "port-bits", show.bits(layout(one.bits)), show.bits(layout(other.bits))
    is_same = len(one.registers) == len(other.registers) and all(
        any(same.names(here, there) for there in other.registers) for here in one.registers
    )
    if not is_same:
        yield "port-registers", " ".join(one.registers), " ".join(other.registers)
    yield from documentation(one, other, "title", "page")


def _port_summary(port: Port) -> str:
    return ", ".join(
        part for part in (show.bits(layout(port.bits)), " ".join(port.registers)) if part
    )


def form(package: Package) -> str:
    """Return how a package is built."""
    return f"{package.arrangement}, {package.pin_count} pins"


def _package_facts(one: Package, other: Package) -> Iterator[Fact]:
    yield "package-form", form(one), form(other)
    yield from documentation(one, other, "title", "page")


def groups_of(package: Package) -> list[Pins]:
    """Return the pins of a package by what they are, in the order of their numbers."""
    found: dict[str, list[Pin]] = {}
    for pin in sorted(package.pins, key=lambda pin: _natural(pin.number)):
        found.setdefault(key_of(pin), []).append(pin)
    return [Pins(key, pins) for key, pins in found.items()]


def _pins(one: Package, other: Package) -> Iterator[Change]:
    word = f"pin {one.name}"
    for sides in named_sides(word, groups_of(one), groups_of(other), attrgetter("key")):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_pin_facts(sides.node_a, sides.node_b))
        else:
            yield from sides.alone("pin", _pins_summary(sides.lone))


def _pins_summary(found: Pins) -> str:
    return f"number {found.numbers}, {_kinds(found)}"


def _kinds(found: Pins) -> str:
    return ", ".join(dict.fromkeys(pin.kind for pin in found.pins))


def _pin_facts(one: Pins, other: Pins) -> Iterator[Fact]:
    yield "pin-number", one.numbers, other.numbers
    before, after = (", ".join(sorted({pin.name for pin in side.pins})) for side in (one, other))
    yield "pin-name", before, after
    yield "pin-kind", _kinds(one), _kinds(other)
    for kind in ("title", "page"):
        texts = [[getattr(pin, kind) for pin in side.pins] for side in (one, other)]
        before, after = (", ".join(str(text) for text in found if text) for found in texts)
        yield kind, before, after


def function_sides(a: Chip, b: Chip) -> list[Sides]:
    """Return which function is which, by name; the nodes are :class:`Function`.

    There are none when a chip describes no pins.
    """
    if not all(any(package.pins for package in chip.packages) for chip in (a, b)):
        return []
    return named_sides("function", _all_functions(a), _all_functions(b), attrgetter("name"))


def _all_functions(chip: Chip) -> list[Function]:
    found: dict[str, list[Pin]] = {}
    for package in chip.packages:
        for pin in package.pins:
            for name in pin.functions:
                found.setdefault(name, []).append(pin)
    return [Function(name, pins) for name, pins in found.items()]


def _functions(a: Chip, b: Chip) -> Iterator[Change]:
    for sides in function_sides(a, b):
        one, other = sides.node_a, sides.node_b
        if one and other:
            yield from sides.changes([("pin-function-moved", one.places, other.places)])
        else:
            yield from sides.alone("pin-function", sides.lone.places)
