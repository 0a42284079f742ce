"""``regwright pin``: which pin is which bit of which register, and the other way round."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import CannotRead
from regwright.cli.terminal import complain

if TYPE_CHECKING:
    from regwright.pins.lookup import Pins


@click.command(
    "pin",
    short_help="Say which pin is which bit, both ways, or draw the package.",
    epilog="Example: regwright pin sorrel14.xml OUT_B.LED",
)
@click.argument("chip")
@click.argument("which", required=False, metavar="[PIN|BIT|NAME]")
@click.option("--package", metavar="NAME", help="Look at this package only.")
@click.option(
    "--report",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="The form of the answer.",
)
def command(chip: str, which: str | None, package: str | None, report: str) -> None:
    """Say what a pin of the chip is, or where a bit is; without a question, draw its packages.

    Ask by a pin's number (6) or name, by the bit of a port (B.2) or register (OUT_B.2), by a field
    of one bit (OUT_B.LED), or by a function (VENT_OPEN).

    Exits with 0 when the pin was found or drawn, 1 when the bit is at no pin of the packages, and 2
    when it could not run: there is no such pin, bit or package, or the description could not be
    read or has an error.
    """
    from regwright.cli.settings_file import BadConfig

    try:
        sys.exit(_answer(chip, which, package, report))
    except BadConfig as problem:
        click.echo(str(problem), err=True)
    except CannotRead as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)


def _answer(chip: str, which: str | None, package: str | None, report: str) -> int:
    from regwright.cli.described import described
    from regwright.pins.lookup import Pins

    checked = described(chip, "no pin was looked up")
    if checked is None or checked.resolved is None:
        return COULD_NOT_RUN
    name = checked.resolved.chip.name
    pins = Pins(checked.resolved, package)
    if not pins.packages:
        complain(
            f"{chip}: {_no_package([p.name for p in checked.resolved.chip.packages], package)}"
        )
        return COULD_NOT_RUN
    if which is None:
        return _draw(name, pins, report)
    return _look_up(name, pins, which, report)


def _no_package(known: list[str], package: str | None) -> str:
    if not known:
        return "describes no package"
    return f"has no package {package!r}; there is {', '.join(known)}"


def _draw(chip: str, pins: Pins, report: str) -> int:
    from regwright.cli.lines import print_lines
    from regwright.pins.text import drawing
    from regwright.reports.pieces import HEADING, PLAIN, Piece
    from regwright.reports.pins import CAUTION, function_lines, pins_json

    if report == "json":
        click.echo(pins_json(chip, pins.every()), nl=False)
        return CLEAN
    for package in pins.packages:
        title = f": {package.title}" if package.title else ""
        print_lines([[Piece(HEADING, f"{chip}, {package.name}{title}, seen from above")]])
        print_lines([[Piece(PLAIN, line)] for line in drawing(package)])
        print_lines(function_lines(package))
    click.echo(CAUTION)
    return CLEAN


def _look_up(chip: str, pins: Pins, which: str, report: str) -> int:
    from regwright.cli.lines import print_lines
    from regwright.model.words import nearest
    from regwright.pins.text import drawing
    from regwright.reports.pieces import PLAIN, Piece
    from regwright.reports.pins import bit_lines, pin_lines, pins_json

    bit = pins.port_bit(which)
    found = list(bit.pins) if bit else pins.named(which)
    several = [] if bit or found else pins.several(which)
    if several:
        complain(f"{which} is several bits: ask for one of {', '.join(several)}")
        return COULD_NOT_RUN
    if bit is None and not found:
        near = nearest(which, pins.names())
        hint = f"; did you mean {near}?" if near else "; regwright pin CHIP draws what there is"
        complain(f"{chip} has no pin, bit or function {which!r}{hint}")
        return COULD_NOT_RUN
    if report == "json":
        click.echo(pins_json(chip, found, bit), nl=False)
    elif bit:
        print_lines(bit_lines(chip, bit))
    else:
        for item in found:
            print_lines(pin_lines(chip, item))
    if report == "text":
        for item in found:
            print_lines([[Piece(PLAIN, "")]])
            print_lines([[Piece(PLAIN, line)] for line in drawing(item.package, item.pin.number)])
    return CLEAN if found else FINDINGS
