"""``regwright compare``: say what differs between two descriptions."""

from __future__ import annotations

import sys
from typing import Any

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.inputs import CannotRead
from regwright.cli.report_options import reporting
from regwright.cli.terminal import complain
from regwright.model.words import nearest

#: As in ``regwright.reports.compare_forms`` and ``regwright.compare.changes``, which are too heavy
#: to import for lists of names; a test compares.
REPORT_NAMES = ("text", "markdown", "json", "html")
CATEGORIES = (
    *("presence", "names", "addresses", "widths", "access", "effects", "resets", "fields"),
    *("values", "reserved", "order", "conditions", "spaces", "memories", "vectors"),
    *("configuration", "clock", "pins", "toolchain", "documentation"),
)


def _categories(
    _ctx: click.Context, _parameter: click.Parameter, values: tuple[str, ...]
) -> tuple[str, ...]:
    """Return the categories that an option names, each given alone or in a list with commas."""
    names = [name.strip() for value in values for name in value.split(",")]
    for name in names:
        if name not in CATEGORIES:
            near = nearest(name, CATEGORIES)
            hint = f"did you mean {near}?" if near else f"there are {', '.join(CATEGORIES)}"
            raise click.BadParameter(f"there is no category {name[:80]!r}; {hint}")
    return tuple(dict.fromkeys(names))


@click.command(
    "compare",
    short_help="Say what differs between two chips, by meaning.",
    epilog="Example: regwright compare sorrel14.xml sorrel40.json --ignore documentation",
)
@click.argument("a", metavar="A")
@click.argument("b", metavar="B")
@click.option(
    "--only",
    multiple=True,
    metavar="CATEGORY",
    callback=_categories,
    help=f"Show only changes of this category; may be repeated, or be a list with commas. "
    f"Categories: {', '.join(CATEGORIES)}.",
)
@click.option(
    "--ignore",
    multiple=True,
    metavar="CATEGORY",
    callback=_categories,
    help="Leave out the changes of this category; may be repeated, or be a list with commas.",
)
@click.option("--stat", is_flag=True, help="Print the count of changes in one line, nothing else.")
@click.option(
    "--match",
    metavar="FILE",
    help="Take from FILE which register or field is which, and which are none of each other.",
)
@click.option(
    "--write-match",
    metavar="FILE",
    help="Write to FILE what was taken for what, to correct it and give it to --match.",
)
@click.option(
    "--source",
    "sources",
    multiple=True,
    metavar="PATH",
    help="Narrow it to what the program in PATH, which is written for A, uses, and list the work "
    "of moving it to B, the most dangerous first; may be repeated, and be a folder.",
)
@click.option(
    "--breaking",
    is_flag=True,
    help="Take B for a newer A: say what breaks programs that include the header, and exit with 1 "
    "only for that.",
)
@click.option("--verbose", is_flag=True, help="With --breaking, list what breaks no program, too.")
@reporting(REPORT_NAMES)
def command(a: str, b: str, **options: Any) -> None:
    """Say what differs between the descriptions A and B, by what registers and bits mean.

    Registers and fields are matched by name, by other names, by title, by their place in a block
    and by their fields; where that is not certain it says probably or perhaps, and why. On a
    terminal the changes are listed by register; elsewhere each has a line: name, what, before →
    after.

    Exits with 0 when nothing differs, 1 when something does, of the categories that are asked for,
    and 2 when it could not compare: something could not be read or written, or a description has
    an error.
    """
    from regwright.cli.breaking import refuse
    from regwright.cli.comparing import run, wishes_of
    from regwright.cli.settings_file import BadConfig
    from regwright.compare.match_file import BadMatch
    from regwright.write.files import CannotWrite

    refuse(options)
    wishes = wishes_of(options)
    try:
        sys.exit(run(a, b, wishes))
    except (BadConfig, BadMatch) as problem:
        click.echo(str(problem), err=True)
    except (CannotRead, CannotWrite) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)
