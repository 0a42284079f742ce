"""The command line. Each command is a module; none loads a parser before it has work to do."""

from __future__ import annotations

import importlib
import os
import signal
import sys
from contextlib import suppress
from typing import Any, NoReturn

import click

from regwright import __version__
from regwright.cli.exits import COULD_NOT_RUN, INTERRUPTED

#: The commands, in the order in which help lists them; each is the function of its name.
COMMANDS = (
    "new",
    "check",
    "emit",
    "audit",
    "compare",
    "config",
    "clock",
    "pin",
    "rules",
    "import",
    "export",
    "convert",
    "completion",
)
#: Where the function of a command is whose name is no name for a module.
_MODULES = {"import": "imports", "export": "exports"}


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
        module = importlib.import_module(f"regwright.cli.{_MODULES.get(cmd_name, cmd_name)}")
        command: click.Command = module.command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that ``args`` start with, or say which one may be meant."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            from regwright.model.words import nearest

            near = nearest(args[0], COMMANDS)
            hint = f"; did you mean {near}?" if near else ""
            ctx.fail(f"there is no command {args[0][:80]!r}{hint}")
        return super().resolve_command(ctx, args)

    def make_context(self, *args: Any, **extra: Any) -> click.Context:
        """Read the arguments, or print the help; where that goes may be closed or full."""
        try:
            return super().make_context(*args, **extra)
        except OSError as problem:
            _give_up(problem)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; where its output goes may be closed or full."""
        try:
            return super().invoke(ctx)
        except OSError as problem:
            _give_up(problem)


def _give_up(problem: OSError) -> NoReturn:
    """End when something could not be read or written that no command looked after."""
    is_closed = isinstance(problem, BrokenPipeError)
    if not is_closed:
        where = f"{problem.filename}: " if problem.filename else "cannot write the output: "
        with suppress(OSError):
            click.echo(f"regwright: {where}{problem.strerror}", err=True)
    # what is still in the buffers has nowhere to go; Python must not try again at the end
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr) if is_closed else (sys.stdout,):
        with suppress(OSError, ValueError, AttributeError):
            os.dup2(nowhere, stream.fileno())
    sys.exit(COULD_NOT_RUN)


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
    for stream in (sys.stdout, sys.stderr):
        options: dict[str, Any] = {"errors": "backslashreplace"}
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(**options)
    # so that what is half written is tidied away
    signal.signal(signal.SIGTERM, lambda number, _frame: sys.exit(128 + number))
    try:
        sys.exit(group.main(prog_name="regwright", standalone_mode=False))
    except click.Abort:
        with suppress(OSError):
            click.echo("regwright: interrupted", err=True)
        sys.exit(INTERRUPTED)
    except click.ClickException as problem:
        problem.show()
        sys.exit(COULD_NOT_RUN)
    except OSError as problem:
        _give_up(problem)
    except RecursionError:
        click.echo("regwright: the input is nested too deeply", err=True)
        sys.exit(COULD_NOT_RUN)
    except MemoryError:
        click.echo("regwright: out of memory", err=True)
        sys.exit(COULD_NOT_RUN)
