"""``regwright check``: validate descriptions and run the rules."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.inputs import STDIN, CannotRead, expand, load_stdin
from regwright.cli.report_options import reporting
from regwright.cli.terminal import complain, progress
from regwright.model.finding import LEVELS

if TYPE_CHECKING:
    from regwright.cli.checking import Job, Task
    from regwright.cli.outputs import Wishes

#: As in ``regwright.reports``, which is too heavy to import for a list of names; a test compares.
REPORT_NAMES = ("text", "json", "sarif", "junit", "html", "markdown")


@click.command(
    "check",
    short_help="Validate descriptions and run the rules.",
    epilog="Example: regwright check descriptions --report sarif",
)
@click.argument("descriptions", nargs=-1, required=True, metavar="DESC...")
@click.option("--prefix", default="", metavar="TEXT", help="Check the names with TEXT before each.")
@click.option("--fix", is_flag=True, help="Make the repairs that are certain, in the files.")
@click.option("--diff", is_flag=True, help="Print those repairs as a patch; write nothing.")
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
    type=click.Choice(["xml", "json"]),
    help="The spelling of standard input; else its first character tells.",
)
@click.option(
    "--jobs",
    type=click.IntRange(0, 512),
    default=1,
    metavar="N",
    show_default=True,
    help="Check that many descriptions at a time; 0 for one on each core.",
)
@reporting(REPORT_NAMES)
def command(descriptions: tuple[str, ...], **options: Any) -> None:
    """Validate descriptions against the schema and run the rules; - is standard input.

    Prints file:line:col: error: message [rule-name] for each finding, then a count. Exits with 0
    when there is none, 1 when there are some, 2 when something could not be read or written.
    """
    from regwright.cli.known import BadKnown
    from regwright.cli.outputs import finish, show, wishes_of
    from regwright.cli.pool import Crashed
    from regwright.cli.settings_file import BadConfig
    from regwright.write.files import CannotWrite

    wishes = wishes_of(descriptions, options)
    try:
        job, tasks = _plan(descriptions, options, wishes)
        found = [show(item, wishes) for item in _run(job, tasks, options["jobs"])]
        sys.exit(finish(found, job, wishes))
    except BadConfig as problem:
        click.echo(str(problem), err=True)
    except (BadKnown, CannotRead, CannotWrite, Crashed) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)


def _plan(
    descriptions: tuple[str, ...], options: dict[str, Any], wishes: Wishes
) -> tuple[Job, list[Task]]:
    """Return what to do with what. Raises ``BadConfig``, ``BadKnown`` and :class:`CannotRead`."""
    from regwright.cli.checking import Job
    from regwright.cli.known import read_known
    from regwright.cli.settings_file import settings

    decided = settings(options["fail_on"])
    job = Job(
        decided._replace(levels=dict(decided.levels)),
        options["prefix"],
        read_known(options["known"]) if options["known"] else None,
        wants_counts=bool(options["known"] or options["write_known"]),
        wants_result=wishes.wants_results,
        wants_repairs=options["fix"] or options["diff"],
    )
    tasks: list[Task] = [
        load_stdin(options["spelling"]) if path == STDIN else path for path in expand(descriptions)
    ]
    return job, tasks


def _run(job: Job, tasks: list[Task], jobs: int) -> Any:
    """Yield the outcome of each task. Raises ``Crashed``."""
    from regwright.cli.pool import outcomes

    with outcomes(job, tasks, jobs) as results:
        yield from progress(results, len(tasks))
