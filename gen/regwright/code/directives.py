"""Comments, macros and conditional branches of C and C++ text, found by their lexical rules alone.

Directives are made of lines (ISO C11 5.1.1.2, phases 2 to 4), so that no broken code around them
hides one. Where a backslash takes a line on, a new token starts.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import NamedTuple

#: The rest of a ``//`` comment, of a string, and of a character: a backslash takes the line on.
_REST_OF_LINE = rb"(?:[^\n\\]|\\\r?\n|\\.)*+"
_STRING = rb'"(?:[^"\\\n]|\\\r?\n|\\.)*+"?'
#: A number whose digits are separated: no character starts there.
_NUMBER = rb"(?<![\w.])\d[\w.]*+(?:'\w[\w.]*+)++"
_CHARACTER = rb"'(?:[^'\\\n]|\\\r?\n|\\.)*+'?"
_BLOCK_COMMENT = rb"/\*.*?(?:\*/|\Z)"
#: What a comment or a literal may hold, so that nothing in it is taken for a directive. Each kind
#: begins with a sign of its own: so the search is fast.
_TOKEN = re.compile(
    rb"/(?P<comment>\*.*?(?:\*/|\Z)|/%s)"
    % _REST_OF_LINE
    + rb'|"(?:(?<=R")(?<!\wR")|(?<=\W[LUu]R")|(?<=u8R"))'
    rb'(?P<mark>[^()\\\s"]{0,16}+)\(.*?(?:\)(?P=mark)"|\Z)'
    + rb"|%s|'(?P<quote>)(?<=\w')|%s" % (_STRING, _CHARACTER)
    + rb"|\#[ \t]*+(?P<word>[a-z_]*+)",
    re.DOTALL,
)
_QUOTED = re.compile(_CHARACTER, re.DOTALL)
#: The rest of a number whose digits are separated, from the first sign between them on.
_SEPARATED = re.compile(rb"(?:'\w[\w.]*+)++")
_IN_NUMBER = bytes(sign for sign in range(128) if chr(sign).isalnum()) + b"_."
_MARK = b"\xef\xbb\xbf"
#: What may follow the sign of a directive: all that belongs to its line.
REST_OF_DIRECTIVE = rb"(?:[^\n\\/\"'\d]++|%s|\d|\\\r?\n|\\.|%s|//%s|/|%s|%s)*+" % (
    _NUMBER,
    _BLOCK_COMMENT,
    _REST_OF_LINE,
    _STRING,
    _CHARACTER,
)
_LINE = re.compile(REST_OF_DIRECTIVE, re.DOTALL)
_DEFINE = re.compile(
    rb"(?:\s|\\\r?\n|%s)*+([A-Za-z_]\w*+)(?:\(([^()]*+)\))?" % _BLOCK_COMMENT, re.DOTALL
)
_HIDDEN = re.compile(
    rb"(?P<literal>%s|%s|%s)|\\\r?\n|%s|//%s"
    % (_STRING, _NUMBER, _CHARACTER, _BLOCK_COMMENT, _REST_OF_LINE),
    re.DOTALL,
)
_GUARD = re.compile(rb"\s*+([A-Za-z_]\w*+)\s*+$")
_NOT_DEFINED = re.compile(rb"\s*+!\s*+defined\b[\s(]*+([A-Za-z_]\w*+)[\s)]*+$")
_DEFINED = re.compile(r"!?defined\(\w+\)")
_NEGATED = re.compile(r"!\(([^()]*+)\)")
#: The conditions that one shown condition is made of.
_MOST_SHOWN = 4
#: Conditionals within conditionals that are told apart; C11 5.2.4.1 wants no more than 63.
_DEEPEST = 200


class Arm(NamedTuple):
    """One arm of a conditional: two arms of one ``group`` are never compiled together."""

    group: int
    number: int


class Macro(NamedTuple):
    """A ``#define``: ``start:end`` is its whole line, ``body_start`` where ``body`` starts.

    In ``body`` comments and line breaks are blanks, so that its bytes stand where the file has
    them. ``parameters`` is ``None`` for a macro without a list.
    """

    name: str
    parameters: tuple[str, ...] | None
    body: bytes
    name_start: int
    body_start: int
    start: int
    end: int
    arms: tuple[Arm, ...]


class Directives(NamedTuple):
    """What the lexical look at a text finds.

    ``changes`` are the places where the arms change, ``elses`` the number of the arm that is an
    ``#else``, for each conditional that has one.
    """

    macros: list[Macro]
    comments: list[tuple[int, int]]
    includes: list[tuple[int, int, str]]
    literals: list[tuple[int, int]]
    changes: list[int]
    arms: list[tuple[Arm, ...]]
    conditions: dict[Arm, str]
    elses: dict[int, int]
    #: What is open where the text ends: where it starts and ends, and what it is.
    unclosed: list[tuple[int, int, str]]

    def arms_at(self, offset: int) -> tuple[Arm, ...]:
        """Return the arms around the byte ``offset``, the outermost first."""
        return self.arms[bisect_right(self.changes, offset) - 1]

    def in_text(self, offset: int) -> bool:
        """Tell whether the byte ``offset`` is in a comment, a string or a character."""
        return _holds(self.comments, offset) or _holds(self.literals, offset)

    def end(self, data: bytes) -> int:
        """Return where ``data`` ends, without a last comment that nothing closes."""
        start, end = self.comments[-1] if self.comments else (0, 0)
        is_open = data.startswith(b"/*", start) and not data.endswith(b"*/", start + 2)
        return start if is_open and end == len(data) else len(data)


def _holds(spans: list[tuple[int, int]], offset: int) -> bool:
    index = bisect_right(spans, (offset, 1 << 62)) - 1
    return index >= 0 and offset < spans[index][1]


def directives(data: bytes, first_group: int = 0) -> Directives:
    """Return the directives and comments of ``data``; conditionals count from ``first_group``."""
    scan = _Scan(data, first_group)
    position = 0
    while (token := _next(data, position, len(data))) is not None:
        before, position = position, token.end
        if token.kind == "comment":
            scan.comment(token.start, token.end)
        elif token.kind != "word":
            scan.found.literals.append((token.start, token.end))
        elif _starts_line(data, before, token.start):
            line = _LINE.match(data, token.end)
            position = line.end() if line else token.end
            scan.found.comments.extend(_comments(data, token.end, position))
            scan.directive(token.word, token.start, token.end, position)
    scan.drop_guard()
    scan.note_unclosed()
    return scan.found


class _Token(NamedTuple):
    """A ``comment``, a literal of any other kind, or a ``#`` and the ``word`` behind it."""

    kind: str
    start: int
    end: int
    word: bytes


