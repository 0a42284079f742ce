"""Read the cell that holds a register's address, or two of them, or a range."""

import re
from typing import NamedTuple

from regwright.importing.tables.notation import (
    DASHES,
    Number,
    number,
    strip_marks,
)

_OUTER_INNER = re.compile(r"([^()\[\]]*?)\s*(?:[(\[]([^()\[\]]*)[)\]])?")
_TO = re.compile(rf"\s*(?:[{DASHES}]|\.\.\.?|…|~|\bto\b|:)\s*")


class Span(NamedTuple):
    """A first and a last address; both are the same for a single register."""

    first: Number
    last: Number

    @property
    def units(self) -> int:
        """How many addresses."""
        return self.last.value - self.first.value + 1


class PrintedAddress(NamedTuple):
    """What an address cell holds: an address, and one in parentheses; ``doubts`` about them."""

    outer: Span | None = None
    inner: Span | None = None
    doubts: tuple[str, ...] = ()
    #: For columns whose header says which space they are of.
    spaces: tuple[str, str] = ("", "")

    @property
    def first(self) -> Span:
        """The address that stands outside the parentheses, or else the one within."""
        found = self.outer or self.inner
        if found is None:
            raise ValueError("a cell without an address")
        return found


def printed_address(text: str) -> PrintedAddress | None:
    """Return the addresses in ``text``, such as ``0x0B (0x2B)``; ``None`` when it holds none."""
    found = _OUTER_INNER.fullmatch(text.strip())
    if found is not None and (found[1] or found[2]):
        outer, inner = span(found[1]), span(found[2] or "")
        is_mark = bool(outer and inner and _is_mark(outer, found[2]))
        if (outer or not found[1]) and (inner or not found[2]) and (outer or inner) and not is_mark:
            return PrintedAddress(outer, inner, _doubts(outer, inner))
    bare, marks = strip_marks(text)
    return printed_address(bare) if marks and bare != text.strip() else None


def span(text: str) -> Span | None:
    """Return the range in ``text``, or its one address twice."""
    text = strip_marks(text)[0]
    ends = [number(piece) for piece in _TO.split(text, maxsplit=1)]
    first, last = ends[0], ends[-1]
    if first is None or last is None:
        return None
    if last.value < first.value:
        first, last = last, first
    return Span(first, last)


def _is_mark(outer: Span, inside: str) -> bool:
    """Tell whether what is in parentheses is a footnote's mark: ``0x1F (1)``."""
    return inside.isdigit() and len(inside) < 3 and outer.first.style != "bare"


def _doubts(*spans: Span | None) -> tuple[str, ...]:
    numbers = [end for item in spans if item for end in item]
    return tuple(dict.fromkeys(item.doubt for item in numbers if item.doubt))
