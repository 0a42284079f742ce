"""Cut an expression into its tokens."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from regwright.importing.ieee1685.literals import (
    BASE,
    BASED,
    HASH,
    PREFIX,
    REAL,
    SCALE,
    UNBASED,
    BadNumber,
    Value,
    based,
    plain,
    real,
    shown,
    unbased,
)

#: Longer expressions are refused; the longest seen in the wild has under 200 characters.
LONGEST = 10_000

_OPERATORS = (
    "<<<|>>>|===|!==|==[?]|!=[?]|[*][*]|<<|>>|<=|>=|==|!=|&&|[|][|]|~&|~[|]|~\\^|\\^~"
    "|[-+*/%<>&|^~!?:(){},\\[\\]]"
)
_TOKEN = re.compile(
    rf"""\s*(?:
    (?P<string>"(?:[^"\\]|\\.)*")
    |(?P<based>{BASED.pattern})
    |(?P<unbased>{UNBASED.pattern})
    |(?P<scaled>(?:0[xX][0-9a-fA-F_]+|\#[0-9a-fA-F]+|[0-9][0-9_]*(?=[kKmMgGtT](?![\w$])))
        (?:[kKmMgGtT](?![\w$]))?)
    |(?P<real>{REAL.pattern})
    |(?P<call>\$[A-Za-z_][\w$]*)
    |(?P<name>[^\W\d][\w$]*)
    |(?P<operator>{_OPERATORS})
    |(?P<end>\Z)
    )""",
    re.X,
)
_LONGER_NAME = re.compile(r"[\w$.:-]*[\w$]")


class Token(NamedTuple):
    """A piece of an expression; ``kind`` is value, name, call, operator or end."""

    kind: str
    text: str
    value: Value | None = None


def tokens_of(text: str, is_name: Callable[[str], bool], unusual: set[str]) -> list[Token]:
    """Return the tokens of ``text``, the last one the end.

    ``is_name`` tells whether a parameter is called so; such names may have hyphens and periods.
    What is unusual about numbers is added to ``unusual``. Raises :class:`BadNumber`.
    """
    if len(text) > LONGEST:
        raise BadNumber(f"an expression of {len(text)} characters is longer than {LONGEST}")
    found: list[Token] = []
    position = 0
    while not found or found[-1].kind != "end":
        match = _TOKEN.match(text, position)
        if match is None:
            raise BadNumber(f"{shown(text)} is no expression: {shown(text[position:])} is not read")
        kind = match.lastgroup or "end"
        position = match.end()
        piece = match[kind]
        if kind == "name":
            position = _end_of_name(text, match.start(kind), position, is_name)
            piece = text[match.start(kind) : position]
        found.append(_token(kind, piece, unusual))
    return found


def _end_of_name(text: str, start: int, end: int, is_name: Callable[[str], bool]) -> int:
    longer = _LONGER_NAME.match(text, start)
    while longer and longer.end() > end:
        if is_name(longer[0]):
            return longer.end()
        longer = _LONGER_NAME.match(text, start, longer.end() - 1)
    return end


def _token(kind: str, piece: str, unusual: set[str]) -> Token:
    if kind == "string":
        return Token("value", piece, Value(re.sub(r"\\(.)", r"\1", piece[1:-1])))
    if kind == "real":
        return Token("value", piece, real(piece))
    if kind == "scaled":
        number, marks = plain(piece, octal=False)
        unusual |= marks & {HASH, PREFIX, SCALE}
        return Token("value", piece, Value(number))
    for name, pattern, read in (("based", BASED, based), ("unbased", UNBASED, unbased)):
        if kind == name:
            unusual.add(BASE)
            match = pattern.fullmatch(piece)
            assert match is not None  # noqa: S101 - the token was cut with this pattern
            return Token("value", piece, read(match))
    return Token(kind, piece)
