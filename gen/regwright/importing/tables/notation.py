"""Read what data sheets print in a cell: numbers in their notations, dashes, marks, slices."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

#: Everything that is printed where a keyboard has one hyphen.
DASHES = "-\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63"
_DASH = f"[{DASHES}]"
_DASHES_ONLY = re.compile(f"{_DASH}+")
_WORDS_FOR_NOTHING = re.compile(
    r"(reserved|res\.?|resvd\.?|rsvd\.?|rfu|unused|unimplemented|not used|not implemented|n/?a|nil)"
    r"( bits?)?( \d+)?",
    re.IGNORECASE,
)
_IN_BRACKETS = re.compile(r"[(\[<]\s*([^()\[\]<>]+?)\s*[)\]>]")
_MARKS = re.compile(
    r"(?:\s*\((?:\d{1,2}|[*\u2020\u2021\u00a7])(?:\s*,\s*\d{1,2})*\)"
    "|\\s*[\u00b9\u00b2\u00b3\u2070\u2074-\u2079\u207d\u207e]"
    "|\\s*[*\u2020\u2021\u00a7])+$"
)
_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁽⁾", "0123456789()")
#: An O for a zero, an l or I for a one: what a scan or a tired typist makes of a number.
_LETTERS = str.maketrans("OolI", "0011")
_H = "[0-9A-Fa-fOolI]"
#: Digits, which may stand in groups; spaces and dots part groups of four only.
_HEX = rf"{_H}{{1,4}}(?:[ .]{_H}{{4}})+|{_H}[{_H[1:-1]}_']*?"
_PREFIXED = re.compile(rf"(?:[0Oo][xX]|\$|&[hH]|[hHxX]'|\d{{0,2}}'[hH])({_HEX})'?")
_SUFFIXED = re.compile(rf"({_HEX})[hH]")
_BINARY = re.compile(r"(?:0[bB]|[bB]'|\d{0,2}'[bB]|%)([01][01_ '.]*?)'?|([01]{4,})[bB]")
_BARE = re.compile(f"{_H}+|{_H}{{4}}(?: {_H}{{4}})+")
_SCIENTIFIC = re.compile(r"(\d)(?:[.,](\d{1,4}))?[eE]\+?(\d{1,2})")
#: 64 binary digits in groups of four, with their prefix.
_LONGEST = 82
_LONGEST_NAME = 200
_TOO_LARGE = 1 << 64


class Number(NamedTuple):
    """A number as it is printed.

    ``style`` is ``hex`` where the notation says so, ``binary``, ``bare`` where nothing tells the
    base (``value`` is then read as hexadecimal) or ``scientific``. ``doubt`` says what was put
    right on the way.
    """

    value: int
    style: str
    digits: str
    doubt: str = ""


def number(text: str) -> Number | None:
    """Return the number that ``text`` is in any notation of data sheets: 0x1F, 1Fh, $1F, 1F."""
    text = text.strip().replace("\u00a0", " ")
    if not text or len(text) > _LONGEST:
        return None
    if found := _BINARY.fullmatch(text):
        digits = re.sub("[_ '.]", "", found[1] or found[2])
        return Number(int(digits, 2), "binary", digits) if len(digits) <= 64 else None
    if found := _PREFIXED.fullmatch(text) or _SUFFIXED.fullmatch(text):
        return _hexadecimal(found[1], "hex", text)
    if (found := _SCIENTIFIC.fullmatch(text)) and ("+" in text or found[2]):
        return _scientific(found, text)
    return _hexadecimal(text, "bare", text) if _BARE.fullmatch(text) else None


def _hexadecimal(digits: str, style: str, text: str) -> Number | None:
    groups = digits.split(" ")
    digits = re.sub("[_ '.]", "", digits)
    plain = digits.translate(_LETTERS)
    is_word = not any(letter.isdigit() for letter in digits)
    if style == "bare" and is_word and (len(digits) > 4 or plain != digits):
        return None
    value = int(plain, 16)
    if value >= _TOO_LARGE:
        return None
    has_letter = plain != digits or text[:1] in "Oo"
    doubt = ""
    if has_letter:
        doubt = f"{text!r} has a letter where a digit belongs, read as 0x{plain.upper()}"
    elif len(groups) > 1 and len(groups[0]) < len(groups[1]):
        doubt = f"{text!r} is read as one number, 0x{plain.upper()}"
    return Number(value, style, plain, doubt)


def _scientific(found: re.Match[str], text: str) -> Number:
    digits = f"{found[1]}{(found[2] or '').rstrip('0')}E{int(found[3])}"
    doubt = f"{text!r} looks like {digits}, which a spreadsheet took for a number; look it up"
    return Number(int(digits, 16), "scientific", digits, doubt)


@lru_cache(maxsize=4096)
def is_nothing(text: str) -> bool:
    """Tell whether ``text`` says that nothing is there: a dash of any kind, Reserved, N/A."""
    text = strip_marks(text)[0]
    if within := _IN_BRACKETS.fullmatch(text):
        text = within[1]
    return bool(_DASHES_ONLY.fullmatch(text) or _WORDS_FOR_NOTHING.fullmatch(text))


def is_dash(text: str) -> bool:
    """Tell whether ``text`` is nothing but dashes."""
    return bool(_DASHES_ONLY.fullmatch(text.strip()))


def plain_dashes(text: str) -> str:
    """Return ``text`` with a hyphen for each kind of dash."""
    return re.sub(_DASH, "-", text)


def strip_marks(text: str) -> tuple[str, list[str]]:
    """Return ``text`` without the marks of footnotes at its end, and the marks."""
    plain, marks = _without_marks(text)
    return plain, list(marks)


@lru_cache(maxsize=4096)
def _without_marks(text: str) -> tuple[str, tuple[str, ...]]:
    found = _MARKS.search(text, max(0, len(text) - _LONGEST_NAME))
    if found is None or found.start() == 0:
        return text.strip(), ()
    marks = re.findall(r"\d+|[*\u2020\u2021\u00a7]+", found[0].translate(_SUPERSCRIPTS))
    return text[: found.start()].strip(), tuple(marks)


class Slice(NamedTuple):
    """A name with the bits of it that are meant: ``NAME[9:8]``; ``high`` is -1 when none are."""

    name: str
    high: int = -1
    low: int = -1

    @property
    def width(self) -> int:
        """How many bits; 0 when none are named."""
        return self.high - self.low + 1 if self.high >= 0 else 0


_TO = rf"\s*(?::|\.\.\.?|…|{_DASH}|\bto\b)\s*"
_BRACKETED = re.compile(
    rf"(.*?[A-Za-z_].*?)\s*[\[<{{(]\s*(\d{{1,2}})(?:{_TO}(\d{{1,2}}))?\s*[\]>}})]"
)
_STUCK = re.compile(r"([A-Za-z_]\w*?)(\d+)(?::|\.\.)\s*(?:\1)?(\d{1,2})")


def name_and_slice(text: str, width: int = 0) -> Slice:
    """Return the name in ``text`` and the bits of it that are printed with it.

    Where digits are stuck to the name (``FAN12:0``), ``width``, the number of bits that the cell
    covers, tells where the name ends; without it the name ends at its last letter.
    """
    if len(text) > _LONGEST_NAME:
        return Slice(text)
    found = _BRACKETED.fullmatch(text)
    if found:
        if found[3] is None and found[0].rstrip().endswith(")"):
            return Slice(text)  # a footnote or a number in the name, not a bit
        ends = int(found[2]), int(found[3] or found[2])
        return Slice(found[1].strip(), max(ends), min(ends))
    found = _STUCK.fullmatch(text)
    if found:
        low = int(found[3])
        for digits in range(len(found[2]), 0, -1):
            high = int(found[2][-digits:])
            if high <= 63 and high > low and width in (0, high - low + 1):
                return Slice(found[1] + found[2][:-digits], high, low)
    return Slice(text)


_BITS = re.compile(
    rf"(?:bits?\s*)?[\[(<]?\s*(\d{{1,2}})(?:{_TO}(\d{{1,2}}))?\s*[\])>]?", re.IGNORECASE
)


def bit_range(text: str) -> tuple[int, int] | None:
    """Return the higher and the lower bit of ``[7:4]``, ``7-4``, ``7..4`` or ``7``."""
    found = _BITS.fullmatch(text.strip())
    if found is None:
        return None
    ends = int(found[1]), int(found[2] or found[1])
    return (max(ends), min(ends)) if max(ends) <= 63 else None


def bit_ranges(text: str) -> list[tuple[int, int]] | None:
    """Return the ranges of ``13,6`` or ``[9:8],[3:0]``, as they are printed."""
    found = [bit_range(piece) for piece in text.split(",")]
    return [item for item in found if item] if all(found) else None
