"""Which macros a description implies, worked out from the file alone.

Nothing of the program is used: this reads the JSON or XML with the standard library, so that the
two can be held against each other.
"""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from implied_parts import besides_registers

Node = dict[str, Any]
#: Elements that stand once in their parent; all others stand in lists.
SINGLE = {"halves", "low", "high", "singleBit", "document"}
SINGLE |= {"vectorTable", "configuration", "clock", "identity", "build"}
#: Lists that are not called like their elements with an s.
LISTS = {"reserved": "reserved", "unused": "unused", "memory": "memories"}

#: Attributes whose names mean a whole number here and something else in other elements.
WHOLE = {"chip": {"intWidth"}, "instruction": {"address", "bit", "value"}}


class Implied(NamedTuple):
    """Numbers with their values, and the names of the macros that only C can use."""

    numbers: dict[str, int]
    code: set[str]


class Place(NamedTuple):
    """What a register inherits from where it stands."""

    prefix: str
    base: dict[str, int]
    width: int
    access: str


def load(path: Path) -> Node:
    """Return the description as dictionaries and lists, whichever way it is spelled."""
    if path.suffix == ".json":
        return json.loads(path.read_text(encoding="utf-8"))
    return _node(ET.parse(path).getroot())


def _node(element: ET.Element) -> Node:
    whole = WHOLE.get(element.tag, ())
    node: Node = {
        key: int(value) if key in whole else value
        for key, value in element.attrib.items()
        if "}" not in key
    }
    for child in element:
        if child.tag in SINGLE:
            node[child.tag] = _node(child)
        elif child.tag != "notes":
            key = LISTS.get(child.tag, child.tag + "s")
            node.setdefault(key, []).append(_node(child))
    return node


def number(text: str | int) -> int:
    """Read ``0x1F``, ``0b1``, ``0d31`` or ``7``."""
    return int(str(text).removeprefix("0d").replace("_", ""), 0)


def bits_of(text: str | int) -> list[int]:
    """Return the register bit of each bit of a field, its own bit 0 first."""
    places: list[int] = []
    for part in str(text).split(","):
        high, _, low = part.partition(":")
        places += range(int(high), int(low or high) - 1, -1)
    return places[::-1]


def moved(places: list[int], value: int) -> int:
    """Return ``value`` with each of its bits moved to where the field has it."""
    return sum((value >> index & 1) << place for index, place in enumerate(places))


def reset_of(text: str | int, width: int) -> tuple[int, int]:
    """Return a reset value and which of its bits are undefined."""
    text = str(text).replace("_", "")
    if "x" not in text[2:]:
        return number(text), 0
    bits = text[2:]
    if text[1] == "x":
        bits = "".join("xxxx" if digit == "x" else f"{int(digit, 16):04b}" for digit in bits)
    undefined = int("".join("1" if bit == "x" else "0" for bit in bits), 2)
    return int(bits.replace("x", "0"), 2), undefined & ((1 << width) - 1)


