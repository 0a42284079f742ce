"""Comments in code that silence a rule on their line and the next."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from regwright.audit.problem import CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Quiet
from regwright.model.finding import WARNING
from regwright.model.words import nearest
from regwright.rules.catalogue import rule

if TYPE_CHECKING:
    from regwright.audit.catalogue import CodeFinding

#: A file, a line of it and a rule.
_Spot = tuple[int, int, str]


def audible(findings: list[CodeFinding], subject: AuditSubject) -> list[CodeFinding]:
    """Return those of ``findings`` that no comment in the sources is for."""
    quiets = subject.seen.quiets
    if not quiets:
        return findings
    silent = {spot for quiet in quiets for spot in _covered(quiet)}
    return [item for item in findings if _spot(subject, item) not in silent]


def _covered(quiet: Quiet) -> list[_Spot]:
    """Return what a comment silences: nothing without a reason, and never the rule on itself."""
    if not quiet.reason or quiet.rule == comment_silences_nothing.name:
        return []
    return [(quiet.file, quiet.line + more, quiet.rule) for more in (0, 1)]


def _spot(subject: AuditSubject, finding: CodeFinding) -> _Spot:
    at = finding.at
    return at.file, subject.files[at.file].line(at.start), finding.rule


@rule("comment-silences-nothing", WARNING)
def comment_silences_nothing(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A comment that silences a rule silences nothing.

    ## What it catches
    `regwright: silence RULE reason` in a comment, where the rule does not exist, where it finds
    nothing on the line on which the comment ends or the next one, or where the reason is missing.
    Runs last, on what the other rules have found.

    ## Why it matters
    What it was for has been corrected, and it would hide the next mistake of that kind. Without a
    reason nobody knows whether it still holds.

    ## Example
    `/* regwright: silence not-volatile */`

    ## Instead
    `/* regwright: silence not-volatile read once, before interrupts are on */`

    ## When to silence it
    Never.
    """
    if not subject.seen.quiets:
        return
    from regwright.audit.all import AUDIT_RULES

    names = [item.name for item in AUDIT_RULES]
    found = {_spot(subject, item) for item in subject.findings}
    for quiet in subject.seen.quiets:
        message = ""
        if quiet.rule not in names:
            near = nearest(quiet.rule, names)
            hint = f"did you mean {near}?" if near else "regwright rules lists them"
            message = f"there is no rule {quiet.rule!r} about code; {hint}"
        elif not quiet.reason:
            message = f"this silences {quiet.rule} only with a reason behind it: say why"
        elif quiet.rule not in subject.switched_off and found.isdisjoint(_covered(quiet)):
            message = f"{quiet.rule} finds nothing on this line and the next: remove the comment"
        if message:
            yield CodeProblem(message, quiet.at)
