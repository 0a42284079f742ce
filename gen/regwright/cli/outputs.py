"""What ``regwright check`` and ``audit`` print and write, and with which code they end."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import STDIN
from regwright.cli.known import known_text, name_of
from regwright.cli.terminal import complain, count, print_findings
from regwright.model.words import DESCRIPTION
from regwright.write.files import CannotWrite, Pending, write

if TYPE_CHECKING:
    from regwright.cli.checking import Job, Outcome

TEXT = "text"


class Wishes(NamedTuple):
    """Where the user wants what: ``stdout`` is the report that is printed, if any.

    ``files`` are the reports to write, each with its file.
    """

    stdout: str | None
    files: list[tuple[str, str]]
    fix: bool
    diff: bool
    write_known: str | None

    @property
    def wants_results(self) -> bool:
        """Whether a report is wanted that is not printed as it comes."""
        return bool(self.files) or self.stdout not in (TEXT, None)

    @property
    def prints_at_once(self) -> bool:
        """Whether findings are printed as they come: a repair must be written first."""
        return self.stdout == TEXT and not self.fix


class More(NamedTuple):
    """What an audit adds: words behind the count, and what the sources were held against."""

    aside: str = ""
    descriptions: tuple[str, ...] = ()


_NO_MORE = More()


def wishes_of(descriptions: tuple[str, ...], options: dict[str, Any]) -> Wishes:
    """Return what the options ask for. Raises ``click.UsageError`` for what does not fit."""
    reports, outputs = list(options["reports"]) or [TEXT], list(options["outputs"])
    if len(outputs) > len(reports):
        raise click.UsageError(f"{len(outputs)} --output, but only {len(reports)} --report")
    pairs = list(zip(reports, outputs + [STDIN] * (len(reports) - len(outputs)), strict=True))
    printed = [name for name, file in pairs if file == STDIN]
    files = [(name, file) for name, file in pairs if file != STDIN]
    diff, fix = options["diff"], options["fix"]
    if len(printed) > 1:
        raise click.UsageError("only one report can go to standard output; give an --output each")
    if fix and diff:
        raise click.UsageError("--fix writes and --diff does not; choose one")
    if diff and (options["write_known"] or options["reports"] or options["outputs"]):
        raise click.UsageError("--diff prints a patch and nothing else; leave out other outputs")
    has_stdin = STDIN in descriptions
    if has_stdin and fix:
        raise click.UsageError("--fix cannot write to standard input; --diff prints a patch")
    if options["spelling"] and not has_stdin:
        raise click.UsageError("--as is for standard input (-); a file's name tells what it is")
    stdout = printed[0] if printed and not diff else None
    return Wishes(stdout, files, fix, diff, options["write_known"])


def reports_of(options: dict[str, Any]) -> Wishes:
    """Return what ``--report`` and ``--output`` ask for, of a command that knows no more."""
    no_more = {"fix": False, "diff": False, "write_known": None, "spelling": None}
    return wishes_of((), {**options, **no_more})


def show(outcome: Outcome, wishes: Wishes) -> Outcome:
    """Print what can be printed before the others are checked."""
    if outcome.problem:
        complain(outcome.problem)
    elif wishes.diff:
        from regwright.write.repair import patch

        if outcome.after != outcome.before:
            click.echo(patch(outcome.name, outcome.before, outcome.after), nl=False)
        print_findings(outcome.findings, err=True)
    elif wishes.prints_at_once:
        print_findings(outcome.findings)
    return outcome


def finish(outcomes: list[Outcome], job: Job, wishes: Wishes, more: More = _NO_MORE) -> int:
    """Write the files, print the rest and return the exit code. Raises :class:`CannotWrite`."""
    read = [item for item in outcomes if not item.problem]
    has_problem = len(read) < len(outcomes)
    reports, printed = _reports(outcomes, job, wishes, more)
    files = _repaired_files(read) if wishes.fix else []
    _refuse_inputs(outcomes, job, wishes, more)
    files += reports
    if wishes.write_known and not has_problem:
        text = known_text(_found(read))
        files.append(Pending(Path(wishes.write_known), text.encode("ascii")))
    write(files)
    if printed is not None:
        click.echo(printed.encode("utf-8"), nl=False)
    _print_end(read, job, wishes, more.aside)
    if has_problem:
        return COULD_NOT_RUN
    if wishes.write_known:
        return CLEAN
    fails = any(job.settings.fails(item.finding) for one in read for item in one.findings)
    differs = wishes.diff and any(item.repaired for item in read)
    return FINDINGS if fails or differs else CLEAN


def _reports(
    outcomes: list[Outcome], job: Job, wishes: Wishes, more: More
) -> tuple[list[Pending], str | None]:
    """Return the reports to write, and the one to print."""
    if not wishes.wants_results:
        return [], None
    from regwright.reports import Run, render_report, unread

    run = Run(
        [item.result for item in outcomes if item.result is not None],
        job.settings,
        [unread(item.name, item.problem) for item in outcomes if item.problem],
        job.what,
        more.aside,
    )
    files = [
        Pending(Path(file), render_report(name, run).encode("utf-8")) for name, file in wishes.files
    ]
    is_ready = wishes.stdout not in (TEXT, None)
    return files, render_report(str(wishes.stdout), run) if is_ready else None


def _repaired_files(read: list[Outcome]) -> list[Pending]:
    """Return the repaired files. A link stays one: what it leads to is repaired."""
    files: dict[str, Pending] = {}
    for item in read:
        if item.after == item.before:
            continue
        path = os.path.realpath(item.name)
        if path in files:
            continue
        try:
            is_same = Path(path).read_bytes() == item.before
        except OSError as problem:
            raise CannotWrite(f"{item.name}: cannot be repaired: {problem.strerror}") from None
        if not is_same:
            raise CannotWrite(f"{item.name}: was changed meanwhile; nothing was repaired")
        files[path] = Pending(Path(path), item.after)
    return list(files.values())


def _refuse_inputs(outcomes: list[Outcome], job: Job, wishes: Wishes, more: More) -> None:
    """Refuse to write over an input. Raises :class:`CannotWrite`."""
    outputs = [file for _, file in wishes.files]
    if wishes.write_known:
        outputs.append(wishes.write_known)
    inputs = {item.name: job.what for item in outcomes}
    inputs.update((name, DESCRIPTION) for name in more.descriptions)
    refuse_inputs(outputs, inputs)


def refuse_inputs(files: Iterable[str], inputs: Mapping[str, str]) -> None:
    """Refuse to write a report over one of ``inputs``, each with what it is.

    Raises :class:`CannotWrite`.
    """
    named = list(files)
    really = {os.path.realpath(name): what for name, what in inputs.items()} if named else {}
    for file in named:
        what = really.get(os.path.realpath(file))
        if what is not None:
            raise CannotWrite(f"{file}: is a {what}, no place for a report")


def _found(read: list[Outcome]) -> dict[str, dict[tuple[str, str], int]]:
    return {name_of(item.name): item.counts for item in read}


def _print_end(read: list[Outcome], job: Job, wishes: Wishes, aside: str) -> None:
    """Print the findings that waited, the count, and which known findings are outdated."""
    found = [item for one in read for item in one.findings]
    if wishes.stdout == TEXT and not wishes.prints_at_once:
        print_findings(found)
    line = count(found, len(read), job.what)
    repaired = sum(item.repaired for item in read)
    if wishes.fix:
        line += f"; {repaired} repaired"
    elif wishes.diff:
        line += f"; {repaired} can be repaired"
    if wishes.write_known:
        line += f"; {wishes.write_known} accepts them"
    if aside:
        line += f"; {aside}"
    if wishes.stdout in (TEXT, None):
        click.echo(line, err=wishes.stdout is None)
    if job.known is not None and not wishes.write_known:
        for entry in job.known.outdated(_found(read)):
            complain(f"known finding: {entry}")
