"""Statements of assembler sources, found by their form alone: no mnemonic is known here.

The form is that of GNU as (its manual, "Syntax" and "Assembler Directives"), with what differs
between its targets settled so:

- ``;``, ``//`` and ``/* */`` are comments; ``#`` and ``@`` are where they start a line or stand
  between blanks, but not right behind a comma. Elsewhere they are part of an operand.
- Lines of the C preprocessor are skipped, and a comment of several lines joins what is around it,
  as the preprocessor has it.
- In inline assembly ``;`` separates statements where what follows looks like one, and starts a
  comment where it looks like prose (common practice, no source).
"""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from collections.abc import Iterator
from typing import NamedTuple

MOST_OPERANDS = 64


class Piece(NamedTuple):
    """A part of a source: the bytes ``start:end``, with blanks instead of comments in its text."""

    text: str
    start: int
    end: int


class Statement(NamedTuple):
    """A statement, from its mnemonic at ``start:mnemonic_end`` to the end of its last operand.

    ``label`` is the last label before it on its line, without the colon, or empty. ``mnemonic`` is
    in lower case, and is empty where there is only a label; then ``start:end`` is that label.
    Directives other than those of an :class:`Equate` are statements as well: ``.byte``. Of more
    than ``MOST_OPERANDS`` operands the last one holds all the rest.
    """

    label: str
    mnemonic: str
    operands: tuple[Piece, ...]
    start: int
    end: int
    mnemonic_end: int


class Equate(NamedTuple):
    """A name for a value: ``.equ NAME, 5``, ``.set``, ``.equiv``, ``.eqv``, ``NAME = 5``."""

    name: Piece
    expression: Piece
    start: int
    end: int


#: Letters of symbols. ``\`` is for arguments in bodies of macros: ``\port``, ``wait\@``; ``%=`` is
#: a number in inline assembly.
_NAME = rb"(?:[\w.$\x80-\xff]|\\(?:\(\)|[\w@])|%=)++"
_COMMENT = rb"/\*.*?(?:\*/|\Z)"
_STRING = rb'"(?:[^"\\\n]++|\\[^\n])*+"?'
#: ``'a'``, and ``'a`` without an end as well.
_CHARACTER = rb"'(?:(?:\\[^\n]|[^\\\n])'?)?"
_BLANKS = rb"(?:[ \t\r\f\v]++|" + _COMMENT + rb")*+"
_DIRECTIVE = (
    rb"\#[ \t]*+(?:define|undef|include(?:_next)?|if|ifdef|ifndef|elif|elifdef|elifndef|else|endif"
    rb"|error|warning|pragma|line|import)\b"
    rb'(?:[^\n\\/"\']++|\\\r?\n|\\.|' + _COMMENT + rb"|//[^\n]*+|/|" + _STRING + rb"|'"
    rb"(?:[^'\\\n]++|\\[^\n])*+'?)*+"
)
#: What stands behind a mnemonic: up to the end of the line or a comment to that end.
_FIELD = (
    rb"(?:[^\n;/\"'#@,]++|,[ \t]*+[#@]?|"
    + _STRING
    + rb"|"
    + _CHARACTER
    + rb"|/(?![/*])|"
    + _COMMENT
    + rb"|(?<![ \t])[#@]|[#@](?![ \t\r\n]|\Z))*+"
)
_LABEL = _NAME + _BLANKS + rb":++(?!=)"


def _pattern(semicolon: bytes) -> re.Pattern[bytes]:
    """Compile what matches blank and commented lines and the statement behind them.

    It is a label; then a mnemonic or a name and how it goes on, or one more label, or what is no
    statement. One of these always matches, so that a search never slides over a byte.
    """
    skipped = (
        rb"(?:[ \t\r\f\v\n]++|" + semicolon + rb"//[^\n]*+|" + _COMMENT
        + rb"|" + _DIRECTIVE + rb"|[#@][^\n]*+)*+"
    )  # fmt: skip
    return re.compile(
        skipped
        + rb"(?:(" + _NAME + rb")" + _BLANKS + rb":++(?!=))?+" + _BLANKS
        + rb"(?:(?![0-9]|" + _LABEL + rb")(" + _NAME + rb")"
        + rb"(" + _BLANKS + rb"==?|[ \t]++\.?(?i:equ)(?=[ \t]))?+(" + _FIELD + rb")"
        + rb"|(?=" + _LABEL + rb")|" + _FIELD + rb")(?:[#@][^\n]*+)?+",
        re.DOTALL,
    )  # fmt: skip


_IN_FILE = _pattern(rb";[^\n]*+|")
_INLINE = _pattern(b"")

_EQUATES = frozenset([".equ", ".set", ".equiv", ".eqv"])
_EQUATED = re.compile(_BLANKS + rb"(" + _NAME + rb")" + _BLANKS + rb"[,=]", re.DOTALL)

