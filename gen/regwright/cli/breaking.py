"""``regwright compare --breaking``: what a newer description breaks for users of the header."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from regwright.cli.exits import CLEAN, FINDINGS
from regwright.cli.outputs import TEXT, refuse_inputs
from regwright.cli.terminal import print_findings
from regwright.compare.pins import NO_PINS, Pins
from regwright.compare.releases import Version, changes_told
from regwright.model.finding import Finding
from regwright.model.words import DESCRIPTION
from regwright.reports.breaking import FORMS, Release, Side, count_line, lines_of
from regwright.write.files import Pending, write

if TYPE_CHECKING:
    from regwright.cli.comparing import Wishes
    from regwright.pipeline import Checked


def refuse(options: dict[str, Any]) -> None:
    """Refuse options that do not go together. Raises ``click.UsageError``."""
    if options["verbose"] and not options["breaking"]:
        raise click.UsageError("--verbose is for --breaking; without it every change is listed")
    if not options["breaking"]:
        return
    for name in ("only", "ignore", "write_match"):
        if options[name]:
            word = name.replace("_", "-")
            raise click.UsageError(f"--breaking compares headers, not descriptions; not --{word}")
    for name in options["reports"]:
        if name not in FORMS:
            raise click.UsageError(f"--breaking is there as {', '.join(FORMS)}, not as {name}")


def breaking_outcome(old: Checked, new: Checked, wishes: Wishes, pins: Pins = NO_PINS) -> int:
    """Print and write what ``new`` changes in the header of ``old``; return the exit code.

    Neither description has an error. ``pins`` is what the user says about which thing is which.
    Raises :class:`CannotWrite`.
    """
    release = _release(old, new, pins)
    write(_files(release, wishes))
    if wishes.stdout == TEXT and not wishes.stat:
        print_findings(lines_of(release, verbose=wishes.verbose))
    elif wishes.stdout not in (TEXT, None):
        click.echo(FORMS[wishes.stdout](release).encode("utf-8"), nl=False)
    if wishes.stdout in (TEXT, None):
        click.echo(count_line(release), err=wishes.stdout is None)
    return FINDINGS if any(told.breaks for told, _ in release.changes) else CLEAN


def _release(old: Checked, new: Checked, pins: Pins) -> Release:
    """Return what changes, each with its place."""
    before, after = _version(old), _version(new)
    changes = []
    for told in changes_told(before, after, pins):
        source = (new if told.in_new else old).source
        place = source.place(Finding(told.kind, told.level, told.message, told.origin))
        changes.append((told, place))
    changes.sort(key=lambda item: (not item[0].breaks, item[0].in_new, item[1]))
    return Release(
        Side(old.source.name, before.chip.chip.name),
        Side(new.source.name, after.chip.chip.name),
        changes,
    )


def _version(checked: Checked) -> Version:
    if checked.subject is None:
        raise ValueError("a description that could not be read has no header")
    return Version(checked.subject.resolved, checked.subject.macros)


def _files(release: Release, wishes: Wishes) -> list[Pending]:
    """Return the reports to write. Raises :class:`CannotWrite` for a file that is an input."""
    inputs = {side.file: DESCRIPTION for side in (release.old, release.new)}
    refuse_inputs((file for _, file in wishes.files), inputs)
    return [
        Pending(Path(file), FORMS[form](release).encode("utf-8")) for form, file in wishes.files
    ]
