"""Ports, pins, signatures of two chips and exactly what differs, worked out by hand."""

from __future__ import annotations

from typing import Any

from memory_cases import both
from register_cases import Rows
from small_chips import Tree, chip, register

from regwright.resolve.chip import ResolvedChip

PORT: Tree = {"name": "A", "bits": "3:0", "registers": "OUT"}
OUT = register("OUT", 0x100, title="Outputs of port A")


def port(**more: Any) -> ResolvedChip:
    return chip(OUT, ports=[{**PORT, **more}])


def package(*pins: tuple[Any, ...], name: str = "DUAL4", **more: Any) -> ResolvedChip:
    """Return a package with pins: number, name, bit of port A or nothing, functions, and more."""
    made = []
    for number, own, bit, functions, *rest in pins:
        pin: Tree = {"number": str(number), "name": own, **(rest[0] if rest else {})}
        pin |= {"port": f"A.{bit}"} if bit is not None else {}
        made.append({**pin, **({"functions": functions} if functions else {})})
    form = {"name": name, "arrangement": "dual", "pinCount": 4, "pins": made, **more}
    return chip(OUT, ports=[PORT], packages=[form])


GND = ("GND", None, "", {"kind": "ground"})
SMALL = (1, "A0", 0, "RXD LED"), (2, *GND), (3, "A1", 1, "TXD"), (4, *GND)
PINS: list[tuple[ResolvedChip, ResolvedChip, Rows]] = [
    (port(), chip(OUT), [("port-only-in-a", "port A", "", "bits 3:0, OUT", "")]),
    (port(), port(bits="7,3:0"), both("port A", "port-bits", "bits 3:0", "bits 7,3:0")),
    (port(), port(registers="OUT IN"), both("port A", "port-registers", "OUT", "OUT IN")),
    (
        port(),
        chip(
            register("LATCH", 0x100, title="Outputs of port A"),
            ports=[{**PORT, "registers": "LATCH"}],
        ),
        [("register-renamed", "OUT", "LATCH", "OUT", "LATCH")],
    ),
    (
        port(title="T"),
        port(page=2),
        [*both("port A", "title", "T", ""), *both("port A", "page", "", "2")],
    ),
    (
        *(package(*SMALL), port()),
        [("package-only-in-a", "package DUAL4", "", "dual, 4 pins", "")],
    ),
    (
        package(*SMALL),
        package(*SMALL, arrangement="quad", pinCount=8, title="T"),
        [
            *both("package DUAL4", "package-form", "dual, 4 pins", "quad, 8 pins"),
            *both("package DUAL4", "title", "", "T"),
        ],
    ),
    # in another package the numbers are others anyway; what is at a pin is not
    (
        package(*SMALL),
        package((1, "A0", 0, "TXD"), (2, "A1", 1, "RXD LED"), name="DUAL2"),
        [
            *both("function RXD", "pin-function-moved", "A.0", "A.1"),
            *both("function LED", "pin-function-moved", "A.0", "A.1"),
            *both("function TXD", "pin-function-moved", "A.1", "A.0"),
            ("package-only-in-a", "package DUAL4", "", "dual, 4 pins", ""),
            ("package-only-in-b", "", "package DUAL2", "", "dual, 4 pins"),
        ],
    ),
    (
        *(package(*SMALL), package((1, "A0", 0, "RXD"), *SMALL[1:])),
        [("pin-function-only-in-a", "function LED", "", "A.0", "")],
    ),
    # both grounds moved, and the pins between
    (
        package(*SMALL),
        package((1, *GND), (2, "A0", 0, "RXD LED"), (3, *GND), (10, "A1", 1, "TXD")),
        [
            *both("pin DUAL4 A.0", "pin-number", "1", "2"),
            *both("pin DUAL4 GND", "pin-number", "2, 4", "1, 3"),
            *both("pin DUAL4 A.1", "pin-number", "3", "10"),
        ],
    ),
    (
        *(package(*SMALL), package(*SMALL[:3])),
        both("pin DUAL4 GND", "pin-number", "2, 4", "2"),
    ),
    (
        *(package(*SMALL[:3]), package(*SMALL[:3], (4, "NC", None, "", {"kind": "unconnected"}))),
        [("pin-only-in-b", "", "pin DUAL4 NC", "", "number 4, unconnected")],
    ),
    (
        package(*SMALL),
        package((1, "PA0", 0, "RXD LED", {"title": "T", "page": 4}), *SMALL[1:]),
        [
            *both("pin DUAL4 A.0", "pin-name", "A0", "PA0"),
            *both("pin DUAL4 A.0", "title", "", "T"),
            *both("pin DUAL4 A.0", "page", "", "4"),
        ],
    ),
    (
        package((1, "AREF", None, "")),
        package((1, "AREF", None, "", {"kind": "analog"})),
        both("pin DUAL4 AREF", "pin-kind", "io", "analog"),
    ),
    (
        chip(identity={"signature": "0x5A 0x14", "page": 1}),
        chip(identity={"signature": "0x5A 0x15", "page": 2, "space": "data", "address": "0x3F0"}),
        [
            *both("identity", "signature", "0x5A 0x14", "0x5A 0x15"),
            *both("identity", "signature-place", "", "data 0x3F0"),
            *both("identity", "page", "1", "2"),
        ],
    ),
    (
        *(chip(), chip(identity={"signature": "0x5A"})),
        [("signature", "", "identity", "", "0x5A")],
    ),
    (
        chip(build={"target": "t1", "instructionSet": "i1"}),
        chip(build={"target": "t2", "programmerPart": "p"}),
        [
            *both("build", "build-target", "t1", "t2"),
            *both("build", "instruction-set", "i1", ""),
            *both("build", "programmer-part", "", "p"),
        ],
    ),
]
