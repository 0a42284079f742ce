"""The summary of a chip: a row for each register, with its address, its bits and its page."""

from __future__ import annotations

import re

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Row
from regwright.importing.tables.facts import RegisterFacts, spot
from regwright.importing.tables.headers import Header
from regwright.importing.tables.layouts.bits import read_bits, uses_dashes
from regwright.importing.tables.notation import is_nothing, strip_marks
from regwright.importing.tables.printed_address import PrintedAddress, printed_address
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote
from regwright.importing.tables.titles import title_of

_CONDITIONED = re.compile(r"(\w+),?\s+\(?((?:when|if|with|while)\b.+?)\)?", re.IGNORECASE)
_NAME_GOES_ON = re.compile(r"_\w*|\w+")


def read(section: Section) -> list[RegisterFacts]:
    """Return the registers, and the rows that say there are none."""
    notes = footnotes(section)
    dashes = uses_dashes([(head.bits, row) for head, row in section.rows])
    said = title_of(section.title)
    found: list[RegisterFacts] = []
    for head, row in section.rows:
        if row.is_blank or is_footnote(alone(row)):
            continue
        texts = _by_role(head, row)
        address = address_in(texts)
        if address is None and not texts.get(headers.NAME):
            continue
        if address is None and found and _continues(found[-1], texts, row):
            continue
        register = _register(texts, row, address)
        register.is_offset = headers.OFFSET in head.roles
        register.base = said.base if register.is_offset else None
        register.block = said.name if register.is_offset else ""
        if not register.is_reserved:
            read_bits(register, row, head.bits, dashes=dashes)
            register.width = _width(texts, head)
        register.notes = [notes[mark] for mark in register.marks if mark in notes]
        found.append(register)
    return found


def _by_role(head: Header, row: Row) -> dict[str, str]:
    held = {role: row.at(column) for role, column in head.roles.items()}
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


def page_number(text: str) -> int | None:
    """Return the page that a cell names, if it does."""
    found = re.fullmatch(r"(?:p\.?|page)?\s*(\d{1,5})", text.strip(), re.IGNORECASE)
    return int(found[1]) or None if found else None


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
