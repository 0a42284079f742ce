"""Imports of fixtures, and outlines of what came of them: one line for each thing."""

from __future__ import annotations

import json
from pathlib import Path

from regwright.importing.draft import Draft
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.model.chip import Field, Register, Reset
from regwright.model.finding import ERROR
from regwright.pipeline import Checked, check
from regwright.read.description import deciding_validator
from regwright.read.source import Source

FIXTURES = Path(__file__).resolve().parent / "fixtures"


def imported(path: Path, wishes: Wishes | None = None) -> Draft:
    """Return the draft of a fixture; its tree is held against the schema."""
    return held(import_ieee1685(path.name, path.read_bytes(), wishes or Wishes()))


def held(draft: Draft) -> Draft:
    """Return ``draft``, whose tree must be a description."""
    if draft.tree is not None:
        assert deciding_validator().is_valid(draft.tree), json.dumps(draft.tree)[:2000]
    return draft


def checked(draft: Draft) -> Checked:
    """Return what checking the draft's description comes to."""
    assert draft.tree is not None, draft.remarks
    return check(Source("chip.json", json.dumps(draft.tree).encode(), "json"))


def outline(draft: Draft) -> list[str]:
    """Return the spaces, windows, registers, fields and remarks of a draft, a line for each."""
    lines = []
    if draft.tree is not None:
        run = checked(draft)
        assert [str(item) for item in run.findings if item.finding.level == ERROR] == []
        resolved = run.resolved
        assert resolved is not None
        chip = resolved.chip
        lines.append(f"chip {chip.name} width {chip.width} {chip.byte_order}")
        for space in chip.spaces:
            unit = f" unit {space.unit}" if space.unit != 8 else ""
            lines.append(f"space {space.name} size {space.size:#x}{unit}")
            lines += [
                f"  {region.kind} {region.name} {region.first:#x} to {region.last:#x}"
                for region in space.regions
            ]
        for window in chip.windows:
            span = f"{window.first:#x} to {window.last:#x}"
            lines.append(f"window {window.source} {span} into {window.into} + {window.offset:#x}")
        seen: set[int] = set()
        for placed in resolved.registers:
            at = " ".join(f"{item.space}:{item.value:#x}" for item in placed.addresses)
            lines.append(f"{at} {placed.name} {placed.facts.width} {placed.facts.access}")
            if id(placed.register) not in seen:
                seen.add(id(placed.register))
                lines += _details(placed.register)
    lines += [
        f"! {remark.level} {remark.rule} {remark.file or 'line'}:{remark.line}"
        for remark in draft.remarks
    ]
    return lines


def _details(register: Register) -> list[str]:
    lines = []
    if register.reset is not None:
        lines.append(f"  reset {_reset(register.reset)}")
    lines += [_field(field) for field in register.fields]
    for reserved in register.reserved:
        ends = reserved.bits[0]
        lines.append(f"  reserved {ends.high}:{ends.low} {reserved.title}")
    lines += [f"  silent {item.rule}" for item in register.silences]
    return lines


def _field(field: Field) -> str:
    ends = field.bits[0]
    words = [
        f"  {field.name} {ends.high}:{ends.low}",
        field.access or "",
        f"write {field.modified_write_value}" if field.modified_write_value else "",
        f"read {field.read_action}" if field.read_action else "",
        f"reset {_reset(field.reset)}" if field.reset else "",
        "volatile" if field.volatile else "",
        "complete" if field.values_complete else "",
    ]
    words += [
        f"{value.name}={value.value}{'' if value.usage == 'read-write' else ' ' + value.usage}"
        for value in field.values
    ]
    return " ".join(word for word in words if word)


def _reset(reset: Reset) -> str:
    return f"{reset.value:#x}" + (f" but {reset.undefined:#x}" if reset.undefined else "")
