"""Print lines whose pieces have a colour on a terminal."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterable
from typing import Any

import click

from regwright.cli.terminal import wants_colour
from regwright.reports.pieces import CHANGED, DANGER, GONE, HEADING, NEW, QUIET, Line, Piece

_STYLES: dict[str, dict[str, Any]] = {
    HEADING: {"bold": True},
    QUIET: {"dim": True},
    GONE: {"fg": "red"},
    NEW: {"fg": "green"},
    CHANGED: {"fg": "yellow"},
    DANGER: {"fg": "red", "bold": True},
}


def is_terminal() -> bool:
    """Tell whether standard output is a terminal."""
    return sys.stdout is not None and sys.stdout.isatty()


def columns() -> int:
    """Return how many columns the terminal has."""
    return shutil.get_terminal_size((80, 24)).columns


def print_lines(lines: Iterable[Line]) -> None:
    """Print ``lines``, in colour where that is wanted."""
    text = "".join("".join(map(_styled, line)) + "\n" for line in lines)
    click.echo(text, nl=False, color=wants_colour(sys.stdout))


def _styled(piece: Piece) -> str:
    style = _STYLES.get(piece.role)
    return click.style(piece.text, **style) if style else piece.text
