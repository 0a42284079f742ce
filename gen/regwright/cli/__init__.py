"""The command line. Each command is a module; none loads a parser before it has work to do."""

from __future__ import annotations

import gc
import importlib
import sys
from typing import Any

import click

from regwright import __version__
from regwright.cli.exits import COULD_NOT_RUN

#: The commands, in the order in which help lists them; each is the function of its name.
COMMANDS = ("new", "check", "emit", "convert", "completion")


class CommandGroup(click.Group):
    """A group that imports a command's module when the command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """Return the names of the commands."""
        return list(COMMANDS)

    def get_command(
        self,
        ctx: click.Context,  # noqa: ARG002
        cmd_name: str,
    ) -> click.Command | None:
        """Return the command ``cmd_name``, if there is one."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"regwright.cli.{cmd_name}")
        command: click.Command = module.command
        return command


@click.group(
    cls=CommandGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Example: regwright emit descriptions --to out",
)
@click.version_option(__version__, prog_name="regwright")
def group() -> None:
    """Register definitions that are right: describe a chip once, check it, emit its C header.

    A description is an XML or JSON file; a folder stands for the descriptions in it.
    """


def main() -> None:
    """Run the command line; never end in a traceback."""
    # The process is short, and the model has no cycles to collect.
    gc.disable()
    for stream in (sys.stdout, sys.stderr):
        options: dict[str, Any] = {"errors": "backslashreplace"}
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(**options)
    try:
        group(prog_name="regwright")
    except RecursionError:
        click.echo("regwright: the input is nested too deeply", err=True)
        sys.exit(COULD_NOT_RUN)
    except MemoryError:
        click.echo("regwright: out of memory", err=True)
        sys.exit(COULD_NOT_RUN)
