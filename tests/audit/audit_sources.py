"""Run rules about code on sources given as text, and make the repairs that they offer."""

from __future__ import annotations

from typing import NamedTuple

from described import shipped

from regwright.audit.all import AUDIT_RULES
from regwright.audit.catalogue import CodeFinding, run
from regwright.audit.edits import applied
from regwright.audit.subject import AuditSubject
from regwright.code.text import CodeText, language_of
from regwright.macros.registers import chip_macros
from regwright.resolve.chip import ResolvedChip


class Told(NamedTuple):
    """A finding: its rule, the line and the text that it is about, its message."""

    rule: str
    line: int
    text: str
    message: str


def subject_of(
    *sources: str,
    chip: str | ResolvedChip = "sorrel14",
    name: str = "pins.h",
    pedantic: bool = False,
) -> AuditSubject:
    """Return the sources held against a chip; they all have the ending of ``name``."""
    resolved = shipped(chip) if isinstance(chip, str) else chip
    language = language_of(name)
    assert language is not None
    files = [
        CodeText(f"{number}{name}" if number else name, source.encode(), language)
        for number, source in enumerate(sources)
    ]
    return AuditSubject(resolved, chip_macros(resolved), files, pedantic=pedantic)


def findings(
    subject: AuditSubject, *rules: str, levels: dict[str, str] | None = None
) -> list[CodeFinding]:
    """Return what these rules find, or all when none is named."""
    known = {rule.name for rule in AUDIT_RULES}
    assert set(rules) <= known
    subject.findings = []
    chosen = tuple(rule for rule in AUDIT_RULES if not rules or rule.name in rules)
    return run(chosen, subject, levels or {})


def told(subject: AuditSubject, *rules: str, levels: dict[str, str] | None = None) -> list[Told]:
    """Return the findings in a form to compare."""
    return [
        Told(
            item.rule,
            subject.files[item.at.file].line(item.at.start),
            subject.text(item.at),
            item.message,
        )
        for item in findings(subject, *rules, levels=levels)
    ]


def repaired(subject: AuditSubject, *rules: str) -> list[str]:
    """Return the text of each source with every repair of these rules made at once."""
    found = findings(subject, *rules)
    files, done = applied(subject.files, found)
    assert done == [item for item in found if item.edits]
    return [text.data.decode() for text in files]
