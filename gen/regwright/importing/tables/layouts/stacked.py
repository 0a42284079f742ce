"""Registers drawn as a box: bit numbers above names above access above values after reset."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from regwright.importing.tables import headers, words
from regwright.importing.tables.cells import Cell, Row
from regwright.importing.tables.facts import FieldFacts, RegisterFacts, ReservedFacts, spot
from regwright.importing.tables.headers import Header, role_of
from regwright.importing.tables.layouts import prose
from regwright.importing.tables.layouts.bits import read_bits
from regwright.importing.tables.notation import is_nothing, strip_marks
from regwright.importing.tables.printed_address import PrintedAddress, printed_address
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote
from regwright.importing.tables.titles import Title, give_place, title_of

NAMES, ACCESS, RESET = "names", "access", "reset"
_KINDS = {headers.ACCESS: ACCESS, headers.RESET: RESET, headers.NAME: NAMES}
_RESET_CELL = re.compile(
    r"[01xXuU?qQ\-\u2013\u2014]|0x[0-9A-Fa-fxX_]+|[01xX]{2,}|undefined|n/?a", re.IGNORECASE
)
_NAME = re.compile(r"[A-Z][A-Za-z0-9]*(_[A-Za-z0-9]+)*")


@dataclass
class _Half:
    """One row of bit numbers, and the rows that belong to it."""

    head: Header
    names: Row | None = None
    access: Row | None = None
    reset: Row | None = None


@dataclass
class _Parts:
    """The rows of a box by what they hold, each with the header it stands under."""

    heads: list[Header] = field(default_factory=list)
    kinds: dict[str, list[tuple[Header, Row]]] = field(default_factory=dict)


def read(section: Section) -> list[RegisterFacts]:
    """Return the register in the box; two when each of its halves has a name at its side."""
    said = title_of(section.title)
    notes = footnotes(section)
    halves = _halves(section)
    if all(half.names is None for half in halves):
        return []
    sides = [_side(half.names, half.head) for half in halves if half.names is not None]
    named = [side for side in sides if side[0]]
    apart = len(halves) > 1 and len({name for name, _ in named}) == len(halves)
    groups = [[half] for half in halves] if apart else [halves]
    found = []
    for group in groups:
        register = _register(group, said, apart=apart)
        register.notes = [notes[mark] for mark in register.marks if mark in notes]
        found.append(register)
    if len(found) == 1:
        prose.add_to_box(found[0], _below(section))
    return found


def _below(section: Section) -> prose.List:
    """Return the list of fields that stands as text below the box."""
    found = prose.List()
    heads = [index for index, (head, row) in enumerate(section.rows) if row is head.row]
    last = max(heads, default=0)
    for _, row in section.rows[last + 1 :]:
        is_line = prose.entry(" ".join(prose.pieces(row)), spot(row)) or found.entries
        if not row.is_blank and is_line and not is_footnote(alone(row)):
            found.take(prose.pieces(row), spot(row))
        elif prose.heads_values(row):
            found.strays += 1
    return found


def _halves(section: Section) -> list[_Half]:
    parts = _Parts([head for head, row in section.rows if row.cells == head.row.cells])
    for head, row in section.rows:
        if row.cells == head.row.cells:
            continue
        if not row.is_blank and not is_footnote(alone(row)):
            kind = _kind(row, head, parts)
            if kind:
                parts.kinds.setdefault(kind, []).append((head, row))
    halves = [_Half(head) for head in parts.heads]
    for kind, rows in parts.kinds.items():
        for index, (head, row) in enumerate(rows):
            by_order = len(rows) == len(halves)
            half = halves[index] if by_order else next(h for h in halves if h.head is head)
            if getattr(half, kind) is None:
                setattr(half, kind, row)
    return halves


def _kind(row: Row, head: Header, parts: _Parts) -> str:
    """Tell what a row holds: by its label, or else by what its cells look like."""
    label = _KINDS.get(role_of(_label(row, head)))
    if label:
        return label
    texts = [cell.text for cell in _bit_cells(row, head) if cell.text]
    has_names = len(parts.kinds.get(NAMES, [])) >= len(parts.heads)
    names = "" if has_names or not texts else NAMES
    if names and all(is_nothing(text) for text in texts):
        return names
    if texts and all(_RESET_CELL.fullmatch(text) for text in texts):
        return RESET
    if texts and all(words.access(text) or is_nothing(text) for text in texts):
        return ACCESS
    return names


def _label(row: Row, head: Header) -> str:
    """Return the text to the left of the bits."""
    first = min(head.bits)
    return " ".join(cell.text for cell in row.cells if cell.column < first and cell.text)


def _bit_cells(row: Row, head: Header) -> list[Cell]:
    found: list[Cell] = []
    for column in sorted(head.bits):
        cell = row.at(column)
        if cell is not None and (not found or found[-1] is not cell):
            found.append(cell)
    return found


def _side(row: Row | None, head: Header) -> tuple[str, PrintedAddress | None]:
    """Return the name and the address at the sides of a row of names."""
    name, address = "", None
    bits = set(head.bits)
    for cell in row.cells if row else ():
        if cell.column in bits or not cell.text or cell.column in _covered(row, bits):
            continue
        for text in (cell.text, *re.split(r"\s{1,}(?=\()|\s*[|;,]\s*", cell.text)):
            printed = printed_address(text) if any(map(str.isdigit, text)) else None
            if printed is not None and address is None:
                address = printed
            elif _NAME.fullmatch(strip_marks(text)[0]) and not role_of(text) and not name:
                name = text
    return name, address


def _covered(row: Row | None, bits: set[int]) -> set[int]:
    """Return the columns of cells that reach into those of the bits."""
    return {
        cell.column
        for cell in (row.cells if row else ())
        if any(column in bits for column in range(cell.column, cell.column + cell.span))
    }


def _register(halves: list[_Half], said: Title, *, apart: bool) -> RegisterFacts:
    lowest = min(bit for half in halves for bit in half.head.bits.values())
    highest = max(bit for half in halves for bit in half.head.bits.values())
    shift = lowest if apart else 0
    first = next(half.names for half in halves if half.names is not None)
    side_name, side_address = "", None
    for half in halves:
        name, address = _side(half.names, half.head)
        side_name, side_address = side_name or name, side_address or address
    name, marks = strip_marks(side_name or said.name)
    place = spot(first, "" if side_name and side_address else f"{said.text} | {first.raw}")
    register = RegisterFacts(name, place, side_address or said.address, marks=marks)
    if side_address is None:
        give_place(register, said)
    elif said.address is not None and said.address[:2] != side_address[:2]:
        register.review("the address above the box is another one than the one at its side")
    register.title = "" if apart else said.title
    register.width = next(width for width in (8, 16, 32, 64) if width > highest - shift)
    if not apart:
        register.reset, register.access = said.reset, said.access
    _say_what_is_missing(register, highest - shift, lowest - shift)
    for half in halves:
        _read_half(register, half, shift)
    return register


def _say_what_is_missing(register: RegisterFacts, highest: int, lowest: int) -> None:
    if not register.name:
        register.review("no name is printed at the box or above it")
    if register.address is None:
        register.review("no address is printed at the box or above it")
    if lowest or highest + 1 not in (8, 16, 32, 64):
        register.review(f"the box shows the bits {highest} to {lowest} only")
    for doubt in register.address.doubts if register.address else ():
        register.review(doubt)


def _read_half(register: RegisterFacts, half: _Half, shift: int) -> None:
    bits = {column: bit - shift for column, bit in half.head.bits.items()}
    before = len(register.fields)
    if half.names is None:
        register.review(f"no names are printed for the bits {max(bits.values())} and below")
    else:
        read_bits(register, half.names, bits)
        register.review(half.names.doubt)
    fields = register.fields[before:]
    if half.access is not None:
        register.review(half.access.doubt)
        _take_access(register, fields, _spread(half.access, bits))
    if half.reset is not None:
        register.review(half.reset.doubt)
        if not half.reset.doubt:
            _take_resets(register, half.reset, bits)
            _mark_blank_resets(register, half.reset, bits, fields)


def _spread(row: Row, bits: dict[int, int]) -> dict[int, str]:
    """Return what ``row`` says of each bit."""
    held = {bit: row.at(column) for column, bit in bits.items()}
    return {bit: cell.text for bit, cell in held.items() if cell is not None and cell.text}


def _take_access(
    register: RegisterFacts, fields: list[FieldFacts], printed: dict[int, str]
) -> None:
    """Give each field the access under its bits, and resets that are printed with it."""
    for bit, text in printed.items():
        found = words.access(text)
        if found is not None and found.reset:
            register.resets.setdefault(bit, found.reset)
    if not fields and len(set(printed.values())) == 1:
        register.access = register.access or next(iter(printed.values()))
    for item in fields:
        high, low = item.bits[0]
        texts = {printed[bit] for bit in range(low, high + 1) if bit in printed}
        if texts and all((found := words.access(text)) and found.reserved for text in texts):
            register.fields.remove(item)
            register.reserved.append(ReservedFacts(high, low, item.spot))
        elif len(texts) > 1:
            item.reviews.append(f"its bits have different access: {', '.join(sorted(texts))}")
        elif texts:
            item.access = texts.pop()


def _mark_blank_resets(
    register: RegisterFacts, row: Row, bits: dict[int, int], fields: list[FieldFacts]
) -> None:
    """Mark bits of fields under which other bits have a digit, and they have none."""
    used = {bit for item in fields for high, low in item.bits for bit in range(low, high + 1)}
    held = {bit: row.at(column) for column, bit in bits.items() if bit in used}
    open_bits = [bit for bit, cell in held.items() if cell is None or not cell.text]
    open_bits = [bit for bit in open_bits if bit not in register.resets]
    if open_bits:
        shown = ", ".join(map(str, sorted(open_bits, reverse=True)))
        register.review(f"no value after reset is printed for its bits {shown}")


def _take_resets(register: RegisterFacts, row: Row, bits: dict[int, int]) -> None:
    """Note the digit under each bit; a merged cell holds as many, or one for all."""
    done: list[Cell] = []
    for column in sorted(bits, key=lambda at: bits[at], reverse=True):
        cell = row.at(column)
        if cell is None or any(cell is other for other in done):
            continue
        done.append(cell)
        covered = [bits[at] for at in bits if cell.column <= at < cell.column + cell.span]
        width, low = len(covered), min(covered)
        text = cell.text
        if width > 1 and text in ("0", "x", "X"):
            digits = text.lower() * width
        else:
            found = words.reset(text, width)
            if found is not None and found.doubt:
                register.review(found.doubt)
            if found is None:
                continue
            digits = "".join(
                "x" if found.undefined >> bit & 1 else str(found.value >> bit & 1)
                for bit in reversed(range(width))
            )
        for place, digit in enumerate(reversed(digits)):
            register.resets[low + place] = digit
