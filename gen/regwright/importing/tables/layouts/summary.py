"""The summary of a chip: a row for each register, with its address, its bits and its page."""

from __future__ import annotations

import re

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Row
from regwright.importing.tables.facts import RegisterFacts, spot
from regwright.importing.tables.headers import Header, role_of
from regwright.importing.tables.layouts.bits import read_bits, uses_dashes
from regwright.importing.tables.layouts.resets import row_of_resets
from regwright.importing.tables.layouts.widths import before_bits, misfit
from regwright.importing.tables.notation import is_nothing, strip_marks
from regwright.importing.tables.pages import page_number
from regwright.importing.tables.printed_address import PrintedAddress, printed_address
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote
from regwright.importing.tables.titles import Title, title_of

_CONDITIONED = re.compile(r"(\w+),?\s+\(?((?:when|if|with|while)\b.+?)\)?", re.IGNORECASE)
_NAME_GOES_ON = re.compile(r"_\w*|\w+")


def read(section: Section) -> list[RegisterFacts]:
    """Return the registers, and the rows that say there are none."""
    reader = _Reader(section)
    for head, row in section.rows:
        if not row.is_blank and not is_footnote(alone(row)):
            reader.take(head, row)
    return reader.found


class _Reader:
    """Goes down the rows; a row of values after reset belongs to the register above it."""

    def __init__(self, section: Section) -> None:
        self.section = section
        self.notes = footnotes(section)
        self.dashes = uses_dashes([(head.bits, row) for head, row in section.rows])
        self.said = title_of(section.title)
        self.found: list[RegisterFacts] = []
        self.bare = _bare_is_usual(section)

    def take(self, head: Header, row: Row) -> None:
        """Take one row."""
        wrong = misfit(head, row)
        texts = _by_role(before_bits(head) if wrong else head.roles, row)
        address = address_in(texts)
        if self.found and role_of(texts.get(headers.NAME, "")) == headers.RESET:
            self._resets(head, row, wrong)
            return
        if address is None and not texts.get(headers.NAME):
            return
        if address is None and self.found and _continues(self.found[-1], texts, row):
            return
        if not texts.get(headers.NAME) and self._has_no_name(head, row, address):
            return
        if address is None and self._is_no_row(head, row, texts):
            return
        register = _register(texts, row, address)
        register.is_offset = headers.OFFSET in head.roles
        register.base = self.said.base if register.is_offset else None
        register.block = self.said.name if register.is_offset else ""
        register.prints_page = headers.PAGE in head.roles
        if not register.is_reserved:
            self._bits(register, head, row, wrong)
            register.width = _width(texts, head)
        register.notes = [self.notes[mark] for mark in register.marks if mark in self.notes]
        self._say_pages(texts.get(headers.PAGE, ""), row)
        self.found.append(register)

    def _bits(self, register: RegisterFacts, head: Header, row: Row, wrong: str) -> None:
        register.review(wrong)
        register.review(base_apart(self.said, head, register.address))
        if not wrong:
            read_bits(register, row, head.bits, dashes=self.dashes)

    def _resets(self, head: Header, row: Row, wrong: str) -> None:
        """Give the register above the values after reset that stand beneath its bits."""
        register = self.found[-1]
        if wrong:
            register.review(f"its values after reset, row {row.number}: {wrong}")
        elif not register.is_reserved:
            row_of_resets(register, row, head.bits)
            register.review(row.doubt)

    def _has_no_name(self, head: Header, row: Row, address: PrintedAddress | None) -> bool:
        """Tell whether a row has no name, and no dashes or blank cells behind it."""
        held = [cell.text for cell in row.cells if cell.text and cell.column in head.bits]
        is_blank = len(row.cells) > 1 and bool(alone(row)) and not row.whole
        if is_blank or (held and all(map(is_nothing, held))):
            return False
        text = alone(row)
        number = address.outer.first if address and address.outer and text else None
        if number and number.style == "bare" and text.isdigit() and not self.bare:
            what = f"{row.raw} stands alone: taken for the number of a page"
            self.section.left_out.append((row.line, what))
            return True
        reason = f"a row without a name was left out, what is it? {spot(row).printed}"
        self.section.doubts.append((row.line, reason))
        return True

    def _is_no_row(self, head: Header, row: Row, texts: dict[str, str]) -> bool:
        """Tell whether a row is a line of text among the rows: no address, no bits, no value."""
        printed = texts.get(headers.ADDRESS) or texts.get(headers.OFFSET)
        held = [cell for cell in row.cells if cell.text]
        if not head.bits or not printed or len(held) > 2 or any(map(str.isdigit, printed[:1])):
            return False
        reason = f"no register is read in this row, what is it? {spot(row).printed}"
        self.section.doubts.append((row.line, reason))
        return True

    def _say_pages(self, text: str, row: Row) -> None:
        """Say which pages of several were left out."""
        if not text or is_nothing(text):
            return
        page = page_number(text)
        if page is None:
            self.section.doubts.append((row.line, f"the page {text!r} could not be read"))
        elif not text.lower().removeprefix("page").strip(". ").isdigit():
            what = f"{spot(row).printed}: of the pages {text!r} the first, {page}, is kept"
            self.section.left_out.append((row.line, what))


