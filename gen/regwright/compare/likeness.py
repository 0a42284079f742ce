"""What speaks for, and what against, two things that have no name in common being one."""

from __future__ import annotations

import re

_WORD = re.compile(r"[^\W_]+")
_DIGITS = re.compile(r"[0-9]+")
#: Words that say nothing: two titles that share only these share nothing.
_FILLERS = {
    *("a", "an", "and", "at", "by", "each", "for", "from", "in", "is", "its", "of", "on", "or"),
    *("register", "the", "to"),
}
#: Words that the registers and fields of any block may have for a title or name: they do not tell
#: which of several blocks is meant (common practice, no source).
_GENERAL = {
    *("access", "address", "and", "buffer", "busy", "byte", "clear", "clock", "command", "config"),
    *("configuration", "control", "count", "counter", "ctrl", "data", "disable", "divider", "done"),
    *("enable", "error", "event", "flag", "flags", "for", "high", "index", "input", "interrupt"),
    *("irq", "level", "lock", "low", "mask", "mode", "number", "output", "pending", "pin", "pins"),
    *("position", "prescaler", "read", "ready", "register", "registers", "request", "reset"),
    *("result", "select", "set", "setup", "size", "start", "state", "status", "stop", "test"),
    *("the", "type", "value", "width", "word", "write"),
}


def normal(name: str) -> str:
    """Return ``name`` as names are compared that are alike."""
    return name.replace("_", "").upper()


def title_key(title: str | None) -> str:
    """Return what titles are compared by within one block or register."""
    return " ".join(_WORD.findall(title.lower())) if title else ""


def telling_key(title: str | None) -> str:
    """Return what titles are compared by in a whole chip: nothing for one that any block may have.

    Two words are wanted, and one of them that is not general.
    """
    key = title_key(title)
    return key if " " in key and _tells(key.split()) else ""


def is_telling(name: str) -> bool:
    """Tell whether a field's name alone says what it is, in whatever register it stands."""
    return _tells(_WORD.findall(name.lower().replace("_", " ")))


def _tells(words: list[str]) -> bool:
    return any(len(word) > 2 and not word.isdigit() and word not in _GENERAL for word in words)


def numbers_differ(one: str, other: str) -> bool:
    """Tell whether both names have numbers in them, and not the same."""
    left, right = _DIGITS.findall(one), _DIGITS.findall(other)
    return bool(left and right) and left != right


def titles_differ(one: str | None, other: str | None) -> bool:
    """Tell whether both have a title, and not one word in common."""
    if not one or not other:
        return False
    left, right = (set(_WORD.findall(item.lower())) - _FILLERS for item in (one, other))
    return bool(left and right) and left.isdisjoint(right)
