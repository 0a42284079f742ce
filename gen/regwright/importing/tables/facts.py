"""What the layouts have read, before it becomes a description: still as it was printed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from regwright.importing import names
from regwright.importing.tables.cells import Row
from regwright.importing.tables.printed_address import PrintedAddress
from regwright.importing.tables.said import Steps

_PRINTED = 400
#: A register with more to look at is to be looked at as a whole.
_MOST_REVIEWS = 20


class Spot(NamedTuple):
    """Where something is printed, and what is printed there."""

    line: int
    row: int
    page: int | None
    raw: str

    @property
    def printed(self) -> str:
        """The page, the row and the raw text, as a description keeps them."""
        where = f"row {self.row}" if self.page is None else f"page {self.page}, row {self.row}"
        return names.line(f"{where}: {self.raw}", _PRINTED)


def spot(row: Row, raw: str = "") -> Spot:
    """Return where ``row`` stands; ``raw`` is the part of it that is meant."""
    return Spot(row.line, row.number, row.page, " ".join(raw.split()) if raw else row.raw)


@dataclass
class ValueFacts:
    """A named value of a field."""

    name: str
    value: int
    title: str
    spot: Spot
    reviews: list[str] = field(default_factory=list)


@dataclass
class FieldFacts:
    """A field, or a slice of one.

    ``bits`` are ranges within the register, the field's high end first; ``index`` says which bits
    of the field they are, where the document prints that (``NAME[9:8]``).
    """

    name: str
    bits: list[tuple[int, int]]
    spot: Spot
    index: tuple[int, int] | None = None
    access: str = ""
    reset: str = ""
    title: str = ""
    values: list[ValueFacts] = field(default_factory=list)
    reviews: list[str] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)

    @property
    def width(self) -> int:
        """How many bits it has here."""
        return sum(high - low + 1 for high, low in self.bits)


class ReservedFacts(NamedTuple):
    """Bits that are printed as meaning nothing."""

    high: int
    low: int
    spot: Spot
    #: What must be written to them, ``0`` or ``1``, where that is printed.
    write: str = ""


@dataclass
class RegisterFacts:
    """A register, or a row that says that there is none (``is_reserved``).

    ``is_offset`` says that the address counts from the base ``block`` names. ``space`` is the
    space of a bank, or the one a word tells. ``steps`` says that it stands in a row; ``instances``
    are the names and bases of a block that is there several times. ``resets`` are digits by bit,
    where the document prints them so. ``placed`` is worked out from all registers: its first
    address in each space; ``halves`` are the two registers that it was made of, the low one first.
    ``prints_page`` says that its table has a column for pages: the page of the file is then not
    the one that is meant.
    """

    name: str
    spot: Spot
    address: PrintedAddress | None = None
    width: int = 0
    access: str = ""
    reset: str = ""
    resets: dict[int, str] = field(default_factory=dict)
    title: str = ""
    page: int | None = None
    prints_page: bool = False
    fields: list[FieldFacts] = field(default_factory=list)
    reserved: list[ReservedFacts] = field(default_factory=list)
    reviews: list[str] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    is_reserved: bool = False
    is_offset: bool = False
    block: str = ""
    base: int | None = None
    instances: tuple[tuple[str, int], ...] = ()
    space: str = ""
    steps: Steps | None = None
    byte_order: str = ""
    layout: str = ""
    placed: dict[str, int] = field(default_factory=dict)
    halves: list[RegisterFacts] = field(default_factory=list)
    when: str = ""
    alias_of: str = ""

    @property
    def count(self) -> int:
        """How many addresses its row is for."""
        return self.address.first.units if self.address else 1

    def review(self, reason: str) -> None:
        """Note what a person must look at, once."""
        if reason and len(self.reviews) < _MOST_REVIEWS and reason not in self.reviews:
            self.reviews.append(reason)
