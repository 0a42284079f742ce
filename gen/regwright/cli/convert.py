"""``regwright convert``: write a description in the other spelling."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from regwright.cli.exits import COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import DESCRIPTIONS, CannotRead, load
from regwright.cli.terminal import complain, count, print_findings
from regwright.model.words import visible


@click.command(
    "convert",
    short_help="Write a description in the other spelling.",
    epilog="Example: regwright convert sorrel14.xml sorrel14.json",
)
@click.argument("source", metavar="FROM")
@click.argument("target", metavar="TO")
def command(source: str, target: str) -> None:
    """Write the description FROM as TO, in the spelling that TO's ending names (.json or .xml).

    Nothing is lost: comments before an element become its "comment" property, and back.
    """
    from regwright.write.files import CannotWrite

    try:
        if not DESCRIPTIONS.matches(target):
            raise CannotRead(f"{target}: the ending must be .json or .xml")
        _convert(source, target)
    except (CannotRead, CannotWrite) as problem:
        complain(str(problem))
        sys.exit(COULD_NOT_RUN)


def _convert(source: str, target: str) -> None:
    from regwright.pipeline import Located
    from regwright.read.description import read_description, read_whole_tree
    from regwright.write.files import Pending, write
    from regwright.write.spelling_json import to_json
    from regwright.write.spelling_xml import to_xml

    text = load(source)
    reading = read_description(text)
    if reading.findings:
        located = [Located(text.place(item), item) for item in reading.findings]
        print_findings(located, err=True)
        click.echo(f"{count(located, 1)}; nothing was written", err=True)
        sys.exit(FINDINGS)
    tree, _, lost = read_whole_tree(text)
    for line in lost:
        message = "this comment stands before no element; it is left out"
        click.echo(f"{visible(source)}:{line}:1: note: {message}", err=True)
    spelled = to_json(tree) if target.lower().endswith(".json") else to_xml(tree)
    write([Pending(Path(target), spelled.encode("utf-8"))])
