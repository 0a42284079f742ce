"""The findings as ``regwright check`` and ``regwright audit`` print them."""

from __future__ import annotations

from regwright.reports.results import Run
from regwright.reports.words import count_line, line_of


def report(run: Run) -> str:
    """Return a line for each finding, then the count."""
    lines = [line_of(result, item) for result in run.results for item in result.findings]
    return "\n".join([*lines, count_line(run)]) + "\n"
