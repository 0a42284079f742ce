"""Which names a macro may make by pasting, as far as its text tells."""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.code.directives import Macro
from regwright.code.leads import emptied

#: A comma of GNU C that goes away with an empty list of arguments: it makes no name.
_COMMA = re.compile(rb",\s*+##\s*+(?=\w)")
#: A word, or several that are pasted together.
_WORDS = re.compile(rb"(\w++)(?:\s*+##\s*+\w++)++")
#: What is made a string of.
_STRING = re.compile(rb"(?<!#)#\s*+[A-Za-z_]\w*+")


class Pasted(NamedTuple):
    """The text of a macro without ``#``, and what names begin with that it may paste together."""

    text: bytes
    prefixes: tuple[bytes, ...] | None


def unpasted(macro: Macro) -> Pasted:
    """Return the text of ``macro`` without ``#``, and what the names begin with that it may make.

    The prefixes are ``None`` where any name may come of it: one that begins with a parameter.
    """
    if b"#" not in macro.body:
        return Pasted(macro.body, ())
    parameters = {name.encode() for name in macro.parameters or ()}
    text = _COMMA.sub(b", ", emptied(macro.body))
    first = {match[1] for match in _WORDS.finditer(text)}
    text = _WORDS.sub(rb"\1", text) if first else text
    if macro.parameters is not None:
        text = _STRING.sub(b'""', text)
    if b"#" in text or not first.isdisjoint(parameters) or b"__VA_ARGS__" in first:
        return Pasted(macro.body, None)
    return Pasted(text, tuple(sorted(first)))
