"""A map of addresses: a row for each base and a column for each low digit, or for each bank."""

from __future__ import annotations

import re
from itertools import pairwise

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Cell, Row
from regwright.importing.tables.facts import RegisterFacts, spot
from regwright.importing.tables.headers import Bank, Header
from regwright.importing.tables.layouts.widths import misfit
from regwright.importing.tables.notation import Number, is_nothing, strip_marks
from regwright.importing.tables.printed_address import PrintedAddress, Span, printed_address
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote

_NAME_AND_RESET = re.compile(r"(\S+) ([01xX]{8})")


def read(section: Section) -> list[RegisterFacts]:
    """Return the registers in the order of their rows."""
    notes = footnotes(section)
    rows = [
        (head, row, _base(head, row))
        for head, row in section.rows
        if not row.is_blank and not is_footnote(alone(row))
    ]
    factor, doubt = _factor([base.first.first.value for _, _, base in rows if base], rows)
    found: list[RegisterFacts] = []
    for head, row, base in rows:
        if base is None:
            found += _without_base(head, row)
            continue
        in_row = _in_row(head, row, base, factor)
        wrong = misfit(head, row, is_matrix=True)
        if row.doubt and not in_row:
            section.doubts.append((row.line, f"row {row.number}: {row.doubt}: {row.raw[:80]!r}"))
        for register in in_row:
            register.review(doubt)
            register.review(row.doubt)
            register.review(wrong)
            register.notes = [notes[mark] for mark in register.marks if mark in notes]
            found.append(register)
    return found


def _base(head: Header, row: Row) -> PrintedAddress | None:
    column = head.roles.get(headers.ADDRESS, head.roles.get(headers.OFFSET))
    first = min([*head.digits, *head.banks])
    for at in [column] if column is not None else range(first):
        cell = row.at(at)
        if cell is not None and (found := printed_address(cell.text)):
            return found
    return None


def _factor(
    bases: list[int], rows: list[tuple[Header, Row, PrintedAddress | None]]
) -> tuple[int, str]:
    """Return what a base must be multiplied with: 16 when only the high digit is printed."""
    digits = len(rows[0][0].digits) if rows else 0
    if digits != 16:
        return 1, ""
    steps = {after - before for before, after in pairwise(bases)}
    if all(base % 16 == 0 for base in bases) and bases != [0]:
        return 1, ""
    if steps and all(0 < step < 16 for step in steps):
        return 16, ""
    return 1, "" if bases == [0] else "the base of its row does not end in 0; look at the address"


def _without_base(head: Header, row: Row) -> list[RegisterFacts]:
    """Return the registers of a row without a base, each marked: they have no address."""
    found = []
    for column in (*head.digits, *head.banks):
        cell = row.at(column)
        if cell is not None and cell.text and not is_nothing(cell.text) and " " not in cell.text:
            name, marks = strip_marks(cell.text)
            register = RegisterFacts(name, spot(row, cell.raw), marks=marks, width=8)
            register.review("its row has no base address")
            found.append(register)
    return found


def _in_row(head: Header, row: Row, base: PrintedAddress, factor: int) -> list[RegisterFacts]:
    found = []
    done: list[Cell] = []
    for column in sorted({*head.digits, *head.banks}):
        cell = row.at(column)
        if cell is None or not cell.text or any(cell is other for other in done):
            continue
        done.append(cell)
        text, reset = _parted(cell.text)
        name, marks = strip_marks(text)
        label = head.row.at(column)
        raw = f"{row.cells[0].raw} | {label.raw if label else ''}: {cell.raw}"
        register = RegisterFacts(name, spot(row, raw), marks=marks, width=8)
        register.is_reserved = is_nothing(name) or " " in name
        register.title = name if " " in name else ""
        register.reset = reset
        if column in head.banks:
            has_bases = any(bank.base is not None for bank in head.banks.values())
            _place_in_bank(register, base, head.banks[column], has_bases=has_bases)
        else:
            register.address = _moved(base, factor, head.digits[column], cell.span)
            _note_span(register, cell)
        register.is_offset = headers.OFFSET in head.roles
        for doubt in base.doubts:
            register.review(doubt)
        found.append(register)
    return found


def _parted(text: str) -> tuple[str, str]:
    """Return the name in a cell and the value after reset beneath it: ``P0 11111111``."""
    found = _NAME_AND_RESET.fullmatch(text)
    return (found[1], found[2]) if found else (text, "")


def _note_span(register: RegisterFacts, cell: Cell) -> None:
    if cell.span > 1 and not register.is_reserved:
        if cell.span in (2, 4, 8):
            register.width = 8 * cell.span
        register.review(f"its cell covers {cell.span} addresses: is it as wide as that?")


def _place_in_bank(
    register: RegisterFacts, base: PrintedAddress, bank: Bank, *, has_bases: bool
) -> None:
    """Give a register its address in a bank: absolute where banks say where they start."""
    if bank.base is None and not has_bases:
        register.address = base
        register.space = f"bank{bank.number}"
        return
    moved = base.first.first.value + (bank.base or 0)
    end = Number(moved, "hex", f"{moved:X}")
    register.address = PrintedAddress(Span(end, end))


def _moved(base: PrintedAddress, factor: int, digit: int, span: int) -> PrintedAddress:
    def at(item: Span | None) -> Span | None:
        if item is None:
            return None
        first = item.first.value * factor + digit
        ends = (Number(value, "hex", f"{value:X}") for value in (first, first + span - 1))
        return Span(*ends)

    return PrintedAddress(at(base.outer), at(base.inner), base.doubts)
