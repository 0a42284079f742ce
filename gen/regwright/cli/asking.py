"""Ask for the settings of a configuration, one after the other."""

from __future__ import annotations

import sys
from collections.abc import Mapping

import click

from regwright.cli.terminal import complain
from regwright.cli.words_given import choice_of
from regwright.configuration.decode import choices_of, name_in, takes_number
from regwright.configuration.encode import encode
from regwright.configuration.hazards import (
    KINDS,
    Caused,
    added_hazards,
    cause_in_words,
    hazards_of,
    known_hazards,
)
from regwright.configuration.words import places
from regwright.model.configuration import Choice, Configuration, ConfigurationField, SettingIs
from regwright.model.words import visible
from regwright.reports.configuration import about_hazard, refusal
from regwright.resolve.layout import bits_in_words, layout

BACK, QUIT, EXPLAIN = "b", "q", "?"
_HELP = (
    "Type a number or a name. Enter keeps what is in brackets, ? explains, b goes back, q quits."
)
_LONGEST = 1000


class _End(Exception):
    """There are no more answers, or no more are wanted; the message says which."""


class Walk:
    """A walk through all settings. What is asked goes to standard error, so that results do not."""

    def __init__(
        self,
        configuration: Configuration,
        start: Mapping[str, int],
        chosen: Mapping[str, str],
        accepted: tuple[str, ...],
    ) -> None:
        """Start from the words ``start``, with what is ``chosen`` and ``accepted`` already."""
        self._configuration = configuration
        self._start = start
        self._chosen = dict(chosen)
        self._accepted = list(accepted)
        self._places = list(places(configuration))
        self._known = known_hazards(configuration)

    def go(self) -> tuple[dict[str, str], tuple[str, ...]] | None:
        """Ask, and return the settings and the hazards that are accepted; ``None`` for none."""
        try:
            self._say(_HELP)
            self._settings(0)
        except _End as end:
            complain(f"{end}; nothing was computed")
            return None
        return self._chosen, tuple(self._accepted)

    def _settings(self, first: int) -> None:
        """Ask for the settings from the number ``first`` on, then for hazards."""
        number: int | None = first
        while number is not None:
            while number < len(self._places):
                number = max(0, number + self._setting(number))
            number = self._hazards()

    def _setting(self, number: int) -> int:
        """Ask for a setting until it is answered; return how many settings to go on, 1 or -1."""
        word, field = self._places[number]
        where = f"{word.name}, {bits_in_words(layout(field.bits).mask)}"
        title = f": {field.title}" if field.title else ""
        self._say("")
        self._say(f"{number + 1} of {len(self._places)}  {field.setting} ({where}){title}")
        self._list_choices(field)
        while True:
            answer = self._read(f"{field.setting} [{self._now(field) or 'no meaning'}]: ")
            if answer == EXPLAIN:
                self._explain(field)
            elif answer == BACK:
                return -1
            elif self._take(field, answer):
                return 1

    def _now(self, field: ConfigurationField) -> str | None:
        """Return the choice that ``field`` has so far."""
        words = encode(self._configuration, self._start, self._chosen)
        word = next(word for word, item in self._places if item is field)
        return name_in(self._configuration, field, words[word.name])

    def _take(self, field: ConfigurationField, answer: str) -> bool:
        """Take ``answer`` for ``field``, or say why it cannot be taken."""
        now = self._now(field)
        if not answer:
            if now is None:
                self._say("What it has now has no meaning: choose one.")
            return now is not None
        try:
            choice = self._named(field, answer)
        except click.UsageError as problem:
            self._say(problem.message)
            return False
        if choice != now:
            self._chosen[field.setting] = choice
        return True

    def _named(self, field: ConfigurationField, answer: str) -> str:
        """Return the choice that ``answer`` is, by number or by name.

        Raises ``click.UsageError``, also when it is the number of one and the name of another.
        """
        names = [item.name for item in choices_of(self._configuration, field)]
        is_number = answer.isascii() and answer.isdigit() and not takes_number(field)
        if not is_number or len(answer) > 4 or not 1 <= int(answer) <= len(names):
            return choice_of(answer.removeprefix("="), self._configuration, field)
        by_number = names[int(answer) - 1]
        if answer in names and answer != by_number:
            message = f"{answer} is the number of {by_number}, and a name: type ={answer} for that"
            raise click.UsageError(f"{message}, or ={by_number}")
        return by_number

    def _list_choices(self, field: ConfigurationField) -> None:
        if takes_number(field):
            self._say(f"   a number of {layout(field.bits).width} bits that says its base, as 0x1F")
            return
        choices = choices_of(self._configuration, field)
        size = max(len(item.name) for item in choices)
        for number, item in enumerate(choices, 1):
            title = f"  {item.title}" if item.title else ""
            kinds = "".join(f"  ({text})" for text in self._dangers(field, item))
            self._say(f"  {number:2}  {item.name.ljust(size)}{title}{kinds}".rstrip())

    def _dangers(self, field: ConfigurationField, choice: Choice) -> list[str]:
        """Return the hazards of a choice, what they mean and with what else they come about."""
        own = SettingIs(field.setting, choice.name)
        found = []
        for item in self._known:
            for cause in item.causes:
                if own in cause:
                    rest = tuple(other for other in cause if other != own)
                    also = f" with {cause_in_words(rest)}" if rest else ""
                    found.append(f"{item.hazard.name}: {KINDS[item.hazard.kind]}{also}")
        return list(dict.fromkeys(found))

    def _explain(self, field: ConfigurationField) -> None:
        self._say(field.title or f"{field.name}: the description says nothing more of it.")
        if field.notes:
            self._say(" ".join(field.notes.split()))
        if field.page:
            self._say(f"See page {field.page} of the document.")
        for item in self._known:
            causes = [cause for cause in item.causes if any(s == field.setting for s, _ in cause)]
            if causes:
                reasons = "; ".join(map(cause_in_words, causes))
                self._say(f"{item.hazard.name}: {reasons}. {about_hazard(item)}")
        self._list_choices(field)

    def _hazards(self) -> int | None:
        """Have new hazards accepted by name; return the setting to go back to, if there is one."""
        for item in self._added():
            if item.hazard.name in self._accepted:
                continue
            self._say("")
            self._say(refusal(item).removeprefix("refused: "))
            while True:
                name = item.hazard.name
                answer = self._read(f"type {name} to accept it, b to go back, q to quit: ")
                if answer == BACK:
                    return self._number_of(item.causes[0][-1].setting)
                if answer == name:
                    self._accepted.append(name)
                    break
        return None

    def _added(self) -> tuple[Caused, ...]:
        words = encode(self._configuration, self._start, self._chosen)
        before = hazards_of(self._configuration, self._start)
        return added_hazards(before, hazards_of(self._configuration, words))

    def _number_of(self, setting: str) -> int:
        names = [field.setting for _, field in self._places]
        return names.index(setting) if setting in names else 0

    def _read(self, prompt: str) -> str:
        """Return the next answer. Raises :class:`_End` when there is none, or it is to quit."""
        click.echo(visible(prompt), err=True, nl=False)
        line = sys.stdin.buffer.readline(_LONGEST) if sys.stdin is not None else b""
        if not line:
            click.echo("", err=True)
            raise _End("the answers end here")
        answer = line.decode("utf-8", "replace").strip()
        if answer == QUIT:
            raise _End("you quit")
        return answer

    def _say(self, text: str) -> None:
        click.echo(visible(text), err=True)
