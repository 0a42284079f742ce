"""Regular expressions of a mapping: the part of the language that cannot take long."""

from __future__ import annotations

import re
from functools import cache

#: A longer text matches no pattern, so that each match takes a few milliseconds at most.
LONGEST_TEXT = 200
#: The ways to try that a pattern may have on such a text.
_MOST_WAYS = 10_000_000
_PIECE = re.compile(
    r"(?P<escape>\\[dDwWsSbnt\\.\[\](){}*+?|^$/-])|(?P<bad>\\|\(\?(?!:))|(?P<set>\[\^?\]?[^\]]*\])"
    r"|(?P<open>\((?:\?:)?)|(?P<close>\))|(?P<many>\{(\d{1,3})(?:(,)(\d{1,3})?)?\}|[*+?])"
    r"|(?P<or>\|)|(?P<other>.)",
    re.DOTALL,
)


def why_not(pattern: str) -> str:
    """Say why ``pattern`` is not taken; an empty text when it is."""
    try:
        groups = re.compile(pattern).groups
    except (re.error, RecursionError, OverflowError) as problem:
        return f"this is no regular expression: {problem}"
    if groups != 1:
        return f"a pattern has one group, ( … ), for what is wanted, and this has {groups}"
    return _too_much(pattern)


def _too_much(pattern: str) -> str:
    """Say what in ``pattern`` could take long."""
    ways = 1
    before = ""
    for piece in _PIECE.finditer(pattern):
        kind = piece.lastgroup or ""
        if kind == "bad":
            return (
                f"{pattern[piece.start() : piece.start() + 3]!r} is not taken here; known are "
                r"( ), (?: ), [ ], |, * + ? { }, ^ $ and \d \w \s \b"
            )
        if kind == "many":
            if before == "close" and piece[0] != "?":
                return f"{piece[0]} after a group may take for ever; repeat one character or set"
            if before == "many" and piece[0] != "?":
                return f"{piece[0]} after a repetition is not taken here; say it in one"
            ways *= 1 if before == "many" else _ways(piece[0], piece[7], piece[8], piece[9])
        elif kind == "or":
            ways *= 2
        if ways > _MOST_WAYS:
            return "this pattern has too many ways to match; use fewer of * + { } and |"
        before = kind
    return ""


def _ways(sign: str, least: str | None, comma: str | None, most: str | None) -> int:
    if sign == "?":
        return 2
    if least is None or (comma and most is None):
        return LONGEST_TEXT
    return int(most or least) - int(least) + 1


@cache
def compiled(pattern: str) -> re.Pattern[str]:
    """Return a pattern that :func:`why_not` has nothing against."""
    return re.compile(pattern)


def group_in(pattern: str, text: str) -> str | None:
    """Return what the group takes of the whole ``text``; ``None`` when that does not match."""
    match = compiled(pattern).fullmatch(text) if len(text) <= LONGEST_TEXT else None
    return match[1] if match else None
