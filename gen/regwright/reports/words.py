"""Words and characters that several reports share."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from regwright.model.finding import LEVELS
from regwright.reports.results import Found, Result, Run


def visible(line: str) -> str:
    """Return ``line`` with an escape for each character that would not show or would move others.

    What remains is on one line, and every character of it may stand in XML and in UTF-8.
    """
    if line.isprintable():
        return line
    return "".join(
        c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in line
    )


def place(result: Result, item: Found) -> str:
    """Return file, line and column as messages show them."""
    return f"{result.file}:{item.start_line}:{item.start_column}"


def line_of(result: Result, item: Found) -> str:
    """Return the line that a terminal, an editor and CI understand."""
    return visible(f"{place(result, item)}: {item.level}: {item.message} [{item.rule}]")


def advice(item: Found) -> str | None:
    """Return what to do about ``item`` in words, when that is certain."""
    if item.repair is None:
        return None
    return f"write {visible(item.repair)}" if item.repair else "remove it"


def counts(findings: Iterable[Found]) -> dict[str, int]:
    """Return how many findings there are of each level, the gravest first."""
    levels = Counter(item.level for item in findings)
    return {level: levels[level] for level in LEVELS}


def plural(number: int, noun: str) -> str:
    """Return ``number`` and ``noun``, with an s unless it is one."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def levels_in_words(findings: Iterable[Found]) -> str:
    """Return the count of findings by level, in words."""
    parts = [plural(number, level) for level, number in counts(findings).items() if number]
    return ", ".join(parts) or "no findings"


def count_line(run: Run) -> str:
    """Return the count with which ``regwright check`` ends."""
    return f"{plural(len(run.results), 'description')}, {levels_in_words(run.findings)}"