class Reader:
    """Collects what one description implies."""

    def __init__(self, chip: Node, prefix: str) -> None:
        self.chip = chip
        self.spaces = {space["name"]: space for space in chip["spaces"]}
        self.numbers: dict[str, int] = {}
        self.code: set[str] = set()
        upper = chip["name"].upper()
        self.upper = upper
        self.numbers[f"REGWRIGHT_CHIP_{upper}"] = 1
        if chip.get("kind", "chip") == "chip":
            self.numbers["REGWRIGHT_CHIP"] = 1
        place = Place(
            prefix + chip.get("prefix", ""),
            {},
            int(chip.get("width", 8)),
            chip.get("access", "read-write"),
        )
        self.group(chip, place)

    def unit(self, space: str) -> int:
        return int(self.spaces[space].get("unit", 8))

    def addresses(self, text: str | int) -> dict[str, int]:
        parts = [part.rpartition(":") for part in str(text).split()]
        return {space or self.chip["spaces"][0]["name"]: number(value) for space, _, value in parts}

    def everywhere(self, known: dict[str, int]) -> dict[str, int]:
        """Return the addresses with those seen through windows."""
        found = dict(known)
        for window in self.chip.get("windows", []) * 2:
            inner, outer, offset = window["from"], window["into"], number(window["offset"])
            span = range(number(window["first"]), number(window["last"]) + 1)
            if found.get(inner) in span:
                found.setdefault(outer, found[inner] + offset)
            if found.get(outer, -1) - offset in span:
                found.setdefault(inner, found[outer] - offset)
        return found

    def group(self, node: Node, place: Place) -> None:
        for register in node.get("registers", []):
            self.row(register, place)
        for block in node.get("blocks", []):
            base = {space: at + number(block.get("offset", 0)) for space, at in place.base.items()}
            for one in block.get("instances", [block]):
                start = self.addresses(one["base"]) if "base" in one else base
                for text, step in elements(block, 0):
                    own = one["name"] + text + "_"
                    if "prefix" in one:
                        own = one["prefix"] + (text and text + "_")
                    here = {space: at + step for space, at in start.items()}
                    width = int(block.get("width", place.width))
                    self.group(
                        block,
                        Place(place.prefix + own, here, width, block.get("access", place.access)),
                    )

    def row(self, register: Node, place: Place) -> None:
        width = int(register.get("width", place.width))
        if "address" in register:
            start = self.addresses(register["address"])
        else:
            offset = number(register["offset"])
            start = {space: at + offset for space, at in place.base.items()}
        units = -(-width // self.unit(next(iter(start))))
        for text, step in elements(register, units):
            here = self.everywhere({space: at + step for space, at in start.items()})
            name = place.prefix + register["name"] + text
            way = "READ" if register.get("access", place.access) == "read-only" else "REG"
            self.register(name, width, here, self.reset(register, width), way)
            self.fields(name, register, way)
            if "halves" in register:
                self.halves(name, register, place.prefix, text, here, width, step, way)

    def reset(self, register: Node, width: int) -> tuple[int, int] | None:
        if "reset" in register:
            return reset_of(register["reset"], width)
        value = known = 0
        for field in register.get("fields", []):
            if "reset" in field:
                places = bits_of(field["bits"])
                own, undefined = reset_of(field["reset"], len(places))
                value |= moved(places, own)
                known |= moved(places, ~undefined)
        return (value, (1 << width) - 1 & ~known) if known else None

    def pointer_width(self, width: int, here: dict[str, int]) -> int | None:
        for space in self.chip["spaces"]:
            if space.get("pointer", True) in (True, "true"):
                taken = -(-width // self.unit(space["name"])) * self.unit(space["name"])
                return taken if space["name"] in here and taken in (8, 16, 32, 64) else None
        return None

    def register(
        self, name: str, width: int, here: dict[str, int], reset: tuple[int, int] | None, way: str
    ) -> None:
        for space, at in here.items():
            self.numbers[f"{name}_{space.upper()}_ADDR"] = at
        spans = [
            (item["from"], item["singleBit"])
            for item in self.chip.get("windows", [])
            if "singleBit" in item
        ]
        if spans:
            self.numbers[f"{name}_SINGLE_BIT"] = int(
                any(
                    number(span["first"]) <= here.get(space, -1) <= number(span["last"])
                    for space, span in spans
                )
            )
        if reset is not None:
            self.numbers[f"{name}_RESET"] = reset[0]
            if reset[1]:
                self.numbers[f"{name}_RESET_DEFINED"] = (1 << width) - 1 - reset[1]
        taken = self.pointer_width(width, here)
        if taken:
            self.code |= {name, f"{self.upper}_{way}{taken}"}

    def fields(self, name: str, register: Node, way: str) -> None:
        fields = list(register.get("fields", []))
        flags = str(register.get("flags", "")).split()
        fields += [
            {"name": flag, "bits": len(flags) - 1 - index}
            for index, flag in enumerate(flags)
            if flag != "-"
        ]
        for field in fields:
            stem = f"{name}_{field['name']}_"
            places = bits_of(field["bits"])
            self.numbers[stem + "BITPOS"] = places[0]
            self.numbers[stem + "MASK"] = sum(1 << place for place in places)
            for value in field.get("values", []):
                self.numbers[stem + value["name"]] = moved(places, number(value["value"]))
            if len(places) > 1:
                self.code |= {stem + "EXTRACT", stem + "INSERT"}
            if field.get("modifiedWriteValue") in ("oneToClear", "zeroToClear"):
                self.code.add(stem + "TO_CLEAR")
                if name in self.code and way == "REG":
                    self.code.add(stem + "CLEAR")

    def halves(
        self,
        name: str,
        register: Node,
        prefix: str,
        text: str,
        here: dict[str, int],
        width: int,
        step: int,
        way: str,
    ) -> None:
        halves, half = register["halves"], width // 2
        reset = self.reset(register, width)
        is_big = register.get("byteOrder", self.chip.get("byteOrder", "little")) == "big"
        for side, shift in (("low", 0), ("high", half)):
            further = -(-half // self.unit(next(iter(here)))) if (side == "high") != is_big else 0
            own = {space: at + further for space, at in here.items()}
            if "address" in halves[side]:
                printed = self.addresses(halves[side]["address"])
                own = self.everywhere({space: at + step for space, at in printed.items()})
            ones = (1 << half) - 1
            part = reset and (reset[0] >> shift & ones, reset[1] >> shift & ones)
            self.register(prefix + halves[side]["name"] + text, half, own, part, way)
        if all(prefix + halves[side]["name"] + text in self.code for side in ("low", "high")):
            self.code |= {f"{name}_READ_INTO"} if "readFirst" in halves else set()
            self.code |= {f"{name}_WRITE"} if "writeFirst" in halves else set()


def elements(node: Node, closely: int) -> Iterator[tuple[str, int]]:
    """Yield the number and the distance of each element of a row, or of the only one."""
    if "count" not in node:
        yield "", 0
        return
    stride = number(node.get("stride", node.get("size", closely)))
    for index in range(int(node["count"])):
        yield str(int(node.get("firstIndex", 0)) + index), index * stride


def implied(chip: Node, prefix: str = "") -> Implied:
    """Return the macros that the description ``chip`` implies."""
    reader = Reader(chip, prefix)
    numbers, code = besides_registers(chip, prefix)
    return Implied(reader.numbers | numbers, reader.code | code)
