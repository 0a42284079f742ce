"""``regwright audit``: hold hand-written C and assembler against a description."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from regwright.cli.check import REPORT_NAMES
from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import CannotRead, expand, load
from regwright.cli.report_options import reporting
from regwright.cli.terminal import complain, print_findings, waiting
from regwright.model.finding import LEVELS
from regwright.model.words import SOURCE, plural

if TYPE_CHECKING:
    from regwright.audit.audit import Audited
    from regwright.cli.checking import Job
    from regwright.cli.outputs import Wishes
    from regwright.rules.catalogue import Subject
    from regwright.rules.settings import Settings


@click.command(
    "audit",
    short_help="Hold C and assembler sources against a description.",
    epilog="Example: regwright audit descriptions/sorrel14.xml src --diff",
)
@click.argument("chip", metavar="CHIP")
@click.argument("sources", nargs=-1, required=True, metavar="SOURCE...")
@click.option(
    "--prefix",
    default="",
    metavar="TEXT",
    help="The header was emitted with TEXT before each name.",
)
@click.option("--fix", is_flag=True, help="Make the repairs that are certain, in the files.")
@click.option("--diff", is_flag=True, help="Print those repairs as a patch; write nothing.")
@click.option(
    "--use-header",
    default="",
    metavar="NAME",
    help="With --fix or --diff, replace definitions made by hand by an include of NAME, the "
    "header that emit writes.",
)
@click.option(
    "--uses", is_flag=True, help="List the registers and bits that the sources use, with places."
)
@click.option(
    "--pedantic",
    is_flag=True,
    help="Report names and addresses that mean nothing on the chip, too.",
)
@click.option(
    "--fail-on",
    type=click.Choice(LEVELS),
    help="Exit with 1 only for findings at least that grave; else regwright.toml or "
    "[tool.regwright] of pyproject.toml decides, else it is warning.",
)
@click.option("--known", metavar="FILE", help="Leave out the findings that FILE accepts.")
@click.option("--write-known", metavar="FILE", help="Accept today's findings: write FILE.")
@click.option(
    "--as",
    "spelling",
    type=click.Choice(["c", "c++", "assembler"]),
    help="The language of standard input; C when it is left out.",
)
@reporting(REPORT_NAMES)
def command(chip: str, sources: tuple[str, ...], **options: Any) -> None:
    """Hold C, C++ and assembler against the description CHIP, as they are on disk.

    Nothing is built and no include is followed; a folder stands for the sources in it, - is
    standard input. Sources given together are read as one program, so give a program its own
    headers too. Prints file:line:col: error: message [rule-name] for each finding, then a count.
    Exits with 0 when there is none, 1 when there are some, 2 when something could not be read or
    written.
    """
    from regwright.cli.known import BadKnown
    from regwright.cli.outputs import wishes_of
    from regwright.cli.settings_file import BadConfig
    from regwright.write.files import CannotWrite

    _refuse(options)
    wishes = wishes_of(
        sources, {**options, "reports": () if options["uses"] else options["reports"]}
    )
    try:
        job = _job(options, wishes)
        subject = _chip(chip, options["prefix"], job.settings)
        sys.exit(_run(subject, sources, {**options, "chip": chip}, job, wishes))
    except BadConfig as problem:
        click.echo(str(problem), err=True)
    except (BadKnown, CannotRead, CannotWrite) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)


def _refuse(options: dict[str, Any]) -> None:
    """Refuse options that do not go together. Raises ``click.UsageError``."""
    if options["use_header"] and not (options["fix"] or options["diff"]):
        raise click.UsageError("--use-header changes files: give --fix, or --diff to see how")
    if any(character in options["use_header"] for character in '"<>\n\r\\'):
        raise click.UsageError("--use-header takes the name of a header, as sorrel14.h")
    wants_more = options["fix"] or options["diff"] or options["known"] or options["write_known"]
    if options["uses"] and (wants_more or options["outputs"]):
        raise click.UsageError("--uses lists what is used and nothing else")
    if options["uses"] and not set(options["reports"]) <= {"text", "json"}:
        raise click.UsageError("--uses is there as text and as JSON: --report json")


def _job(options: dict[str, Any], wishes: Wishes) -> Job:
    """Return what is wanted of each source. Raises ``BadConfig`` and ``BadKnown``."""
    from regwright.cli.checking import Job
    from regwright.cli.known import read_known
    from regwright.cli.settings_file import settings

    return Job(
        settings(options["fail_on"]),
        known=read_known(options["known"]) if options["known"] else None,
        wants_counts=bool(options["known"] or options["write_known"]),
        wants_result=wishes.wants_results,
        wants_repairs=options["fix"] or options["diff"],
        what=SOURCE,
    )


def _chip(path: str, prefix: str, settings: Settings) -> Subject:
    """Return the chip that ``path`` describes; end when its description has an error.

    Raises :class:`CannotRead`.
    """
    from regwright.code.text import language_of
    from regwright.pipeline import check

    if language_of(path) is not None:
        raise CannotRead(f"{path}: is a source by its name; CHIP comes first, then sources")
    checked = check(load(path), prefix, settings)
    if checked.subject is None or checked.has_errors:
        print_findings(checked.findings, err=True)
        complain(f"{path}: correct this description first; nothing was audited")
        sys.exit(FINDINGS)
    return checked.subject


def _run(
    chip: Subject, sources: tuple[str, ...], options: dict[str, Any], job: Job, wishes: Wishes
) -> int:
    """Audit the sources, print what is wanted and return the exit code.

    Raises :class:`CannotRead` and ``CannotWrite``.
    """
    from regwright.cli.auditing import SOURCES, Wish, aside, load_sources, outcomes
    from regwright.cli.outputs import More, finish, show

    texts, problems = load_sources(expand(sources, SOURCES), options["spelling"])
    wish = Wish(options["pedantic"], options["use_header"])
    with waiting(f"auditing {plural(len(texts), SOURCE)}"):
        made, audited = outcomes(chip, texts, job, wish)
    if options["uses"]:
        for item in problems:
            complain(item.problem)
        _print_uses(audited, as_json="json" in options["reports"])
        return COULD_NOT_RUN if problems else CLEAN
    for item in (*problems, *made):
        show(item, wishes)
    more = More(aside(audited, job.settings), (options["chip"],))
    return finish([*problems, *made], job, wishes, more)


def _print_uses(audited: Audited, *, as_json: bool) -> None:
    from regwright.audit.usage import usages
    from regwright.reports.uses import uses_json, uses_text

    subject = audited.subject
    make = uses_json if as_json else uses_text
    click.echo(make(subject.chip.name, subject.files, usages(subject)).encode("utf-8"), nl=False)
