"""What a report is made of: light, plain values that can come from another process."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from regwright.model.finding import Finding
from regwright.model.words import DESCRIPTION
from regwright.pipeline import Checked, Located
from regwright.read.source import Source
from regwright.rules.settings import DEFAULT, Settings
from regwright.write.repair import Edit, edits

#: How many characters of a line are kept before and after what a finding speaks of.
_BEFORE, _MARKED, _AFTER = 100, 120, 160
_TAG = re.compile(r"<[^\s<>/]*")
_SURROGATE = re.compile("[\ud800-\udfff]")


class Excerpt(NamedTuple):
    """The line of a finding in three parts; ``marked`` is what the finding speaks of."""

    before: str
    marked: str
    after: str


class Replacement(NamedTuple):
    """A part of the file, and the text to write there instead, escaped as the file needs it."""

    start_line: int
    start_column: int
    end_line: int
    end_column: int
    text: str


class Found(NamedTuple):
    """A finding, where it starts and ends, and its line.

    Lines and columns count characters from 1; the end is the first character that is not part of
    it. ``repair`` is what is right instead, or ``None`` when that is not certain; ``replacements``
    write it into the file.
    """

    rule: str
    level: str
    message: str
    start_line: int
    start_column: int
    end_line: int
    end_column: int
    repair: str | None
    replacements: list[Replacement]
    excerpt: Excerpt


class Result(NamedTuple):
    """What checking one description came to; ``chip`` is ``None`` when it could not be resolved.

    Of a source, ``chip`` is what it was held against, ``registers`` how many of it the source uses.
    """

    file: str
    chip: str | None
    title: str
    registers: int
    findings: list[Found]


class Unreadable(NamedTuple):
    """A description that could not be read at all, and why."""

    file: str
    reason: str


class Run(NamedTuple):
    """A whole check: its results in their order, under which settings, and what was unreadable.

    ``what`` says what the results are of: descriptions, or sources held against one; ``aside``
    tells in words what was only counted.
    """

    results: list[Result]
    settings: Settings = DEFAULT
    unreadable: list[Unreadable] = []  # noqa: RUF012 (nothing changes it)
    what: str = DESCRIPTION
    aside: str = ""

    @property
    def findings(self) -> list[Found]:
        """The findings of all descriptions."""
        return [item for result in self.results for item in result.findings]

    def fails(self, item: Found) -> bool:
        """Tell whether ``item`` makes the check fail."""
        return self.settings.fails(Finding(item.rule, item.level, item.message, None))


def result_of(checked: Checked) -> Result:
    """Return what reports need of ``checked``."""
    resolved = checked.resolved
    source = checked.source
    return Result(
        source.name,
        resolved.chip.name if resolved else None,
        (resolved.chip.title or "") if resolved else "",
        len(resolved.registers) if resolved else 0,
        [_found(source, item) for item in checked.findings],
    )


def unread(file: str, message: str) -> Unreadable:
    """Return that ``file`` is unreadable; its name is cut off the start of ``message``."""
    for name in (file, repr(file)):
        message = message.removeprefix(f"{name}: ")
    return Unreadable(file, message)


def _found(source: Source, item: Located) -> Found:
    _, line, column = item.place
    finding = item.finding
    text = source.text
    first = source.line_start(line) + column - 1
    if line == 1 and text.startswith("\ufeff"):
        first += 1
    first = min(first, len(text))
    line_end = _line_end(text, first)
    end = max(min(_end(source, finding, first), len(text)), first)
    if end == first + 1:  # a single character does not reach into the next line
        end = min(end, line_end)
    # A reader may have counted further than the text goes.
    last = max(source.line_and_column(end), (line, column))
    replacements = [_replacement(source, edit) for edit in edits(source, finding)]
    return Found(
        *(finding.rule, finding.level, finding.message),
        *(line, column, *last),
        finding.repair if replacements else None,
        replacements,
        _excerpt(text, first, min(end, line_end), line_end),
    )


def _replacement(source: Source, edit: Edit) -> Replacement:
    start, end = source.line_and_column(edit.start), source.line_and_column(edit.end)
    return Replacement(*start, *end, edit.text)


def _end(source: Source, finding: Finding, first: int) -> int:
    """Return where what starts at ``first`` ends.

    The quotes of a JSON text belong to it; of an element it is the tag as far as its name.
    """
    start, end = source.span(finding)
    if source.spelling == "json":
        return end + (start == first + 1 and source.text.startswith('"', first))
    tag = _TAG.match(source.text, first)
    return tag.end() if tag else end


def _line_end(text: str, position: int) -> int:
    end = text.find("\n", position)
    end = len(text) if end < 0 else end
    return end - 1 if end > position and text[end - 1] == "\r" else end


def _excerpt(text: str, first: int, end: int, line_end: int) -> Excerpt:
    """Return the line around ``first``, without its indentation, shortened if it is long."""
    line_start = text.rfind("\n", 0, first) + 1
    start = max(line_start, first - _BEFORE)
    before = text[start:first]
    before = before.lstrip() if start == line_start else f"…{before}"
    marked = text[first : min(end, first + _MARKED)]
    if end > first + _MARKED:
        return Excerpt(before, f"{marked}…", "")
    after = text[end : min(line_end, end + _AFTER)]
    return Excerpt(before, marked, after + ("…" if line_end > end + _AFTER else ""))


def encodable(value: Any) -> Any:
    """Return ``value`` with an escape for each half of a surrogate pair in its texts.

    The name of a file may hold some; UTF-8 cannot.
    """
    if isinstance(value, str):
        if value.isascii():
            return value
        return _SURROGATE.sub(lambda match: f"\\u{ord(match.group()):04x}", value)
    if isinstance(value, list):
        return [encodable(item) for item in value]
    if isinstance(value, tuple) and hasattr(value, "_make"):
        return type(value)._make(map(encodable, value))
    return value
