"""Turn names of any kind into C identifiers, and texts into what a description may hold."""

from __future__ import annotations

import re
import unicodedata

_IDENTIFIER = re.compile("[A-Za-z_][A-Za-z0-9_]*")
_LINE = 200
_PROSE = 4000
_NO_TEXT = re.compile("[\x00-\x1f\x7f\ufffe\uffff]+")
_NO_PROSE = re.compile("[\x00-\x09\x0b-\x1f\x7f\ufffe\uffff]+")


def identifier(text: str, taken: set[str], most: int = 80) -> str:
    """Return a C identifier for ``text`` that is not in ``taken``, and add it there.

    A text that is one already, and free, stays as it is. Letters lose their accents, what is
    neither letter nor digit becomes an underscore, a digit in front gets an N before it.
    """
    name = text if _IDENTIFIER.fullmatch(text) else _mapped(text)
    name = name[:most]
    free = name if name not in taken else _numbered(name, taken, most)
    taken.add(free)
    return free


def _numbered(name: str, taken: set[str], most: int) -> str:
    """Return ``name`` with a number that makes it free; thousands of one name cost no more each."""

    def with_number(number: int) -> str:
        end = f"_{number}"
        return name[: most - len(end)] + end

    low, high = 1, 2
    while with_number(high) in taken:
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if with_number(middle) in taken else (low, middle)
    return with_number(high)


def _mapped(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    name = re.sub(r"\W+", "_", plain).strip("_") or "UNNAMED"
    return f"N{name}" if name[0].isdigit() else name


def line(text: str, most: int = _LINE) -> str:
    """Return ``text`` on one line of at most ``most`` characters, white space made single."""
    plain = " ".join(_NO_TEXT.sub(" ", text).split())
    return plain if len(plain) <= most else plain[: most - 1].rstrip() + "…"


def prose(text: str, most: int = _PROSE) -> str:
    """Return ``text`` as a description's notes may hold it, its lines kept."""
    lines = [" ".join(_NO_PROSE.sub(" ", item).split()) for item in text.split("\n")]
    plain = "\n".join(lines).strip()
    return plain if len(plain) <= most else plain[: most - 1].rstrip() + "…"
