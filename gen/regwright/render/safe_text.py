"""Make text from a description safe where it is put: nothing in it may end what it stands in."""

from __future__ import annotations

import re

_COMMENT_ENDS = r"\*+/|/\*+|\?\?|\\"
_MARKDOWN = str.maketrans({character: "\\" + character for character in "\\`*_{}[]()#+!|<>~&"})


def printable(text: str) -> str:
    """Return ``text`` on one line, without characters that cannot be seen or turn its direction."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else " " for c in text)


def comment(text: str) -> str:
    """Return ``text`` for use within a C comment.

    ``*/`` and ``/*`` are opened up, trigraphs too, and a backslash becomes a slash, for at the end
    of a line it would splice the next one.
    """
    if "/" not in text and "??" not in text and "\\" not in text:
        return printable(text)

    def opened(match: re.Match[str]) -> str:
        found = match.group()
        return "/" if found == "\\" else " ".join(found)

    safe = text
    while re.search(_COMMENT_ENDS, safe):
        safe = re.sub(_COMMENT_ENDS, opened, safe)
    return printable(safe)


def markdown(text: str) -> str:
    """Return ``text`` for use in Markdown, as itself, at the start of a line and in a table too."""
    safe = printable(text).strip().translate(_MARKDOWN)
    return re.sub(r"^(\d*)([-=.])", r"\1\\\2", safe)


def code_span(text: str) -> str:
    """Return ``text`` as a Markdown code span that also fits into a table cell."""
    return f"`{printable(text).replace('`', chr(39)).replace('|', '¦')}`"
