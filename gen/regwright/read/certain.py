"""What a refused value or name was certainly meant to be, so that it can be written for the user.

``hints`` guesses and asks; here only one thing can be meant, or nothing is returned.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from typing import Any

from regwright.model.finding import LITERAL, VALUE
from regwright.read.hints import LONGEST_HINT, USUAL_WORDS, bits_meant, is_names, names_meant

_TRUTHS = {
    **dict.fromkeys(("true", "yes", "on", "1"), "true"),
    **dict.fromkeys(("false", "no", "off", "0"), "false"),
}
_RIGHT = re.compile(r"0x[0-9A-Fa-f_]+|0b[01_]+|0d[0-9]+|[0-9]")
#: Spellings that can mean one number only: what is meant, by its prefix and digits.
_NOTATIONS = (
    (re.compile(r"0D([0-9]+)"), "0d"),
    (re.compile(r"(?:0B|%|[bB]')([01][01_]*)'?"), "0b"),
    (re.compile(r"(?:0X|\$|&[hH]|[hH]')([0-9A-Fa-f]{1,16})'?"), "0x"),
    (re.compile(r"(?=.*[0-9])([0-9A-Fa-f]{1,16})[hH]"), "0x"),
    # no prefix, but a digit that only base 16 has, and not what could be another prefix
    (re.compile(r"(?!0[bBdD])#?([0-9]+[A-Fa-f][0-9A-Fa-f]{0,15})(?<![01][bB])"), "0x"),
    (re.compile(r"0[xX]([0-9A-Fa-fOolI]+)"), "0x"),
)
_LOOKS_ALIKE = str.maketrans("OolI", "0011")


def repair_of(value: Any, specification: dict[str, Any], spelling: str) -> tuple[str, str] | None:
    """Return what ``value`` certainly means, and the part of it that this takes the place of."""
    if isinstance(value, (dict, list)) or value is None or len(str(value)) > LONGEST_HINT:
        return None
    if isinstance(value, str):
        found = _of_text(value, specification)
    else:
        found = _of_other(value, specification)
    if found is None or not _is_right(found, specification):
        return None
    is_text = isinstance(found, str)
    if spelling == "json" and is_text != isinstance(value, str):
        return json.dumps(found), LITERAL
    return (found if isinstance(found, str) else json.dumps(found)), VALUE


def _is_right(value: Any, specification: dict[str, Any]) -> bool:
    from regwright.read.explain import explaining_validator

    validator: Any = explaining_validator().evolve(schema=specification)
    return bool(validator.is_valid(value))


def _of_other(value: Any, specification: dict[str, Any]) -> Any:
    """Return the text that a number or truth value was meant to be."""
    kind = specification.get("type")
    if isinstance(value, bool):
        return None
    is_text = kind == "string" or str(value) in specification.get("enum", ())
    return str(value) if is_text else None


def _of_text(value: str, specification: dict[str, Any]) -> Any:
    text = value.strip()
    kind = specification.get("type")
    if "enum" in specification:
        return _word(text, specification["enum"])
    if kind == "boolean":
        truth = _TRUTHS.get(text.lower())
        return None if truth is None else truth == "true"
    if kind == "integer":
        is_whole = text.isascii() and text.isdigit()
        return int(text) if is_whole else None
    return _of_words(value, specification)


def _of_words(value: str, specification: dict[str, Any]) -> str | None:
    """Return the numbers, bits or names that a text was meant to be."""
    text = value.strip()
    pattern = str(specification.get("pattern", ""))
    if "=" in pattern:  # a condition: too much stands in it to be sure
        return None
    if "0d" in pattern:
        return _numbers(text)
    if specification.get("type") == ["string", "integer"]:
        return bits_meant(text)
    return names_meant(value, specification) if is_names(specification) else None


def _word(text: str, allowed: list[Any]) -> Any:
    for word in allowed:
        if str(word) == text:
            return word
    words = [word for word in allowed if isinstance(word, str)]
    meant = USUAL_WORDS.get(text.lower())
    return meant if meant in words else only_near(text, words)


def _numbers(text: str) -> str | None:
    """Return a number, or addresses with their spaces, as the format has them."""
    pieces = [piece.rpartition(":") for piece in re.split(r"[ ,;]+", text)]
    meant = [(space.lower(), colon, _number(number)) for space, colon, number in pieces]
    if any(number is None for _, _, number in meant):
        return None
    return " ".join(f"{space}{colon}{number}" for space, colon, number in meant)


def _number(text: str) -> str | None:
    if _RIGHT.fullmatch(text):
        return text
    for pattern, prefix in _NOTATIONS:
        match = pattern.fullmatch(text)
        if match:
            return prefix + match[1].translate(_LOOKS_ALIKE)
    return None


def only_near(name: str, known: Iterable[str]) -> str | None:
    """Return the one known name that ``name`` is, but for one slip; ``None`` if it may be several.

    Slips are a letter too many, too few or wrong, two that changed places, and, in addition to
    that, other case, hyphens or underscores.
    """
    plain = _plain(name)
    if len(plain) < 3 or len(plain) > LONGEST_HINT:
        return None
    by_plain = {_plain(item): item for item in known}
    if plain in by_plain:
        return by_plain[plain]
    near = [item for key, item in by_plain.items() if _is_one_slip(plain, key)]
    return near[0] if len(near) == 1 else None


def _plain(name: str) -> str:
    return re.sub("[-_ ]", "", name).lower()


def _is_one_slip(one: str, other: str) -> bool:
    short, long = sorted((one, other), key=len)
    if len(long) - len(short) > 1:
        return False
    start = 0
    while start < len(short) and short[start] == long[start]:
        start += 1
    if len(short) < len(long):
        return short[start:] == long[start + 1 :]
    swapped = long[start + 1 : start + 2] + long[start : start + 1] + long[start + 2 :]
    return short[start + 1 :] == long[start + 1 :] or short[start:] == swapped
