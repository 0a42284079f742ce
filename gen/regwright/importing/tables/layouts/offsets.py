"""The summary of a block: offsets, and a row for each byte of a wide register."""

from __future__ import annotations

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Row
from regwright.importing.tables.facts import RegisterFacts, spot
from regwright.importing.tables.headers import Header
from regwright.importing.tables.layouts.bits import read_bits, uses_dashes
from regwright.importing.tables.layouts.summary import page_number
from regwright.importing.tables.notation import bit_range, is_nothing, strip_marks
from regwright.importing.tables.printed_address import printed_address
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote
from regwright.importing.tables.titles import Title, title_of


def read(section: Section) -> list[RegisterFacts]:
    """Return the registers, each of all the bytes that are printed of it."""
    notes = footnotes(section)
    dashes = uses_dashes([(head.bits, row) for head, row in section.rows])
    said = title_of(section.title)
    found: list[RegisterFacts] = []
    labels: list[list[tuple[int, int]]] = []
    for head, row in section.rows:
        if row.is_blank or is_footnote(alone(row)):
            continue
        texts = {role: _own(row, column) for role, column in head.roles.items()}
        if _starts(texts):
            register = _register(texts, row, said)
            register.notes = [notes[mark] for mark in register.marks if mark in notes]
            found.append(register)
            labels.append([])
        elif not found:
            continue
        else:
            found[-1].review(row.doubt)
        _read_byte(found[-1], row, head, texts, labels[-1], dashes=dashes)
    for register, printed in zip(found, labels, strict=True):
        _finish(register, printed)
    return found


def _own(row: Row, column: int) -> str:
    """Return what a column says, unless it is the lower part of a merged cell."""
    cell = row.at(column)
    return "" if cell is None or cell.continued else cell.text


def _starts(texts: dict[str, str]) -> bool:
    place = texts.get(headers.OFFSET) or texts.get(headers.ADDRESS) or ""
    return bool(place or texts.get(headers.NAME))


def _register(texts: dict[str, str], row: Row, said: Title) -> RegisterFacts:
    name, marks = strip_marks(texts.get(headers.NAME, ""))
    printed = texts.get(headers.OFFSET) or texts.get(headers.ADDRESS) or ""
    register = RegisterFacts(name, spot(row), printed_address(printed), marks=marks)
    register.is_offset = headers.OFFSET in texts
    register.block, register.base = said.name, said.base
    register.is_reserved = not name or is_nothing(name)
    register.access = texts.get(headers.ACCESS, "")
    register.reset = texts.get(headers.RESET, "")
    register.page = page_number(texts.get(headers.PAGE, ""))
    register.title = texts.get(headers.DESCRIPTION, "")
    register.review(row.doubt)
    for doubt in register.address.doubts if register.address else ():
        register.review(doubt)
    if register.address is None and not register.is_reserved:
        register.review(f"the offset {printed!r} could not be read" if printed else "no offset")
    return register


def _read_byte(
    register: RegisterFacts,
    row: Row,
    head: Header,
    texts: dict[str, str],
    labels: list[tuple[int, int]],
    *,
    dashes: bool,
) -> None:
    """Add the bits of one row; its label says which byte of the register it is."""
    text = texts.get(headers.BIT_POSITION, "")
    label = bit_range(text) if text else None
    if label is None and not any(row.at(column) and _text(row, column) for column in head.bits):
        return
    if label is None:
        if text or labels:
            register.review(f"row {row.number} does not say which bits it is of")
            return
        label = (head.width - 1, 0)
    if label[0] - label[1] + 1 != head.width:
        register.review(f"row {row.number} is of {text}, but the table has {head.width} columns")
        return
    if label in labels:
        register.review(f"the bits {text} are printed twice")
        return
    labels.append(label)
    if not register.is_reserved:
        bits = {column: bit + label[1] for column, bit in head.bits.items()}
        read_bits(register, row, bits, dashes=dashes)


def _text(row: Row, column: int) -> str:
    cell = row.at(column)
    return cell.text if cell else ""


def _finish(register: RegisterFacts, labels: list[tuple[int, int]]) -> None:
    """Work out the width; say when bytes are missing between those that are printed."""
    highest = max((high for high, _ in labels), default=7)
    register.width = next(width for width in (8, 16, 32, 64) if width > highest)
    covered = sum(high - low + 1 for high, low in labels)
    if labels and covered != highest + 1:
        register.review("not all of its bytes are printed")
    if highest + 1 not in (8, 16, 32, 64):
        register.review(f"{highest + 1} bits are printed; taken as {register.width} bits wide")
