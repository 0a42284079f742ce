"""Read the cells under the bits of a register: names, slices, merged cells, what is reserved."""

from __future__ import annotations

from dataclasses import dataclass

from regwright.importing.tables import words
from regwright.importing.tables.cells import Row
from regwright.importing.tables.facts import FieldFacts, RegisterFacts, ReservedFacts, spot
from regwright.importing.tables.notation import (
    Slice,
    is_dash,
    is_nothing,
    name_and_slice,
    strip_marks,
)


@dataclass
class _Entry:
    """A printed text and the bits, in the order of their columns, that it stands over."""

    text: str
    raw: str
    bits: list[int]
    is_merged: bool = False
    doubt: str = ""


def read_bits(
    register: RegisterFacts, row: Row, bits: dict[int, int], *, dashes: bool = False
) -> None:
    """Add to ``register`` the fields and reserved bits that ``row`` prints under ``bits``.

    ``bits`` gives the bit of each column; ``dashes`` says that the table prints dashes for what
    is reserved, so that a blank beside a name may belong to it.
    """
    entries = _entries(row, bits)
    if not any(entry.text for entry in entries):
        return
    _join_repeated(entries)
    _spread(entries)
    filled = [entry for entry in entries if entry.text]
    if len(filled) == 1 and len(entries) == len(entries[:1]) + sum(not e.text for e in entries[1:]):
        _whole(register, row, filled[0], entries)
        return
    if len(filled) == 1 and " " in strip_marks(filled[0].text)[0] and len(entries) > 1:
        _name_of_all(register, filled[0])
        return
    has_merged = any(entry.is_merged for entry in entries)
    for index, entry in enumerate(entries):
        if entry.text and dashes and not has_merged and _beside_blank(entries, index):
            entry.doubt = entry.doubt or "the cell may be merged with the blank ones beside it"
        _take(register, row, entry)


def _entries(row: Row, bits: dict[int, int]) -> list[_Entry]:
    found: list[_Entry] = []
    last = None
    for column in sorted(bits):
        cell = row.at(column)
        if cell is not None and cell is last:
            found[-1].bits.append(bits[column])
            found[-1].is_merged = True
            continue
        last = cell
        text, raw = (cell.text, cell.raw) if cell else ("", "")
        found.append(_Entry(text, raw, [bits[column]]))
    return found


def _join_repeated(entries: list[_Entry]) -> None:
    """Make one of neighbours that say the same: a merged cell, written into each column."""
    index = 1
    while index < len(entries):
        before, entry = entries[index - 1], entries[index]
        is_name = entry.text and not is_nothing(entry.text) and entry.text not in ("0", "1")
        if is_name and entry.text == before.text:
            before.bits += entry.bits
            before.is_merged = True
            del entries[index]
        else:
            index += 1


def _spread(entries: list[_Entry]) -> None:
    """Give a slice the blank columns beside it that it needs, where only one way is possible."""
    index = 0
    while index < len(entries):
        entry = entries[index]
        sliced = name_and_slice(strip_marks(entry.text)[0]) if entry.text else None
        need = sliced.width - len(entry.bits) if sliced else 0
        if sliced and need > 0:
            left, right = _blanks(entries, index, -1), _blanks(entries, index, 1)
            aligned = _aligned(entries, index, (left, right), sliced)
            if aligned is not None:
                _absorb(entries, index, aligned, need - aligned)
                index -= aligned
            elif left + right == need or (left == 0 and right > need):
                _absorb(entries, index, left, need - left)
                index -= left
            elif right >= need:
                _absorb(entries, index, 0, need)
                entry.doubt = "it is not certain which of the blank columns the cell covers"
            elif left + right:
                entry.doubt = (
                    f"{entry.text!r} has {sliced.width} bits, the cells here do not show which"
                )
        index += 1


def _aligned(
    entries: list[_Entry], index: int, blanks: tuple[int, int], sliced: Slice
) -> int | None:
    """Return how many blanks to the left a slice covers when its bits lie where they are of.

    ``NAME[9:8]`` in the second byte is most likely bits 1 and 0 of that byte. ``None`` when no
    place fits so.
    """
    need = sliced.width - len(entries[index].bits)
    ways = []
    for left in range(max(0, need - blanks[1]), min(need, blanks[0]) + 1):
        span = entries[index - left : index + 1 + need - left]
        low = min(bit for item in span for bit in item.bits)
        if low % 8 == sliced.low % 8:
            ways.append(left)
    return ways[0] if len(ways) == 1 and sliced.low else None


