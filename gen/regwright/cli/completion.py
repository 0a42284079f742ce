"""``regwright completion``: print a shell's completion script."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class


@click.command(
    "completion",
    short_help="Print the completion script for a shell.",
    epilog="Example: regwright completion bash >> ~/.bashrc",
)
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def command(shell: str) -> None:
    """Print the completion script for SHELL; load it from the shell's start-up file."""
    kind = get_completion_class(shell)
    root = click.get_current_context().find_root().command
    if kind is None:
        raise click.UsageError(f"no completion for {shell}")
    completion = kind(root, {}, "regwright", "_REGWRIGHT_COMPLETE")
    click.echo(completion.source())
