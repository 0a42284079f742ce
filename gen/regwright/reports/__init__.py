"""Reports of what a check has found, for people and for the programs that show them."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from regwright.reports.results import Found, Result, Run, Unreadable, encodable, result_of, unread

__all__ = [
    "REPORTS",
    "Found",
    "Result",
    "Run",
    "Unreadable",
    "render_report",
    "result_of",
    "unread",
]

Report = Callable[[Run], str]


def _lazily(name: str) -> Report:
    """Return the report ``name``, whose module is imported when it is first asked for."""

    def report(run: Run) -> str:
        made: str = import_module(f"regwright.reports.as_{name}").report(encodable(run))
        return made

    return report


#: Every report by its name: a function from a run to the whole text, which ends in a line break.
REPORTS: dict[str, Report] = {
    name: _lazily(name) for name in ("text", "json", "sarif", "junit", "html", "markdown")
}


def render_report(name: str, run: Run) -> str:
    """Return the report ``name`` of ``run``. It can be written as UTF-8, whatever the input was.

    Raises ``KeyError`` when there is no such report.
    """
    return REPORTS[name](run)
