"""The identifiers in a piece of C or assembler."""

from __future__ import annotations

import re

#: An identifier, or what looks like one within strings and numbers.
IDENTIFIER = re.compile(rb"[A-Za-z_]\w*+")
#: Strings, characters and numbers are passed over, so that nothing in them is taken for a name.
WORD = re.compile(rb"\"(?:\\.|[^\"\\])*+\"?|(?<!\w)'(?:\\.|[^'\\])*+'?|[A-Za-z_]\w*+|\.?\d[\w.']*+")


def is_name(word: bytes) -> bool:
    """Tell whether a match of :data:`WORD` is an identifier."""
    return word[:1].isalpha() or word[:1] == b"_"


def names_in(text: bytes) -> tuple[str, ...]:
    """Return the identifiers in a piece of C, in their order."""
    return tuple(word.decode("ascii", "replace") for word in WORD.findall(text) if is_name(word))
