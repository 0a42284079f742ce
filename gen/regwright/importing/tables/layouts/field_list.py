"""The list of one register's fields, a row for each, their named values below them."""

from __future__ import annotations

import re

from regwright.importing.tables import headers
from regwright.importing.tables.cells import Row
from regwright.importing.tables.characters import plain
from regwright.importing.tables.facts import FieldFacts, RegisterFacts, ReservedFacts, Spot, spot
from regwright.importing.tables.headers import Header, role_of
from regwright.importing.tables.layouts.values import (
    Printed,
    is_rest,
    printed_value,
    starts_values,
    take_values,
)
from regwright.importing.tables.notation import (
    bit_range,
    bit_ranges,
    is_nothing,
    name_and_slice,
    plain_dashes,
    strip_marks,
)
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote
from regwright.importing.tables.titles import Title, give_place, title_of

NO_NAME = "no name is printed above the list of its fields"
_NAME = re.compile(r"[A-Za-z_][\w\[\]:.<>() ]*")
_WRITTEN = re.compile(
    r"\b(?:always|must|should|only)(?: \w+){0,2}? (?:write|written)(?: (?:as|to|with))? "
    r"(0|1|zero|one)\b",
    re.IGNORECASE,
)


def read(section: Section) -> list[RegisterFacts]:
    """Return the registers: the one in the title, and each that a row of its own names."""
    reader = _Reader(title_of(section.title), section)
    for head, row in section.rows:
        if not row.is_blank and not is_footnote(alone(row)):
            reader.take(head, row)
    return reader.finish()


class _Reader:
    """Goes down the rows; what has no bits of its own belongs to the field above."""

    def __init__(self, said: Title, section: Section) -> None:
        self.notes = footnotes(section)
        self.found: list[RegisterFacts] = []
        self.printed: list[tuple[FieldFacts, list[Printed]]] = []
        self.said = said
        self.section = section
        self.ends_values = True

    def take(self, head: Header, row: Row) -> None:
        """Take one row."""
        texts = {role: _cell(row, column) for role, column in head.roles.items()}
        title = title_of(_across(row))
        if title.name and not printed_value(_across(row)) and (title.address or title.title):
            self._start(title, spot(row))
            return
        bits = texts.get(headers.BITS) or texts.get(headers.BIT_POSITION) or ""
        if headers.ADDRESS in texts or headers.OFFSET in texts:
            self._row_of_register(texts, row)
        if not self.found:
            self._start(self.said, spot(self.section.first))
        ranges = _ranges(bits)
        if ranges:
            self._field(ranges, head, texts, row)
        elif bits and not alone(row) and not _is_value_header(row):
            self.found[-1].review(f"the bits {bits!r} of row {row.number} could not be read")
        elif self.printed:
            self._below(row, texts)
        self.found[-1].review(row.doubt)

    def _start(self, said: Title, place: Spot) -> None:
        """Start the register that a title, or a row of the table, names."""
        place = place._replace(raw=said.text) if said.text else place
        register = RegisterFacts(said.name, place, said.address, title=said.title)
        give_place(register, said)
        register.reset, register.access, register.width = said.reset, said.access, said.width
        if not said.name:
            register.review(NO_NAME)
        self.found.append(register)

    def _row_of_register(self, texts: dict[str, str], row: Row) -> None:
        """Start a register where the list has a column for addresses."""
        place = texts.get(headers.ADDRESS) or texts.get(headers.OFFSET) or ""
        said = title_of(f"{texts.get(headers.NAME, '')} address {place}")
        if place and said.address:
            self._start(said, spot(row))

    def _field(
        self, ranges: list[tuple[int, int]], head: Header, texts: dict[str, str], row: Row
    ) -> None:
        register = self.found[-1]
        name, marks = strip_marks(texts.get(headers.NAME, ""))
        about, values = _description(head, row)
        if is_nothing(name) or (not name and is_nothing(about.rstrip("."))):
            written = _WRITTEN.search(f"{name} {about}")
            write = str(int(written[1] in ("1", "one"))) if written else ""
            for high, low in ranges:
                register.reserved.append(ReservedFacts(high, low, spot(row), write))
            self.printed.append((FieldFacts("", ranges, spot(row)), []))
            return
        width = sum(high - low + 1 for high, low in ranges)
        sliced = name_and_slice(name, width)
        item = FieldFacts(sliced.name, ranges, spot(row), marks=marks)
        if sliced.width:
            item.index = (sliced.high, sliced.low)
            if sliced.width != width:
                item.reviews.append(f"{name!r} has {sliced.width} bits, but {width} are listed")
        if not name:
            item.name = f"BITS_{ranges[0][0]}_{ranges[-1][1]}"
            item.reviews.append("no name is printed for it")
        item.access = texts.get(headers.ACCESS, "")
        item.reset = texts.get(headers.RESET, "")
        item.title = about
        register.fields.append(item)
        register.notes += [self.notes[mark] for mark in marks if mark in self.notes]
        self.printed.append((item, values))

    def _below(self, row: Row, texts: dict[str, str]) -> None:
        """Take a row without bits: a named value, or more of the description above."""
        if _is_value_header(row):
            return
        item, values = self.printed[-1]
        filled = [cell for cell in row.cells if cell.text and not cell.continued]
        joined = " : ".join(cell.text for cell in filled[:2])
        more = " ".join(cell.text for cell in filled[2:])
        found = printed_value(joined) if len(filled) > 1 else None
        if found is not None:
            is_three = bool(more) and len(filled) > 2
            values.append(found._replace(title=more if is_three else found.title, spot=spot(row)))
        elif texts.get(headers.NAME) and len(filled) == 1 and _goes_on(texts[headers.NAME]):
            item.name += texts[headers.NAME]
            item.reviews.append(f"its name stands in two rows, the second {filled[0].text!r}")
        else:
            lines = [line for cell in filled for line in cell.raw.split("\n")]
            for line in lines:
                value = printed_value(line)
                if value is not None:
                    values.append(value._replace(spot=spot(row, line)))
                elif is_rest(line):
                    continue
                elif values:
                    last = values[-1]
                    values[-1] = last._replace(title=f"{last.title} {plain(line)}".strip())
                else:
                    item.title = f"{item.title} {plain(line)}".strip()

    def finish(self) -> list[RegisterFacts]:
        """Give the fields their values, and return the registers."""
        for item, values in self.printed:
            take_values(item, values)
        for register in self.found:
            if not register.width:
                bits = [high for field in register.fields for high, _ in field.bits]
                bits += [item.high for item in register.reserved]
                highest = max(bits, default=7)
                register.width = next(width for width in (8, 16, 32, 64) if width > highest)
        return [register for register in self.found if register.fields or register.reserved]


