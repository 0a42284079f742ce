"""Guess what a refused value was meant to be: a base left out, a word of another notation."""

from __future__ import annotations

import re
from typing import Any

from regwright.format.shape import definition
from regwright.model.words import nearest

#: Longer texts were not mistyped: no hint is looked for.
LONGEST_HINT = 80
#: What datasheets print for the words of IEEE 1685.
USUAL_WORDS = {
    "rw": "read-write",
    "r/w": "read-write",
    "r": "read-only",
    "ro": "read-only",
    "w": "write-only",
    "wo": "write-only",
    "none": "no-access",
    "w1c": "oneToClear",
    "rw1c": "oneToClear",
    "w1s": "oneToSet",
    "w1t": "oneToToggle",
    "w0c": "zeroToClear",
    "w0s": "zeroToSet",
    "w0t": "zeroToToggle",
    "rc": "clear",
    "rs": "set",
    "le": "little",
    "lsb": "low",
    "be": "big",
    "msb": "high",
    "lo": "low",
    "hi": "high",
}


def hint(value: Any, specification: dict[str, Any]) -> str:
    """Add what was probably meant, when the value looks like something well known."""
    if isinstance(value, (dict, list, bool)) or value is None or len(str(value)) > LONGEST_HINT:
        return ""
    text = str(value).strip()
    kind = specification.get("type")
    found = ""
    if "enum" in specification:
        found = _word_hint(value, specification["enum"])
    elif kind in ("integer", "boolean") and isinstance(value, str):
        found = _plain_hint(value, text)
    elif is_quantity(specification):
        meant = quantity_meant(value, specification)
        found = f". Was {meant} meant?" if meant else ""
    elif kind == "string" and not isinstance(value, str):
        found = f'. Was "{text}" meant, in quotes?'
    elif "0d" in str(specification.get("pattern", "")):
        found = _base_hint(text, str(value))
    elif specification == definition("bits"):
        bits = bits_meant(text)
        found = f". Was {bits} meant?" if bits else ""
    elif is_names(specification):
        names = names_meant(str(value), specification)
        found = f". Was {names} meant?" if names else ""
    return found


def _word_hint(value: Any, allowed: list[Any]) -> str:
    text = str(value).strip()
    for word in allowed:
        if str(word) == text and word != value:
            return ". Write it in quotes" if isinstance(word, str) else ". Write it without quotes"
    if not isinstance(allowed[0], str):
        return ""
    meant = USUAL_WORDS.get(text.lower())
    near = meant if meant in allowed else nearest(text, allowed)
    return f". Was {near} meant?" if near else ""


def _plain_hint(value: str, text: str) -> str:
    """Say how to write a whole number or a truth value that was written as a text."""
    digits = text.lstrip("0") or "0"
    if text in ("true", "false") or (digits == value and digits.isascii() and digits.isdigit()):
        return ". Write it without quotes"
    if text.lower() in ("true", "yes", "on", "1", "false", "no", "off"):
        return ""
    if digits.isascii() and digits.isdigit():
        return f". Was {digits} meant?"
    return ""


def _base_hint(text: str, written: str) -> str:
    """Add what a number was probably meant to be, where a base must be said."""
    pieces = [piece.rpartition(":") for piece in re.split(r"[ ,;]+", text)]
    meant = [_meant_number(number) for _, _, number in pieces]
    if len(pieces) == 1 and not pieces[0][1]:
        found = meant[0]
        return f". Was {' or '.join(found)} meant?" if found and found != [written] else ""
    if not all(meant):
        return ""
    whole = " ".join(
        f"{space.lower()}{colon}{found[0]}"
        for (space, colon, _), found in zip(pieces, meant, strict=True)
    )
    return f". Was {whole} meant?" if whole != written else ""


