"""Read JSON strictly (RFC 8259): what Python's ``json`` lets pass is refused, with its place."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NoReturn

from regwright.model.finding import ERROR, LITERAL, Finding
from regwright.read.source import Source

if TYPE_CHECKING:
    from regwright.read.json_locate import Token

RULE = "json-syntax"
LONGEST_INTEGER = 18  # digits; more than any number that the format takes as a JSON number

#: Objects and lists within each other, or elements. The deepest description there can be has 23.
DEEPEST = 64
_NOT_BRACKETS = bytes(set(range(256)) - set(b"{}[]"))
# possessive, and content with every first quote, so that no text makes it start over
_BRACKET = r'(?s)"(?:[^"\\]++|\\.)*+"?|[{}\[\]]'

#: What ``json`` says that needs more words, or other ones.
_IN_OTHER_WORDS = {
    "Extra data": "the description ends before this; remove what follows it",
    "Invalid control character at": "a line break or another control character stands in this "
    "text; write \\n for a line break",
    "Unterminated string starting at": "the text that starts here never ends; close it with a "
    "double quote",
    "Invalid \\escape": "no escape has this form; write \\\\ for a backslash",
    "Invalid \\uXXXX escape": "four hexadecimal digits must follow \\u",
    "Expecting property name enclosed in double quotes": "a name in double quotes is expected here",
}
_BASED_NUMBER = r"0[xX][0-9A-Fa-f]{1,16}|0[bB][01]{1,64}|0[dD][0-9]{1,19}"
_OTHER_NUMBER = r"(?<![0-9.])0[xXbBdD][0-9A-Za-z_]+|0[0-9]+"


class NotRead(Exception):
    """The text is no well-formed document; carries the findings that say why."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__(findings[0].message)
        self.findings = findings


def syntax_error(rule: str, message: str, line: int, column: int) -> Finding:
    """Return the finding that a text is not well formed at a place."""
    return Finding(rule, ERROR, message, None, at=(line, column))


def check_text(source: Source, rule: str) -> None:
    """Refuse text that is empty, binary or no UTF-8. Raises :class:`NotRead`."""
    if not source.data.strip():
        raise NotRead([syntax_error(rule, "the file is empty; a description was expected", 1, 1)])
    try:
        source.data.decode("utf-8")
    except UnicodeDecodeError as problem:
        line, column = source.line_and_column(
            len(source.data[: problem.start].decode("utf-8", "replace"))
        )
        byte = source.data[problem.start]
        message = f"byte 0x{byte:02X} is no UTF-8; save the file as UTF-8 without a byte-order mark"
        raise NotRead([syntax_error(rule, message, line, column)]) from None
    zero = source.data.find(b"\0")
    if zero >= 0:
        line, column = source.line_and_column(len(source.data[:zero].decode("utf-8")))
        message = "a zero byte stands here; this is no text file"
        raise NotRead([syntax_error(rule, message, line, column)])


class _Strict:
    """Hooks for ``json.loads`` that note whether anything needs a closer look."""

    def __init__(self) -> None:
        self.suspicious = False

    def pairs(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) != len(pairs):
            self.suspicious = True
        return found

    def integer(self, text: str) -> int:
        if len(text) > LONGEST_INTEGER:
            self.suspicious = True
            return 0
        return int(text)

    def other_number(self, _text: str) -> int:
        self.suspicious = True
        return 0


def read_json(source: Source) -> Any:
    """Return the document as Python data.

    Raises :class:`NotRead` for text that is empty, no UTF-8, starts with a byte-order mark, is
    not well formed or nested too deeply, repeats a name in an object, or holds NaN, Infinity, a
    fraction, a huge integer or half of a surrogate pair.
    """
    check_text(source, RULE)
    text = source.text
    if text.startswith("\ufeff"):
        message = "a byte-order mark stands before the text; save the file as UTF-8 without one"
        raise NotRead([syntax_error(RULE, message, 1, 1)])
    _refuse_depth(source)
    strict = _Strict()
    try:
        data = json.loads(
            text,
            object_pairs_hook=strict.pairs,
            parse_int=strict.integer,
            parse_float=strict.other_number,
            parse_constant=strict.other_number,
        )
    except json.JSONDecodeError as problem:
        _refuse(problem)
    if strict.suspicious or "\\u" in text:
        findings = list(_closer_look(source))
        if findings:
            raise NotRead(findings)
    return data


