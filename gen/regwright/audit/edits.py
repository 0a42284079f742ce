"""Apply the edits of findings to sources; every other byte stays as it is."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from itertools import pairwise

from regwright.audit.catalogue import CodeFinding
from regwright.audit.problem import CodeEdit
from regwright.code.text import CodeText


def applied(
    files: Sequence[CodeText], findings: Iterable[CodeFinding]
) -> tuple[list[CodeText], list[CodeFinding]]:
    """Return ``files`` with the edits of ``findings`` made, and the findings that this settles.

    Of two findings whose edits overlap the first wins; two that want the same edit both have it.
    """
    chosen: list[CodeEdit] = []
    done = []
    for finding in findings:
        edits = sorted(set(finding.edits))
        is_one = not any(_touch(*pair) for pair in pairwise(edits))
        if edits and is_one and all(_fits(edit, chosen) for edit in edits):
            for edit in edits:
                place = bisect_left(chosen, edit)
                if chosen[place : place + 1] != [edit]:
                    chosen.insert(place, edit)
            done.append(finding)
    made = [
        _edited(text, [edit for edit in chosen if edit.at.file == number])
        for number, text in enumerate(files)
    ]
    return made, done


def _fits(edit: CodeEdit, chosen: list[CodeEdit]) -> bool:
    """Tell whether ``edit`` is one of ``chosen``, or touches none of them."""
    place = bisect_left(chosen, edit)
    if chosen[place : place + 1] == [edit]:
        return True
    neighbours = chosen[max(place - 1, 0) : place + 1]
    return not any(_touch(edit, other) for other in neighbours)


def _touch(one: CodeEdit, other: CodeEdit) -> bool:
    if one.at.file != other.at.file:
        return False
    if one.at == other.at:
        return True
    return one.at.start < other.at.end and other.at.start < one.at.end


def _edited(text: CodeText, edits: list[CodeEdit]) -> CodeText:
    if not edits:
        return text
    pieces = []
    position = 0
    for (_, start, end), new in edits:
        pieces += [text.data[position:start], new.encode("utf-8")]
        position = end
    pieces.append(text.data[position:])
    return CodeText(text.name, b"".join(pieces), text.language)
