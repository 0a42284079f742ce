"""``regwright clock``: say how fast the CPU runs, and what timers and serial ports make of it."""

from __future__ import annotations

import sys
from typing import Any

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.inputs import CannotRead
from regwright.cli.report_options import reporting
from regwright.cli.terminal import complain

#: As in ``regwright.reports.clock_forms``, which is too heavy to import for a list of names; a test
#: compares.
REPORT_NAMES = ("text", "json", "markdown")


@click.command(
    "clock",
    short_help="Say how fast the CPU runs, and whether the supply allows it.",
    epilog="Example: regwright clock sorrel14.xml low=0xE2 --supply 3.3V --timer 1kHz",
)
@click.argument("chip", metavar="CHIP")
@click.argument("words", metavar="[WORD=VALUE]...", nargs=-1)
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="SETTING=CHOICE",
    help="Make this choice, as clock-divider=off; may be repeated.",
)
@click.option(
    "--register",
    "registers",
    multiple=True,
    metavar="NAME=VALUE",
    help="Take it that the program has written VALUE to the register or REGISTER.FIELD NAME, which "
    "divides the clock; may be repeated.",
)
@click.option(
    "--frequency",
    "frequencies",
    multiple=True,
    metavar="FREQUENCY",
    help="The frequency of the crystal or clock that is connected, as 16MHz; SOURCE=FREQUENCY for "
    "another source than that of the CPU. May be repeated.",
)
@click.option("--supply", metavar="VOLTAGE", help="The supply, as 3.3V or 3300mV.")
@click.option(
    "--baud",
    "bauds",
    multiple=True,
    metavar="RATE",
    help="Find the divisor of each serial port for this rate, as 9600; may be repeated.",
)
@click.option(
    "--timer",
    "timers",
    multiple=True,
    metavar="FREQUENCY",
    help="Find prescale and compare values of each timer for this frequency, as 1kHz; may be "
    "repeated.",
)
@click.option("--rate", metavar="NAME", help="Only for the timer or serial port of this name.")
@reporting(REPORT_NAMES)
def command(chip: str, words: tuple[str, ...], **options: Any) -> None:
    """Say how fast the CPU of the description CHIP runs, by which way the clock comes to it.

    Configuration words are as the chip is delivered; WORD=VALUE, as low=0xE2, says what they are
    instead. Registers are as after reset.

    Exits with 0 when the frequency is allowed; that the worst case of its tolerance is not, or that
    the words have a hazard, is only said. Exits with 1 when the supply or a limit does not allow
    it, it cannot be told or the words cannot be right, or when no divisor makes a wanted rate: that
    of a serial port within 2 %, that of a timer within 5 % (common practice, no source). Exits with
    2 when it could not run.
    """
    from regwright.cli.clocking import run
    from regwright.cli.settings_file import BadConfig
    from regwright.write.files import CannotWrite

    try:
        sys.exit(run(chip, words, options))
    except BadConfig as problem:
        click.echo(str(problem), err=True)
    except (CannotRead, CannotWrite) as problem:
        complain(str(problem))
    sys.exit(COULD_NOT_RUN)
