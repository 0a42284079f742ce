"""The identifiers in a piece of C or assembler."""

from __future__ import annotations

import re
from collections.abc import Iterator, Set

#: An identifier, or what looks like one within strings and numbers.
IDENTIFIER = re.compile(rb"[A-Za-z_]\w*+")
#: Strings, characters and numbers are passed over, so that nothing in them is taken for a name.
WORD = re.compile(rb"\"(?:\\.|[^\"\\])*+\"?|(?<!\w)'(?:\\.|[^'\\])*+'?|[A-Za-z_]\w*+|\.?\d[\w.']*+")

#: Words of C that mean something beyond their names, wherever they stand.
ASSEMBLY_WORDS = frozenset({"asm", "__asm", "__asm__"})
ASSERTION_WORDS = frozenset({"static_assert", "_Static_assert"})
#: The end of a cast to a pointer, or of a type that looks like one.
POINTER_CAST = re.compile(rb"\*\s*+(?:(?:const|volatile|restrict|__\w+)\b\s*+)*+\)")
#: The same with a word in it that the sources may define to be nothing: ``* FAR)``. Or a product in
#: parentheses; but then no operand follows.
HIDDEN_CAST = re.compile(rb"\*\s*+(?:[A-Za-z_]\w*+\s*+)++\)(?=\s*+(?:[\w('\"]|[*&]\s*+[A-Za-z_(]))")

#: About so much text is looked at as a whole, to see whether a name is in it at all.
_STRIDE = 1000
_SIGNS_AS_BLANKS = bytes(
    sign if (chr(sign).isalnum() and sign < 0x80) or sign == ord("_") else ord(" ")
    for sign in range(256)
)


def words_in(text: bytes) -> list[bytes]:
    """Return the identifiers and numbers in ``text``, those in strings and comments, too.

    Five times as fast as a search for :data:`IDENTIFIER`, which also finds what looks like one in a
    number: ``x18`` in ``0x18``.
    """
    return text.translate(_SIGNS_AS_BLANKS).split()


def words_outside(text: bytes) -> list[bytes]:
    """Return the identifiers and numbers in ``text``, without what is in its strings."""
    if b'"' not in text and b"'" not in text:
        return words_in(text)
    return [word for word in WORD.findall(text) if is_name(word)]


def found_in(text: bytes, names: Set[bytes]) -> Iterator[tuple[int, bytes]]:
    """Yield each place of one of ``names`` in ``text``, and the name."""
    start = 0
    while start < len(text):
        end = text.find(b"\n", start + _STRIDE)
        end = end if end >= 0 else len(text)
        if not names.isdisjoint(words_in(text[start:end])):
            for match in IDENTIFIER.finditer(text, start, end):
                if match[0] in names:
                    yield match.start(), match[0]
        start = end


def is_name(word: bytes) -> bool:
    """Tell whether a match of :data:`WORD` is an identifier."""
    return word[:1].isalpha() or word[:1] == b"_"


def names_in(text: bytes) -> tuple[str, ...]:
    """Return the identifiers in a piece of C, in their order."""
    return tuple(word.decode("ascii", "replace") for word in WORD.findall(text) if is_name(word))
