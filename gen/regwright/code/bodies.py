"""Where the bodies of functions are, and a text without some of them: found before it is parsed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from regwright.code.directives import REST_OF_DIRECTIVE
from regwright.code.words import words_in

#: Shorter ones are not worth the trouble, and have no room for a comment.
_SHORTEST = 24
#: So deep may brackets be within each other.
_DEEPEST = 12
#: A longer text before a body is not looked at to tell what it belongs to.
_LONGEST_HEAD = 2000

STRING = rb'"(?:[^"\\\n]|\\.)*+"'
_CHARACTER = rb"(?<![0-9A-Fa-f])'(?:[^'\\\n]|\\.)*+'"
COMMENT = rb"/\*(?:[^*]++|\*(?!/))*+\*/|//[^\n\\]*+(?=\n)"
#: What is in a body beside brackets: nothing that a directive or a line that goes on can change.
_FLAT = rb"[^{}\"'/#\\]++|%s|%s|%s|/(?![/*])" % (STRING, _CHARACTER, COMMENT)


def _nested() -> bytes:
    pattern = rb"\{(?:%s)*+\}" % _FLAT
    for _ in range(_DEEPEST):
        pattern = rb"\{(?:%s|%s)*+\}" % (_FLAT, pattern)
    return pattern


_BODY = re.compile(
    rb"(?P<before>[^\"'/#)]*+)"
    rb"(?:%s?+|%s?+|(?P<passed>/\*.*?(?:\*/|\Z)|//[^\n]*+|\#%s)|\)\s*+(?P<body>%s)|\Z|[\"'/)])"
    % (STRING, _CHARACTER, REST_OF_DIRECTIVE, _nested()),
    re.DOTALL,
)
_GROUP = re.compile(rb"\((?:[^()]++|\((?:[^()]++|\((?:[^()]++|\([^()]*+\))*+\))*+\))*+\)")
#: The head of what has members, or a value, in place of a body.
_NO_FUNCTION = re.compile(rb"=|\b(?:struct|union|enum|class|namespace|extern|typedef)\b[^*]*\Z")


class Body(NamedTuple):
    """The inside of a body, bytes ``start:end``, and the words in it."""

    start: int
    end: int
    words: frozenset[bytes]


def bodies(data: bytes) -> list[Body]:
    """Return the bodies of functions in ``data``; of statements, where a function is too broken."""
    return list(_bodies(data)) if b'R"' not in data else []


def _bodies(data: bytes) -> Iterator[Body]:
    head = b""
    for match in _BODY.finditer(data):
        start, end = match.span("body")
        if start >= 0:
            head = _joined(head, data[match.start() : start])
            if end - start >= _SHORTEST and _is_of_function(head):
                words = frozenset(words_in(data[start + 1 : end - 1]))
                yield Body(start + 1, end - 1, words)
            head = b""
        else:
            head = _joined(head, match["before"] if match["passed"] else match[0])


def _joined(head: bytes, text: bytes) -> bytes:
    """Return what may belong to the head of a body when ``text`` follows ``head``."""
    last = max(text.rfind(b";"), text.rfind(b"{"), text.rfind(b"}"))
    if last >= 0:
        return text[last + 1 :]
    return head + text if len(head) < _LONGEST_HEAD else head


def _is_of_function(head: bytes) -> bool:
    """Tell whether ``head`` is that of a function or a statement."""
    return len(head) < _LONGEST_HEAD and _NO_FUNCTION.search(_GROUP.sub(b"", head)) is None


def without(data: bytes, bodies: Iterable[Body]) -> bytes:
    """Return ``data`` with an empty comment in place of each of ``bodies``, which are in its order.

    The grammar reads a comment four times as fast as blanks.
    """
    parts: list[bytes] = []
    done = 0
    for body in bodies:
        parts += (data[done : body.start], b"/*", b" " * (body.end - body.start - 4), b"*/")
        done = body.end
    parts.append(data[done:])
    return b"".join(parts)