def _blanks(entries: list[_Entry], index: int, step: int) -> int:
    count = 0
    while 0 <= index + step * (count + 1) < len(entries):
        if entries[index + step * (count + 1)].text:
            break
        count += 1
    return count


def _absorb(entries: list[_Entry], index: int, left: int, right: int) -> None:
    entry = entries[index]
    before = [bit for item in entries[index - left : index] for bit in item.bits]
    after = [bit for item in entries[index + 1 : index + 1 + right] for bit in item.bits]
    entry.bits = [*before, *entry.bits, *after]
    entry.is_merged = True
    entries[index - left : index + 1 + right] = [entry]


def _beside_blank(entries: list[_Entry], index: int) -> bool:
    entry = entries[index]
    if is_nothing(entry.text) or entry.text.endswith(str(entry.bits[0])):
        return False
    near = entries[max(index - 1, 0) : index] + entries[index + 1 : index + 2]
    return any(not item.text for item in near)


def _whole(register: RegisterFacts, row: Row, entry: _Entry, entries: list[_Entry]) -> None:
    """Take a row under whose bits there is but one text."""
    text = strip_marks(entry.text)[0]
    every = [bit for item in entries for bit in item.bits]
    sliced = name_and_slice(text, len(every))
    if is_nothing(text) or sliced.width or len(every) == 1:
        _take(register, row, entry)
    elif " " in text:
        register.title = register.title or text
    elif sliced.name == register.name:
        return
    else:
        if len(entry.bits) < len(every):
            if not entry.is_merged and entry.bits[0] == every[0]:
                entry.doubt = "one name and blank cells: is it one bit, or all of them?"
            else:
                entry.doubt = "the other bits are blank: does the cell cover them too?"
        _take(register, row, entry)


def _name_of_all(register: RegisterFacts, entry: _Entry) -> None:
    """Take words that stand alone in the middle of the bits, as the title of all of them."""
    text = strip_marks(entry.text)[0]
    if is_nothing(text) or name_and_slice(text).width:
        text = ""
    register.title = register.title or text
    where = f"{max(entry.bits)} to {min(entry.bits)}"
    register.review(f"{entry.raw!r} stands over the bits {where} alone: what does it name?")


def _take(register: RegisterFacts, row: Row, entry: _Entry) -> None:
    """Add what one entry says."""
    text, marks = strip_marks(entry.text)
    if not text:
        return
    high, low = max(entry.bits), min(entry.bits)
    place = spot(row, f"{register.name} | {entry.raw}" if register.name else entry.raw)
    if is_nothing(text) or text in ("0", "1") or is_dash(text):
        write = text if text in ("0", "1") else ""
        register.reserved.append(ReservedFacts(high, low, place, write))
        return
    found = name_and_slice(text, len(entry.bits))
    item = FieldFacts(found.name, [(high, low)], place, marks=marks)
    if found.width:
        item.index = (found.high, found.low)
        if found.width != item.width and not entry.doubt:
            entry.doubt = f"{text!r} has {found.width} bits, but stands over {item.width}"
    if " " in found.name and not entry.doubt:
        entry.doubt = f"{text!r} is printed with a space: is it one name?"
    if not text.isidentifier() and len(text) > 1 and words.access(text) is not None:
        item.reviews.append(f"{text!r} stands for its name: is it an access?")
    if not text.isidentifier() and not any(map(str.isalpha, text)):
        item.reviews.append(f"{text!r} stands where its name belongs")
    if entry.doubt:
        item.reviews.append(entry.doubt)
    register.fields.append(item)


def uses_dashes(rows: list[tuple[dict[int, int], Row]]) -> bool:
    """Tell whether any bit in ``rows`` is printed as a dash."""
    for bits, row in rows:
        for item in row.cells:
            if item.column in bits and is_dash(item.text):
                return True
    return False
