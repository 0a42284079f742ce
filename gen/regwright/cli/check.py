"""``regwright check``: validate descriptions and run the rules."""

from __future__ import annotations

import sys

import click

from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import CannotRead, expand, load
from regwright.cli.terminal import complain, count, print_findings


@click.command("check", epilog="Example: regwright check descriptions/sorrel14.xml")
@click.argument("descriptions", nargs=-1, required=True, metavar="DESC...")
@click.option("--prefix", default="", metavar="TEXT", help="Check the names with TEXT before each.")
def command(descriptions: tuple[str, ...], prefix: str) -> None:
    """Validate descriptions against the schema and run the rules.

    Prints file:line:col: error: message [rule-name] for each finding, then a count. Exits with 0
    when there is none, 1 when there are some, 2 when something could not be read.
    """
    from regwright.pipeline import check

    failed = False
    found = []
    number = 0
    try:
        paths = expand(descriptions)
    except CannotRead as problem:
        complain(str(problem))
        sys.exit(COULD_NOT_RUN)
    for path in paths:
        try:
            source = load(path)
        except CannotRead as problem:
            complain(str(problem))
            failed = True
            continue
        number += 1
        findings = check(source, prefix).findings
        print_findings(findings)
        found += findings
    click.echo(count(found, number))
    if failed:
        sys.exit(COULD_NOT_RUN)
    sys.exit(FINDINGS if found else CLEAN)
