"""Draw two registers that are a pair: their bits in rows of eight, and what moved between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from regwright.compare.changes import ACCESS, EFFECTS, RESETS, VALUES, Change, category
from regwright.compare.differences import Comparison
from regwright.compare.pairs import FieldAt, FieldPair, Pair
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts

#: Bits are drawn in rows of so many.
LANE = 8

#: What a cell is: bits of a field, reserved bits, bits of which nothing is said, bits of a register
#: that has no fields, and no bits at all because the register is narrower than its partner.
FIELD, RESERVED, BLANK, WHOLE, VOID = "field", "reserved", "blank", "whole", "void"
#: What is different about a field's cell.
ONLY, MOVED, CHANGED = "only", "moved", "changed"


class Cell(NamedTuple):
    """``span`` bits that belong together: a name, which of the field's bits they are, and notes."""

    span: int
    kind: str
    name: str = ""
    part: str = ""
    notes: tuple[str, ...] = ()
    mark: str = ""


class Band(NamedTuple):
    """Bits of a field that moved within a row: from columns of A to columns of B, from the left."""

    from_left: int
    from_right: int
    to_left: int
    to_right: int


class Lane(NamedTuple):
    """Eight bits of both registers, the highest first; no cells where there is no register."""

    bits: tuple[int, ...]
    a: list[Cell]
    b: list[Cell]
    bands: list[Band]


class Drawing(NamedTuple):
    """All rows, the highest first; ``is_same`` when one row would do for both.

    There are none where neither register has fields or reserved bits.
    """

    lanes: list[Lane]
    is_same: bool


class _Bit(NamedTuple):
    """What one bit of a register is: bit ``number`` of ``field``, or reserved, to be written so."""

    kind: str
    field: FieldFacts | None = None
    number: int = 0
    write: str = ""


class Maps:
    """Draws the registers of one comparison."""

    def __init__(self, comparison: Comparison) -> None:
        """Draw by what was matched in ``comparison``, and note what differs."""
        matching = comparison.matching
        self._notes = _notes(comparison.changes)
        self._of: dict[tuple[int, int], FieldPair] = {}
        for pair in matching.fields:
            for at in (pair.a, pair.b):
                if at is not None:
                    self._of[id(at.placed), id(at.facts)] = pair

    def draw(self, pair: Pair) -> Drawing:
        """Return the drawing of ``pair``; of a register without a partner it has one row."""
        a, b = pair.a, pair.b
        sides = [_bits(placed) if placed else [] for placed in (a, b)]
        if all(bit.kind == WHOLE for bits in sides for bit in bits):
            return Drawing([], is_same=True)
        width = max(map(len, sides))
        lanes = []
        for low in reversed(range(0, width, LANE)):
            numbers = tuple(range(low + LANE - 1, low - 1, -1))
            upper = list(self._cells(pair, sides[0], low, is_a=True))
            lower = list(self._cells(pair, sides[1], low, is_a=False))
            lanes.append(Lane(numbers, upper, lower, list(self._bands(pair, low))))
        is_same = a is not None and b is not None and all(lane.a == lane.b for lane in lanes)
        return Drawing(lanes, is_same)

    def _cells(self, pair: Pair, bits: list[_Bit], low: int, *, is_a: bool) -> Iterator[Cell]:
        """Yield the cells of one row, the highest bits first; none where there is no register."""
        if not bits:
            return
        row = [
            (bit, bits[bit] if bit < len(bits) else _Bit(VOID)) for bit in range(low, low + LANE)
        ]
        row.reverse()

        def belongs_to(item: tuple[int, _Bit]) -> tuple[object, ...]:
            bit, found = item
            apart = bit - found.number if found.field else 0
            return found.kind, id(found.field), found.write, apart

        for _, run in groupby(row, belongs_to):
            found = list(run)
            first = found[0][1]
            placed = pair.a if is_a else pair.b
            if first.field is not None and placed is not None:
                yield self._field(pair, FieldAt(placed, first.field), found, is_a=is_a)
            elif first.kind == RESERVED:
                yield Cell(len(found), RESERVED, notes=(_WRITE[first.write],))
            else:
                yield Cell(len(found), first.kind)

    def _field(self, pair: Pair, at: FieldAt, run: list[tuple[int, _Bit]], *, is_a: bool) -> Cell:
        high, low = run[0][1].number, run[-1][1].number
        part = ""
        if len(run) < at.facts.layout.width:
            part = f"[{high}]" if high == low else f"[{high}:{low}]"
        cell = Cell(len(run), FIELD, at.facts.field.name, part)
        match = self._of.get((id(at.placed), id(at.facts)))
        other = (match.b if is_a else match.a) if match else None
        partner = pair.b if is_a else pair.a
        if other is None:
            return cell if partner is None else cell._replace(notes=("only here",), mark=ONLY)
        arrow = "→" if is_a else "←"
        if other.placed is not partner:
            return cell._replace(notes=(f"{arrow} {other.name}",), mark=MOVED)
        return self._compared(cell, at, other, run, arrow)

    def _compared(
        self, cell: Cell, at: FieldAt, other: FieldAt, run: list[tuple[int, _Bit]], arrow: str
    ) -> Cell:
        """Return ``cell`` with what is different about its bits in the partner's field."""
        there = [_place(other.facts, found.number) for _, found in run]
        known = [bit for bit in there if bit is not None]
        if not known:
            return cell._replace(notes=("only here",), mark=ONLY)
        notes = []
        mark = ""
        if other.facts.field.name != at.facts.field.name:
            notes.append(f"{arrow} {other.facts.field.name}")
            mark = CHANGED
        if any(bit is not None and bit != own for bit, (own, _) in zip(there, run, strict=True)):
            notes.append(f"{arrow} {_ranges(known)}")
            mark = MOVED
        missing = len(there) - len(known)
        width = other.facts.layout.width
        if missing:
            notes.append(f"{missing} bit{'s' if missing > 1 else ''} only here")
        elif width != at.facts.layout.width and run[-1][1].number == 0:
            notes.append(f"{arrow} {width} bit{'s' if width > 1 else ''}")
        more = self._notes.get(at.name)
        if more:
            notes.append(more)
        return cell._replace(notes=tuple(notes), mark=mark or (CHANGED if notes else ""))

    def _bands(self, pair: Pair, low: int) -> Iterator[Band]:
        """Yield what moved within the row that starts at bit ``low``."""
        if pair.a is None or pair.b is None:
            return
        for facts in pair.a.facts.fields:
            match = self._of.get((id(pair.a), id(facts)))
            if match is None or match.b is None or match.b.placed is not pair.b:
                continue
            moves = [
                (here, there)
                for number in range(facts.layout.width)
                if (here := _place(facts, number)) is not None
                and (there := _place(match.b.facts, number)) is not None
                and here != there
                and low <= here < low + LANE
                and low <= there < low + LANE
            ]
            for run in _runs(moves):
                (first, first_there), (last, last_there) = run[0], run[-1]
                top = low + LANE
                yield Band(
                    *(top - 1 - last, top - first), *(top - 1 - last_there, top - first_there)
                )


