"""Bodies of functions that may be passed over: they define nothing and hold no address.

Most code of most programs never touches the chip. What may be passed over is decided by the words
of a body alone, before the grammar sees it: parsing takes longer than all of that.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from regwright.code.directives import REST_OF_DIRECTIVE
from regwright.code.text import CPP, C
from regwright.code.words import words_in

#: Shorter ones are not worth the trouble, and have no room for a comment.
_SHORTEST = 24
#: So deep may brackets be within each other.
_DEEPEST = 12
#: So much before a body is looked at to tell what it belongs to.
_HEAD = 400

_STRING = rb'"(?:[^"\\\n]|\\.)*+"'
_CHARACTER = rb"(?<![0-9A-Fa-f])'(?:[^'\\\n]|\\.)*+'"
_COMMENT = rb"/\*(?:[^*]++|\*(?!/))*+\*/|//[^\n\\]*+(?=\n)"
#: What is in a body beside brackets: nothing that a directive or a line that goes on can change.
_FLAT = rb"[^{}\"'/#\\]++|%s|%s|%s|/(?![/*])" % (_STRING, _CHARACTER, _COMMENT)


def _nested() -> bytes:
    pattern = rb"\{(?:%s)*+\}" % _FLAT
    for _ in range(_DEEPEST):
        pattern = rb"\{(?:%s|%s)*+\}" % (_FLAT, pattern)
    return pattern


_BODY = re.compile(
    rb"[^\"'/#)]*+(?:%s?+|%s?+|/\*.*?(?:\*/|\Z)|//[^\n]*+|\#%s|\)\s*+(?P<body>%s)|\Z|[\"'/)])"
    % (_STRING, _CHARACTER, REST_OF_DIRECTIVE, _nested()),
    re.DOTALL,
)
#: Strings, characters and comments. Each begins with a sign of its own: so the search is fast.
_TEXT = re.compile(rb"%s|'(?:[^'\\\n]|\\.)*+'|%s" % (_STRING, _COMMENT), re.DOTALL)
#: Words that may define something, or mean something beyond their names.
_DEFINING_IN_C = frozenset(
    {
        *(b"asm", b"__asm", b"__asm__", b"static_assert", b"_Static_assert"),
        *(b"typedef", b"auto", b"constexpr", b"__attribute__", b"__attribute", b"__declspec"),
        *(b"typeof", b"typeof_unqual", b"__typeof", b"__typeof__", b"_Atomic"),
        *(b"alignas", b"_Alignas"),
    }
)
_ALSO_IN_CPP = (b"const", b"class", b"using", b"template", b"namespace", b"decltype", b"operator")
_DEFINING = {C: _DEFINING_IN_C, CPP: _DEFINING_IN_C.union(_ALSO_IN_CPP)}
_STRUCTURES = frozenset({b"struct", b"union", b"enum", b"class"})
_STRUCTURE = re.compile(rb"\b(?:struct|union|enum|class)\b[^;{}=]*\{")
#: The head of what has members, or a value, in place of a body.
_NO_FUNCTION = re.compile(rb"=|\b(?:struct|union|enum|class|namespace|extern|typedef)\b")
_POINTER_CAST = re.compile(rb"\*\s*+(?:(?:const|volatile|restrict|__\w+)\b\s*+)*+\)")
#: A pointer or a constant with a value: what is before the value.
_INITIALIZED = tuple(
    re.compile(rb"%s([^;{}=]*(?<![<>!+\-/%%&|^*]))=(?!=)\s*+" % sign)
    for sign in (rb"const\b", rb"\*")
)
_IN_CPP = re.compile(rb"[\w,/>]\s*+[*&]++[^;{}()=,]*[({=]")
#: A value that is none when its first name is none.
_OPEN_VALUE = re.compile(rb"(?:&?\s*+([A-Za-z_]\w*+)\s*+(?![\w(\"'{<:])|\"\")[^;,]*+;")
_LAST_NAME = re.compile(rb"([A-Za-z_]\w*+)[^A-Za-z_]*$")
#: Words before a value that has a meaning of its own.
_OPERATORS = frozenset({b"sizeof", b"alignof", b"_Alignof", b"not", b"compl", b"true", b"false"})


class Body(NamedTuple):
    """The inside of a body, bytes ``start:end``, and the words in it."""

    start: int
    end: int
    words: frozenset[bytes]


#: Pointers and constants that a body declares, each with the first name of its value, empty for a
#: string: where that name means nothing, the value does neither.
Values = list[tuple[bytes, bytes]]


def bodies(data: bytes) -> list[Body]:
    """Return the bodies of functions in ``data``; of statements, where a function is too broken."""
    return list(_bodies(data)) if b'R"' not in data and b"@" not in data else []


def _bodies(data: bytes) -> Iterator[Body]:
    for match in _BODY.finditer(data):
        start, end = match.span("body")
        if end - start >= _SHORTEST and _is_of_function(data, start):
            words = frozenset(words_in(data[start + 1 : end - 1]))
            yield Body(start + 1, end - 1, words)


def _is_of_function(data: bytes, end: int) -> bool:
    """Tell whether what is before ``end`` is the head of a function or a statement."""
    first = max(end - _HEAD, 0)
    last = max(data.rfind(sign, first, end) for sign in (b";", b"{", b"}"))
    if last < 0 and first:
        return False
    head = data[last + 1 if last >= 0 else 0 : end]
    return _NO_FUNCTION.search(head[: head.find(b"(")]) is None


def values(body: Body, data: bytes, language: str) -> Values | None:
    """Return what ``body`` of ``data`` declares, when it counts for nothing but its names.

    ``None`` when there is something else in it: what defines a type, a cast to a pointer, assembly.
    """
    words = body.words
    if not words.isdisjoint(_DEFINING[language]):
        return None
    text = data[body.start : body.end]
    if b"regwright:" in text or b"<%" in text or b"??" in text:
        return None
    text = _TEXT.sub(_emptied, text)
    if b"_cast" in text or (b"*" in text and _POINTER_CAST.search(text)):
        return None
    if not words.isdisjoint(_STRUCTURES) and _STRUCTURE.search(text):
        return None
    if language == CPP and _IN_CPP.search(text):
        return None
    return _values(text) if b"*" in text or b"const" in words else []


def _emptied(match: re.Match[bytes]) -> bytes:
    return b'""' if match[0][:1] == b'"' else b" "


def _values(text: bytes) -> Values | None:
    """Return what is declared; ``None`` when something may have a value whatever its first name."""
    found: Values = []
    for pattern in _INITIALIZED:
        for match in pattern.finditer(text):
            if text[match.start() : match.start() + 1] == b"*" and not _is_typed(text, match):
                continue
            value = _OPEN_VALUE.match(text, match.end())
            name = _LAST_NAME.search(match[1])
            if value is None or name is None or value[1] in _OPERATORS:
                return None
            found.append((name[1], value[1] or b""))
    return found


def _is_typed(text: bytes, match: re.Match[bytes]) -> bool:
    """Tell whether a type, or another declarator, may be before the ``*`` of ``match``."""
    before = text[: match.start()].rstrip()[-1:]
    return before.isalnum() or before in (b"_", b",", b">")


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
