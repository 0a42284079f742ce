"""What the commands print, and when in colour."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, TextIO, TypeVar

import click

from regwright.model.words import DESCRIPTION, count_line, visible

if TYPE_CHECKING:
    from regwright.pipeline import Located

Result = TypeVar("Result")

COLOURS = {"error": "red", "warning": "yellow", "note": "cyan"}


def wants_colour(stream: TextIO | None) -> bool:
    """Tell whether ``stream`` is a terminal whose user has not set NO_COLOR."""
    if stream is None:  # it was closed before we started
        return False
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def progress(results: Iterator[Result], total: int) -> Iterator[Result]:
    """Yield ``results``; once they take over a second, count them on a terminal's last line.

    The line is gone before anything else is printed, and never shown in a pipe.
    """
    start = time.monotonic()
    is_terminal = sys.stderr is not None and sys.stderr.isatty()
    for number, result in enumerate(results, 1):
        if is_terminal and number > 1:
            click.echo("\r\x1b[K", err=True, nl=False)
        yield result
        if is_terminal and number < total and time.monotonic() - start > 1:
            click.echo(f"\r{number} of {total} descriptions", err=True, nl=False)


@contextmanager
def waiting(message: str) -> Iterator[None]:
    """Show ``message`` on a terminal's last line once what is done within takes over a second.

    The line is gone before anything else is printed, and never shown in a pipe.
    """
    if sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    import threading

    shown = threading.Event()

    def show() -> None:
        shown.set()
        click.echo(message, err=True, nl=False)

    timer = threading.Timer(1, show)
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
        timer.join()
        if shown.is_set():
            click.echo("\r\x1b[K", err=True, nl=False)


def complain(message: str) -> None:
    """Print why something could not run."""
    click.echo(f"regwright: {visible(message)}", err=True)


def _coloured(item: Located) -> str:
    file, line, column = item.place
    finding = item.finding
    level = click.style(f"{finding.level}:", fg=COLOURS[finding.level], bold=True)
    place = click.style(f"{visible(file)}:{line}:{column}:", bold=True)
    rule = click.style(f"[{finding.rule}]", dim=True)
    return f"{place} {level} {visible(finding.message)} {rule}"


def print_findings(items: Iterable[Located], *, err: bool = False) -> None:
    """Print each finding on a line of its own."""
    stream = sys.stderr if err else sys.stdout
    colour = wants_colour(stream)
    lines = [(_coloured(item) if colour else visible(str(item))) + "\n" for item in items]
    if lines:
        click.echo("".join(lines), err=err, color=colour, nl=False)


def count(items: list[Located], number: int, what: str = DESCRIPTION) -> str:
    """Return the count of findings in so many descriptions or sources, in words."""
    return count_line(number, (item.finding.level for item in items), what)
