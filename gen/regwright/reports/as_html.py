"""The findings as one page that needs nothing else: no script, no font, no request."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from regwright.model.words import COMMANDS, SOURCE, plural, visible
from regwright.render.templates import own_environment
from regwright.reports.pages import Page, pages_for
from regwright.reports.results import Excerpt, Found, Result, Run
from regwright.reports.words import counts, levels_in_words


class Piece(NamedTuple):
    """A piece of a paragraph: plain text, or code."""

    is_code: bool
    text: str


class Figure(NamedTuple):
    """A number of the summary and what it counts; ``kind`` is the level it belongs to."""

    number: int
    label: str
    kind: str


class Chip(NamedTuple):
    """A description, or a source, as the page shows it."""

    anchor: str
    file: str
    name: str
    title: str
    size: str
    summary: str
    worst: str
    findings: list[Found]


def report(run: Run) -> str:
    """Return the run as an HTML page."""
    template = own_environment(autoescape=True).get_template("findings.html.j2")
    text = template.render(_context(run))
    return text if text.endswith("\n") else text + "\n"


def _context(run: Run) -> dict[str, Any]:
    named = {item.rule for item in run.findings}
    chips = [_chip(number, result, run.what) for number, result in enumerate(run.results, 1)]
    return {
        "command": COMMANDS[run.what],
        "what": run.what,
        "aside": run.aside,
        "verdict": _verdict(run),
        "failed": bool(run.unreadable) or any(map(run.fails, run.findings)),
        "figures": _figures(run),
        "chips": chips,
        "unreadable": [(visible(file), visible(reason)) for file, reason in run.unreadable],
        "pages": [_page(page) for page in pages_for(run) if page.rule in named],
    }


def _verdict(run: Run) -> str:
    """Return in a sentence whether the check or audit fails, and why."""
    it = f"The {COMMANDS[run.what]}"
    failing = sum(map(run.fails, run.findings))
    reasons = []
    if failing:
        reasons.append(f"{plural(failing, 'finding')} must be corrected")
    if run.unreadable:
        reasons.append(f"{plural(len(run.unreadable), 'file')} could not be read")
    if reasons:
        return f"{it} fails: {' and '.join(reasons)}."
    if run.findings:
        return f"{it} passes, with {levels_in_words(run.findings)}."
    return f"{it} passes: no findings."


def _figures(run: Run) -> list[Figure]:
    levels = counts(run.findings)
    registers = sum(result.registers for result in run.results)
    figures = [Figure(number, level, level) for level, number in levels.items()]
    figures.append(Figure(len(run.results), run.what, ""))
    figures.append(Figure(registers, "register", ""))
    return [
        item._replace(label=item.label if item.number == 1 else f"{item.label}s")
        for item in figures
    ]


def _chip(number: int, result: Result, what: str) -> Chip:
    levels = [level for level, found in counts(result.findings).items() if found]
    name, title = result.chip or "no chip", result.title
    if what == SOURCE:
        name, title = result.file, f"against {name}"
    return Chip(
        f"{what}-{number}",
        visible(result.file),
        visible(name),
        visible(title),
        plural(result.registers, "register") if result.chip is not None else "not resolved",
        levels_in_words(result.findings),
        levels[0] if levels else "clean",
        [_shown(item) for item in result.findings],
    )


def _shown(item: Found) -> Found:
    """Return ``item`` with every text on one line and every character visible."""
    return item._replace(
        message=visible(item.message),
        repair=None if item.repair is None else visible(item.repair),
        excerpt=Excerpt(*(visible(part.replace("\t", " ")) for part in item.excerpt)),
    )


def _page(page: Page) -> dict[str, Any]:
    sections = [
        (section.heading, [_pieces(text) for text in section.paragraphs])
        for section in page.sections
    ]
    return {
        "rule": page.rule,
        "level": page.level,
        "summary": _pieces(page.summary),
        "sections": sections,
    }


def _pieces(text: str) -> list[Piece]:
    """Return ``text`` cut at its backticks."""
    parts = re.split(r"`([^`]*)`", text)
    return [Piece(bool(number % 2), part) for number, part in enumerate(parts) if part]
