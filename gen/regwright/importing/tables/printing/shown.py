"""What of a description its tables show: each register where it stands, spelled as printed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from regwright.importing.draft import Tree
from regwright.importing.spelled import hexadecimal
from regwright.importing.spelled import reset as spelled_reset
from regwright.importing.tables.printing.table import Box
from regwright.model.chip import Chip, Halves, Reset
from regwright.read.build import build_chip
from regwright.resolve.addresses import into_window, out_of_window
from regwright.resolve.chip import Placed, resolve
from regwright.resolve.facts import RegisterFacts

_ACCESS = {
    "read-write": "R/W",
    "read-only": "R",
    "write-only": "W",
    "writeOnce": "W/Once",
    "read-writeOnce": "RW/Once",
    "no-access": "None",
}
_ON_WRITE = {
    "oneToClear": "1C",
    "oneToSet": "1S",
    "oneToToggle": "1T",
    "zeroToClear": "0C",
    "zeroToSet": "0S",
    "zeroToToggle": "0T",
    "clear": "C",
    "set": "S",
}
_MARK = re.compile(
    r"\((?P<mark>\d{1,2}|[*†‡§])\)|(?P<sign>[*†‡§]+)\s|notes? ?(?P<note>\d{1,2})[.:]"
    r"|(?P<plain>\d{1,2})[.)]\s",
    re.IGNORECASE,
)


_SLICE = re.compile(r"bits? (\d+)(?: to (\d+))? of (\w+)\b.*")


class Entry(NamedTuple):
    """A register as a table shows it.

    ``last`` is the last one of a row of registers that is printed as one, else ``None``;
    ``block`` is the block or instance in which it stands, ``offset`` its offset there.
    """

    name: str
    placed: Placed
    last: Placed | None
    halves: Halves | None
    block: str
    offset: int | None

    @property
    def facts(self) -> RegisterFacts:
        """What is true of it wherever it stands."""
        return self.placed.facts

    @property
    def title(self) -> str:
        """What it is."""
        return "" if self._is_same_again else self.facts.register.title or ""

    @property
    def _is_same_again(self) -> bool:
        """Whether it is a register that is printed at several addresses under one name."""
        register = self.facts.register
        return register.alias_of is not None and register.title == register.alias_of

    @property
    def page(self) -> str:
        """Its page."""
        return str(self.facts.register.page or "")

    @property
    def access(self) -> str:
        """Its access, where the description gives it."""
        register = self.facts.register
        return printed_access(register.access or "", "", register.read_action or "")

    @property
    def reset(self) -> str:
        """Its value after reset, where the description gives it."""
        given = self.facts.reset if self.facts.reset_given else None
        return printed_reset(given, self.facts.width)

    @property
    def notes(self) -> list[str]:
        """Its remarks, a line each."""
        return (self.facts.register.notes or "").split("\n") if self.facts.register.notes else []

    @property
    def marks(self) -> str:
        """The marks of its footnotes, as they stand behind its name."""
        found = [match for line in self.notes if (match := _MARK.match(line))]
        return "".join(f"({next(filter(None, match.groups()))})" for match in found)

    @property
    def marked_name(self) -> str:
        """Its name with the marks of its footnotes."""
        name = self.facts.register.alias_of if self._is_same_again else self.name
        return f"{name}{self.marks}"


class Span(NamedTuple):
    """Addresses of a space that are said to be reserved."""

    space: str
    first: int
    last: int


class Shown(NamedTuple):
    """A description as tables show it; ``outer`` and ``inner`` are the spaces of two addresses."""

    chip: Chip
    entries: list[Entry]
    reserved: list[Span]
    outer: str
    inner: str

    def address(self, placed: Placed, last: Placed | None = None) -> str:
        """Return the addresses of a register as they are printed: ``0x0B (0x2B)``.

        What only follows through a window is not printed. A row of registers has a range.
        """
        given = {item.space: item.value for item in placed.addresses if item.via is None}
        end = last or placed
        units = end.units - 1 if last else 0
        ends = {item.space: item.value + units for item in end.addresses if item.via is None}
        return self._pair({space: (value, ends[space]) for space, value in given.items()})

    def reserved_address(self, span: Span) -> str:
        """Return the addresses of reserved ones, in both spaces where both reach them."""
        found = {span.space: (span.first, span.last)}
        for window in self.chip.windows:
            both = (window.source, window.into)
            if span.space in both and set(both) == {self.outer, self.inner}:
                see = out_of_window if span.space == window.into else into_window
                first, last = see(window, span.first), see(window, span.last)
                other = window.source if span.space == window.into else window.into
                if first is not None and last is not None:
                    found[other] = (first, last)
        return self._pair(found)

    def _pair(self, found: dict[str, tuple[int, int]]) -> str:
        outer = found.get(self.outer)
        inner = found.get(self.inner) if self.inner != self.outer else None
        if outer is None and inner is None and found:
            outer = next(iter(found.values()))
        words = [_span(*outer)] if outer else []
        return " ".join([*words, *([f"({_span(*inner)})"] if inner else [])])

    def first_address(self, placed: Placed) -> int:
        """Return the address by which a register is sorted."""
        known = {item.space: item.value for item in placed.addresses}
        return known.get(self.inner, next(iter(known.values()), 0))


def _span(first: int, last: int) -> str:
    start = hexadecimal(first)
    return start if first == last else f"{start}-{hexadecimal(last)}"


def shown(tree: Tree) -> Shown:
    """Return what tables show of ``tree``, names without the chip's own prefix."""
    chip = build_chip(tree)._replace(prefix="")
    resolved = resolve(chip)
    names = [space.name for space in chip.spaces]
    outer = inner = names[0]
    if len(names) > 1 and not all(name.startswith("bank") for name in names):
        outer, inner = (names[0], names[1]) if names[0] == "outside" else (names[1], names[0])
    reserved = [
        Span(space.name, region.first, region.last)
        for space in chip.spaces
        for region in space.regions
        if region.kind == "reserved"
    ]
    entries = list(_entries([item for item in resolved.registers if not item.half]))
    return Shown(chip, entries, reserved, outer, inner)


