"""The pages of the rules, taken apart for the reports that show them."""

from __future__ import annotations

import inspect
import re
from typing import NamedTuple

from regwright.model.finding import ERROR, LEVELS
from regwright.model.words import DESCRIPTION, SOURCE
from regwright.reports.results import Run
from regwright.rules.all import RULES
from regwright.rules.catalogue import OFF, Rule

#: What no rule finds but the reader: its name and its page.
_OF_THE_READER = {
    "json-syntax": """The text is no JSON.

## What it catches
Text that does not keep to RFC 8259, or that would not survive it: a missing comma, a comment, a
name that stands twice in one object, a number too long to be kept.

## Why it matters
Nothing of such a description can be relied on, so no rule has looked at it.

## Instead
Correct the place; what follows it may then have findings of its own.
""",
    "xml-syntax": """The text is no XML.

## What it catches
Text that is not well formed, that has a document type, or that is not UTF-8.

## Why it matters
Nothing of such a description can be relied on, so no rule has looked at it.

## Instead
Correct the place; what follows it may then have findings of its own.
""",
    "schema": """The description is not built as its format demands.

## What it catches
A property or element that the format does not know or that is missing, and a value that is not
written as it must be.

## Why it matters
What the reader does not understand it cannot check, so no rule has looked at the description.

## Instead
Look the property up in `schemas/chip.schema.json` or `schemas/chip.xsd`.
""",
    "nesting": """Blocks or rows are nested deeper than any description is.

## What it catches
Objects, lists or elements within each other beyond what the format has a use for.

## Why it matters
It is no description, or one that has gone wrong where it was generated.

## Instead
Flatten it.
""",
    "too-many-registers": """Rows or instances expand to more registers than any chip has.

## What it catches
Counts of rows and instances that multiply to more than the reader expands.

## Why it matters
One count too large, or a row within a row, would fill the memory.

## Instead
Check each `count`, and what is nested in what.
""",
}


class Section(NamedTuple):
    """A part of a page: its heading, and its text on one line for each paragraph."""

    heading: str
    paragraphs: list[str]


class Page(NamedTuple):
    """A rule with its level and its documentation; ``summary`` is one sentence."""

    rule: str
    level: str
    summary: str
    sections: list[Section]

    def markdown(self) -> str:
        """Return the page as Markdown."""
        parts = [self.summary]
        for heading, paragraphs in self.sections:
            parts += [f"## {heading}", *paragraphs]
        return "\n\n".join(parts)

    def text(self) -> str:
        """Return the page as plain text."""
        parts = [self.summary]
        parts += [f"{heading}\n" + "\n\n".join(text) for heading, text in self.sections]
        return "\n\n".join(parts).replace("`", "")


def page(rule: str, level: str, documentation: str) -> Page:
    """Take a rule's documentation apart."""
    head, *rest = re.split(r"^## (.*)$", inspect.cleandoc(documentation), flags=re.MULTILINE)
    sections = [
        Section(heading.strip(), _paragraphs(body))
        for heading, body in zip(rest[::2], rest[1::2], strict=True)
    ]
    return Page(rule, level, " ".join(head.split()), sections)


def _paragraphs(text: str) -> list[str]:
    return [" ".join(part.split()) for part in re.split(r"\n\s*\n", text) if part.strip()]


def _rules(what: str) -> tuple[Rule, ...]:
    """Return the rules that look at descriptions, or at sources."""
    if what == SOURCE:
        from regwright.audit.all import AUDIT_RULES

        return AUDIT_RULES
    return RULES


def pages(what: str = DESCRIPTION) -> list[Page]:
    """Return the page of every rule, those of the reader of descriptions first."""
    of_reader = _OF_THE_READER if what == DESCRIPTION else {}
    reader = [page(name, ERROR, text) for name, text in of_reader.items()]
    return reader + [page(rule.name, rule.level, rule.documentation) for rule in _rules(what)]


def pages_for(run: Run) -> list[Page]:
    """Return all pages, and a bare one for each other rule that a finding names."""
    found = pages(run.what)
    known = {item.rule for item in found}
    for item in run.findings:
        if item.rule not in known:
            known.add(item.rule)
            level = item.level if item.level in LEVELS else ERROR
            found.append(Page(item.rule, level, item.rule, []))
    return found


def rules_of(run: Run) -> dict[str, str]:
    """Return the level of every rule of the catalogue under the run's settings, or ``off``."""
    levels = run.settings.levels
    return {rule.name: levels.get(rule.name, rule.level) for rule in _rules(run.what)}


def is_off(run: Run, rule: str) -> bool:
    """Tell whether the settings switch ``rule`` off."""
    return run.settings.levels.get(rule) == OFF
