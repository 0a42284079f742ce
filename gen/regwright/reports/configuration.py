"""What is told of a configuration: the words as they are, or what comes of settings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property

from regwright.configuration.changes import Change, LockChange, changes, lock_changes
from regwright.configuration.decode import Problem, problems_left
from regwright.configuration.hazards import (
    KINDS,
    Caused,
    added_hazards,
    cause_in_words,
    hazards_of,
    known_hazards,
)
from regwright.configuration.words import current_words, hexadecimal
from regwright.model.chip import Chip
from regwright.model.configuration import Configuration, ConfigurationWord
from regwright.reports.lazily import forms
from regwright.resolve.layout import bits_in_words

#: What comes with every value that was computed.
CAUTION = (
    "Wrong bytes can make the chip unreachable. Check them against the datasheet and its errata "
    "for your revision before you write them."
)

#: What is said of a word that settings are made in, and whose value nobody gave.
ASSUMED = "assumed as delivered"

#: How a hazard stands: the words do not have it, they had it before anything was set, or it comes
#: with what was set, and was accepted.
ABSENT, PRESENT, ACCEPTED = "absent", "present", "accepted"


class Configured:
    """The configuration of a chip, and what is set in it, if anything is."""

    def __init__(
        self,
        file: str,
        chip: Chip,
        configuration: Configuration,
        given: Mapping[str, int],
        result: Mapping[str, int] | None = None,
    ) -> None:
        """Tell of the words ``given``, the others as delivered; ``result`` are those with settings.

        ``file`` is the description's name. ``result`` has a value for every word.
        """
        self.file = file
        self.chip = chip
        self.configuration = configuration
        self.given = given
        self.result = result

    @cached_property
    def start(self) -> dict[str, int]:
        """The words before anything is set."""
        return current_words(self.configuration, self.given)

    @property
    def words(self) -> Mapping[str, int]:
        """The words that all of this is about."""
        return self.start if self.result is None else self.result

    @property
    def is_computed(self) -> bool:
        """Whether settings were made."""
        return self.result is not None

    @cached_property
    def changes(self) -> list[Change]:
        """The settings that are other than before."""
        return changes(self.configuration, self.start, self.words)

    @cached_property
    def locks(self) -> list[LockChange]:
        """The words of lock bits that are other than before."""
        return lock_changes(self.configuration, self.start, self.words)

    @cached_property
    def problems(self) -> list[Problem]:
        """Why the words cannot be right."""
        return problems_left(self.configuration, self.start, self.words)

    @cached_property
    def known(self) -> tuple[Caused, ...]:
        """Every hazard that the description has, with all its causes."""
        return known_hazards(self.configuration)

    @cached_property
    def hazards(self) -> tuple[Caused, ...]:
        """The hazards that the words have, with what causes them there."""
        return hazards_of(self.configuration, self.words)

    @cached_property
    def added(self) -> tuple[Caused, ...]:
        """The hazards that come with what was set."""
        return added_hazards(hazards_of(self.configuration, self.start), self.hazards)

    def state(self, name: str) -> str:
        """Return how the hazard ``name`` stands. What comes with settings has been accepted."""
        if any(item.hazard.name == name for item in self.added):
            return ACCEPTED
        return PRESENT if any(item.hazard.name == name for item in self.hazards) else ABSENT

    def is_changed(self, word: ConfigurationWord) -> bool:
        """Tell whether ``word`` is other than before."""
        return self.start[word.name] != self.words[word.name]

    def is_assumed(self, word: ConfigurationWord) -> bool:
        """Tell whether ``word`` was not given, and so is taken to be as delivered."""
        return word.name not in self.given

    def aside(self, word: ConfigurationWord) -> str:
        """Return what ``word`` was before settings, and whether that is only assumed."""
        was = f"was {hexadecimal(self.start[word.name], word.width)}"
        text = was if self.is_changed(word) else "unchanged"
        return f"{text}, {ASSUMED}" if self.is_assumed(word) else text

    @property
    def heading(self) -> str:
        """What is shown, in a few words."""
        if self.is_computed:
            return "configuration with these settings"
        if not self.given:
            return "configuration as delivered"
        rest = [word.name for word in self.configuration.words if word.name not in self.given]
        return "configuration as given" + (f", {', '.join(rest)} as delivered" if rest else "")

    @cached_property
    def cautions(self) -> list[str]:
        """What to look out for before the words are written, in sentences."""
        found = []
        for hazard, causes in self.hazards:
            is_new = self.state(hazard.name) == ACCEPTED
            when = "accepted" if is_new else "there already"
            reason = "; ".join(map(cause_in_words, causes))
            about = about_hazard(Caused(hazard, causes))
            found.append(f"{hazard.name} ({when}): {reason}. {about}")
        found += [lock_in_words(item) for item in self.locks]
        return found


def about_word(word: ConfigurationWord) -> str:
    """Return where a word is and what it is, in a few words."""
    parts = [hexadecimal(word.address), word.title]
    parts.append("lock bits" if word.lock and "lock" not in (word.title or "").lower() else "")
    parts.append(f"page {word.page}" if word.page else "")
    return ", ".join(part for part in parts if part)


def about_hazard(caused: Caused) -> str:
    """Return what a hazard means, in sentences."""
    hazard = caused.hazard
    parts = [f"This {KINDS[hazard.kind]}", hazard.title, hazard.caution]
    return " ".join(_sentence(part) for part in parts if part)


def refusal(caused: Caused) -> str:
    """Return why settings with a hazard are refused."""
    reason = "; ".join(map(cause_in_words, caused.causes))
    return f"refused: {reason} has the hazard {caused.hazard.name}. {about_hazard(caused)}"


def lock_in_words(change: LockChange) -> str:
    """Return what a change of lock bits means."""
    word = change.word.name
    parts = []
    if change.set:
        them = bits_in_words(change.set)
        verb = "locks" if change.set.bit_count() == 1 else "lock"
        parts.append(f"{them} {verb}: only an erase of the whole chip sets that back")
    if change.released:
        them = bits_in_words(change.released)
        verb = "unlocks" if change.released.bit_count() == 1 else "unlock"
        parts.append(f"{them} {verb} with an erase of the whole chip only, before this is written")
    return f"{word}: {'; '.join(parts)}."


def _sentence(text: str) -> str:
    text = text.strip()
    ended = text if text.endswith((".", "!", "?")) else f"{text}."
    return ended[:1].upper() + ended[1:]


Form = Callable[[Configured], str]


#: Every form by its name: a function to the whole text, which ends in a line break and can be
#: written as UTF-8, whatever the description holds.
FORMS: dict[str, Form] = forms("configuration", ("text", "markdown", "json"))
