"""How the rules about code are run, and what they find."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from regwright.audit.problem import CodeEdit, CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Branch, Where
from regwright.rules.catalogue import OFF, Rule


class CodeFinding(NamedTuple):
    """A finding about a part of a source; ``edits`` and ``repair`` as in :class:`CodeProblem`."""

    rule: str
    level: str
    message: str
    at: Where
    edits: tuple[CodeEdit, ...] = ()
    repair: str | None = None


def run(
    rules: tuple[Rule, ...], subject: AuditSubject, levels: Mapping[str, str]
) -> list[CodeFinding]:
    """Return what ``rules`` find, in the order of the sources, each thing once.

    ``levels`` gives some of them another level, or switches them ``off``.
    """
    subject.switched_off = {name for name, level in levels.items() if level == OFF}
    for item in rules:
        level = levels.get(item.name, item.level)
        if level != OFF:
            subject.findings += _found(item, level, list(item.check(subject)))
    return sorted(subject.findings, key=lambda item: item.at)


def _found(rule: Rule, level: str, problems: list[CodeProblem]) -> list[CodeFinding]:
    """Return the findings of one rule; what is so in several branches is told once."""
    branches: dict[tuple[Where, str], list[Branch]] = {}
    first: dict[tuple[Where, str], CodeProblem] = {}
    for problem in problems:
        key = problem.at, problem.message
        branches.setdefault(key, []).append(problem.branch)
        first.setdefault(key, problem)
    return [
        CodeFinding(
            *(rule.name, level, problem.message + _under(branches[key])),
            *(problem.at, problem.edits, problem.repair),
        )
        for key, problem in first.items()
    ]


def _under(branches: list[Branch]) -> str:
    """Return the words that say in which branches of conditional compilation a problem is."""
    if not all(branches):
        return ""
    conditions = dict.fromkeys(" && ".join(branch) for branch in branches)
    return f" (under #if {' or #if '.join(conditions)})"
