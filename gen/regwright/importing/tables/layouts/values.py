"""Read the named values that stand below a field: ``01: DIV4, a quarter of the clock``."""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.importing import names
from regwright.importing.tables.characters import plain
from regwright.importing.tables.facts import FieldFacts, Spot, ValueFacts
from regwright.importing.tables.notation import DASHES, is_nothing, strip_marks

_NUMBER = (
    r"(?:0[xX][0-9A-Fa-f_]{1,20}|0[bB][01_]{1,70}|\$[0-9A-Fa-f]{1,16}|[0-9][0-9A-Fa-f]{0,16}[hH]"
    r"|[01]{1,64}[bB]|\d{1,20}|(?=[A-F]*\d)[0-9A-F]{1,4}|F{1,4}|[A-E])"
)
_PRINTED = re.compile(
    rf"\s*[•*]?\s*({_NUMBER})(?:\s*(?:[{DASHES}]|\.\.+|to)\s*({_NUMBER}))?"
    rf"\s*(?:[:=]|[{DASHES}](?=\s)|(?<=\s)[{DASHES}])+\s*(\S.*)"
)
_NAME = re.compile(
    rf"([A-Za-z_][A-Za-z0-9_]*)(?:\s*(?:[:,;=]|\s[{DASHES}]|[{DASHES}](?=\s))\s*(.*)|)"
)
_REST = re.compile(
    rf"[•*]?\s*(?:all )?others?(?: values| combinations| codes)?\s*[{DASHES}:=,]*\s*(?:are )?"
    rf"(?:[{DASHES}:]\s*)*(?:reserved|not (?:used|allowed)|unused)\.?",
    re.IGNORECASE,
)
_MOST_WORDS = 3
_MOST_VALUES = 1024


class Printed(NamedTuple):
    """A value as it is printed: its digits, its name if it has one, and what it means."""

    digits: str
    name: str
    title: str
    spot: Spot | None = None


def printed_value(text: str) -> Printed | None:
    """Return the value that a line of text names, if it does."""
    found = _PRINTED.fullmatch(plain(text))
    if found is None:
        return None
    digits = found[1] if found[2] is None else f"{found[1]}-{found[2]}"
    named = _NAME.fullmatch(found[3])
    if named and (named[1].isupper() or "_" in named[1]):
        return Printed(digits, named[1], (named[2] or "").strip())
    return Printed(digits, "", found[3].strip())


def starts_values(line: str, lines: list[str]) -> bool:
    """Tell whether a description starts with a named value, without a word before it.

    A single line must have a colon or an equals sign behind a plain number.
    """
    if not re.match(r"\s*(?:\d|\$)", line) or printed_value(line) is None:
        return False
    is_plain = bool(re.match(r"\s*(?:0[xXbB])?[0-9A-Fa-f]+[hHbB]?\s*[:=]", line))
    return is_plain or sum(printed_value(other) is not None for other in lines) > 1


def is_rest(line: str) -> bool:
    """Tell whether a line says no more than that the other values are reserved."""
    return bool(_REST.fullmatch(plain(line)))


def take_values(item: FieldFacts, printed: list[Printed]) -> None:
    """Give a field its values; the base of bare digits is told by all of them."""
    wanted = [value for value in printed if not is_nothing(value.title.rstrip(".")) or value.name]
    wanted = [value for value in wanted if not is_nothing(value.name)]
    ranges = [value for value in wanted if "-" in value.digits]
    if ranges:
        shown = ", ".join(value.digits for value in ranges[:4])
        item.reviews.append(f"values printed as a range have no place here: {shown}")
    wanted = [value for value in wanted if "-" not in value.digits][:_MOST_VALUES]
    base, doubt = _base([value.digits for value in printed if "-" not in value.digits], item.width)
    taken: set[str] = set()
    for value in wanted:
        number = _number(value.digits, base)
        name, title = _named(value)
        found = ValueFacts(
            names.identifier(name or f"VALUE_{number}", taken, 48),
            number,
            title,
            value.spot or item.spot,
        )
        if doubt and value.digits.isdigit() and number > 1:
            found.reviews.append(doubt)
        if number >> item.width:
            item.reviews.append(f"the value {value.digits} does not fit into {item.width} bits")
        else:
            item.values.append(found)


def _named(value: Printed) -> tuple[str, str]:
    """Return the name of a value, made of its few words when it has none, and its title."""
    if value.name:
        name = strip_marks(value.name)[0]
        return name, value.title
    found = strip_marks(value.title.rstrip("."))[0].split()
    is_short = len(found) <= _MOST_WORDS and all(re.search(r"\w", word) for word in found)
    name = names.identifier(" ".join(found), set()).upper() if is_short else ""
    return name, value.title


def _base(digits: list[str], width: int) -> tuple[int, str]:
    """Return the base of digits that do not say theirs, and what is doubtful about that."""
    bare = [item for item in digits if re.fullmatch("[0-9A-F]+", item)]
    if any(re.search("[A-F]", item) for item in bare):
        return 16, ""
    is_binary = all(set(item) <= {"0", "1"} for item in bare)
    if is_binary and all(len(item) == width for item in bare):
        return 2, ""
    if is_binary and any(len(item) > 1 for item in bare):
        return 10, "printed without a base: binary, decimal or hexadecimal?"
    long = [int(item) for item in bare if len(item) > 1]
    every = {int(item) for item in bare}
    if long and not set(range(10)) <= every:
        return 10, "printed without a base: decimal or hexadecimal?"
    return 10, ""


def _number(digits: str, base: int) -> int:
    digits = digits.replace("_", "")
    low = digits.lower()
    if low.startswith("0x") or low.startswith("$"):
        return int(low.removeprefix("0x").removeprefix("$"), 16)
    if low.startswith("0b"):
        return int(low[2:], 2)
    if low.endswith("h"):
        return int(low[:-1], 16)
    if low.endswith("b") and set(low[:-1]) <= {"0", "1"} and low[:-1]:
        return int(low[:-1], 2)
    return int(digits[:20], base)
