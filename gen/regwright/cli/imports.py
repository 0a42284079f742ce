"""``regwright import``: make a description of something else that describes registers."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.inputs import STDIN, CannotRead, Kind, load_bytes, stdin_bytes
from regwright.cli.terminal import complain, waiting

if TYPE_CHECKING:
    from regwright.importing.draft import Draft

Import = Callable[[str, bytes], "Draft"]
_FILE = Kind("file", "", lambda _name: True)
_FORMS = ("csv", "tsv", "text", "html", "pdf")
_LAYOUTS = ("summary", "offsets", "box", "fields", "grid", "matrix")


def _shared(command: Callable[..., None]) -> Callable[..., None]:
    """Add the options that every import has."""
    for option in (
        click.option(
            "--remarks",
            metavar="FILE",
            help="Write the remarks to FILE, too: .txt, .json, .sarif, .md, .html or .xml.",
        ),
        click.option("--strict", is_flag=True, help="An oddity is an error: write nothing."),
        click.option("--force", is_flag=True, help="Write over a description that is there."),
        click.option(
            "--into",
            metavar="FILE",
            help="Fill the description FILE; what it says already stays, conflicts are findings.",
        ),
        click.option(
            "-o",
            "--output",
            metavar="FILE",
            help="Write the description to FILE, .json or .xml; else it is printed as JSON.",
        ),
    ):
        command = option(command)
    return command


@click.group(
    "import",
    short_help="Bring a description in: IEEE 1685, datasheet tables, other XML or JSON.",
    epilog="Example: regwright import table registers.csv --chip sorrel14 -o sorrel14.json",
)
def command() -> None:
    """Make a description of a file that describes registers in another form.

    What is odd, what was assumed and what is lost is told on standard error, with its line. Exits
    with 0 when a description was made, 1 when none could be made or a description that was to be
    filled says something else, 2 when something could not be read or written.
    """


@command.command(
    "ieee1685",
    short_help="A component of IEEE 1685 (2009, 2014, 2022).",
    epilog="Example: regwright import ieee1685 component.xml -o chip.json",
)
@click.argument("file")
@click.option("--map", "map_name", metavar="NAME", help="Import the memory map NAME.")
@click.option(
    "--search",
    multiple=True,
    metavar="DIR",
    help="Look for definitions in other documents in DIR; may be repeated.",
)
@click.option(
    "--schema", metavar="DIR", help="Hold the file against the standard's schemas in DIR, too."
)
@_shared
def ieee1685(
    file: str, map_name: str | None, search: tuple[str, ...], schema: str | None, **options: Any
) -> None:
    """Import the registers of FILE, an XML component of IEEE 1685; - is standard input.

    Parts of the file that registers do not need are not looked at, so they may be wrong.
    """
    for folder in (*search, *([schema] if schema else [])):
        if not Path(folder).is_dir():
            complain(f"{folder}: is no folder")
            sys.exit(COULD_NOT_RUN)

    def make(name: str, data: bytes) -> Draft:
        from regwright.importing.ieee1685.reading import Wishes, import_ieee1685

        folders = tuple(Path(item) for item in search)
        wishes = Wishes(map_name, folders, Path(schema) if schema else None)
        return import_ieee1685(name, data, wishes)

    _run(file, make, options)


@command.command(
    "table",
    short_help="A table of a datasheet: CSV, TSV, pasted text, HTML or PDF.",
    epilog="Example: regwright import table registers.csv --chip sorrel14 -o sorrel14.json",
)
@click.argument("file")
@click.option("--chip", metavar="NAME", required=True, help="The name of the chip.")
@click.option("--form", type=click.Choice(_FORMS), help="The form of FILE; else it is recognised.")
@click.option(
    "--layout", type=click.Choice(_LAYOUTS), help="The layout of the table; else it is recognised."
)
@click.option(
    "--parentheses",
    type=click.Choice(["data", "io"]),
    help="Which space an address in parentheses is of; else the whole table tells.",
)
@click.option(
    "--window-offset",
    metavar="NUMBER",
    help="How much higher a data address is than its I/O address; else the whole table tells.",
)
@click.option(
    "--echo",
    is_flag=True,
    help="Print the table again, as it was understood; write no description.",
)
@_shared
def table(file: str, **options: Any) -> None:
    """Import the registers of a table in FILE; - is standard input.

    Where a value cannot be read with certainty the description says needs review, and what was
    printed there, instead of a guess.
    """
    from regwright.cli.importing_tables import offset_of, print_again

    offset = offset_of(options["window_offset"])

    def make(name: str, data: bytes) -> Draft:
        from regwright.importing.tables.reading import Wishes, import_table

        wishes = Wishes(
            options["chip"], options["form"], options["layout"], options["parentheses"], offset
        )
        return import_table(name, data, wishes)

    def again() -> int:
        name, data = _read(file)
        return print_again(name, data, make(name, data), options)

    if options["echo"]:
        _guarded(again)
    _run(file, make, options)


@command.command(
    "mapped",
    short_help="Any XML or JSON, by a mapping file of your own.",
    epilog="Example: regwright import mapped registers.xml --mapping vendor.json -o chip.json",
)
@click.argument("file")
@click.option(
    "--mapping",
    metavar="MAPPING",
    required=True,
    help="Where in FILE what stands, by XPath or JSONPath: a file of your own, or example or list, "
    "which come along.",
)
@_shared
def mapped(file: str, mapping: str, **options: Any) -> None:
    """Import the registers of FILE, XML or JSON of any form; - is standard input.

    The mapping says where blocks, registers, fields and values are and how numbers are written.
    """

    def make(name: str, data: bytes) -> Draft:
        from regwright.cli.importing_mapped import read_mapping
        from regwright.importing.mapped.reading import import_mapped

        return import_mapped(name, data, *read_mapping(mapping))

    _run(file, make, options)


def _read(file: str) -> tuple[str, bytes]:
    """Return the name of an input and what it holds. Raises :class:`CannotRead`."""
    if file == STDIN:
        return "<stdin>", stdin_bytes(_FILE)
    return file, load_bytes(file, _FILE)


def _run(file: str, make: Import, options: dict[str, Any]) -> None:
    """Import ``file`` and end with the exit code."""
    from regwright.cli.importing import finish

    def work() -> int:
        name, data = _read(file)
        with waiting(f"{name} is read"):
            draft = make(name, data)
        return finish(name, draft, options)

    _guarded(work)


def _guarded(work: Callable[[], int]) -> None:
    """Do ``work`` and end with its exit code; what cannot be read or written ends with 2."""
    from regwright.write.files import CannotWrite

    try:
        sys.exit(work())
    except (CannotRead, CannotWrite) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)
