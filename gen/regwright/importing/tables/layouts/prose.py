"""Read lists of fields that stand as text: ``Bits 7:5 MODE[2:0]: timer mode``, values below."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from regwright.importing.tables import headers, words
from regwright.importing.tables.cells import LONGEST_CELL, Grid, Row
from regwright.importing.tables.facts import FieldFacts, RegisterFacts, ReservedFacts, Spot, spot
from regwright.importing.tables.headers import role_of
from regwright.importing.tables.layouts.field_list import NO_NAME
from regwright.importing.tables.layouts.values import (
    Printed,
    is_rest,
    printed_value,
    take_values,
)
from regwright.importing.tables.notation import DASHES, is_nothing, name_and_slice, strip_marks
from regwright.importing.tables.titles import give_place, title_of

_ENTRY = re.compile(
    rf"\s*bits?\s*[\[(]?\s*(\d{{1,2}})(?:\s*(?::|\.\.\.?|…|[{DASHES}])\s*(\d{{1,2}}))?\s*[\])]?"
    rf"(?:\s*[{DASHES}:]\s*|\s+)(\S.{{0,2000}})",
    re.IGNORECASE,
)
_NAME = re.compile(
    rf"([A-Za-z_]\w*(?:\s?[\[<]\s*\d{{1,2}}(?:\s*:\s*\d{{1,2}})?\s*[\]>])?(?:\(\d\))?)"
    rf"\s*(?:[{DASHES}:,.;]\s*)?(.*)"
)
_IN_PARENTHESES = re.compile(r"(.*?)\s*\(([A-Za-z/_01-]{1,8})\)\s*$")
_NUMBERED = re.compile(r"\s*\d+(?:\.\d+)+\.?\s+\S")
_FEWEST = 2
_MOST_TITLE_LINES = 6


@dataclass
class Entry:
    """A field of such a list: its bits, and what is said of it."""

    high: int
    low: int
    spot: Spot
    name: str
    title: str
    access: str = ""
    values: list[Printed] = field(default_factory=list)

    @property
    def width(self) -> int:
        """How many bits it has."""
        return self.high - self.low + 1


def entry(text: str, place: Spot) -> Entry | None:
    """Return the field that a line starts; ``None`` when it starts none."""
    found = _ENTRY.fullmatch(text)
    named = _NAME.fullmatch(found[3]) if found else None
    if found is None or named is None:
        return None
    ends = int(found[1]), int(found[2] or found[1])
    if max(ends) > 63:
        return None
    name, title = named[1], named[2].strip()
    access = ""
    if (last := _IN_PARENTHESES.fullmatch(title)) and words.access(last[2]):
        title, access = last[1], last[2]
    is_name = name.isupper() or "_" in name or "[" in name or is_nothing(name)
    if not is_name and not re.match(rf"\s*[{DASHES}:]", found[3][len(name) :]):
        return None  # a sentence about bits, not a heading
    return Entry(max(ends), min(ends), place, name, title, access)


class List:
    """Gathers the fields of a list line by line; ``strays`` are values that stand below none."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []
        self.strays = 0

    def take(self, cells: list[str], place: Spot) -> None:
        """Take one line, in the pieces that stand apart in it."""
        text = " ".join(cells)
        started = entry(text, place)
        if started is not None:
            self.entries.append(started)
            return
        if is_rest(text) or _heads_values(cells):
            return
        value = _value(cells)
        if value is not None and not self.entries:
            self.strays += 1
        elif value is not None:
            self.entries[-1].values.append(value._replace(spot=place))
        elif self.entries and self.entries[-1].values:
            last = self.entries[-1].values
            last[-1] = last[-1]._replace(title=_longer(last[-1].title, text))
        elif self.entries:
            self.entries[-1].title = _longer(self.entries[-1].title, text)


def _longer(title: str, text: str) -> str:
    """Return a description that goes on in a further line, as far as descriptions go."""
    return f"{title} {text}".strip() if len(title) < LONGEST_CELL else title


def heads_values(row: Row) -> bool:
    """Tell whether a row heads a table of values."""
    return _heads_values(pieces(row))


def _heads_values(cells: list[str]) -> bool:
    roles = [role_of(cell) for cell in cells]
    return len(cells) > 1 and headers.VALUE in roles and all(roles)


def _value(cells: list[str]) -> Printed | None:
    """Return the value of a line or of a row of a table: its digits, its name, what it means."""
    if len(cells) < _FEWEST:
        return printed_value(cells[0]) if cells else None
    found = printed_value(f"{cells[0]} : {cells[1]}")
    if found is None:
        return printed_value(" ".join(cells))
    more = " ".join(cells[2:])
    return found._replace(title=f"{found.title} {more}".strip() if found.name else found.title)


