"""From a description to findings and outputs: reader, model, resolve, rules, render."""

from __future__ import annotations

from typing import NamedTuple

from regwright.model.finding import ERROR, Finding, Place
from regwright.read.description import read_description
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip, TooManyRegisters, resolve
from regwright.rules.all import RULES
from regwright.rules.catalogue import Subject, run


class Located(NamedTuple):
    """A finding and where it stands."""

    place: Place
    finding: Finding

    def __str__(self) -> str:
        """Return the line that a terminal, an editor and CI understand."""
        file, line, column = self.place
        finding = self.finding
        return f"{file}:{line}:{column}: {finding.level}: {finding.message} [{finding.rule}]"


class Checked(NamedTuple):
    """What checking one description came to; ``subject`` is ``None`` when it could not be read."""

    source: Source
    subject: Subject | None
    findings: list[Located]

    @property
    def resolved(self) -> ResolvedChip | None:
        """The resolved chip, when the description could be read."""
        return self.subject.resolved if self.subject else None

    @property
    def has_errors(self) -> bool:
        """Whether any finding is an error."""
        return any(item.finding.level == ERROR for item in self.findings)


def check(source: Source, prefix: str = "") -> Checked:
    """Read ``source``, run every rule on it and return what they found, in the file's order."""
    reading = read_description(source)
    findings = reading.findings
    subject = None
    if reading.chip is not None:
        try:
            subject = Subject(resolve(reading.chip, prefix))
            findings = run(RULES, subject)
        except TooManyRegisters as problem:
            findings = [problem.finding]
    located = [Located(source.place(item), item) for item in findings]
    located.sort(key=lambda item: (item.place.line, item.place.column))
    return Checked(source, subject, located)


def emit(checked: Checked, templates: list[str]) -> list[tuple[str, str]]:
    """Return the name and text of each file that ``templates`` make of a checked description.

    Raises ``TemplateProblem``.
    """
    from regwright.render.templates import render
    from regwright.render.views import Input

    subject = checked.subject
    if subject is None:
        raise ValueError("a description that could not be read has no outputs")
    source = checked.source.name.replace("\\", "/").rpartition("/")[2]
    data = Input(
        subject.resolved,
        subject.macros,
        [item.finding for item in checked.findings],
        [f"{source}:{item.place.line}:{item.place.column}" for item in checked.findings],
        source,
    )
    return [tuple(render(template, data)) for template in templates]  # type: ignore[misc]
