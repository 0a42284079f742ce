"""``regwright export``: write a description in a form that others read."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from regwright.cli.exits import CLEAN, COULD_NOT_RUN
from regwright.cli.inputs import STDIN, CannotRead
from regwright.cli.terminal import complain

_PLAIN = "letters, digits, and . : _ - are allowed"


@click.group(
    "export",
    short_help="Write a description as IEEE 1685.",
    epilog="Example: regwright export ieee1685 sorrel14.xml --edition 2022 -o component.xml",
)
def command() -> None:
    """Write a description in a form that other programs read."""


@command.command(
    "ieee1685",
    short_help="A component of IEEE 1685.",
    epilog="Example: regwright export ieee1685 sorrel14.xml --edition 2022 -o component.xml",
)
@click.argument("chip")
@click.option(
    "--edition",
    type=click.Choice(["2014", "2022"]),
    default="2022",
    show_default=True,
    help="The edition of the standard.",
)
@click.option(
    "--vendor", metavar="NAME", default="regwright", show_default=True, help="Its vendor."
)
@click.option("--library", metavar="NAME", default="chips", show_default=True, help="Its library.")
@click.option("--version", metavar="TEXT", default="1", show_default=True, help="Its version.")
@click.option("-o", "--output", metavar="FILE", default=STDIN, help="Write FILE; else print it.")
def ieee1685(chip: str, edition: str, vendor: str, library: str, version: str, output: str) -> None:
    """Write the description CHIP as an XML component of IEEE 1685.

    Nothing is lost: what the standard has no element for stands in vendor extensions, and
    regwright import reads it back.
    """
    from regwright.cli.settings_file import BadConfig
    from regwright.write.files import CannotWrite

    for name, text in (("--vendor", vendor), ("--library", library), ("--version", version)):
        if not text.replace(".", "").replace(":", "").replace("_", "").replace("-", "").isalnum():
            raise click.UsageError(f"{name} {text!r}: {_PLAIN}")
    try:
        sys.exit(_export(chip, edition, (vendor, library, version), output))
    except BadConfig as problem:
        click.echo(str(problem), err=True)
    except (CannotRead, CannotWrite) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)


def _export(chip: str, edition: str, names: tuple[str, str, str], output: str) -> int:
    from regwright.cli.described import described
    from regwright.cli.outputs import refuse_inputs
    from regwright.exporting.ieee1685 import export_ieee1685
    from regwright.model.words import DESCRIPTION
    from regwright.read.description import read_whole_tree
    from regwright.write.files import Pending, write

    checked = described(chip, "nothing was written")
    if checked is None:
        return COULD_NOT_RUN
    tree, _, _ = read_whole_tree(checked.source)
    text = export_ieee1685(tree, edition, *names)
    if output == STDIN:
        click.echo(text.encode("utf-8"), nl=False)
    else:
        refuse_inputs([output], {chip: DESCRIPTION})
        write([Pending(Path(output), text.encode("utf-8"))])
    return CLEAN
