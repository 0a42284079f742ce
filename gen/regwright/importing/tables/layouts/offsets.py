"""The summary of a block: offsets, and a row for each byte of a wide register."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Row
from regwright.importing.tables.facts import RegisterFacts, spot
from regwright.importing.tables.headers import Header
from regwright.importing.tables.layouts.bits import read_bits, uses_dashes
from regwright.importing.tables.layouts.resets import value_of_bits
from regwright.importing.tables.layouts.summary import base_apart
from regwright.importing.tables.layouts.widths import before_bits, misfit
from regwright.importing.tables.notation import bit_range, is_nothing, strip_marks
from regwright.importing.tables.pages import page_number
from regwright.importing.tables.printed_address import printed_address
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote
from regwright.importing.tables.titles import Title, title_of


def read(section: Section) -> list[RegisterFacts]:
    """Return the registers, each of all the bytes that are printed of it."""
    reader = _Reader(section)
    for head, row in section.rows:
        if not row.is_blank and not is_footnote(alone(row)):
            reader.take(head, row)
    return reader.finish()


class _Reader:
    """Goes down the rows; a row without a name goes on with the register above it."""

    def __init__(self, section: Section) -> None:
        self.section = section
        self.notes = footnotes(section)
        self.dashes = uses_dashes([(head.bits, row) for head, row in section.rows])
        self.said = title_of(section.title)
        self.found: list[RegisterFacts] = []
        self.pieces: list[list[_Piece]] = []

    def take(self, head: Header, row: Row) -> None:
        """Take one row."""
        wrong = misfit(head, row)
        roles = before_bits(head) if wrong else head.roles
        texts = {role: _own(row, column) for role, column in roles.items()}
        if self._goes_on(texts):
            self.found[-1].review(row.doubt)
        elif _starts(texts):
            register = _register(texts, row, self.said)
            register.prints_page = headers.PAGE in head.roles
            register.review(base_apart(self.said, head, register.address))
            register.notes = [self.notes[mark] for mark in register.marks if mark in self.notes]
            self.found.append(register)
            self.pieces.append([])
        if not self.found:
            return
        self.found[-1].review(wrong)
        label = _label(self.found[-1], row, head, texts, self.pieces[-1])
        if label is None:
            return
        place = _place(texts)
        is_merged = _is_merged(row, head)
        self.pieces[-1].append(_Piece(*label, place, texts.get(headers.RESET, ""), is_merged))
        if not wrong and not self.found[-1].is_reserved:
            bits = {column: bit + label[1] for column, bit in head.bits.items()}
            read_bits(self.found[-1], row, bits, dashes=self.dashes)

    def _goes_on(self, texts: dict[str, str]) -> bool:
        """Tell whether a row has no name, but the next byte of the register above it."""
        if not self.found or not self.pieces[-1] or texts.get(headers.NAME):
            return False
        place, last = _place(texts), self.pieces[-1][-1]
        label = bit_range(texts.get(headers.BIT_POSITION, ""))
        if place is None:
            return not _starts(texts)
        is_beside = label is not None and (label[0] + 1 == last.low or label[1] == last.high + 1)
        return is_beside and last.place is not None and place > last.place

    def finish(self) -> list[RegisterFacts]:
        """Work out widths, values after reset and the order of bytes; return the registers."""
        for register, pieces in zip(self.found, self.pieces, strict=True):
            _finish(register, pieces)
            _add_resets(register, pieces)
            _add_order(register, pieces)
        return self.found


class _Piece(NamedTuple):
    """The bits that one row has of a register, with the offset and reset it prints itself.

    ``is_merged`` says that the cell of the offset reaches over several rows.
    """

    high: int
    low: int
    place: int | None
    reset: str
    is_merged: bool


def _place(texts: dict[str, str]) -> int | None:
    found = printed_address(texts.get(headers.OFFSET) or texts.get(headers.ADDRESS) or "")
    return found.first.first.value if found else None


def _is_merged(row: Row, head: Header) -> bool:
    cell = row.at(head.roles.get(headers.OFFSET, head.roles.get(headers.ADDRESS, -1)))
    return cell is not None and cell.continued


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


def _label(
    register: RegisterFacts,
    row: Row,
    head: Header,
    texts: dict[str, str],
    before: list[_Piece],
) -> tuple[int, int] | None:
    """Return which bits of the register a row has; ``None`` where it has none that are sure."""
    text = texts.get(headers.BIT_POSITION, "")
    label = bit_range(text) if text else None
    if label is None and not any(row.at(column) and _text(row, column) for column in head.bits):
        return None
    if label is None:
        if text or before:
            register.review(f"row {row.number} does not say which bits it is of")
            return None
        label = (head.width - 1, 0)
    if label[0] - label[1] + 1 != head.width:
        register.review(f"row {row.number} is of {text}, but the table has {head.width} columns")
        return None
    if any((piece.high, piece.low) == label for piece in before):
        register.review(f"the bits {text} are printed twice")
        return None
    return label


def _text(row: Row, column: int) -> str:
    cell = row.at(column)
    return cell.text if cell else ""


def _finish(register: RegisterFacts, pieces: list[_Piece]) -> None:
    """Work out the width; say when bytes are missing between those that are printed."""
    highest = max((piece.high for piece in pieces), default=7)
    register.width = next(width for width in (8, 16, 32, 64) if width > highest)
    covered = sum(piece.high - piece.low + 1 for piece in pieces)
    if pieces and covered != highest + 1:
        register.review("not all of its bytes are printed")
    if highest + 1 not in (8, 16, 32, 64):
        register.review(f"{highest + 1} bits are printed; taken as {register.width} bits wide")


def _add_resets(register: RegisterFacts, pieces: list[_Piece]) -> None:
    """Take the values after reset of rows that each print their own."""
    own = [piece for piece in pieces if piece.reset]
    if len(own) < 2:
        return
    register.reset = ""
    for piece in own:
        value_of_bits(register, piece.reset, piece.high, piece.low)


def _add_order(register: RegisterFacts, pieces: list[_Piece]) -> None:
    """Work out the order of bytes where the high byte is printed first, with the lower offset."""
    if len(pieces) < 2 or register.is_reserved or pieces[0].high - pieces[0].low != 7:
        return
    if any(after.high >= before.low for before, after in pairwise(pieces)):
        return
    if any(piece.is_merged for piece in pieces):
        register.review("its high byte is printed first: does it lie at the lowest offset?")
        return
    register.byte_order = "big"
    if any(piece.place is None for piece in pieces):
        register.review(
            "its high byte is printed first, beside its offset: taken as byte order big"
        )
