"""A register as a box: bit numbers above names above access above values after reset."""

from __future__ import annotations

from regwright.importing.spelled import hexadecimal
from regwright.importing.tables.printing.shown import (
    Entry,
    Shown,
    bit_boxes,
    halves_of,
    printed_access,
)
from regwright.importing.tables.printing.table import Box, Printed, boxes

_RESERVED_ACCESS = "-"


def _drawable(shown: Shown) -> list[Entry]:
    """Return the registers that can be drawn so: those of whole bytes."""
    return [entry for entry in shown.entries if entry.facts.width % 8 == 0]


def title_of(shown: Shown, entry: Entry) -> str:
    """Return the text above a register that says its name, address and value after reset."""
    name = entry.name + (f" - {entry.title}" if entry.title else "")
    if entry.offset is not None:
        base = entry.placed.addresses[0].value - entry.offset if entry.placed.addresses else 0
        where = f"base address {hexadecimal(base)}, offset {hexadecimal(entry.offset)}"
        return f"{name}, {where}"
    address = shown.address(entry.placed)
    return f"{name}, address {address}" if address else name


def registers(shown: Shown) -> list[Printed]:
    """Return a box for each register: a byte in a row, addresses and names at its sides."""
    return [_box(shown, entry) for entry in _drawable(shown)]


def grids(shown: Shown) -> list[Printed]:
    """Return a grid for each register: 16 bits in a row, the upper ones above."""
    return [_grid(shown, entry) for entry in _drawable(shown)]


def _grid(shown: Shown, entry: Entry) -> Printed:
    rows: list[list[Box]] = []
    headers = []
    side = entry.marked_name if entry.marks else ""
    for high in range(entry.facts.width - 1, -1, -16):
        low = max(high - 15, 0)
        headers.append(len(rows))
        rows.append(boxes("Bit", *map(str, range(high, low - 1, -1))))
        rows.append([Box("Name"), *bit_boxes(entry.facts, high, low)])
        if side:
            rows[-1].append(Box(side))
            side = ""
        rows += _below(entry, high, low, "Access", "Reset")
    return Printed(title_of(shown, entry), rows, tuple(entry.notes), tuple(headers))


def _box(shown: Shown, entry: Entry) -> Printed:
    rows: list[list[Box]] = []
    headers = []
    sides = _sides(shown, entry)
    for high in range(entry.facts.width - 1, -1, -8):
        low = high - 7
        headers.append(len(rows))
        rows.append([*boxes("Bit", *map(str, range(high, low - 1, -1))), Box("")])
        address, name = sides.pop(0) if sides else ("", "")
        rows.append([Box(address), *bit_boxes(entry.facts, high, low), Box(name)])
        below = _below(entry, high, low, "Read/Write", "Initial Value")
        rows += [[*row, Box("")] for row in below]
    title = entry.name + (f" - {entry.title}" if entry.title else "")
    if entry.offset is not None:
        title = title_of(shown, entry)
    return Printed(title, rows, tuple(entry.notes), tuple(headers))


def _sides(shown: Shown, entry: Entry) -> list[tuple[str, str]]:
    """Return the address and the name at the sides of each byte, from the highest on."""
    if entry.offset is not None:
        return []
    if entry.halves and entry.facts.width == 16:
        return [(half.address, half.name) for half in halves_of(shown, entry)]
    return [(shown.address(entry.placed), entry.marked_name)]


def _below(entry: Entry, high: int, low: int, access: str, reset: str) -> list[list[Box]]:
    """Return the rows of access and of values after reset, where the description gives them."""
    found = []
    words = _access(entry)
    if any(words.values()):
        found.append(boxes(access, *(words[bit] for bit in range(high, low - 1, -1))))
    given = entry.facts.reset if entry.facts.reset_given else None
    if given is not None:
        digits = (
            "X" if given.undefined >> bit & 1 else str(given.value >> bit & 1)
            for bit in range(high, low - 1, -1)
        )
        found.append(boxes(reset, *digits))
    return found


def _access(entry: Entry) -> dict[int, str]:
    """Return the access of each bit, nothing where the description gives none."""
    register = entry.facts.register
    given = [item.field.access or item.field.modified_write_value for item in entry.facts.fields]
    if not any([register.access, register.read_action, *given]):
        return dict.fromkeys(range(entry.facts.width), "")
    everywhere = entry.access if not entry.facts.fields else _RESERVED_ACCESS
    found = dict.fromkeys(range(entry.facts.width), everywhere)
    for item in entry.facts.fields:
        field = item.field
        read = field.read_action or register.read_action or ""
        text = printed_access(item.access, field.modified_write_value or "", read)
        for bit in range(entry.facts.width):
            if item.layout.mask >> bit & 1:
                found[bit] = text
    return found
