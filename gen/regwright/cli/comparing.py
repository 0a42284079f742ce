"""What ``regwright compare`` reads, prints and writes, and with which code it ends."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from regwright.cli.breaking import breaking_outcome
from regwright.cli.described import is_usable
from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.inputs import CannotRead, expand, load
from regwright.cli.lines import columns, is_terminal, print_lines
from regwright.cli.outputs import TEXT, refuse_inputs, reports_of
from regwright.cli.settings_file import settings
from regwright.compare.differences import compare
from regwright.compare.match_file import match_text, read_match
from regwright.compare.pins import NO_PINS, Pins
from regwright.model.words import DESCRIPTION, visible
from regwright.pipeline import Checked, check
from regwright.reports.compare_forms import FORMS
from regwright.reports.compare_text import terminal_lines
from regwright.reports.compared import Compared, chosen, touched
from regwright.write.files import Pending, write

if TYPE_CHECKING:
    from regwright.compare.differences import Comparison
    from regwright.reports.porting import Move
    from regwright.rules.settings import Settings


class Wishes(NamedTuple):
    """What the command line asks for.

    ``only`` and ``ignore`` are categories, ``stdout`` is the report that is printed, if any,
    ``files`` are the reports to write, each with its file. ``breaking`` is for what breaks users
    of the header, instead of all that differs; ``verbose`` is for the rest of it. ``sources`` are
    the program that is to move.
    """

    only: tuple[str, ...]
    ignore: tuple[str, ...]
    stat: bool
    match: str | None
    write_match: str | None
    stdout: str | None
    files: list[tuple[str, str]]
    breaking: bool = False
    verbose: bool = False
    sources: tuple[str, ...] = ()


def wishes_of(options: dict[str, Any]) -> Wishes:
    """Return what the options ask for. Raises ``click.UsageError`` for what does not fit."""
    if options["stat"] and (options["reports"] or options["outputs"]):
        raise click.UsageError("--stat prints a line and nothing else; leave out other outputs")
    outputs = reports_of(options)
    only, ignore, stat = options["only"], options["ignore"], options["stat"]
    if only and set(only) <= set(ignore):
        raise click.UsageError("--ignore leaves out all that --only asks for")
    pins = options["match"], options["write_match"]
    breaking = options["breaking"], options["verbose"]
    sources = options["sources"]
    if sources and (stat or options["breaking"]):
        other = "--stat" if stat else "--breaking"
        raise click.UsageError(f"--source lists the work of moving a program, and {other} does not")
    return Wishes(only, ignore, stat, *pins, outputs.stdout, outputs.files, *breaking, sources)


def run(a: str, b: str, wishes: Wishes) -> int:
    """Compare the descriptions ``a`` and ``b``, give what is asked for, return the exit code.

    Raises ``BadConfig``, ``BadMatch``, ``CannotRead`` and :class:`CannotWrite`.
    """
    own = settings()
    both = _checked(a, own), _checked(b, own)
    chips = [item.resolved if is_usable(item, "nothing was compared") else None for item in both]
    if chips[0] is None or chips[1] is None:
        return COULD_NOT_RUN
    pins = read_match(wishes.match, chips[0], chips[1]) if wishes.match else NO_PINS
    if wishes.breaking:
        return breaking_outcome(*both, wishes, pins)
    comparison = compare(chips[0], chips[1], pins)
    move = _move(comparison, both, wishes.sources) if wishes.sources else None
    changes = comparison.changes if move is None else touched(comparison.changes, move.used)
    changes = chosen(changes, wishes.only, wishes.ignore)
    compared = Compared(comparison, changes, (both[0].source, both[1].source), move)
    write(_files(compared, pins, wishes))
    _print(compared, wishes)
    return FINDINGS if (move.porting.work if move else changes) else CLEAN


def _move(comparison: Comparison, both: tuple[Checked, Checked], paths: tuple[str, ...]) -> Move:
    """Return the work of moving the sources in ``paths``. Raises :class:`CannotRead`."""
    from regwright.cli.auditing import SOURCES, load_sources
    from regwright.reports.porting import move_of

    texts, problems = load_sources(expand(paths, SOURCES), None)
    if problems:
        raise CannotRead(problems[0].problem)
    old, new = both[0].subject, both[1].subject
    if old is None or new is None:
        raise ValueError("only what could be read is compared")
    return move_of(comparison, old.macros, new.macros, texts)


def _checked(path: str, own: Settings) -> Checked:
    """Return the description in the file ``path``, checked. Raises :class:`CannotRead`."""
    if Path(path).is_dir():
        raise CannotRead(f"{path}: is a folder; give the two descriptions to compare")
    return check(load(path), "", own)


def _files(compared: Compared, pins: Pins, wishes: Wishes) -> list[Pending]:
    """Return what is to be written. Raises :class:`CannotWrite` for a file that is an input."""
    names = [file for _, file in wishes.files]
    if wishes.write_match:
        names.append(wishes.write_match)
    refuse_inputs(names, {source.name: DESCRIPTION for source in compared.sources})
    found = [
        Pending(Path(file), FORMS[form](compared).encode("utf-8")) for form, file in wishes.files
    ]
    if wishes.write_match:
        text = match_text(compared.comparison.matching, pins)
        found.append(Pending(Path(wishes.write_match), text.encode("utf-8")))
    return found


def _print(compared: Compared, wishes: Wishes) -> None:
    if wishes.stat:
        click.echo(visible(compared.stat))
    elif wishes.stdout == TEXT and compared.move is None and is_terminal():
        print_lines(terminal_lines(compared, columns()))
    elif wishes.stdout is not None:
        click.echo(FORMS[wishes.stdout](compared).encode("utf-8"), nl=False)
