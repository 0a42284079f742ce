"""What a description's tree says of its registers, worked out apart from the program.

Only what the trees in these tests have: each space is given or seen through one window.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

Tree = dict[str, Any]
BASES = {"0x": 16, "0b": 2, "0d": 10}


class Spot(NamedTuple):
    """A register at one place of the chip.

    ``node`` is its part of the tree, that of a half for a half; ``within`` are the blocks around
    it, the outermost first; ``element`` is its number in its row, from 0.
    """

    name: str
    node: Tree
    whole: Tree
    half: str
    within: tuple[Tree, ...]
    addresses: dict[str, int]
    element: int


def number(text: str | int) -> int:
    if isinstance(text, int):
        return text
    base = BASES.get(text[:2])
    return int(text[2:].replace("_", ""), base) if base else int(text)


def reset_of(text: str | int) -> tuple[int, int]:
    """Return a reset value and its bits that are left open."""
    if isinstance(text, int) or "x" not in text[2:]:
        return number(text), 0
    digits = text[2:].replace("_", "")
    base = BASES[text[:2]]
    width = 4 if base == 16 else 1
    value = undefined = 0
    for digit in digits:
        is_open = digit == "x"
        value = value << width | (0 if is_open else int(digit, base))
        undefined = undefined << width | ((1 << width) - 1 if is_open else 0)
    return value, undefined


def bits_of(text: str | int) -> list[int]:
    """Return the bits of a field, its own bit 0 first."""
    found: list[int] = []
    for piece in str(text).split(","):
        high, _, low = piece.partition(":")
        found += range(int(high), int(low or high) - 1, -1)
    return found[::-1]


def picked(value: int, bits: list[int]) -> int:
    """Return the bits of a field in a register's value."""
    return sum((value >> bit & 1) << place for place, bit in enumerate(bits))


def shown_bits(bits: list[int]) -> str:
    """Return where bits stand, from the high end: ``bits 5,2:0``."""
    parts: list[list[int]] = []
    for bit in reversed(bits):
        if parts and parts[-1][-1] == bit + 1:
            parts[-1].append(bit)
        else:
            parts.append([bit])
    words = ",".join(str(part[0]) if len(part) == 1 else f"{part[0]}:{part[-1]}" for part in parts)
    return f"{'bit' if len(bits) == 1 else 'bits'} {words}"


