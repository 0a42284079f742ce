"""Turn a value, as a document has it, into what a property of a description holds."""

from __future__ import annotations

import re
from functools import cache
from typing import Any, NamedTuple

from regwright.format.shape import PREFIX, definition, is_integer, value_schema
from regwright.importing import names
from regwright.importing.mapped.document import Value
from regwright.importing.mapped.notations import NoNumber, number
from regwright.importing.mapped.pattern import LONGEST_TEXT, group_in
from regwright.importing.spelled import hexadecimal
from regwright.model.words import nearest
from regwright.read.hints import USUAL_WORDS

_TRUE = ("true", "yes", "y", "1", "on")
_FALSE = ("false", "no", "n", "0", "off")


class NotRead(Exception):
    """A value is not written as the mapping says; the message says what it is."""


class Given(NamedTuple):
    """A value that a table, a constant or a default gives: it is a description's own already."""

    value: Any


def specification(kind: str, name: str) -> dict[str, Any]:
    """Return what the format says of the property ``name`` of ``kind``."""
    found: dict[str, Any] = definition(kind)["properties"][name]
    return found


def definition_name(kind: str, name: str) -> str:
    """Return the name of the definition of a plain property; empty when it has none."""
    return str(specification(kind, name).get("$ref", "")).removeprefix(PREFIX)


def prepared(value: Value, written: dict[str, Any]) -> Value | Given | None:
    """Return ``value`` after its pattern, case and table; ``None`` when nothing is left of it."""
    if isinstance(value, str):
        value = value.strip()
        if not value and "table" not in written:
            return None
        if "pattern" in written:
            value = _group(written["pattern"], value)
        if "case" in written:
            value = value.upper() if written["case"] == "upper" else value.lower()
    return _translated(value, written)


def _group(pattern: str, text: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise NotRead(f"a text of {len(text)} characters is too long for a pattern")
    found = group_in(pattern, text)
    if found is None:
        raise NotRead(f"{shown(text)} does not match the pattern {shown(pattern)}")
    return found.strip()


def _translated(value: Value, written: dict[str, Any]) -> Value | Given | None:
    table = written.get("table", {})
    key = _text_of(value)
    if key in table or "otherwise" in written:
        found = table[key] if key in table else written["otherwise"]
        return None if found is None else Given(found)
    return value


def as_number(value: Value, written: dict[str, Any], usual: str) -> int:
    """Return the number that ``value`` is. Raises :class:`NotRead`."""
    if isinstance(value, bool):
        raise NotRead(f"{_text_of(value)} is no number")
    try:
        found = value if isinstance(value, int) else number(value, written.get("number", usual))
    except NoNumber as problem:
        raise NotRead(str(problem)) from None
    found = found * int(written.get("times", 1)) + int(written.get("plus", 0))
    if not 0 <= found < 1 << 64:
        raise NotRead(f"{found} is no number that a description may have")
    return found


def as_truth(value: Value, written: dict[str, Any]) -> bool:
    """Return whether ``value`` says yes. Raises :class:`NotRead`."""
    if isinstance(value, bool):
        return value
    word = _text_of(value).lower()
    yes = [item.lower() for item in written.get("true", () if "false" in written else _TRUE)]
    no = [item.lower() for item in written.get("false", () if "true" in written else _FALSE)]
    if word in yes or word in no:
        return word in yes
    if ("true" in written) != ("false" in written):
        return "false" in written
    raise NotRead(f'{shown(word)} says neither yes nor no; list the words by "true" and "false"')


def as_word(value: Value, kind: str, name: str) -> str | int:
    """Return ``value`` as one of the words that the property may have. Raises :class:`NotRead`."""
    allowed: list[Any] = value_schema(specification(kind, name))["enum"]
    text = _text_of(value)
    for word in allowed:
        if str(word) == text:
            return word  # type: ignore[no-any-return]
    meant = USUAL_WORDS.get(text.lower())
    near = meant if meant in allowed else nearest(text, map(str, allowed))
    hint = f" (is {near} meant?)" if near else ""
    words = ", ".join(map(str, allowed))
    raise NotRead(f"{shown(text)} is none of {words}{hint}; translate it by a table")


def as_text(value: Value) -> str:
    """Return ``value`` as a text."""
    return _text_of(value)


def shown(text: str) -> str:
    """Return ``text`` as a message quotes it."""
    return repr(text) if len(text) <= 60 else f"a text of {len(text)} characters"


def _text_of(value: Value) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def spelled(value: Value | Given, kind: str, name: str, written: dict[str, Any], usual: str) -> Any:
    """Return ``value`` as the property ``name`` of ``kind`` holds it. Raises :class:`NotRead`."""
    if isinstance(value, Given):
        return value.value
    form = _form(kind, name)
    if form.sort == "enum":
        return as_word(value, kind, name)
    if form.sort == "boolean":
        return as_truth(value, written)
    if form.sort == "number":
        return _number(as_number(value, written, usual), form.which, written)
    text = _text_of(value)
    if form.which in _TEXTS:
        return _TEXTS[form.which](text) or None
    return names.line(text, form.longest) or None


class _Form(NamedTuple):
    """How a property is held: what sort of value, by which definition, and how long a text."""

    sort: str
    which: str
    longest: int


@cache
def _form(kind: str, name: str) -> _Form:
    body = value_schema(specification(kind, name))
    which = definition_name(kind, name)
    sort = "text"
    if "enum" in body or body.get("type") == "boolean":
        sort = "enum" if "enum" in body else "boolean"
    elif which in ("number", "address") or is_integer(specification(kind, name)):
        sort = "number"
    return _Form(sort, which, int(body.get("maxLength", 200)))


def _number(value: int, which: str, written: dict[str, Any]) -> int | str:
    """Return a number as the definition ``which`` has it."""
    if which not in ("number", "address"):
        return value
    digits = hexadecimal(value)
    return f"{written['space']}:{digits}" if "space" in written else digits


def _identifiers(text: str) -> str:
    taken: set[str] = set()
    words = [word for word in re.split(r"[\s,;/|]+", text) if word]
    return " ".join(names.identifier(word, taken) for word in dict.fromkeys(words))


#: The texts that are more than one line of anything, by their definitions.
_TEXTS = {"prose": names.prose, "identifiers": _identifiers}