def _bare_is_usual(section: Section) -> bool:
    """Tell whether addresses are printed without a base here, as a number of a page is."""
    firsts = [row.cells[0].text for _, row in section.rows if len(row.cells) > 1]
    found = [item for text in firsts if (item := printed_address(text))]
    return 2 * sum(item.first.first.style == "bare" for item in found) > len(found)


def _by_role(roles: dict[str, int], row: Row) -> dict[str, str]:
    held = {role: row.at(column) for role, column in roles.items()}
    return {role: cell.text for role, cell in held.items() if cell is not None and cell.text}


def address_in(texts: dict[str, str]) -> PrintedAddress | None:
    """Return the address that a row prints, in one column or in one for each space."""
    inside, outside = texts.get(headers.DATA), texts.get(headers.IO)
    if inside is not None or outside is not None:
        data, io = printed_address(inside or ""), printed_address(outside or "")
        if data is None and io is None:
            return None
        doubts = (*(io.doubts if io else ()), *(data.doubts if data else ()))
        spans = (io.outer if io else None, data.outer if data else None)
        return PrintedAddress(*spans, doubts, ("io", "data"))
    text = texts.get(headers.ADDRESS) or texts.get(headers.OFFSET) or ""
    return printed_address(text)


def base_apart(said: Title, head: Header, address: PrintedAddress | None) -> str:
    """Return what is open where a base is printed above addresses that are no offsets."""
    if said.base is None or headers.ADDRESS not in head.roles or address is None:
        return ""
    if address.first.first.value >= said.base:
        return ""
    return f"the base address 0x{said.base:X} stands above the table: is it part of its address?"


def _register(texts: dict[str, str], row: Row, address: PrintedAddress | None) -> RegisterFacts:
    name, marks = strip_marks(texts.get(headers.NAME, ""))
    register = RegisterFacts(name, spot(row), address, marks=marks)
    register.is_reserved = not name or is_nothing(name)
    register.title = texts.get(headers.DESCRIPTION, "")
    if conditioned := _CONDITIONED.fullmatch(name):
        register.name = conditioned[1]
        register.title = f"{register.title}, {conditioned[2]}".strip(", ")
    register.access = texts.get(headers.ACCESS, "")
    register.reset = texts.get(headers.RESET, "")
    register.page = page_number(texts.get(headers.PAGE, ""))
    register.review(row.doubt)
    for doubt in address.doubts if address else ():
        register.review(doubt)
    printed = texts.get(headers.ADDRESS) or texts.get(headers.OFFSET)
    if address is None and printed and not register.is_reserved:
        register.review(f"the address {printed!r} could not be read")
    return register


def _width(texts: dict[str, str], head: Header) -> int:
    printed = re.match(r"\d{1,2}", texts.get(headers.WIDTH, ""))
    if printed and 0 < int(printed[0]) <= 64:
        return int(printed[0])
    return head.width


def _continues(before: RegisterFacts, texts: dict[str, str], row: Row) -> bool:
    """Take a row that goes on with the name above; tell whether it was one."""
    name = texts.get(headers.NAME, "")
    others = [text for role, text in texts.items() if role != headers.NAME]
    filled = [cell.text for cell in row.cells if cell.text]
    if others or len(filled) > 1 or not _NAME_GOES_ON.fullmatch(name):
        return False
    is_broken = before.name[-1:] in ("_", "-", "\u2010") or name.startswith("_")
    before.name = before.name.rstrip("-\u2010") + name
    if not is_broken:
        before.review(f"its name stands in two rows, the second {name!r}; is it one name?")
    return True