_BLANK = " \t\r\f\v\n"
#: What a plain comma does not tell apart, and what does not have one byte for each character.
_NOT_PLAIN = re.compile(rb"[\"'(\[{/\x80-\xff]")
_COMMENTS = re.compile(_STRING + rb"|" + _CHARACTER + rb"|(" + _COMMENT + rb")", re.DOTALL)
_SPLITTING = re.compile(_STRING + rb"|" + _CHARACTER + rb"|([(\[{])|([)\]}])|(,)", re.DOTALL)

#: A statement as opposed to prose: a word, and behind it operands that are not two words each.
_LIKE_A_STATEMENT = re.compile(
    rb"[ \t]*+(?:(?:[\w.$]|%=)++[ \t]*+:[ \t]*+)?+(?:[A-Za-z_.][\w.$]*+(?:[ \t]++|(?=[\n;]|\Z))"
    rb"(?:(?:[^\n;\w.$%)\]'\"]++|(?:[\w.$%)\]'\"]++(?![ \t]++[\w.$%\[(])))++)?+)?+(?=[\n;]|\Z)"
)


def statements(
    text: bytes, start: int = 0, *, semicolons_separate: bool = False
) -> Iterator[Statement | Equate]:
    """Yield the statements and equates of a text that stands at the byte ``start`` of its file.

    ``semicolons_separate`` is for inline assembly, see above. Text that is neither is passed over;
    bytes that are no UTF-8 are replaced in texts, never in places.
    """
    first = 3 if text.startswith(BOM_UTF8) else 0
    for match in _separated(text) if semicolons_separate else _IN_FILE.finditer(text, first):
        made = _made(match, start)
        if made is not None:
            yield made


def _separated(text: bytes) -> Iterator[re.Match[bytes]]:
    """Match statements that semicolons separate, but where a semicolon starts a comment."""
    position, end = 0, len(text)
    while position < end:
        match = _INLINE.match(text, position)
        if match is None:
            return
        yield match
        position = match.end()
        if text[position : position + 1] == b";":
            position += 1
            if _LIKE_A_STATEMENT.match(text, position) is None:
                line_break = text.find(b"\n", position)
                position = end if line_break < 0 else line_break


def _made(match: re.Match[bytes], base: int) -> Statement | Equate | None:
    label, name, infix, field = match.groups()
    if name is None:
        if label is None:
            return None
        begin, end = match.span(1)
        return Statement(_text(label), "", (), base + begin, base + end, base + begin)
    begin, field_at = base + match.start(2), base + match.start(4)
    if infix:
        return _equate(name, begin, field, field_at, begin)
    mnemonic = _text(name).lower()
    if mnemonic in _EQUATES:
        equated = _EQUATED.match(field)
        if equated is not None:
            name, end = equated[1], equated.end()
            return _equate(name, field_at + equated.start(1), field[end:], field_at + end, begin)
    operands = _operands(field, field_at)
    mnemonic_end = base + match.end(2)
    end = operands[-1].end if operands else mnemonic_end
    return Statement(_text(label) if label else "", mnemonic, operands, begin, end, mnemonic_end)


def _equate(name: bytes, name_at: int, value: bytes, value_at: int, begin: int) -> Equate | None:
    if name == b".":
        return None  # This moves the place where the assembler puts what follows.
    expression = _piece(_without_comments(value), value_at)
    return Equate(
        Piece(_text(name), name_at, name_at + len(name)), expression, begin, expression.end
    )


def _text(data: bytes) -> str:
    return data.decode("utf-8", "replace")


def _piece(data: bytes, at: int) -> Piece:
    """Return a piece without the blanks around it."""
    inner = data.strip()
    begin = at + len(data) - len(data.lstrip())
    return Piece(_text(inner), begin, begin + len(inner))


def _without_comments(data: bytes) -> bytes:
    if b"/*" not in data:
        return data
    return _COMMENTS.sub(lambda found: b" " * len(found[1]) if found[1] else found[0], data)


def _operands(field: bytes, at: int) -> tuple[Piece, ...]:
    """Split at the commas that stand in no parentheses, brackets or quotes."""
    if _NOT_PLAIN.search(field):
        field = _without_comments(field)
        parts = _split(field)
        return tuple(_piece(field[begin:end], at + begin) for begin, end in parts)
    pieces = []
    for part in field.decode("ascii").split(",", MOST_OPERANDS - 1):
        inner = part.lstrip(_BLANK)
        begin = at + len(part) - len(inner)
        inner = inner.rstrip(_BLANK)
        pieces.append(Piece(inner, begin, begin + len(inner)))
        at += len(part) + 1
    return tuple(pieces) if len(pieces) > 1 or pieces[0].text else ()


def _split(field: bytes) -> list[tuple[int, int]]:
    if not field.strip():
        return []
    parts, begin, depth = [], 0, 0
    for found in _SPLITTING.finditer(field):
        opening, closing, comma = found.groups()
        if opening:
            depth += 1
        elif closing:
            depth = max(depth - 1, 0)
        elif comma and depth == 0:
            parts.append((begin, found.start()))
            begin = found.end()
            if len(parts) == MOST_OPERANDS - 1:
                break
    return [*parts, (begin, len(field))]
