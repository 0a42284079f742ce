"""The list of a register's fields, a row for each, its named values below it."""

from __future__ import annotations

from regwright.importing.spelled import bits as spelled_bits
from regwright.importing.tables.printing.box import title_of
from regwright.importing.tables.printing.shown import (
    Entry,
    Shown,
    printed_access,
    printed_reset,
)
from regwright.importing.tables.printing.table import Box, Printed, boxes, without_empty
from regwright.model.chip import NamedValue
from regwright.resolve.facts import FieldFacts, ReservedFacts

_HEADER = ("Bits", "Name", "Access", "Reset", "Description")


def tables(shown: Shown) -> list[Printed]:
    """Return a table for each register that has fields or reserved bits."""
    found = []
    for entry in shown.entries:
        parts: list[FieldFacts | ReservedFacts] = list(entry.facts.fields)
        parts += entry.facts.reserved
        if parts:
            found.append(_table(shown, entry, sorted(parts, key=_highest, reverse=True)))
    return found


def _highest(part: FieldFacts | ReservedFacts) -> int:
    mask = part.mask if isinstance(part, ReservedFacts) else part.layout.mask
    return mask.bit_length()


def _table(shown: Shown, entry: Entry, parts: list[FieldFacts | ReservedFacts]) -> Printed:
    title = title_of(shown, entry)
    if entry.reset:
        title += f", reset {entry.reset}"
    if entry.access and not any(_own_access(entry, part) for part in parts):
        title += f", access {entry.access}"
    if next(width for width in (8, 16, 32, 64) if width >= _highest(parts[0])) != entry.facts.width:
        title += f", {entry.facts.width} bits"
    rows = [boxes(*_HEADER)]
    marks = entry.marks
    for part in parts:
        if isinstance(part, ReservedFacts):
            bits = spelled_bits(part.reserved.bits)
            rows.append(boxes(bits, "Reserved", "", "", ""))
        else:
            rows.append(_row(entry, part, marks))
            marks = ""
            rows += [_value(value, part.layout.width) for value in part.field.values]
    return Printed(title, without_empty(rows, range(2, 4)), tuple(entry.notes))


def _own_access(entry: Entry, part: FieldFacts | ReservedFacts) -> str:
    """Return what is printed beside a field: its access where it, or the register's, is given."""
    if isinstance(part, ReservedFacts):
        return ""
    field, register = part.field, entry.facts.register
    said = (field.access, field.modified_write_value, field.read_action)
    if not any((*said, register.access, register.read_action)):
        return ""
    read = field.read_action or register.read_action or ""
    return printed_access(part.access, field.modified_write_value or "", read)


def _row(entry: Entry, part: FieldFacts, marks: str) -> list[Box]:
    field = part.field
    bits = spelled_bits(field.bits)
    reset = printed_reset(field.reset, part.layout.width)
    return boxes(bits, field.name + marks, _own_access(entry, part), reset, field.title or "")


def _value(value: NamedValue, width: int) -> list[Box]:
    digits = f"{value.value:0{width}b}" if width <= 8 else f"0x{value.value:X}"
    said = value.name + (f" - {value.title}" if value.title else "")
    return boxes("", "", "", "", f"{digits}: {said}")