def _next(data: bytes, position: int, end: int) -> _Token | None:
    """Return the first token of ``data[position:end]``."""
    found = _TOKEN.search(data, position, end)
    if found is None:
        return None
    kind = found.lastgroup or ""
    if kind != "quote":
        return _Token(kind, *found.span(), found["word"] or b"")
    start = found.start()
    before = data[position:start]
    number = before[len(before.rstrip(_IN_NUMBER)) :]
    is_whole = len(number) < len(before) or not position or data[position - 1] not in _IN_NUMBER
    rest = _SEPARATED.match(data, start, end) if number[:1].isdigit() and is_whole else None
    if rest is not None:
        return _Token("number", start - len(number), rest.end(), b"")
    quoted = _QUOTED.match(data, start, end)
    return _Token(kind, start, quoted.end() if quoted else start + 1, b"")


def _starts_line(data: bytes, position: int, end: int) -> bool:
    """Tell whether only blanks are before ``end`` in its line, of which ``position`` may be one."""
    start = data.rfind(b"\n", position, end) + 1
    if not start:
        if position and data[position - 1] != ord("\n"):
            return False
        start = position
    return not data[start:end].removeprefix(_MARK).strip(b" \t")


def _comments(data: bytes, start: int, end: int) -> Iterator[tuple[int, int]]:
    """Yield the comments within the line of a directive."""
    if data.find(b"/", start, end) < 0:
        return
    while (token := _next(data, start, end)) is not None:
        start = token.end
        if token.kind == "comment":
            yield token.start, token.end


