"""Collect remarks; what comes up again and again becomes one remark that lists the lines."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.draft import Draft, Remark
from regwright.model.finding import ERROR, NOTE, WARNING

if TYPE_CHECKING:
    from lxml import etree

#: So many lines are listed of what comes up again and again.
_MOST_LINES = 12
LOSS = "not-carried-over"


class _Kind(NamedTuple):
    rule: str
    level: str
    message: str
    file: str


class Log:
    """Remarks on one file, kept in the order in which they came up first."""

    def __init__(self, draft: Draft, file: str = "", shared: Log | None = None) -> None:
        self._draft = draft
        self._file = file
        self._often: dict[_Kind, list[etree._Element]] = shared._often if shared else {}

    def of_file(self, file: str) -> Log:
        """Return a log that puts its remarks into the same draft, as remarks on ``file``."""
        return Log(self._draft, file, self)

    def refuse(self, rule: str, message: str, element: etree._Element | None = None) -> None:
        """Note that something makes no sense and was left out."""
        self._add(rule, ERROR, message, element)

    def assume(self, rule: str, message: str, element: etree._Element) -> None:
        """Note an oddity and what was assumed."""
        self._add(rule, WARNING, message, element)

    def tell(self, rule: str, message: str, element: etree._Element) -> None:
        """Note something worth knowing."""
        self._add(rule, NOTE, message, element)

    def lose(self, message: str, element: etree._Element) -> None:
        """Note something that a description has no place for."""
        self._add(LOSS, NOTE, message, element)

    def lose_often(self, message: str, element: etree._Element) -> None:
        """Note a loss of a kind that may come up at thousands of places."""
        self._gather(_Kind(LOSS, NOTE, message, self._file), element)

    def assume_often(self, rule: str, message: str, element: etree._Element) -> None:
        """Note an oddity of a kind that may come up at thousands of places."""
        self._gather(_Kind(rule, WARNING, message, self._file), element)

    def tell_often(self, rule: str, message: str, element: etree._Element) -> None:
        """Note something worth knowing that may come up at thousands of places."""
        self._gather(_Kind(rule, NOTE, message, self._file), element)

    def add(self, remark: Remark) -> None:
        """Add a remark that is complete."""
        self._draft.remarks.append(remark)

    def _add(self, rule: str, level: str, message: str, element: etree._Element | None) -> None:
        line = (element.sourceline or 1) if element is not None else 1
        self._draft.remarks.append(Remark(rule, level, message, line, 1, self._file))

    def places_of(self, rule: str, message: str, level: str = WARNING) -> list[etree._Element]:
        """Return the list to which to add each place of something that may have thousands."""
        return self._often.setdefault(_Kind(rule, level, message, self._file), [])

    def _gather(self, kind: _Kind, element: etree._Element) -> None:
        self._often.setdefault(kind, []).append(element)

    def finish(self) -> None:
        """Add the remarks on what came up again and again."""
        for kind, elements in self._often.items():
            if not elements:
                continue
            lines = sorted({element.sourceline or 1 for element in elements})
            message = kind.message
            if len(lines) == 1 < len(elements):
                message += f" ({len(elements)} times)"
            elif len(elements) > 1:
                listed = ", ".join(str(line) for line in lines[:_MOST_LINES])
                more = f" and {len(lines) - _MOST_LINES} more" if len(lines) > _MOST_LINES else ""
                message += f" ({len(elements)} places, on the lines {listed}{more})"
            remark = Remark(kind.rule, kind.level, message, lines[0], 1, kind.file)
            self._draft.remarks.append(remark)
        self._often.clear()
