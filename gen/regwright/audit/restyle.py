"""Another number in the style of a literal: its base, case, width, separators and suffix are kept.

Source of the forms: ISO C11 6.4.4.1; ``0b`` and digit separators from ISO C++ (lex.icon).
"""

from __future__ import annotations

import re

_LITERAL = re.compile(
    r"(?:(?P<x>0[xX])(?P<hex>[0-9a-fA-F](?:'?[0-9a-fA-F])*+)"
    r"|(?P<b>0[bB])(?P<binary>[01](?:'?[01])*+)"
    r"|(?P<o>0)(?P<octal>(?:'?[0-7])++)"
    r"|(?P<decimal>0|[1-9](?:'?[0-9])*+))"
    r"(?P<suffix>[uUlLzZ]*+)",
    re.ASCII,
)
_FORMATS = {"hex": "x", "binary": "b", "octal": "o", "decimal": "d"}
#: Beyond this no integer type of C goes.
_LARGEST = (1 << 64) - 1


def restyled(literal: str, value: int) -> str | None:
    """Return ``value`` written as ``literal`` is; ``None`` when that is no integer literal.

    A plain ``0`` has no base to keep: it becomes a hexadecimal number.
    """
    match = _LITERAL.fullmatch(literal)
    if match is None or not 0 <= value <= _LARGEST:
        return None
    kind = next(name for name in _FORMATS if match[name])
    prefix, digits = match["x"] or match["b"] or match["o"] or "", match[kind]
    if digits == "0" and kind == "decimal" and value:
        kind, prefix, digits = "hex", "0x", "00"
    plain = digits.replace("'", "")
    width = 1 if kind == "decimal" else len(plain)
    made = f"{value:0{width}{_FORMATS[kind]}}"
    if plain == plain.upper():
        made = made.upper()
    return f"{prefix}{_separated(made, digits)}{match['suffix']}"


def _separated(made: str, digits: str) -> str:
    """Return ``made`` with separators where ``digits`` has them, counted from the right.

    What is longer than ``digits`` goes on in groups of the leftmost size that is known.
    """
    leftmost, *lengths = (len(group) for group in digits.split("'"))
    parts = []
    while lengths and len(made) > lengths[-1]:
        length = lengths[-1]
        made, part = made[:-length], made[-length:]
        parts.append(part)
        if len(lengths) > 1 or len(made) <= leftmost:
            lengths.pop()
    return "'".join([made, *reversed(parts)])