class _Scan:
    """Goes through the directives of one text."""

    def __init__(self, data: bytes, first_group: int) -> None:
        self.data = data
        self.found = Directives([], [], [], [], [0], [()], {}, {}, [])
        self._starts: dict[int, tuple[int, int]] = {}
        self._stack: list[Arm] = []
        self._raw: dict[int, list[str]] = {}
        self._groups = first_group
        self._beyond = 0
        self._guard: tuple[int, bytes] | None = None
        self._guard_end: int | None = None
        self._is_first = True

    def directive(self, word: bytes, start: int, text_start: int, end: int) -> None:
        """Take one directive: its word, where it starts, and where its text does and ends."""
        text = self.data[text_start:end]
        if word == b"define":
            self._define(start, text_start, text, end)
        elif word == b"include":
            self.found.includes.append((start, end, _plain(text)))
        elif word in (b"if", b"ifdef", b"ifndef"):
            self._open(word, text, start, end)
        elif word in (b"elif", b"else", b"elifdef", b"elifndef"):
            self._next(word, text, end)
        elif word == b"endif":
            self._close(end)
        self._is_first = False

    def _define(self, start: int, text_start: int, text: bytes, end: int) -> None:
        head = _DEFINE.match(text)
        if head is None:
            return
        parameters = None
        if head[2] is not None:
            blank = blanked(head[2]).decode("utf-8", "replace")
            parameters = tuple(part.strip() for part in blank.split(",")) if blank.strip() else ()
        raw = text[head.end() :]
        body = blanked(raw) if b"/" in raw or b"\\" in raw else raw
        lead = len(body) - len(body.lstrip())
        self.found.macros.append(
            Macro(
                head[1].decode("ascii"),
                parameters,
                body.strip(),
                text_start + head.start(1),
                text_start + head.end() + lead,
                start,
                end,
                tuple(self._stack),
            )
        )

    def _open(self, word: bytes, text: bytes, start: int, end: int) -> None:
        if len(self._stack) >= _DEEPEST:
            self._beyond += 1
            return
        self._groups += 1
        arm = Arm(self._groups, 0)
        condition = _condition(word, text)
        self._raw[arm.group] = [condition]
        self._starts[arm.group] = start, end
        self.found.conditions[arm] = condition
        self._stack.append(arm)
        name = _GUARD.match(blanked(text)) if word == b"ifndef" else None
        if word == b"if":
            name = _NOT_DEFINED.match(blanked(text))
        if self._is_first and name is not None and self._only_comments(start):
            self._guard = (arm.group, name[1])
        self._change(end)

    def comment(self, start: int, end: int) -> None:
        """Take a comment."""
        self.found.comments.append((start, end))
        is_block = self.data.startswith(b"/*", start)
        if is_block and not self.data.endswith(b"*/", start + 2, end):
            what = "this comment never ends: nothing behind it was looked at"
            self.found.unclosed.append((start, start + 2, what))

    def note_unclosed(self) -> None:
        """Note a conditional without an end: the outermost, for the others are within it."""
        for group, _ in self._stack[:1]:
            self.found.unclosed.append((*self._starts[group], "this conditional has no #endif"))

    def _only_comments(self, start: int) -> bool:
        position = 3 if self.data.startswith(b"\xef\xbb\xbf") else 0
        for first, last in self.found.comments:
            if self.data[position:first].strip():
                return False
            position = last
        return not self.data[position:start].strip()

    def _next(self, word: bytes, text: bytes, end: int) -> None:
        if not self._stack or self._beyond:
            return
        group, number = self._stack.pop()
        if self._guard and self._guard[0] == group:
            self._guard = None
        before = self._raw[group]
        arm = Arm(group, number + 1)
        if word == b"else":
            condition = negated(before)
            self.found.elses.setdefault(group, arm.number)
        else:
            condition = _condition(word[2:] if word != b"elif" else b"if", text)
            before.append(condition)
        self.found.conditions[arm] = condition
        self._stack.append(arm)
        self._change(end)

    def _close(self, end: int) -> None:
        if self._beyond:
            self._beyond -= 1
            return
        if not self._stack:
            return
        arm = self._stack.pop()
        if self._guard and self._guard[0] == arm.group and not self._stack:
            self._guard_end = end
        self._change(end)

    def _change(self, end: int) -> None:
        self.found.changes.append(end)
        self.found.arms.append(tuple(self._stack))

    def drop_guard(self) -> None:
        """Leave out the arm of an include guard: what it holds is the whole file."""
        if self._guard is None or self._guard_end is None:
            return
        group, name = self._guard
        rest = blanked(self.data[self._guard_end :])
        first = self.found.macros[0].name if self.found.macros else ""
        if rest.strip() or first.encode() != name:
            return
        arm = Arm(group, 0)
        self.found.arms[:] = [tuple(a for a in arms if a != arm) for arms in self.found.arms]
        self.found.macros[:] = [
            item._replace(arms=tuple(a for a in item.arms if a != arm))
            for item in self.found.macros
        ]


def blanked(text: bytes) -> bytes:
    """Return ``text`` with a blank for each byte of a comment or of a line that goes on."""
    return _HIDDEN.sub(_blank, text)


def _blank(match: re.Match[bytes]) -> bytes:
    return match["literal"] or b" " * len(match[0])


def _plain(text: bytes) -> str:
    return " ".join(blanked(text).decode("utf-8", "replace").split())[:200]


def _condition(word: bytes, text: bytes) -> str:
    plain = _plain(text)
    if word in (b"ifdef", b"def"):
        return f"defined({plain})"
    if word in (b"ifndef", b"ndef"):
        return f"!defined({plain})"
    return plain


def negated(conditions: Iterable[str]) -> str:
    """Return the condition that holds where none of ``conditions`` does; of many, of the first."""
    return " && ".join(_negated(item) for item in islice(conditions, _MOST_SHOWN))


def _negated(condition: str) -> str:
    if _DEFINED.fullmatch(condition):
        return condition[1:] if condition.startswith("!") else f"!{condition}"
    inner = _NEGATED.fullmatch(condition)
    return inner[1] if inner else f"!({condition})"
