"""``regwright config``: show configuration words, decode them, and set settings in them."""

from __future__ import annotations

import sys
from typing import Any

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.inputs import CannotRead
from regwright.cli.report_options import reporting
from regwright.cli.terminal import complain

#: The names of the forms, written out so that help needs none of them; a test compares.
REPORT_NAMES = ("text", "markdown", "json")


@click.command(
    "config",
    short_help="Show, decode and compute configuration bytes, with their hazards.",
    epilog="Example: regwright config sorrel14.xml low=0x62 --set clock-divider=off",
)
@click.argument("chip", metavar="CHIP")
@click.argument("given", nargs=-1, metavar="[WORD=VALUE]...")
@click.option(
    "--set",
    "chosen",
    multiple=True,
    metavar="SETTING=CHOICE",
    help="Compute the bytes with this setting, every other bit as it was; may be repeated.",
)
@click.option(
    "--accept",
    multiple=True,
    metavar="HAZARD",
    help="Compute the bytes although they come to have this hazard; may be repeated.",
)
@click.option("--ask", is_flag=True, help="Ask for each setting, one after the other.")
@reporting(REPORT_NAMES)
def command(chip: str, given: tuple[str, ...], **options: Any) -> None:
    """Show the configuration ("fuse") bytes of the description CHIP bit by bit, in plain words.

    They are as the chip is delivered, or as they are given: low=0x62 decodes that. With --set or
    --ask it computes them, and says what changes in words and in bits, what to verify with, and the
    inverted form. What has a hazard that was not there before is refused unless --accept names it.
    The refusal is JSON, without values, where --report json is printed.

    Wrong bytes can make the chip unreachable: check them against the datasheet and its errata for
    your revision.

    Exits with 0 when all is well, 1 when a hazard is refused or bytes cannot be right, and 2 when
    it could not run: something could not be read or written, or the description has an error.
    """
    from regwright.cli.configuring import run, wishes_of
    from regwright.cli.settings_file import BadConfig
    from regwright.configuration.encode import BadSetting
    from regwright.write.files import CannotWrite

    try:
        sys.exit(run(chip, wishes_of(given, options)))
    except BadConfig as problem:
        click.echo(str(problem), err=True)
    except (BadSetting, CannotRead, CannotWrite) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)