def too_deep(what: str) -> str:
    """Say that things are nested too deeply."""
    return f"{what} are nested more than {DEEPEST} deep; no description is, flatten it"


def _refuse_depth(source: Source) -> None:
    """Refuse a text whose brackets are nested too deeply, before anything recurses into it."""
    brackets = source.data.translate(None, _NOT_BRACKETS)
    for _ in range(DEEPEST):
        rest = brackets.replace(b"{}", b"").replace(b"[]", b"")
        if len(rest) == len(brackets):
            break
        brackets = rest
    if not brackets:
        return
    # nested too deeply, or not well formed, or there are brackets within texts: count one by one
    depth = 0
    for match in re.finditer(_BRACKET, source.text):
        if match[0] in "{[":
            depth += 1
        elif match[0] in "}]":
            depth -= 1
        if depth > DEEPEST:
            line, column = source.line_and_column(match.start())
            raise NotRead([syntax_error(RULE, too_deep("objects and lists"), line, column)])


def _comma_before_the_end(problem: json.JSONDecodeError) -> int | None:
    """Return where a comma stands that nothing follows; newer Pythons name its place, older not."""
    text = problem.doc
    if problem.msg.startswith("Illegal trailing comma"):
        return problem.pos
    before = text[: problem.pos].rstrip()
    return len(before) - 1 if text[problem.pos :][:1] in "}]" and before[-1:] == "," else None


def _refuse(problem: json.JSONDecodeError) -> NoReturn:
    comma = _comma_before_the_end(problem)
    if comma is not None:
        message = "no JSON: nothing follows this comma; remove it"
        line = problem.doc.count("\n", 0, comma) + 1
        column = comma - problem.doc.rfind("\n", 0, comma)
        finding = syntax_error(RULE, message, line, column)
        raise NotRead([finding._replace(repair="", part=LITERAL)]) from None
    message = problem.msg[0].lower() + problem.msg[1:]
    message = _IN_OTHER_WORDS.get(problem.msg.rstrip(": "), message)
    column = problem.colno
    number = re.compile(_OTHER_NUMBER).match(problem.doc, problem.pos - 1) if problem.pos else None
    if number:
        column -= 1
        message = f'a number that says its base is a text here; write "{number[0][:40]}"'
        if number[0].isdigit():
            message = 'a number does not start with 0; write the base too, as in "0x1F"'
    finding = syntax_error(RULE, f"no JSON: {message}", problem.lineno, column)
    if number and re.fullmatch(_BASED_NUMBER, number[0]):
        spelled = number[0][:2].lower() + number[0][2:]
        finding = finding._replace(repair=f'"{spelled}"', part=LITERAL)
    raise NotRead([finding]) from None


def _closer_look(source: Source) -> Iterator[Finding]:
    """Yield a finding for each thing that JSON allows, or Python does, and a description not."""
    from regwright.read.json_locate import tokens

    names: list[set[str]] = []
    for token in tokens(source.text):
        message = ""
        if token.kind == "open":
            names.append(set())
        elif token.kind == "close":
            names.pop()
        elif token.kind == "name":
            if token.value in names[-1]:
                message = f"the name {token.value!r} stands twice in this object; keep one of them"
            names[-1].add(token.value)
        message = message or _number_problem(token) or _surrogate_problem(token)
        if message:
            line, column = source.line_and_column(token.start)
            yield syntax_error(RULE, message, line, column)


def _number_problem(token: Token) -> str:
    if token.kind != "word" or token.value in ("true", "false", "null"):
        return ""
    digits = token.value.removeprefix("-")
    if not digits.isdigit():
        return f'{token.value[:40]} is no whole number; write one, or a text such as "0x1F"'
    if len(token.value) > LONGEST_INTEGER:
        return f"a number of {len(digits)} digits is more than a description can mean"
    return ""


def _surrogate_problem(token: Token) -> str:
    if token.kind not in ("name", "string"):
        return ""
    if any("\ud800" <= character <= "\udfff" for character in token.value):
        return "half of a surrogate pair stands in this text; write the character itself"
    return ""
