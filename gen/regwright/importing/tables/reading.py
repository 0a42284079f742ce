"""Import tables of registers: from the file's form through its layouts to a draft."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from regwright.importing.draft import Draft
from regwright.importing.tables.addresses import Wanted
from regwright.importing.tables.assemble import assemble
from regwright.importing.tables.cells import Grid, Unreadable
from regwright.importing.tables.csv_form import read_csv, separator_of
from regwright.importing.tables.decoding import MOST_BYTES, decoded
from regwright.importing.tables.facts import RegisterFacts
from regwright.importing.tables.footnoted import carry
from regwright.importing.tables.html_form import read_html
from regwright.importing.tables.layouts import (
    box,
    field_list,
    grid32,
    matrix,
    offsets,
    prose,
    summary,
)
from regwright.importing.tables.recognise import (
    BOX,
    FIELDS,
    GRID,
    LAYOUTS,
    MATRIX,
    OFFSETS,
    SUMMARY,
    Section,
    sections,
)
from regwright.importing.tables.text_form import read_text
from regwright.importing.tables.titles import give_block, title_of

CSV, TSV, TEXT, HTML, PDF = "csv", "tsv", "text", "html", "pdf"
#: The forms, as ``--form`` names them.
FORMS = (CSV, TSV, TEXT, HTML, PDF)
_ENDINGS = {
    "csv": CSV,
    "tsv": TSV,
    "tab": TSV,
    "html": HTML,
    "htm": HTML,
    "xhtml": HTML,
    "pdf": PDF,
}
_READERS: dict[str, Callable[[Section], list[RegisterFacts]]] = {
    SUMMARY: summary.read,
    OFFSETS: offsets.read,
    BOX: box.read,
    FIELDS: field_list.read,
    GRID: grid32.read,
    MATRIX: matrix.read,
}
#: The column headers of each layout, for the message that there are none.
_HEADERS = {
    SUMMARY: "Address (or Offset), Name, Bit 7 ... Bit 0, perhaps Reset and Page",
    OFFSETS: "Offset (or Address), Name, Bit Pos. (or Bit Range), 7 ... 0 (or 31/15 ... 16/0)",
    BOX: "Bit, 7 ... 0 above rows of names, access and initial values",
    FIELDS: "Bits, Name (or Field), Access, Reset, Description",
    GRID: "31 ... 16 above the names, then 15 ... 0",
    MATRIX: "0 ... 7 or 0 ... F (or 0/8 ... 7/F, or Bank 0, Bank 1, ...) behind the addresses",
}


class Wishes(NamedTuple):
    """What the user asked for: the chip's name, and what is not to be found out.

    ``form`` is one of :data:`FORMS`, ``layout`` one of :data:`LAYOUTS`, ``parentheses`` says
    which address stands in them (``data`` or ``io``), ``window_offset`` is what is added to an
    I/O address to get the data address. Each may be ``None``.
    """

    chip: str
    form: str | None = None
    layout: str | None = None
    parentheses: str | None = None
    window_offset: int | None = None


def import_table(name: str, data: bytes, wishes: Wishes) -> Draft:
    """Return the draft of a description made of every table in ``data``, a file called ``name``."""
    draft = Draft()
    try:
        grids = read_grids(name, data, wishes.form)
    except Unreadable as problem:
        draft.refuse("not-readable", str(problem))
        return draft
    found = sections(grids, wishes.layout or "")
    registers: list[RegisterFacts] = []
    if not found and wishes.layout in (None, FIELDS):
        registers = prose.read(grids)
    if not found and not registers:
        draft.refuse("not-readable", _nothing_found(grids, wishes.layout))
        return draft
    for section in found:
        registers += _read(section, registers, draft)
    if all(register.is_reserved for register in registers):
        draft.refuse("not-readable", _nothing_found(grids, wishes.layout))
        return draft
    document = name.replace("\\", "/").rpartition("/")[2]
    wanted = Wanted(wishes.parentheses, wishes.window_offset)
    assemble(registers, wishes.chip, document, wanted, draft)
    return draft


def _read(section: Section, before: list[RegisterFacts], draft: Draft) -> list[RegisterFacts]:
    """Return the registers of one table, and say in ``draft`` what is not theirs."""
    read = _READERS[section.layout](section)
    for register in read:
        register.layout = section.layout
    if section.layout == FIELDS and before:
        _name_after_box(read, before[-1])
    if not read:
        what = f"the table that starts here looks like layout {section.layout!r}"
        draft.assume("needs-review", f"{what}, but nothing was read of it", section.first.line)
    if section.layout in (SUMMARY, OFFSETS):
        give_block(read, title_of(section.title))
    carry(section, read, draft)
    for line, reason in section.doubts:
        draft.assume("needs-review", reason, line)
    for line, what in section.left_out:
        draft.lose(what, line)
    return read


def _name_after_box(read: list[RegisterFacts], before: RegisterFacts) -> None:
    """Give a list of fields without a title the name of the box above it, if its fields agree."""
    if not read or read[0].name or before.layout not in (BOX, GRID):
        return
    drawn = {item.name: sorted(item.bits) for item in before.fields}
    if all(drawn.get(item.name) == sorted(item.bits) for item in read[0].fields):
        read[0].name = before.name
        read[0].reviews.remove(field_list.NO_NAME)


def read_grids(name: str, data: bytes, form: str | None = None) -> list[Grid]:
    """Return the grids in ``data``, in the form that is named or that it looks like.

    Raises :class:`Unreadable`.
    """
    form = form or form_of(name, data)
    if form == PDF:
        from regwright.importing.tables.pdf import read_pdf

        return read_pdf(data)
    if form == HTML:
        return read_html(decoded(data, is_html=True))
    if form == TSV:
        return read_csv(decoded(data), "\t")
    return read_csv(decoded(data)) if form == CSV else read_text(decoded(data))


def form_of(name: str, data: bytes) -> str:
    """Return the form of a file, by how it starts, its ending, or what is in it."""
    if data.lstrip()[:5] == b"%PDF-":
        return PDF
    ending = name.rpartition(".")[2].lower()
    if ending in _ENDINGS:
        return _ENDINGS[ending]
    start = data[:8192]
    if b"<table" in start.lower() or b"<html" in start.lower():
        return HTML
    if ending in ("txt", "text") or len(data) > MOST_BYTES:
        return TEXT
    try:
        text = decoded(start)
    except Unreadable:
        return TEXT
    lines = [line for line in text.split("\n") if line.strip()]
    separator = separator_of(text)
    with_one = sum(line.count(separator) > 1 for line in lines)
    return CSV if separator != "|" and with_one * 2 > len(lines) else TEXT


def _nothing_found(grids: list[Grid], layout: str | None) -> str:
    if not any(grid.rows for grid in grids):
        return "there is no table in this file"
    if layout:
        return (
            f"no table here has the column headers of layout {layout!r}, which are "
            f"{_HEADERS.get(layout, 'others')}; leave --layout out, or keep the row of headers "
            f"with the table"
        )
    known = ", ".join(LAYOUTS)
    return (
        "no row of column headers was recognised (Address, Name, Bit 7 ... Bit 0, or the like); "
        f"keep it with the table, or name the layout with --layout: {known}"
    )
