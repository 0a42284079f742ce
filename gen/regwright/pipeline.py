"""From a description to findings and outputs: reader, model, resolve, rules, render."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from regwright.model.finding import ERROR, Finding, Place
from regwright.read.description import read_description
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip, TooManyRegisters, resolve
from regwright.rules.catalogue import Subject, run
from regwright.rules.choose import rules_for
from regwright.rules.settings import DEFAULT, Settings
from regwright.rules.silences import audible

if TYPE_CHECKING:
    from regwright.render.views import Input

#: Text that is no JSON is repaired at one place in a round; more rounds than this are not made.
_MOST_ROUNDS = 200


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


def check(source: Source, prefix: str = "", settings: Settings = DEFAULT) -> Checked:
    """Read ``source``, run every rule on it and return what they found, in the file's order."""
    reading = read_description(source)
    findings = reading.findings
    subject = None
    if reading.chip is not None:
        try:
            subject = Subject(resolve(reading.chip, prefix))
            findings = audible(run(rules_for(reading.chip), subject, settings.levels), reading.chip)
        except TooManyRegisters as problem:
            findings = [problem.finding]
    located = [Located(source.place(item), item) for item in findings]
    located.sort(key=lambda item: (item.place.line, item.place.column))
    return Checked(source, subject, located)


class Repaired(NamedTuple):
    """A description whose repairs were made, checked again, and how many findings that settled."""

    checked: Checked
    number: int


Choice = Callable[[list[Located]], list[Located]]


def repair(
    checked: Checked, choose: Choice = list, prefix: str = "", settings: Settings = DEFAULT
) -> Repaired:
    """Make the repairs that the findings ``choose`` returns come with, and check again.

    What is repaired may let a rule see more, so this goes on until there is nothing to repair.
    """
    number = 0
    seen = {checked.source.data}
    for _ in range(_MOST_ROUNDS):
        wanted = [item.finding for item in choose(checked.findings)]
        better, done = _repair_once(checked, wanted, prefix, settings)
        if not done or better.source.data in seen:
            break
        seen.add(better.source.data)
        checked = better
        number += done
    return Repaired(checked, number)


def _repair_once(
    checked: Checked, findings: list[Finding], prefix: str, settings: Settings
) -> Repaired:
    """Make every repair at once; when that would spoil the description, each that does not."""
    from regwright.write.repair import repaired

    source, done = repaired(checked.source, findings)
    if not done:
        return Repaired(checked, 0)
    better = check(source, prefix, settings)
    if _legible(better) >= _legible(checked):
        return Repaired(better, len(done))
    if len(done) == 1:
        return Repaired(checked, 0)
    for finding in done:
        one = _repair_once(checked, [finding], prefix, settings)
        if one.number:
            return one
    return Repaired(checked, 0)


def _legible(checked: Checked) -> int:
    """Return how far reading got: 0 not well formed, 1 refused by the schema, 2 all the way."""
    is_well_formed = not any(item.finding.rule.endswith("-syntax") for item in checked.findings)
    return 2 if checked.subject is not None else int(is_well_formed)


def emit(checked: Checked, templates: list[str]) -> list[tuple[str, str]]:
    """Return the name and text of each file that ``templates`` make of a checked description.

    Raises ``TemplateProblem``.
    """
    from regwright.render.templates import render

    data = _input(checked)
    return [(file, text) for template in templates for file, text in render(template, data)]


def emit_family(name: str, checked: list[Checked]) -> tuple[str, str]:
    """Return the name and text of the header ``name`` that includes that of one of these chips.

    Raises ``FamilyProblem``.
    """
    from regwright.render.family import family_header

    file, text = family_header(name, map(_input, checked))
    return file, text


def _input(checked: Checked) -> Input:
    """Return what rendering works on. Raises ``ValueError`` when there was nothing to read."""
    from regwright.render.views import Input

    subject = checked.subject
    if subject is None:
        raise ValueError("a description that could not be read has no outputs")
    source = checked.source.name.replace("\\", "/").rpartition("/")[2]
    return Input(
        subject.resolved,
        subject.macros,
        [item.finding for item in checked.findings],
        [f"{source}:{item.place.line}:{item.place.column}" for item in checked.findings],
        source,
    )
