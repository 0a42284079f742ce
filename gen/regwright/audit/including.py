"""Where sources include the emitted header, and where they should."""

from __future__ import annotations

import re
from collections.abc import Sequence

from regwright.audit.own_definitions import HandMade, last_part
from regwright.audit.problem import CodeEdit
from regwright.audit.subject import AuditSubject
from regwright.code.directives import Directives, directives
from regwright.code.seen import Where
from regwright.code.text import CodeText

_IF = re.compile(rb"^[ \t]*+#[ \t]*+if", re.MULTILINE)
_MARK = b"\xef\xbb\xbf"


class Includes:
    """Makes the edits that include the header in the files that lose their own definitions."""

    def __init__(self, subject: AuditSubject, found: Sequence[HandMade]) -> None:
        """``found`` are the definitions to replace, in the order of the sources."""
        self._edits: dict[int, tuple[CodeEdit, ...]] = {}
        for item in found:
            file, first, _ = item.definition.whole
            if file not in self._edits:
                text = subject.files[file]
                self._edits[file] = _include(text, subject.use_header, file, first)

    def edits(self, item: HandMade) -> tuple[CodeEdit, ...]:
        """Return the edit that includes the header in the file of ``item``; none if it does."""
        return self._edits[item.definition.whole.file]


def _include(text: CodeText, header: str, file: int, first: int) -> tuple[CodeEdit, ...]:
    found = directives(text.data)
    for start, _, words in found.includes:
        if last_part(words.strip('<>" ')) == last_part(header) and not found.arms_at(start):
            return ()
    place = _place(text, found, first)
    line_break = "\r\n" if b"\r\n" in text.data[:4096] else "\n"
    return (CodeEdit(Where(file, place, place), f'#include "{header}"{line_break}'),)


def _place(text: CodeText, found: Directives, first: int) -> int:
    """Return where the include belongs: before ``first``, outside all branches.

    That is behind the last include before it, or before the definition itself, or before the
    outermost branch that it is in.
    """
    before = [end for start, end, _ in found.includes if end <= first and not found.arms_at(start)]
    if before:
        return text.line_start(text.line(before[-1]) + 1)
    place = first
    if found.arms_at(first):
        changes = list(zip(found.changes, found.arms, strict=True))
        outside = max(at for at, arms in changes if not arms and at <= first)
        place = next(at for at, arms in changes if arms and at > outside)
        place = max((match.start() for match in _IF.finditer(text.data, 0, place)), default=place)
    line = text.line_start(text.line(place))
    return len(_MARK) if not line and text.data.startswith(_MARK) else line