def pieces(row: Row) -> list[str]:
    """Return the texts of a row that stand apart: its cells, or what wide gaps part in a line."""
    if row.whole:
        return re.split(r" {2,}|\t", row.whole.strip())
    return [cell.text for cell in row.cells if cell.text and not cell.continued]


def add_to_box(register: RegisterFacts, found: List) -> None:
    """Give the fields of a box what the list below it says of them."""
    if found.strays:
        register.review("named values stand below it, and no field above them")
    for item in found.entries:
        if is_nothing(item.name):
            continue
        of_it = [one for one in register.fields if one.bits == [(item.high, item.low)]]
        target = of_it[0] if of_it else _joined(register, item)
        if target is None:
            bits = f"{item.high}:{item.low}" if item.width > 1 else str(item.high)
            register.review(f"{item.name} stands below it for the bits {bits}, the box differs")
            continue
        name = name_and_slice(strip_marks(item.name)[0], item.width).name
        if name != target.name:
            target.reviews.append(f"below the box it is called {name!r}")
        target.title = target.title or item.title
        target.access = target.access or item.access
        take_values(target, item.values)


def _joined(register: RegisterFacts, item: Entry) -> FieldFacts | None:
    """Make one field of P2, P1 and P0 where the list calls them P[2:0]."""
    sliced = name_and_slice(item.name, item.width)
    inside = [
        one
        for one in register.fields
        if all(item.low <= low and high <= item.high for high, low in one.bits)
    ]
    names = {f"{sliced.name}{sliced.low + place}" for place in range(item.width)}
    if sliced.width != item.width or {one.name for one in inside} != names:
        return None
    whole = FieldFacts(sliced.name, [(item.high, item.low)], inside[0].spot)
    if sliced.low:
        whole.index = (sliced.high, sliced.low)
    if len({one.access for one in inside}) == 1:
        whole.access = inside[0].access
    else:
        whole.reviews.append("its bits have different access")
    register.fields[register.fields.index(inside[0])] = whole
    register.fields = [one for one in register.fields if one not in inside]
    return whole


def read(grids: list[Grid]) -> list[RegisterFacts]:
    """Return the registers of a text without any table, whose fields stand in such lists."""
    rows = [row for grid in grids for row in grid.rows if not row.is_blank]
    texts = [" ".join(pieces(row)) for row in rows]
    titles: list[list[str]] = [[]]
    lists: list[tuple[List, Spot]] = [(List(), spot(rows[0]))] if rows else []
    for index, row in enumerate(rows):
        current = lists[-1][0]
        if current.entries and _is_heading(texts, index):
            current = List()
            lists.append((current, spot(row)))
            titles.append([])
        if current.entries or entry(texts[index], spot(row)):
            current.take(pieces(row), spot(row))
        else:
            titles[-1].append(texts[index])
    if sum(len(one.entries) for one, _ in lists) < _FEWEST:
        return []
    return [
        _register(one, "\n".join(title[-_MOST_TITLE_LINES:]), place)
        for (one, place), title in zip(lists, titles, strict=True)
        if one.entries
    ]


def _is_heading(texts: list[str], index: int) -> bool:
    """Tell whether a line starts the next register: it is numbered, or an address follows."""
    text = texts[index]
    if printed_value(text) or not title_of(text).name:
        return False
    below = texts[index + 1] if index + 1 < len(texts) else ""
    return bool(_NUMBERED.match(text)) or title_of(below).address is not None


def _register(found: List, title: str, place: Spot) -> RegisterFacts:
    said = title_of(title)
    place = place._replace(raw=said.text or place.raw)
    register = RegisterFacts(said.name, place, said.address, title=said.title)
    give_place(register, said)
    register.reset, register.access = said.reset, said.access
    if not said.name:
        register.review(NO_NAME)
    for item in found.entries:
        if is_nothing(item.name):
            register.reserved.append(ReservedFacts(item.high, item.low, item.spot))
            continue
        name, marks = strip_marks(item.name)
        sliced = name_and_slice(name, item.width)
        one = FieldFacts(
            sliced.name, [(item.high, item.low)], item.spot, access=item.access, marks=marks
        )
        one.title = item.title
        if sliced.width:
            one.index = (sliced.high, sliced.low)
            if sliced.width != item.width:
                one.reviews.append(f"{name!r} has {sliced.width} bits, {item.width} are listed")
        take_values(one, item.values)
        register.fields.append(one)
    highest = max(item.high for item in found.entries)
    register.width = said.width or next(width for width in (8, 16, 32, 64) if width > highest)
    return register
