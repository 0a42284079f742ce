"""Words and characters that several reports share."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from regwright.model import words
from regwright.model.finding import LEVELS
from regwright.reports.results import Found, Result, Run


def place(result: Result, item: Found) -> str:
    """Return file, line and column as messages show them."""
    return f"{result.file}:{item.start_line}:{item.start_column}"


def line_of(result: Result, item: Found) -> str:
    """Return the line that a terminal, an editor and CI understand."""
    return words.visible(f"{place(result, item)}: {item.level}: {item.message} [{item.rule}]")


def advice(item: Found) -> str | None:
    """Return what to do about ``item`` in words, when that is certain."""
    if item.repair is None:
        return None
    return f"write {words.visible(item.repair)}" if item.repair else "remove it"


def counts(findings: Iterable[Found]) -> dict[str, int]:
    """Return how many findings there are of each level, the gravest first."""
    levels = Counter(item.level for item in findings)
    return {level: levels[level] for level in LEVELS}


def levels_in_words(findings: Iterable[Found]) -> str:
    """Return the count of findings by level, in words."""
    return words.levels_in_words(item.level for item in findings)


def count_line(run: Run) -> str:
    """Return the count with which ``regwright check`` and ``regwright audit`` end."""
    line = words.count_line(len(run.results), (item.level for item in run.findings), run.what)
    return f"{line}; {run.aside}" if run.aside else line
