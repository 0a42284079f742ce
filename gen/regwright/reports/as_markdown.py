"""The findings as Markdown tables, for a comment on a change or a page of a wiki."""

from __future__ import annotations

from regwright.model.words import SOURCE, plural, visible
from regwright.render.safe_text import code_span, markdown
from regwright.reports.results import Found, Result, Run, Unreadable
from regwright.reports.words import advice, count_line, levels_in_words


def report(run: Run) -> str:
    """Return a table for each file that has findings, and a line for each other one."""
    parts = ["# Findings", f"**{count_line(run)}.**"]
    parts += [_section(result, run.what) for result in run.results]
    if run.unreadable:
        parts += ["## Not read", "\n".join(map(_unread, run.unreadable))]
    return "\n\n".join(parts) + "\n"


def _unread(item: Unreadable) -> str:
    return f"- {code_span(visible(item.file))}: {_safe(item.reason)}"


def _safe(text: str) -> str:
    return markdown(visible(text))


def _section(result: Result, what: str) -> str:
    title = _safe(result.chip or "no chip")
    about = [code_span(visible(result.file))]
    if what == SOURCE:
        title, about = about[0], [f"against {title}"]
    elif result.title:
        about.append(_safe(result.title))
    if result.chip is not None:
        about.append(plural(result.registers, "register"))
    lines = [f"## {title}", "", f"{', '.join(about)}: {levels_in_words(result.findings)}."]
    if result.findings:
        lines += ["", "| Place | Level | Rule | Message | Instead |", "|--:|---|---|---|---|"]
        lines += [_row(item) for item in result.findings]
    return "\n".join(lines)


def _row(item: Found) -> str:
    repair = code_span(visible(item.repair)) if item.repair else advice(item) or ""
    cells = [
        f"{item.start_line}:{item.start_column}",
        f"**{item.level}**" if item.level == "error" else item.level,
        code_span(item.rule),
        _safe(item.message),
        repair,
    ]
    return f"| {' | '.join(cells)} |".replace("|  |", "| |")
