"""Numbers and strings as the editions write them.

Sources: IEEE 1800 (SystemVerilog) for based, unbased and real literals, which the 2014 and 2022
editions refer to; the documentation of the 2009 schema for ``#``, a leading zero and K, M, G, T.
"""

import re
from typing import NamedTuple

#: No number may have more bits than this, at any time.
MOST_BITS = 4096
_SCALES = {"k": 10, "m": 20, "g": 30, "t": 40}
_BASES = {"b": 2, "o": 8, "d": 10, "h": 16}
_BITS_OF_A_DIGIT = {"b": 1, "o": 3, "h": 4}
_DIGITS = {2: "01xz", 8: "0-7xz", 10: "0-9", 16: "0-9a-fxz"}

PLAIN = re.compile(r"([+-]?)(0[xX]|#)?([0-9a-fA-F_]+?)([kKmMgGtT]?)")
BASED = re.compile(r"(\d[\d_]*)?\s*'([sS]?)([bBoOdDhH])\s*([0-9a-fA-FxXzZ?_]+)")
UNBASED = re.compile(r"'([01xXzZ])")
REAL = re.compile(r"\d[\d_]*(?:\.\d[\d_]*)?(?:[eE][+-]?\d+)?")


class Value(NamedTuple):
    """What an expression comes to: a number, real or whole, or a string.

    ``width`` is the number of bits of a sized one. A 1 in ``unknown`` is a bit written x or z.
    """

    of: int | float | str
    width: int | None = None
    unknown: int = 0


class BadNumber(Exception):
    """Something is no number, or too large a one; says what and why."""


#: How a number may be spelled against its edition, and what was assumed.
HASH, PREFIX, SCALE, OCTAL, BARE_HEX, BASE, EXPRESSION = (
    "a # before hexadecimal digits",
    "0x before hexadecimal digits",
    "a K, M, G or T behind a number",
    "a leading zero, read as octal",
    "hexadecimal digits without anything before them",
    "a base after an apostrophe",
    "an expression",
)


def plain(text: str, *, octal: bool) -> tuple[int, set[str]]:
    """Return the value of ``[+-](0x|#)digits[KMGT]`` and what is unusual about it.

    With ``octal`` a leading zero makes it so, unless a digit is no octal one. Raises
    :class:`BadNumber`.
    """
    match = PLAIN.fullmatch(text)
    if match is None or not match[3].strip("_"):
        raise BadNumber(f"{shown(text)} is no number")
    sign, start, digits, scale = match.groups()
    digits = digits.replace("_", "")
    unusual = set()
    if start:
        unusual.add(HASH if start == "#" else PREFIX)
        base = 16
    elif not digits.isdigit():
        unusual.add(BARE_HEX)
        base = 16
    elif octal and len(digits) > 1 and digits[0] == "0" and not set(digits) & set("89"):
        base = 8
        if digits.lstrip("0")[1:]:  # of one digit the value is the same either way
            unusual.add(OCTAL)
    else:
        base = 10
    if scale:
        unusual.add(SCALE)
    value = _whole(digits, base) << _SCALES.get(scale.lower(), 0)
    return (-value if sign == "-" else value), unusual


def based(match: re.Match[str]) -> Value:
    """Return the value of ``8'hFF``, ``'b01`` or ``4'sb1x``. Raises :class:`BadNumber`."""
    size, signed, letter, digits = match.groups()
    letter, digits = letter.lower(), digits.lower().replace("_", "").replace("?", "z")
    base = _BASES[letter]
    if not re.fullmatch(f"[{_DIGITS[base]}]+", digits):
        raise BadNumber(f"{shown(match[0])} has a digit that base {base} does not have")
    width = _whole(size.replace("_", ""), 10) if size else None
    if width is not None and not 1 <= width <= MOST_BITS:
        raise BadNumber(f"{shown(match[0])} has a width that is not 1 to {MOST_BITS}")
    unknown = 0
    if letter != "d" and ("x" in digits or "z" in digits):
        ones = format((1 << _BITS_OF_A_DIGIT[letter]) - 1, "x")
        marked = "".join(ones if digit in "xz" else "0" for digit in digits)
        unknown = _whole(marked, base)
    value = _whole(re.sub("[xz]", "0", digits), base)
    if width is not None:
        ones_of_width = (1 << width) - 1
        value, unknown = value & ones_of_width, unknown & ones_of_width
        if signed and value >> (width - 1):
            value -= 1 << width
    return Value(value, width, unknown)


def unbased(match: re.Match[str]) -> Value:
    """Return the value of ``'0`` and ``'1``, which fill whatever they are assigned to."""
    if match[1] in "01":
        return Value(-int(match[1]))
    return Value(0, None, -1)


def real(text: str) -> Value:
    """Return the value of a decimal number, real if it has a point or an exponent."""
    digits = text.replace("_", "")
    if not digits.isdigit():
        return Value(float(digits))
    return Value(_whole(digits, 10))


def _whole(digits: str, base: int) -> int:
    if len(digits) > MOST_BITS:
        raise BadNumber(f"a number of {len(digits)} digits is more than any register holds")
    value = int(digits, base)
    if value.bit_length() > MOST_BITS:
        raise BadNumber(f"a number of {value.bit_length()} bits is more than any register holds")
    return value


def shown(text: str) -> str:
    """Return ``text`` in quotes as a message shows it, shortened."""
    plain_text = " ".join(text[:200].split())
    return repr(plain_text if len(plain_text) <= 60 else plain_text[:59] + "…")