def _meant_number(text: str) -> list[str]:
    """Return the numbers that ``text`` may stand for, each with its base; itself if it is one."""
    if re.fullmatch(r"0x[0-9A-Fa-f_]+|0b[01_]+|0d[0-9]+|[0-9]", text):
        return [text]
    if re.fullmatch(r"[0-9]{2,19}", text):
        return [f"0x{text}", f"0d{text}"]
    # Notations of assemblers and hardware languages, then letters that look like digits.
    for pattern, prefix in (
        (r"0[dD]([0-9_]+)", "0d"),
        (r"(?:0[bB]|%|[bB]')([01][01_]*)'?", "0b"),
        (r"([01]{2,64})[bB]", "0b"),
        (r"(?:0[xX]|\$|&[hH]|#|[hH]')?([0-9A-Fa-f]{1,16})[hH]?'?", "0x"),
        (r"0[xX]([0-9A-Fa-fOolI]+)", "0x"),
    ):
        match = re.fullmatch(pattern, text)
        if match:
            digits = match[1].translate(str.maketrans("OolI", "0011"))
            return [prefix + (digits.replace("_", "") if prefix == "0d" else digits)]
    return []


#: The units of each quantity, by how they are usually misspelled.
_QUANTITIES = {
    "frequency": {"hz": "Hz", "khz": "kHz", "mhz": "MHz", "ghz": "GHz"},
    "voltage": {"v": "V", "mv": "mV"},
    "tolerance": {"%": "%", "ppm": "ppm"},
}


def is_quantity(specification: dict[str, Any]) -> bool:
    """Tell whether a value is a number with its unit."""
    return _quantity_of(specification) is not None


def _quantity_of(specification: dict[str, Any]) -> str | None:
    pattern = specification.get("pattern")
    return next((name for name in _QUANTITIES if pattern == definition(name)["pattern"]), None)


def quantity_meant(value: Any, specification: dict[str, Any]) -> str | None:
    """Return how a quantity is written, for those who leave out the space or, in hertz, the unit.

    A bare number is a frequency in hertz only when it is whole and at least a thousand: nobody
    gives volts or parts that way.
    """
    name = _quantity_of(specification) or ""
    text = str(value).strip()
    match = re.fullmatch(r"([0-9]{1,15}(?:[.][0-9]{1,9})?)\s*(%|[A-Za-z]*)", text, re.ASCII)
    if match is None:
        return None
    number, unit = match[1], match[2]
    if not unit:
        is_hertz = name == "frequency" and "." not in number and int(number) >= 1000
        return _in_hertz(int(number)) if is_hertz else None
    if unit == "mhz" or (name == "voltage" and unit.startswith("M")):
        return None  # a thousandth or a million: nobody can tell
    right = _QUANTITIES.get(name, {}).get(unit.lower())
    meant = f"{number} {right}"
    return meant if right and meant != value else None


def _in_hertz(value: int) -> str:
    """Return a frequency in the greatest unit of which it is a whole number."""
    steps = ((10**9, "GHz"), (10**6, "MHz"), (10**3, "kHz"), (1, "Hz"))
    return next(f"{value // scale} {unit}" for scale, unit in steps if value % scale == 0)


def is_names(specification: dict[str, Any]) -> bool:
    """Tell whether a value is several names in one text."""
    return specification in (definition("identifiers"), definition("mnemonics"))


def names_meant(text: str, specification: dict[str, Any]) -> str | None:
    """Return how several names are written, for those who put more than one space between."""
    names = " ".join(re.split(r"[\s,;|/]+", text.strip(" \t\r\n,;|/")))
    is_right = re.fullmatch(specification["pattern"][1:-1], names)
    return names if is_right and names != text else None


_RANGE = r"[0-9]{1,2}(?::[0-9]{1,2})?"


def bits_meant(text: str) -> str | None:
    """Return how a range of bits is written, for those who write it in another way."""
    bare = re.sub(r"^([\[(<]|[bB]its? ?)|[\])>]$|\s", "", text).replace(";", ",")
    ends = re.fullmatch(r"([0-9]{1,2})(?:\.{2,3}|-|\u2013|to)([0-9]{1,2})", bare)
    if ends:
        low, high = sorted((int(ends[1]), int(ends[2])))
        bare = f"{high}:{low}"
    is_right = re.fullmatch(f"{_RANGE}(?:,{_RANGE})*", bare)
    return bare if is_right and bare != text else None
