"""Make a description of what the layouts have read, with every mark for review."""

from __future__ import annotations

from collections import Counter
from typing import Any

from regwright.importing import names
from regwright.importing.draft import Draft, Tree
from regwright.importing.spelled import hexadecimal
from regwright.importing.tables.addresses import Wanted, place
from regwright.importing.tables.facts import RegisterFacts
from regwright.importing.tables.merging import merge, tell_apart
from regwright.importing.tables.pairs import join_pairs
from regwright.importing.tables.registers import Writer
from regwright.importing.tables.sequence import mend
from regwright.importing.tables.slices import join_slices
from regwright.importing.tables.spaces import spaces_of

#: More registers than this are no chip's.
MOST_REGISTERS = 20_000
_MOST_INSTANCES = 256
_FIRST_COMMENT = "imported from tables; what needs a look says so as review"


def assemble(
    registers: list[RegisterFacts], chip: str, document: str, wanted: Wanted, draft: Draft
) -> None:
    """Fill ``draft`` with the description that ``registers`` make, and with its remarks."""
    mend(registers, draft)
    scheme = place(registers, wanted, draft)
    registers = merge(registers, draft)
    _list_reserved([item for item in registers if item.is_reserved], draft)
    registers = join_pairs(registers)
    real = [item for item in registers if not item.is_reserved]
    join_slices(real)
    tell_apart(real)
    spaces, windows = spaces_of(registers, scheme, draft)
    tree: Tree = {
        "comment": _FIRST_COMMENT,
        "format": 1,
        "name": _chip_name(chip),
        "document": {"title": names.line(document) or "a table"},
        "spaces": spaces,
    }
    if windows:
        tree["windows"] = windows
    widths = Counter(item.width for item in real if item.width)
    common = widths.most_common(1)[0][0] if widths else 8
    if common != 8:
        tree["width"] = common
    writer = Writer(draft, common, {space["name"] for space in spaces})
    tree["registers"] = []
    for register in real[:MOST_REGISTERS]:
        if not register.is_offset:
            origin = (None, "registers", len(tree["registers"]))
            tree["registers"].append(writer.register(register, origin))
    blocks = _blocks([item for item in real[:MOST_REGISTERS] if item.is_offset], writer)
    if blocks:
        tree["blocks"] = blocks
    draft.tree = tree


def _list_reserved(reserved: list[RegisterFacts], draft: Draft) -> None:
    """Say of each row that it has no register, or in how many of its columns."""
    rows: dict[tuple[int | None, int], list[RegisterFacts]] = {}
    for item in reserved:
        rows.setdefault((item.spot.page, item.spot.row), []).append(item)
    for items in rows.values():
        first = items[0]
        what = first.title or first.name or "a blank name"
        more = f" and {len(items) - 1} more in this row" if len(items) > 1 else ""
        draft.lose(f"{first.spot.printed}: no register, {what}{more}", first.spot.line)


def _chip_name(chip: str) -> str:
    name = names.identifier(chip, set(), 48)
    return name if name[0].isalpha() else f"N{name}"[:48]


def _blocks(registers: list[RegisterFacts], writer: Writer) -> list[dict[str, Any]]:
    """Return a block for each base; registers whose base is not printed share one, marked."""
    groups: dict[tuple[str, int | None], list[RegisterFacts]] = {}
    bases: dict[int | None, str] = {
        item.base: item.block for item in registers if item.base is not None and item.block
    }
    only = next(iter(bases)) if len(bases) == 1 else None
    for register in registers:
        base = register.base
        if base is None and not register.block:
            base = only
        name = register.block or bases.get(base, "")
        groups.setdefault((name, base), []).append(register)
    found: list[dict[str, Any]] = []
    taken: set[str] = set()
    for (name, base), members in groups.items():
        origin = (None, "blocks", len(found))
        block: dict[str, Any] = {
            "name": names.identifier(name or "BLOCK", taken, 48),
            "prefix": "",
            "base": hexadecimal(base or 0),
        }
        if base is None:
            reason = "the tables print offsets only, 0x00 stands for the base address"
            block["review"] = reason
            writer.remark(block["name"], reason, members[0].spot.line)
        if members[0].instances:
            block.pop("base")
            block["instances"] = _instances(members[0])
        writer.draft.places[origin] = (members[0].spot.line, 1)
        block["registers"] = [
            writer.register(item, (origin, "registers", index))
            for index, item in enumerate(members)
        ]
        found.append(block)
    return found


def _instances(register: RegisterFacts) -> list[dict[str, Any]]:
    """Return the places of a block that is there several times, each with its own name."""
    taken: set[str] = set()
    return [
        {"name": names.identifier(name, taken, 48), "base": hexadecimal(base)}
        for name, base in register.instances[:_MOST_INSTANCES]
    ]
