"""Numbers as documents write them."""

from __future__ import annotations

import re
from collections.abc import Callable

#: No number of a description is larger: 64 bits.
_MOST = (1 << 64) - 1
_SUFFIX = "(?:[uU](?:ll?|LL?)?|(?:ll?|LL?)[uU]?)?"
_SPACERS = re.compile(r"(?<=[0-9A-Fa-f])['_](?=[0-9A-Fa-f])")
_BASES = {"h": 16, "b": 2, "d": 10, "o": 8}


class NoNumber(Exception):
    """A text is no number in a notation; the message says what it could be."""


def _decimal(text: str) -> int | None:
    return int(text) if re.fullmatch("[0-9]{1,20}", text) else None


def _hexadecimal(text: str) -> int | None:
    match = re.fullmatch("(?:0[xX])?([0-9A-Fa-f]{1,40})", text)
    return int(match[1], 16) if match else None


def _binary(text: str) -> int | None:
    match = re.fullmatch("(?:0[bB])?([01]{1,64})", text)
    return int(match[1], 2) if match else None


def _octal(text: str) -> int | None:
    match = re.fullmatch("(?:0[oO])?([0-7]{1,24})", text)
    return int(match[1], 8) if match else None


def _c(text: str) -> int | None:
    """Read an integer constant of C; one that starts with 0 is octal."""
    bare = re.fullmatch(
        f"(0[xX][0-9A-Fa-f]{{1,40}}|0[bB][01]{{1,64}}|[0-9]{{1,24}}){_SUFFIX}", text
    )
    if bare is None:
        return None
    digits = bare[1]
    if digits[:2] in ("0x", "0X"):
        return int(digits, 16)
    if digits[:2] in ("0b", "0B"):
        return int(digits, 2)
    return _octal(digits) if digits.startswith("0") else int(digits)


def _trailing(text: str) -> int | None:
    """Read 1Fh, as many assemblers write it; without the h it is decimal."""
    match = re.fullmatch("([0-9A-Fa-f]{1,40})[hH]", text)
    return int(match[1], 16) if match else _decimal(text)


def _sized(text: str) -> int | None:
    """Read 8'h1F, as hardware is described (IEEE 1800)."""
    match = re.fullmatch("[0-9]{0,3}'[sS]?([hHbBdDoO])([0-9A-Fa-f]{1,64})", text)
    try:
        return int(match[2], _BASES[match[1].lower()]) if match else None
    except ValueError:
        return None


_KNOWN: dict[str, Callable[[str], int | None]] = {
    "decimal": _decimal,
    "hexadecimal": _hexadecimal,
    "c": _c,
    "h": _trailing,
    "binary": _binary,
    "octal": _octal,
    "sized": _sized,
}
NOTATIONS = ("auto", *_KNOWN)


def number(text: str, notation: str) -> int:
    """Return the number that ``text`` is in ``notation``. Raises :class:`NoNumber`."""
    bare = "".join(text.split())
    if not re.match("[0-9]*'[sS]?[hHbBdDoO]", bare):
        bare = _SPACERS.sub("", bare)
    found = _auto(bare) if notation == "auto" else _KNOWN[notation](bare)
    if found is None:
        hint = '; say another notation by "number", or translate it by a table'
        raise NoNumber(f"{_shown(text)} is no number{_in_words(notation)}{hint}")
    if found > _MOST:
        raise NoNumber(f"{_shown(text)} is wider than 64 bits")
    return found


def _auto(text: str) -> int | None:
    """Read what can only mean one number. Raises :class:`NoNumber` for what can mean several."""
    if re.fullmatch(f"0[xX][0-9A-Fa-f]+{_SUFFIX}|0b[01]+", text):
        return _c(text)
    if "'" in text:
        return _sized(text)
    first_of: dict[int, str] = {}
    for name in ("decimal", "hexadecimal", "c", "h", "binary"):
        value = _KNOWN[name](text)
        if value is not None:
            first_of.setdefault(value, name)
    if len(first_of) > 1:
        meant = " or ".join(f"{value} as {name}" for value, name in first_of.items())
        which = 'say which by "numbers" for all, or "number" here'
        raise NoNumber(f"{_shown(text)} may be {meant}; {which}")
    return next(iter(first_of), None)


def _in_words(notation: str) -> str:
    return "" if notation == "auto" else f" as {notation}"


def _shown(text: str) -> str:
    return repr(text) if len(text) <= 40 else f"a text of {len(text)} characters"