def shown(value: int, width: int) -> str:
    """Return a number with two digits for each byte begun, but one for half a byte more."""
    return "0x" + f"{value:X}".zfill(max(2, (width + 3) // 4))


def shown_reset(found: tuple[int, int] | None, width: int) -> str:
    if found is None:
        return ""
    value, undefined = found
    if not undefined:
        return shown(value, width)
    bits = range(width - 1, -1, -1)
    return "0b" + "".join("x" if undefined >> bit & 1 else str(value >> bit & 1) for bit in bits)


def addresses_of(text: str | int, tree: Tree) -> dict[str, int]:
    if isinstance(text, int) or ":" not in text:
        return {tree["spaces"][0]["name"]: number(text)}
    parts = (part.split(":") for part in text.split(" "))
    return {space: number(value) for space, value in parts}


def inherited(key: str, spot: Spot, tree: Tree) -> Any:
    """Return the width or access of a register; that of a half is its register's."""
    default = {"width": 8, "access": "read-write", "byteOrder": "little"}[key]
    around = [block for block in reversed(spot.within) if key != "byteOrder"]
    return next((node[key] for node in (spot.whole, *around, tree) if key in node), default)


def width_of(spot: Spot, tree: Tree) -> int:
    width: int = inherited("width", spot, tree)
    return width // 2 if spot.half else width


def spots(tree: Tree) -> list[Spot]:
    """Return every register of ``tree``, in the order of the description, halves behind theirs."""
    found = list(_spots(tree, tree, tree.get("prefix", ""), {}, ()))
    return [spot._replace(addresses=_seen(spot.addresses, tree)) for spot in found]


def _spots(
    tree: Tree, holder: Tree, prefix: str, base: dict[str, int], within: tuple[Tree, ...]
) -> Iterator[Spot]:
    for node in holder.get("registers", ()):
        yield from _row(tree, node, prefix, base, within)
    for block in holder.get("blocks", ()):
        around = {space: value + number(block.get("offset", 0)) for space, value in base.items()}
        own = addresses_of(block["base"], tree) if "base" in block else around
        for place in block.get("instances") or [block]:
            start = addresses_of(place["base"], tree) if "base" in place else own
            for index in range(block.get("count", 1)):
                step = number(block.get("stride", block.get("size", 0))) * index
                mark = str(block.get("firstIndex", 0) + index) if "count" in block else ""
                name = f"{place['name']}{mark}_"
                if "prefix" in place:
                    name = place["prefix"] + (f"{mark}_" if mark else "")
                here = {space: value + step for space, value in start.items()}
                yield from _spots(tree, block, prefix + name, here, (*within, block))


def _row(
    tree: Tree, node: Tree, prefix: str, base: dict[str, int], within: tuple[Tree, ...]
) -> Iterator[Spot]:
    given = addresses_of(node["address"], tree) if "address" in node else {}
    if "offset" in node and not given:
        given = {space: value + number(node["offset"]) for space, value in base.items()}
    probe = Spot(node["name"], node, node, "", within, {}, 0)
    units = _units(inherited("width", probe, tree), next(iter(given), ""), tree)
    stride = number(node.get("stride", units))
    halves = node.get("halves", {})
    for index in range(node.get("count", 1)):
        mark = str(node.get("firstIndex", 0) + index) if "count" in node else ""
        here = {space: value + stride * index for space, value in given.items()}
        yield Spot(prefix + node["name"] + mark, node, node, "", within, here, index)
        for half in ("low", "high") if halves else ():
            part = halves[half]
            is_second = (half == "high") == (inherited("byteOrder", probe, tree) == "little")
            add = units // 2 if is_second else 0
            place = {space: value + add for space, value in _seen(here, tree).items()}
            if "address" in part:
                printed = addresses_of(part["address"], tree)
                place = {space: value + stride * index for space, value in printed.items()}
            yield Spot(prefix + part["name"] + mark, part, node, half, within, place, index)


def _units(width: int, space: str, tree: Tree) -> int:
    unit = next((item.get("unit", 8) for item in tree["spaces"] if item["name"] == space), 8)
    return -(-width // unit)


def _seen(addresses: dict[str, int], tree: Tree) -> dict[str, int]:
    """Return ``addresses`` and where a window shows them, in the order of the spaces."""
    found = dict(addresses)
    for window in tree.get("windows", ()):
        first, last, offset = (number(window[key]) for key in ("first", "last", "offset"))
        inside, outside = window["from"], window["into"]
        if inside in found and outside not in found and first <= found[inside] <= last:
            found[outside] = found[inside] + offset
        elif outside in found and inside not in found and first <= found[outside] - offset <= last:
            found[inside] = found[outside] - offset
    order = [space["name"] for space in tree["spaces"]]
    return {space: found[space] for space in order if space in found}


def reach_of(spot: Spot, tree: Tree) -> str:
    """Return whether single-bit instructions reach a register; nothing when there are none."""
    spans = [
        (item["from"], item["singleBit"]) for item in tree.get("windows", ()) if "singleBit" in item
    ]
    if not spans:
        return ""
    is_reached = any(
        number(span["first"]) <= spot.addresses[space] <= number(span["last"])
        for space, span in spans
        if space in spot.addresses
    )
    return "reached" if is_reached else "not reached"


def summary_of(spot: Spot, tree: Tree) -> str:
    """Return the line that says what a register is that only one chip has."""
    places = [f"{space} 0x{value:02x}" for space, value in spot.addresses.items()]
    width = width_of(spot, tree)
    bits = "1 bit" if width == 1 else f"{width} bits"
    return ", ".join([*places, bits, inherited("access", spot, tree)])