#: What the drawing says of a field whose bits are not all that differs.
_OTHER = {
    ACCESS: "other access",
    EFFECTS: "other effect",
    RESETS: "other reset",
    VALUES: "other values",
}


def _notes(changes: Iterable[Change]) -> dict[str, str]:
    """Return what else differs about fields, by their names on either side."""
    found: dict[str, str] = {}
    for change in changes:
        word = _OTHER.get(category(change))
        if word is None:
            continue
        for name in (change.a, change.b):
            for key in {name, name.rpartition(".")[0]} - {""}:
                known = found.setdefault(key, word)
                if known != word:
                    found[key] = "changed"
    return found


_WRITE = {"": "reserved", "0": "write 0", "1": "write 1", "preserve": "preserve"}


def _bits(placed: Placed) -> list[_Bit]:
    """Return what each bit of a register is, bit 0 first; of fields that overlap the first."""
    facts = placed.facts
    is_plain = not facts.fields and not facts.reserved
    found = [_Bit(WHOLE if is_plain else BLANK)] * facts.width
    for item in facts.reserved:
        for bit in range(facts.width):
            if item.mask >> bit & 1:
                found[bit] = _Bit(RESERVED, write=item.reserved.write or "")
    for field in reversed(facts.fields):
        for bit, number, width in field.layout.pieces:
            for step in range(width):
                if bit + step < facts.width:
                    found[bit + step] = _Bit(FIELD, field, number + step)
    return found


def _place(facts: FieldFacts, number: int) -> int | None:
    """Return at which bit of its register bit ``number`` of a field stands."""
    for bit, first, width in facts.layout.pieces:
        if first <= number < first + width:
            return bit + number - first
    return None


def _ranges(bits: list[int]) -> str:
    """Return ``bits``, given from the highest of a field to the lowest, as ``bits 6:4,2``."""
    parts: list[list[int]] = []
    for bit in bits:
        if parts and parts[-1][1] == bit + 1:
            parts[-1][1] = bit
        else:
            parts.append([bit, bit])
    words = [str(high) if high == low else f"{high}:{low}" for high, low in parts]
    return f"bit{'s' if len(bits) > 1 else ''} {','.join(words)}"


def _runs(moves: list[tuple[int, int]]) -> Iterator[list[tuple[int, int]]]:
    """Yield the moves, from low bits to high ones, in runs that stay side by side."""
    run: list[tuple[int, int]] = []
    for here, there in moves:
        if run and (here, there) != (run[-1][0] + 1, run[-1][1] + 1):
            yield run
            run = []
        run.append((here, there))
    if run:
        yield run
