"""Read sources, hold them against a chip, and make of it what outputs are made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from regwright.audit.audit import Audited, audit, counted, repair
from regwright.audit.catalogue import CodeFinding
from regwright.audit.usage import registers_used, usages
from regwright.cli.checking import Job, Outcome
from regwright.cli.inputs import (
    DESCRIPTIONS,
    STDIN,
    STDIN_NAME,
    CannotRead,
    Kind,
    load_bytes,
    stdin_bytes,
)
from regwright.cli.known import counts_of
from regwright.code.text import C, CodeText, language_of
from regwright.model.finding import Finding, Place
from regwright.model.words import SOURCE
from regwright.pipeline import Located
from regwright.rules.catalogue import Subject
from regwright.rules.settings import Settings

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

SOURCES = Kind(SOURCE, " (.c, .h, .cpp, .s, …)", lambda name: language_of(name) is not None)


class Wish(NamedTuple):
    """What the command line wants of an audit beyond its :class:`Job`."""

    pedantic: bool = False
    use_header: str = ""


def load_sources(
    paths: Iterable[str], language: str | None
) -> tuple[list[CodeText], list[Outcome]]:
    """Return the sources, and an outcome for each path that could not be read as one."""
    texts, problems = [], []
    for path in paths:
        try:
            texts.append(_load(path, language))
        except CannotRead as problem:
            problems.append(Outcome(path, str(problem)))
    return texts, problems


def _load(path: str, language: str | None) -> CodeText:
    is_stdin = path == STDIN
    data = stdin_bytes(SOURCES) if is_stdin else load_bytes(path, SOURCES)
    name = STDIN_NAME if is_stdin else path
    if b"\0" in data:
        raise CannotRead(f"{name}: holds zero bytes, which no source does; is it a program?")
    known = language or language_of(path)
    if known is None and not is_stdin and DESCRIPTIONS.matches(path):
        raise CannotRead(f"{name}: is no source by its name; CHIP comes first, then sources")
    return CodeText(name, data, known or C)


def outcomes(
    chip: Subject, texts: list[CodeText], job: Job, wish: Wish
) -> tuple[list[Outcome], Audited]:
    """Audit ``texts``; return an outcome for each, and the audit after all repairs."""
    audited = audit(
        *(chip.resolved, chip.macros, texts, job.settings),
        pedantic=wish.pedantic,
        use_header=wish.use_header,
    )
    numbers: Mapping[int, int] = {}
    if job.wants_repairs:
        audited, numbers = repair(audited, job.settings, lambda one: _fresh_of_all(job, one))
    used = registers_used(usages(audited.subject)) if job.wants_result else {}
    made = []
    pairs = zip(audited.subject.files, audited.by_file(), strict=True)
    for number, (text, found) in enumerate(pairs):
        fresh = _fresh(job, text, found)
        result = None
        if job.wants_result:
            from regwright.reports.code_results import result_of_source

            about = chip.chip.name, chip.chip.title or ""
            result = result_of_source(text, *about, used.get(number, 0), fresh)
        before = texts[number].data
        is_changed = text.data != before
        made.append(
            Outcome(
                text.name,
                findings=located(text, fresh),
                counts=counts_of(located(text, found)) if job.wants_counts else {},
                result=result,
                repaired=numbers.get(number, 0),
                before=before if is_changed else b"",
                after=text.data if is_changed else b"",
            )
        )
    return made, audited


def _fresh_of_all(job: Job, audited: Audited) -> list[CodeFinding]:
    pairs = zip(audited.subject.files, audited.by_file(), strict=True)
    return [item for text, found in pairs for item in _fresh(job, text, found)]


def _fresh(job: Job, text: CodeText, found: list[CodeFinding]) -> list[CodeFinding]:
    """Return the findings in one source that are not known and accepted."""
    if job.known is None:
        return found
    places = located(text, found)
    kept = {id(item) for item in job.known.fresh(text.name, places)}
    return [item for item, place in zip(found, places, strict=True) if id(place) in kept]


def located(text: CodeText, found: Iterable[CodeFinding]) -> list[Located]:
    """Return findings in one source with their places, as they are printed."""
    made = []
    for item in found:
        line, column = text.line_and_column(item.at.start)
        finding = Finding(item.rule, item.level, item.message, None, at=(line, column))
        made.append(Located(Place(text.name, line, column), finding))
    return made


def aside(audited: Audited, settings: Settings) -> str:
    """Return in words what was only counted, or nothing."""
    number = counted(audited, settings)
    parts = [(number.addresses, "address", "addresses"), (number.names, "name", "names")]
    words = [f"{count} {one if count == 1 else more}" for count, one, more in parts if count]
    if not words:
        return ""
    is_one = sum(number) == 1
    return (
        f"{' and '.join(words)} {'means' if is_one else 'mean'} nothing on the chip "
        f"(--pedantic lists {'it' if is_one else 'them'})"
    )