def _cell(row: Row, column: int) -> str:
    cell = row.at(column)
    return "" if cell is None or cell.continued else cell.text


def _across(row: Row) -> str:
    """Return the text of a row whose one cell goes across, or stands alone at its start."""
    filled = [cell for cell in row.cells if cell.text]
    if len(filled) == 1 and (filled[0].column == 0 or filled[0].span > 2):
        return filled[0].text
    return ""


def _ranges(text: str) -> list[tuple[int, int]]:
    text = plain_dashes(strip_marks(text)[0] or text)
    one = bit_range(text)
    return [one] if one else bit_ranges(text) or []


def _goes_on(name: str) -> bool:
    return name.startswith("_") and bool(_NAME.fullmatch(name))


def _is_value_header(row: Row) -> bool:
    """Tell whether a row heads the values below it: Value, Name, Description."""
    filled = [cell.text for cell in row.cells if cell.text]
    roles = [role_of(text) for text in filled]
    return len(filled) > 1 and headers.VALUE in roles and all(roles)


def _description(head: Header, row: Row) -> tuple[str, list[Printed]]:
    """Return what a description says first, and the named values in the lines below it."""
    column = head.roles.get(headers.DESCRIPTION)
    cell = row.at(column) if column is not None else None
    about: list[str] = []
    values: list[Printed] = []
    lines = [line for line in cell.raw.split("\n") if line.strip()] if cell else []
    for line in lines:
        value = printed_value(line) if about or values or starts_values(line, lines) else None
        if value is not None:
            values.append(value._replace(spot=spot(row, line)))
        elif is_rest(line):
            continue
        elif not values:
            about.append(line)
        else:
            last = values[-1]
            values[-1] = last._replace(title=f"{last.title} {line.strip()}".strip())
    return plain("\n".join(about)), values
