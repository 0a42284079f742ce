"""Collect what there is to say while mapping: alike mistakes at one rule are told a few times."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from regwright.importing.draft import Draft, Remark
from regwright.model.finding import ERROR, WARNING
from regwright.model.origin import Origin

#: Mistakes of one kind at one rule of the mapping that are told one by one.
TOLD = 10

Place = tuple[int, int]


class Findings:
    """The remarks of one draft, and where the rules of the mapping stand."""

    def __init__(self, draft: Draft, file: str, place_of: Callable[[Origin], Place]) -> None:
        """Add to ``draft``; ``place_of`` knows the places in the mapping file ``file``."""
        self._draft = draft
        self.file = file
        self.place_of = place_of
        self._counts: Counter[tuple[str, str, Origin]] = Counter()
        self._latest: dict[tuple[str, str, Origin], Place] = {}

    @property
    def has_errors(self) -> bool:
        """Whether something makes no sense, so that nothing comes of it."""
        return any(remark.level == ERROR for remark in self._draft.remarks)

    def refuse(self, name: str, message: str, place: Place, rule: Origin) -> None:
        """Say that something in the document, read by ``rule``, makes no sense."""
        self._say(name, ERROR, message, place, rule)

    def assume(self, name: str, message: str, place: Place, rule: Origin) -> None:
        """Say what was assumed about something in the document, read by ``rule``."""
        self._say(name, WARNING, message, place, rule)

    def lose(self, message: str, place: Place) -> None:
        """Note something in the document that no path has read."""
        self._draft.lose(message, *place)

    def refuse_rule(self, name: str, message: str, rule: Origin, add: int = 0) -> None:
        """Say that a rule of the mapping itself is wrong, ``add`` columns after its value."""
        self._of_rule(name, ERROR, message, rule, add)

    def doubt_rule(self, name: str, message: str, rule: Origin) -> None:
        """Say that a rule of the mapping is probably not what was meant."""
        self._of_rule(name, WARNING, message, rule)

    def finish(self) -> None:
        """Say how many alike were left out."""
        for key, count in self._counts.items():
            if count > TOLD:
                name, level, _ = key
                message = f"{count - TOLD} more like those before it, the last one here"
                self._draft.remarks.append(Remark(name, level, message, *self._latest[key]))

    def _say(self, name: str, level: str, message: str, place: Place, rule: Origin) -> None:
        key = (name, level, rule)
        self._counts[key] += 1
        self._latest[key] = place
        if self._counts[key] <= TOLD:
            self._draft.remarks.append(Remark(name, level, message, *place))

    def _of_rule(self, name: str, level: str, message: str, rule: Origin, add: int = 0) -> None:
        key = (name, level, rule)
        self._counts[key] += 1
        if self._counts[key] == 1:
            line, column = self.place_of(rule)
            remark = Remark(name, level, message, line, column + add, self.file)
            self._draft.remarks.append(remark)
        self._counts[key] = 1
