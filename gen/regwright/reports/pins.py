"""What a pin is, in lines for a terminal and as data."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from typing import Any

from regwright.model.packages import Package, Pin
from regwright.model.words import visible
from regwright.pins.lookup import FoundBit, FoundPin, RegisterBit
from regwright.pins.text import without_functions
from regwright.reports.pieces import HEADING, PLAIN, QUIET, Line, Piece

#: What each kind of pin is called.
KINDS = {
    "io": "input and output",
    "supply": "supply",
    "ground": "ground",
    "reset": "reset",
    "clock": "clock",
    "analog": "analog",
    "unconnected": "not connected",
}
CAUTION = (
    "Check pins against the datasheet of your package: a wrong one can damage the chip and what is "
    "connected to it."
)


def pin_lines(chip: str, found: FoundPin) -> Iterator[Line]:
    """Yield what ``found``, a pin of ``chip``, is."""
    pin = found.pin
    head = f"{chip}, {found.package.name}: pin {pin.number}, {pin.name}"
    yield [Piece(HEADING, visible(head))]
    yield from _aligned(_facts(found))


def function_lines(package: Package) -> Iterator[Line]:
    """Yield the number, name and functions of each pin that the drawing shows by name only."""
    pins = without_functions(package)
    if not pins:
        return
    yield []
    yield [Piece(HEADING, "Functions of the pins that have only a name above")]
    numbers = max(len(pin.number) for pin in pins)
    rows = ((f"{pin.number:>{numbers}}  {pin.name}", _functions(pin)) for pin in pins)
    yield from _aligned(rows)


def _functions(pin: Pin) -> str:
    """Return the bit of a port that ``pin`` is, and its functions."""
    bit = [f"{pin.port.port}.{pin.port.bit}"] if pin.port else []
    return " ".join([*bit, *pin.functions])


def bit_lines(chip: str, found: FoundBit) -> Iterator[Line]:
    """Yield where the bit of a port of ``chip`` is: its pins, and the registers it stands in."""
    head = f"{chip}: bit {found.bit} of port {found.port.name}"
    yield [Piece(HEADING, visible(head))]
    rows = []
    for item in found.pins:
        pin = item.pin
        names = " ".join([pin.name, *pin.functions])
        rows.append((f"pin {pin.number}", f"{names} ({item.package.name})"))
    rows = rows or [("pin", "none: no package described has one for it")]
    yield from _aligned([*rows, *map(_register, found.bits)])


def _facts(found: FoundPin) -> Iterator[tuple[str, str]]:
    pin = found.pin
    kind = KINDS[pin.kind]
    yield "kind", f"{kind}; {pin.title}" if pin.title else kind
    if pin.functions:
        yield "functions", " ".join(pin.functions)
    if pin.port:
        yield "port bit", f"{pin.port.port}.{pin.port.bit}"
    yield from map(_register, found.bits)
    page = pin.page or found.package.page
    if page:
        yield "page", str(page)


def _register(item: RegisterBit) -> tuple[str, str]:
    placed = item.placed
    text = f"bit {item.bit}"
    if item.field is not None:
        field = item.field.field
        text += f", {field.name}"
        if field.title:
            text += f": {field.title}"
    elif placed.register.title:
        text += f", {placed.register.title}"
    return placed.name, text


def _aligned(rows: Iterable[tuple[str, str]]) -> Iterator[Line]:
    table = [(visible(name), visible(text)) for name, text in rows]
    width = max((len(name) for name, _ in table), default=0)
    for name, text in table:
        yield [Piece(QUIET, f"  {name:{width}}  "), Piece(PLAIN, text)]


def pins_json(chip: str, pins: Iterable[FoundPin], bit: FoundBit | None = None) -> str:
    """Return pins of ``chip``, and the bit of a port that was asked for, as JSON."""
    data: dict[str, Any] = {"schema": "urn:regwright:pins:1", "chip": chip}
    if bit is not None:
        data["bit"] = {
            "port": bit.port.name,
            "bit": bit.bit,
            "registers": [_register_data(item) for item in bit.bits],
        }
    data["pins"] = [_pin_data(item) for item in pins]
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def _pin_data(found: FoundPin) -> dict[str, Any]:
    pin: Pin = found.pin
    data: dict[str, Any] = {
        "package": found.package.name,
        "number": pin.number,
        "name": pin.name,
        "kind": pin.kind,
        "functions": list(pin.functions),
        "registers": [_register_data(item) for item in found.bits],
    }
    if pin.port:
        data["port"] = {"name": pin.port.port, "bit": pin.port.bit}
    if pin.title:
        data["title"] = pin.title
    return data


def _register_data(item: RegisterBit) -> dict[str, Any]:
    data: dict[str, Any] = {"register": item.placed.name, "bit": item.bit}
    if item.field is not None:
        data["field"] = item.field.field.name
    return data
