"""The options of every command that reports in several forms."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import click

Command = Callable[..., Any]


def reporting(names: Sequence[str]) -> Callable[[Command], Command]:
    """Give a command ``--report``, which may be one of ``names``, and ``--output``."""

    def add(command: Command) -> Command:
        output = click.option(
            "--output",
            "outputs",
            multiple=True,
            metavar="FILE",
            help="Write a report to FILE, the first --output the first --report, and so on; - is "
            "standard output.",
        )
        report = click.option(
            "--report",
            "reports",
            multiple=True,
            type=click.Choice(names),
            help="Report in this form; may be repeated.",
        )
        return report(output(command))

    return add
