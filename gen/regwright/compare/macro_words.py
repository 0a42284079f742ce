"""Say of a macro that changed what is different, and find where that stands."""

from __future__ import annotations

import re

from regwright.compare.header_names import Fates, Named
from regwright.macros.literals import decimal
from regwright.model.chip import NamedValue
from regwright.model.origin import Origin

#: A plain number of a header, and a register as C reaches it.
_NUMBER = re.compile(r"(0x[0-9A-F]+|[0-9]+)U")
_WORDS = re.compile(r'"(?:\\.|[^"\\])*"|\w+|\s+|[^\w\s]')
_ACCESS = re.compile(r"\w+_(REG|READ)([0-9]+)\((\w+)\)")

#: How a macro's name ends behind its register or field, why there is none any more though the
#: register and the field are there, and the property that decides it.
_OF_REGISTER = (
    ("_SINGLE_BIT", "no window says any more which registers single-bit access reaches", "address"),
    ("_RESET_DEFINED", "no bit of its reset value is left open any more", "reset"),
    ("_RESET", "its reset value is not said any more", "reset"),
    ("_READ_INTO", "nothing says any more in which order its halves are read", "halves"),
    ("_WRITE", "nothing says any more in which order its halves are written", "halves"),
    ("_ADDR", "it has no address in that space any more", "address"),
    ("", "C pointers do not reach it in one access any more", "access"),
)
_OF_FIELD = (
    ("_EXTRACT", "a single bit is left of the field", "bits"),
    ("_INSERT", "a single bit is left of the field", "bits"),
    ("_TO_CLEAR", "a write does not clear the field any more", "modifiedWriteValue"),
    ("_CLEAR", "C cannot clear the field by writing its register any more", "modifiedWriteValue"),
    ("_BITPOS", "", "bits"),
    ("_MASK", "", "bits"),
)


def short(text: str) -> str:
    """Return a number as messages show it, anything else as it is."""
    if text == decimal(0):
        return "0"
    return text.removesuffix("U") if is_number(text) else text


def is_number(text: str) -> bool:
    """Tell whether ``text`` is a plain number, as a header has it."""
    return _NUMBER.fullmatch(text) is not None


def was_and_is(before: str, after: str) -> str:
    """Return what is different about a macro that is still there."""
    one, other = _ACCESS.fullmatch(before), _ACCESS.fullmatch(after)
    if one is None or other is None:
        return "was {} and is {}".format(*_parting(before, after))
    words = []
    if one[1] != other[1]:
        words.append("can only be read now" if other[1] == "READ" else "is not const any more")
    if one[2] != other[2]:
        words.append(f"is accessed with {other[2]} bits, no longer with {one[2]}")
    if one[3] != other[3]:
        words.append(f"stands at {other[3]}, no longer at {one[3]}")
    return " and ".join(words)


def _parting(before: str, after: str) -> tuple[str, str]:
    """Return two numbers, or the parts in which two longer texts differ."""
    if is_number(before) or is_number(after):
        return short(before), short(after)
    one, other = (_WORDS.findall(text) for text in (before, after))
    start = _common(one, other)
    end = _common(one[start:][::-1], other[start:][::-1])
    parts = ["".join(words[start : len(words) - end]) for words in (one, other)]
    if not all(parts):  # something was put in or taken out: the word beside shows where
        start, end = (start - 1, end) if start else (start, max(end - 1, 0))
        parts = ["".join(words[start : len(words) - end]) for words in (one, other)]
    left, right = "…" if start else "", "…" if end else ""
    before, after = (f"{left}{part}{right}" if part else "empty" for part in parts)
    return before, after


def _common(one: list[str], other: list[str]) -> int:
    """Return how many words two texts have in common at their start."""
    pairs = zip(one, other, strict=False)
    return next((n for n, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def why_gone(named: Named, fates: Fates, chip: str) -> str:
    """Return why a macro has no counterpart in the header of ``chip``."""
    placed = fates.registers.get(id(named.placed))
    if placed is None:
        return f"{chip} has no {named.placed.name} any more"
    if named.field is None:
        return next(why for tail, why, _ in _OF_REGISTER if named.tail.endswith(tail))
    field = named.field.facts.field.name
    if fates.field(named.field) is None:
        return f"{placed.name} has no {field} any more"
    if _value(named):
        return f"{placed.name}.{field} has no such value any more"
    return next(why for tail, why, _ in _OF_FIELD if named.tail == tail)


def _value(named: Named) -> NamedValue | None:
    """Return the value of a field that a macro is, if it is one."""
    values = named.field.facts.field.values if named.field else ()
    return next((value for value in values if named.tail == f"_{value.name}"), None)


def place(named: Named) -> Origin:
    """Return where it stands what a macro is."""
    if named.field is None:
        origin = named.placed.register.origin
        return origin, next(what for tail, _, what in _OF_REGISTER if named.tail.endswith(tail))
    value = _value(named)
    if value is not None:
        return value.origin, "value"
    origin = named.field.facts.field.origin
    if origin is not None and origin[1] == "flags":  # an entry of a row has no properties
        return origin
    return origin, next(what for tail, _, what in _OF_FIELD if named.tail == tail)