def _entries(registers: list[Placed]) -> Iterator[Entry]:
    """Yield each register, a row of them that lie closely as one."""
    index = 0
    while index < len(registers):
        first = registers[index]
        array = first.register.array
        length = array.length if array else 1
        row = registers[index : index + length]
        name = first.name
        is_row = array is not None and length > 1 and _lie_closely(row)
        if array is not None and is_row:
            name = name.removesuffix(str(array.first))
        for item in [first] if is_row else row:
            own = name if is_row else item.name
            last = row[-1] if is_row else None
            yield Entry(own, item, last, item.register.halves, item.block, _offset(item))
        index += len(row)


def _lie_closely(row: list[Placed]) -> bool:
    starts = [item.addresses[0].value for item in row if item.addresses]
    return len(starts) == len(row) and all(
        after - before == row[0].units for before, after in pairwise(starts)
    )


def _offset(placed: Placed) -> int | None:
    own = placed.register.offset
    if own is None:
        return None
    return own + (placed.terms[2] if len(placed.terms) > 2 else 0)


class Half(NamedTuple):
    """One byte of a register of 16 bits; ``low`` is the register's bit that is its bit 0."""

    name: str
    at: int
    address: str
    low: int
    reset: str
    title: str
    page: str


def halves_of(shown: Shown, entry: Entry) -> Iterator[Half]:
    """Yield the halves of a register of 16 bits, the high one first; unnamed ones get names."""
    facts = entry.facts
    prefix = entry.name.removesuffix(facts.register.name)
    given = facts.reset if facts.reset_given else None
    for which, low in (("high", 8), ("low", 0)):
        own = getattr(entry.halves, which) if entry.halves else None
        name = prefix + own.name if own else f"{entry.name}_{which[0].upper()}"
        step = 1 if (which == "high") == (facts.byte_order == "little") else 0
        moved = tuple(item._replace(value=item.value + step) for item in entry.placed.addresses)
        there = entry.placed._replace(addresses=moved)
        part = Reset(given.value >> low, given.undefined >> low) if given else None
        yield Half(
            name,
            shown.first_address(there),
            shown.address(there),
            low,
            printed_reset(part, 8),
            (own.title if own else None) or entry.title,
            str((own.page if own else None) or entry.page),
        )


def printed_access(access: str, write: str, read: str) -> str:
    """Return an access as data sheets print it; what a read does only where nothing else does."""
    base = _ACCESS.get(access, "")
    if write in _ON_WRITE:
        return {"write-only": "W"}.get(access, "R/W") + _ON_WRITE[write]
    if read == "set" and access == "read-only":
        return "RS"
    if read == "clear":
        return "RC" if access == "read-only" else "RW/RC"
    return base


def printed_reset(reset: Reset | None, width: int) -> str:
    """Return a value after reset, its undefined bits as ``x``."""
    if reset is None:
        return ""
    ones = (1 << width) - 1
    return spelled_reset(reset.value & ones, reset.undefined & ones, width)


def bit_boxes(facts: RegisterFacts, high: int, low: int) -> list[Box]:
    """Return what is printed under the bits ``high`` to ``low``: names, slices, dashes, nothing.

    Bits of one field beside each other are one box; ``NAME[9:8]`` says which of its bits they are.
    """
    held: dict[int, tuple[int, int]] = {}
    for index, field in enumerate(facts.fields):
        for piece in field.layout.pieces:
            for step in range(piece.width):
                held.setdefault(piece.register_bit + step, (index, piece.field_bit + step))
    reserved = 0
    for item in facts.reserved:
        reserved |= item.mask
    found: list[Box] = []
    bit = high
    while bit >= low:
        if bit not in held:
            is_unnamed = reserved >> bit & 1 or bit < (facts.register.flags or 0)
            found.append(Box("-" if is_unnamed else ""))
            bit -= 1
            continue
        index, top = held[bit]
        span = 1
        while bit - span >= low and held.get(bit - span) == (index, top - span):
            span += 1
        name = facts.fields[index].field.name
        if lone := _lone_slice(name, facts.fields[index].field.title or ""):
            name = lone
        elif facts.fields[index].layout.width > 1:
            name += f"[{top}]" if span == 1 else f"[{top}:{top - span + 1}]"
        found.append(Box(name, span))
        bit -= span
    return found


def _lone_slice(name: str, title: str) -> str:
    """Return how a slice of a field that is wider than its register is printed: ``SUM[9:8]``."""
    found = _SLICE.fullmatch(title)
    if found is None:
        return ""
    high, low, whole = found.groups()
    expected = f"{whole}_{high}_{low}" if low else f"{whole}_{high}"
    if name != expected:
        return ""
    return f"{whole}[{high}:{low}]" if low else f"{whole}[{high}]"
