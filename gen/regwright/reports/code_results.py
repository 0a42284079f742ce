"""What a report needs of the findings in one source."""

from __future__ import annotations

from regwright.audit.catalogue import CodeFinding
from regwright.code.seen import Where
from regwright.code.text import CodeText
from regwright.reports.results import Excerpt, Found, Replacement, Result

#: How many characters of a line are kept before and after what a finding speaks of.
_BEFORE, _MARKED, _AFTER = 100, 120, 160


def result_of_source(
    text: CodeText, chip: str, title: str, registers: int, findings: list[CodeFinding]
) -> Result:
    """Return the result of one source, of which ``registers`` of the chip are used."""
    found = [_found(text, item) for item in findings]
    return Result(text.name, chip, title, registers, found)


def _found(text: CodeText, item: CodeFinding) -> Found:
    start, end = _ends(text, item.at)
    replacements = [
        Replacement(*_ends(text, edit.at)[0], *_ends(text, edit.at)[1], edit.text)
        for edit in sorted(item.edits)
        if edit.at.file == item.at.file
    ]
    is_whole = len(replacements) == len(item.edits)
    return Found(
        *(item.rule, item.level, item.message),
        *(*start, *end),
        item.repair if replacements and is_whole else None,
        replacements if is_whole else [],
        _excerpt(text, item.at),
    )


def _ends(text: CodeText, at: Where) -> tuple[tuple[int, int], tuple[int, int]]:
    return text.line_and_column(at.start), text.line_and_column(at.end)


def _excerpt(text: CodeText, at: Where) -> Excerpt:
    """Return the line of a finding, without its indentation, shortened if it is long."""
    line = text.line(at.start)
    first, last = text.line_start(line), text.line_end(line)
    end = max(min(at.end, last), at.start)
    # A character is four bytes or less, and a line may be megabytes.
    before = text.slice(max(first, at.start - 4 * _BEFORE - 4), at.start)
    marked = text.slice(at.start, min(end, at.start + 4 * _MARKED + 4))
    after = text.slice(end, min(last, end + 4 * _AFTER + 4))
    before = before.removeprefix("\ufeff").lstrip() if line == 1 else before.lstrip()
    if len(before) > _BEFORE:
        before = f"…{before[-_BEFORE:]}"
    if len(marked) > _MARKED:
        return Excerpt(before, f"{marked[:_MARKED]}…", "")
    return Excerpt(before, marked, after[:_AFTER] + ("…" if len(after) > _AFTER else ""))
