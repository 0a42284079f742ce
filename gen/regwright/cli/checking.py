"""Check one description as the command line asked; this is what each process of ``--jobs`` does."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from regwright.cli.inputs import CannotRead, load
from regwright.cli.known import Counts, Known, counts_of
from regwright.model.words import DESCRIPTION
from regwright.pipeline import Checked, Located, check, repair
from regwright.read.source import Source
from regwright.rules.settings import Settings

if TYPE_CHECKING:
    from regwright.reports import Result

#: What is checked: a path, or a text that was read already.
Task = str | Source


class Job(NamedTuple):
    """What the command line wants of every description, or of every source (``what``)."""

    settings: Settings
    prefix: str = ""
    known: Known | None = None
    wants_counts: bool = False
    wants_result: bool = False
    wants_repairs: bool = False
    what: str = DESCRIPTION


class Outcome(NamedTuple):
    """What checking one description came to: plain values that cross to another process.

    ``problem`` says why it could not be read. ``before`` and ``after`` are its bytes when repairs
    changed it, ``repaired`` says how many findings those settled.
    """

    name: str
    problem: str = ""
    findings: list[Located] = []  # noqa: RUF012 (nothing changes it)
    counts: Counts = {}  # noqa: RUF012 (nothing changes it)
    result: Result | None = None
    repaired: int = 0
    before: bytes = b""
    after: bytes = b""


def prepare(job: Job) -> None:
    """Load what every description needs, before processes are made that can share it."""
    from regwright.read.description import deciding_validator
    from regwright.read.xml_text import xml_schema

    deciding_validator()
    xml_schema()
    if job.wants_result:
        import regwright.reports  # noqa: F401


def outcome_of(job: Job, task: Task) -> Outcome:
    """Check the description ``task``."""
    name = task if isinstance(task, str) else task.name
    try:
        source = load(task) if isinstance(task, str) else task
    except CannotRead as problem:
        return Outcome(name, str(problem))
    first = checked = check(source, job.prefix, job.settings)
    repaired = 0
    if job.wants_repairs:
        checked, repaired = repair(
            checked, lambda found: _fresh(job, name, found), job.prefix, job.settings
        )
    return _outcome(job, first, checked, repaired)


def _fresh(job: Job, name: str, found: list[Located]) -> list[Located]:
    return job.known.fresh(name, found) if job.known else found


def _outcome(job: Job, first: Checked, checked: Checked, repaired: int) -> Outcome:
    source = checked.source
    fresh = _fresh(job, source.name, checked.findings)
    result = None
    if job.wants_result:
        from regwright.reports import result_of

        result = result_of(checked._replace(findings=fresh))
    return Outcome(
        source.name,
        findings=[Located(place, item._replace(origin=None)) for place, item in fresh],
        counts=counts_of(checked.findings) if job.wants_counts else {},
        result=result,
        repaired=repaired,
        before=first.source.data if repaired else b"",
        after=source.data if repaired else b"",
    )
