"""What of a source could not be understood, so that nobody takes silence for a clean bill."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from regwright.code.seen import Unread, Where
from regwright.code.uses import File

_POINTER_CAST = re.compile(rb"\*[ \t]*(?:(?:const|volatile)[ \t]*)*\)|_cast[ \t]*<")
_QUOTED = re.compile(rb"\"(?:\\.|[^\"\\])*+\"?|(?<![0-9A-Fa-f])'(?:\\.|[^'\\])*+'?")
#: A file of which more than this share is no code to the grammar is taken for none at all.
_MOST_WRONG = 0.5
#: Less than so many bytes are no file to speak of.
_LEAST = 16


def unread(file: File) -> Iterator[Unread]:
    """Yield the parts of a file that were passed over, each with the reason."""
    number = file.number
    for start, end, reason in file.found.unclosed:
        yield Unread(reason, Where(number, start, end))
    for macro in file.found.macros:
        if _POINTER_CAST.search(macro.body):
            body = _QUOTED.sub(b"", macro.body)
            if body.count(b"(") != body.count(b")"):
                at = Where(number, macro.name_start, macro.name_start + len(macro.name))
                reason = f"the parentheses of {macro.name} do not match: it was not looked at"
                yield Unread(reason, at)
    if file.root is not None and file.root.has_error and not file.found.unclosed:
        yield from _no_code(file, file.root)


def _no_code(file: File, root: Any) -> Iterator[Unread]:
    """Yield that a file is no code, where the grammar makes nothing of most of it."""
    wrong = [node for node in root.children if node.type == "ERROR"]
    size = sum(node.end_byte - node.start_byte for node in wrong)
    whole = sum(node.end_byte - node.start_byte for node in root.children)
    if size >= _LEAST and size > _MOST_WRONG * whole:
        start = wrong[0].start_byte
        reason = "most of this file is no C that could be understood; it was passed over"
        yield Unread(reason, Where(file.number, start, start + 1))
