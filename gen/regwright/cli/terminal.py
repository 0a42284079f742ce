"""What the commands print, and when in colour."""

from __future__ import annotations

import os
import sys
from collections import Counter
from collections.abc import Iterable
from typing import TYPE_CHECKING, TextIO

import click

if TYPE_CHECKING:
    from regwright.pipeline import Located

_COLOURS = {"error": "red", "warning": "yellow", "note": "cyan"}


def wants_colour(stream: TextIO) -> bool:
    """Tell whether ``stream`` is a terminal whose user has not set NO_COLOR."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def complain(message: str) -> None:
    """Print why something could not run."""
    click.echo(f"regwright: {message}", err=True)


def _coloured(item: Located) -> str:
    file, line, column = item.place
    finding = item.finding
    level = click.style(f"{finding.level}:", fg=_COLOURS[finding.level], bold=True)
    place = click.style(f"{file}:{line}:{column}:", bold=True)
    rule = click.style(f"[{finding.rule}]", dim=True)
    return f"{place} {level} {finding.message} {rule}"


def print_findings(items: Iterable[Located], *, err: bool = False) -> None:
    """Print each finding on a line of its own."""
    stream = sys.stderr if err else sys.stdout
    colour = wants_colour(stream)
    lines = [(_coloured(item) if colour else str(item)) + "\n" for item in items]
    if lines:
        click.echo("".join(lines), err=err, color=colour, nl=False)


def count(items: list[Located], descriptions: int) -> str:
    """Return the count of findings, in words."""
    levels = Counter(item.finding.level for item in items)
    parts = [
        f"{levels[level]} {level}{'s' if levels[level] != 1 else ''}"
        for level in ("error", "warning", "note")
        if levels[level]
    ]
    what = f"{descriptions} description{'s' if descriptions != 1 else ''}"
    return f"{what}, {', '.join(parts) if parts else 'no findings'}"
