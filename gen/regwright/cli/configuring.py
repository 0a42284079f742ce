"""What ``regwright config`` reads, prints and writes, and with which code it ends."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import click

from regwright.cli.described import described
from regwright.cli.exits import CLEAN, COULD_NOT_RUN, FINDINGS
from regwright.cli.lines import columns, is_terminal, print_lines
from regwright.cli.outputs import TEXT, refuse_inputs, reports_of
from regwright.cli.terminal import complain
from regwright.cli.words_given import hazards_named, settings_of, words_of
from regwright.configuration.encode import encode
from regwright.configuration.hazards import Caused
from regwright.configuration.words import current_words
from regwright.model.chip import Chip
from regwright.model.configuration import Configuration
from regwright.model.words import DESCRIPTION, visible
from regwright.reports.configuration import CAUTION, FORMS, PRESENT, Configured, refusal
from regwright.reports.configuration_text import configuration_lines
from regwright.write.files import Pending, write

JSON = "json"
#: Complaints are not wrapped to less than this, however narrow the terminal is.
_NARROWEST = 24


class Wishes(NamedTuple):
    """What the command line asks for, as it is written there.

    ``stdout`` is the report that is printed, if any, ``files`` are the reports to write, each with
    its file.
    """

    given: tuple[str, ...]
    chosen: tuple[str, ...]
    accepted: tuple[str, ...]
    ask: bool
    stdout: str | None
    files: list[tuple[str, str]]


def wishes_of(given: tuple[str, ...], options: dict[str, Any]) -> Wishes:
    """Return what the options ask for. Raises ``click.UsageError`` for what does not fit."""
    outputs = reports_of(options)
    own = options["chosen"], options["accept"], options["ask"]
    return Wishes(given, *own, outputs.stdout, outputs.files)


def run(path: str, wishes: Wishes) -> int:
    """Do what is asked for with the description in the file ``path`` and return the exit code.

    Raises ``BadConfig``, ``BadSetting``, ``CannotRead``, ``click.UsageError`` and
    :class:`CannotWrite`.
    """
    checked = described(path, "nothing was computed")
    if checked is None or checked.resolved is None:
        return COULD_NOT_RUN
    chip = checked.resolved.chip
    if chip.configuration is None:
        complain(f"{path}: describes no configuration bytes; add them under configuration")
        return COULD_NOT_RUN
    refuse_inputs((file for _, file in wishes.files), {path: DESCRIPTION})
    given = words_of(wishes.given, chip.configuration)
    chosen = settings_of(wishes.chosen, chip.configuration)
    accepted = hazards_named(wishes.accepted, chip.configuration)
    if wishes.ask and _cannot_be_mended(path, chip, given, wishes):
        return FINDINGS
    if wishes.ask:
        asked = _ask(chip.configuration, given, chosen, accepted)
        if asked is None:
            return COULD_NOT_RUN
        chosen, accepted = asked
    has_settings = wishes.ask or bool(wishes.chosen)
    configured = _configured(path, chip, given, chosen if has_settings else None)
    _tell_of_accepted(configured, wishes.accepted)
    if configured.is_computed:
        refused = _not_accepted(configured, accepted)
        if refused or configured.problems:
            _refuse(configured, refused, wishes)
            return FINDINGS
    _give(configured, wishes)
    return FINDINGS if configured.problems else CLEAN


def _ask(
    configuration: Configuration,
    given: Mapping[str, int],
    chosen: dict[str, str],
    accepted: tuple[str, ...],
) -> tuple[dict[str, str], tuple[str, ...]] | None:
    """Return settings and accepted hazards that the user gives; ``None`` when there are none."""
    from regwright.cli.asking import Walk

    return Walk(configuration, current_words(configuration, given), chosen, accepted).go()


def _configured(
    path: str, chip: Chip, given: Mapping[str, int], chosen: Mapping[str, str] | None
) -> Configured:
    configuration = chip.configuration
    if configuration is None:
        raise ValueError("only a chip with a configuration has one to show")
    result = None if chosen is None else encode(configuration, given, chosen)
    return Configured(path, chip, configuration, given, result)


def _cannot_be_mended(path: str, chip: Chip, given: Mapping[str, int], wishes: Wishes) -> bool:
    """Refuse words that no setting can make right, before anything is asked."""
    configured = _configured(path, chip, given, {})
    wrong = [item for item in configured.problems if not item.setting]
    if wrong:
        _refuse(configured, [], wishes)
    return bool(wrong)


def _not_accepted(configured: Configured, accepted: Iterable[str]) -> list[Caused]:
    """Return the hazards that come with what was set, and that nobody accepted."""
    return [item for item in configured.added if item.hazard.name not in set(accepted)]


def _refuse(configured: Configured, hazards: list[Caused], wishes: Wishes) -> None:
    """Say why the words that were computed are not given away; in JSON too, if that was wanted."""
    for problem in configured.problems:
        _say(problem.message)
    for item in hazards:
        _say(refusal(item))
    if hazards:
        names = " ".join(f"--accept {item.hazard.name}" for item in hazards)
        _say(f"nothing was computed. When you are sure, add {names}")
    else:
        _say("nothing was computed; give bytes that can be right")
    _say(CAUTION)
    if wishes.stdout == JSON:
        from regwright.reports.configuration_json import refusal_json

        click.echo(refusal_json(configured, hazards).encode("utf-8"), nl=False)


def _say(message: str) -> None:
    """Complain, wrapped where standard error is a terminal."""
    if sys.stderr is None or not sys.stderr.isatty():
        complain(message)
        return
    room = max(columns() - len("regwright: "), _NARROWEST)
    first, *rest = textwrap.wrap(visible(message), room, break_on_hyphens=False)
    complain(first)
    for line in rest:
        click.echo(f"  {line}", err=True)


def _tell_of_accepted(configured: Configured, names: Iterable[str]) -> None:
    """Say which hazards were accepted without need."""
    added = {item.hazard.name for item in configured.added}
    for name in dict.fromkeys(text.strip() for text in names):
        if name in added:
            continue
        was_there = configured.state(name) == PRESENT
        why = "these bytes had it before" if was_there else "these bytes do not have it"
        _say(f"note: --accept {name} was not needed: {why}")


def _give(configured: Configured, wishes: Wishes) -> None:
    """Write the reports, and print one. Raises :class:`CannotWrite`."""
    write(
        [
            Pending(Path(file), FORMS[form](configured).encode("utf-8"))
            for form, file in wishes.files
        ]
    )
    if wishes.stdout == TEXT and is_terminal():
        print_lines(configuration_lines(configured, columns()))
    elif wishes.stdout is not None:
        click.echo(FORMS[wishes.stdout](configured).encode("utf-8"), nl=False)
