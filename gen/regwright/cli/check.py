"""``regwright check``: validate descriptions and run the rules."""

from __future__ import annotations

import sys

import click

from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import CannotRead, expand, load
from regwright.cli.terminal import complain, count, print_findings, progress


@click.command("check", epilog="Example: regwright check descriptions/sorrel14.xml")
@click.argument("descriptions", nargs=-1, required=True, metavar="DESC...")
@click.option("--prefix", default="", metavar="TEXT", help="Check the names with TEXT before each.")
def command(descriptions: tuple[str, ...], prefix: str) -> None:
    """Validate descriptions against the schema and run the rules.

    Prints file:line:col: error: message [rule-name] for each finding, then a count. Exits with 0
    when there is none, 1 when there are some, 2 when something could not be read.
    """
    from regwright.pipeline import Checked, check

    def one(path: str) -> Checked | CannotRead:
        try:
            return check(load(path), prefix)
        except CannotRead as problem:
            return problem

    failed = False
    found = []
    number = 0
    try:
        paths = expand(descriptions)
    except CannotRead as problem:
        complain(str(problem))
        sys.exit(COULD_NOT_RUN)
    for result in progress(map(one, paths), len(paths)):
        if isinstance(result, CannotRead):
            complain(str(result))
            failed = True
            continue
        number += 1
        print_findings(result.findings)
        found += result.findings
    click.echo(count(found, number))
    if failed:
        sys.exit(COULD_NOT_RUN)
    sys.exit(FINDINGS if found else CLEAN)
