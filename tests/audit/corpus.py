"""The hand-judged sources of ``tests/cases/audit``: what is expected of each, and what is found."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import NamedTuple

from regwright.audit.audit import audit
from regwright.code.text import CodeText, language_of
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.rules.catalogue import Subject

CASES = Path(__file__).parent.parent / "cases" / "audit"
DESCRIPTIONS = Path(__file__).parent.parent.parent / "descriptions"
_HEAD = re.compile(r"audit with ([\w.]+)(, pedantic)?")
_FINDS = re.compile(r"finds(-next)?((?: [a-z]+(?:-[a-z]+)+)+)")

#: A line, counted from 1, and the rule that finds something there.
Mark = tuple[int, str]


class Case(NamedTuple):
    """A source, the description that it is held against, and what must be found in it."""

    path: Path
    chip: Path
    pedantic: bool
    expected: frozenset[Mark]

    @property
    def name(self) -> str:
        """Where the case is, below the folder of all cases."""
        return self.path.relative_to(CASES).as_posix()


def paths() -> list[Path]:
    """Return every source among the cases; what is dropped in is there."""
    return sorted(path for path in CASES.rglob("*") if language_of(path.name))


def read(path: Path) -> Case:
    """Return the case that a source is, by the remarks in it."""
    # Latin-1 has a character for every byte; the remarks are ASCII.
    lines = path.read_text(encoding="latin-1").split("\n")
    head = _HEAD.search(lines[0])
    assert head is not None, f"{path}: the first line does not say `audit with NAME`"
    near = path.parent / head[1]
    chip = near if near.exists() else DESCRIPTIONS / head[1]
    expected = {
        (number + bool(found[1]), rule)
        for number, line in enumerate(lines, 1)
        for found in _FINDS.finditer(line)
        for rule in found[2].split()
    }
    return Case(path, chip, bool(head[2]), frozenset(expected))


@cache
def _described(path: Path) -> Subject:
    data = path.read_bytes()
    subject = check(Source(path.name, data, spelling_of(path.name, data))).subject
    assert subject is not None, path
    return subject


def found(case: Case) -> dict[Mark, str]:
    """Return what the audit finds in a case, with the messages."""
    chip = _described(case.chip)
    language = language_of(case.path.name)
    assert language is not None
    text = CodeText(case.path.name, case.path.read_bytes(), language)
    audited = audit(chip.resolved, chip.macros, [text], pedantic=case.pedantic)
    return {(text.line(item.at.start), item.rule): item.message for item in audited.findings}
