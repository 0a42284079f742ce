"""How findings are counted and shown in words, wherever that is done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from regwright.model.finding import LEVELS


def plural(number: int, noun: str) -> str:
    """Return ``number`` and ``noun``, with an s unless it is one."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def levels_in_words(levels: Iterable[str]) -> str:
    """Return how many findings there are of each level, the gravest first."""
    counts = Counter(levels)
    parts = [plural(counts[level], level) for level in LEVELS if counts[level]]
    return ", ".join(parts) or "no findings"


#: What is looked at: descriptions, or sources that are held against one.
DESCRIPTION, SOURCE = "description", "source"
#: The command that looks at it, and what has been done with it then.
COMMANDS = {DESCRIPTION: "check", SOURCE: "audit"}
_DONE = {DESCRIPTION: "checked", SOURCE: "audited"}


def count_line(number: int, levels: Iterable[str], what: str = DESCRIPTION) -> str:
    """Return the count with which a check of ``number`` descriptions or sources ends."""
    if not number:
        return f"no {what} was {_DONE[what]}"
    return f"{plural(number, what)}, {levels_in_words(levels)}"


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Return the known name that looks most like ``name``, if one does; case does not matter."""
    import difflib  # only a mistake needs it

    by_lower = {item.lower(): item for item in known}
    found = difflib.get_close_matches(name[:80].lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None


def visible(line: str) -> str:
    """Return ``line`` with an escape for each character that would not show or would move others.

    A file's name or text could clear the screen otherwise, or make one message look like another.
    What remains is on one line, and every character of it may stand in XML and in UTF-8.
    """
    if line.isprintable():
        return line
    return "".join(
        c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in line
    )
