"""Which bodies of functions count for nothing but the names in them.

They define nothing that has a value, and hold no address. Their text tells, before the grammar sees
it, as long as some names mean nothing.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.code.leads import Leads, emptied, hides, is_long, operand_of_value
from regwright.code.text import CPP, C
from regwright.code.words import ASSEMBLY_WORDS, ASSERTION_WORDS

#: Words that may define something, or mean something beyond their names.
_DEFINING_IN_C = frozenset(
    {
        *(word.encode() for word in ASSEMBLY_WORDS | ASSERTION_WORDS),
        *(b"typedef", b"auto", b"constexpr", b"__attribute__", b"__attribute", b"__declspec"),
        *(b"typeof", b"typeof_unqual", b"__typeof", b"__typeof__", b"_Atomic"),
        *(b"alignas", b"_Alignas"),
    }
)
_ALSO_IN_CPP = (b"const", b"class", b"using", b"template", b"namespace", b"decltype", b"operator")
_DEFINING = {C: _DEFINING_IN_C, CPP: _DEFINING_IN_C.union(_ALSO_IN_CPP)}
_STRUCTURES = frozenset({b"struct", b"union", b"enum", b"class"})
_STRUCTURE = re.compile(rb"\b(?:struct|union|enum|class)\b[^;{}=]*\{")
_IN_CPP = re.compile(rb"[\w,>\])]\s*+[*&]++[^;{}()=,]*[({=]")
#: What makes a body one that is read, whatever its names.
_MARKS = (b"@", b"<%", b"??")
#: A pointer or a constant with a value: what is before the value.
_INITIALIZED = tuple(
    re.compile(rb"%s([^;{}=]*(?<![<>!+\-/%%&|^*]))=(?!=)" % sign) for sign in (rb"const\b", rb"\*")
)
_LAST_NAME = re.compile(rb"([A-Za-z_]\w*+)[^A-Za-z_]*$")


class Plain(NamedTuple):
    """What is in a body that counts for nothing, as long as ``leads`` mean nothing.

    It ``declares`` pointers and constants, whose values start with ``leads``.
    """

    declares: frozenset[bytes]
    leads: frozenset[bytes]


def plain(text: bytes, words: frozenset[bytes], language: str) -> Plain | None:
    """Return what is in the body ``text``, whose words are ``words``; ``None`` when it counts."""
    if not words.isdisjoint(_DEFINING[language]):
        return None
    text = emptied(text)
    if any(mark in text for mark in _MARKS) or hides(text) or is_long(text):
        return None
    if _defines(text, words, language):
        return None
    if b"*" not in text and b"const" not in words:
        return Plain(frozenset(), frozenset())
    return _Look(text, words).plain()


def _defines(text: bytes, words: frozenset[bytes], language: str) -> bool:
    """Tell whether there is a structure in ``text``, or what only C++ has."""
    if not words.isdisjoint(_STRUCTURES) and _STRUCTURE.search(text):
        return True
    return language == CPP and _IN_CPP.search(text) is not None


class _Look:
    """Looks through the text of a body."""

    def __init__(self, text: bytes, words: frozenset[bytes]) -> None:
        self._text = text
        self._leads = Leads(text, words)
        self._declares: set[bytes] = set()

    def plain(self) -> Plain | None:
        """Return what was found, unless something has a value whatever its first name."""
        leads = self._leads
        if not self._take_values() or not leads.take_casts():
            return None
        if leads.has_cast and not leads.take_shifts():  # a constant may be, beside a cast
            return None
        names = leads.names()
        return Plain(frozenset(self._declares), names) if names is not None else None

    def _take_values(self) -> bool:
        text = self._text
        for pattern in _INITIALIZED:
            match = pattern.search(text)
            while match is not None:
                end = match.end()
                if text.startswith(b"*", match.start()) and not self._is_typed(match):
                    end = match.start() + 1  # another one may be behind it
                elif not self._take_value(match):
                    return False
                match = pattern.search(text, end)
        return True

    def _take_value(self, match: re.Match[bytes]) -> bool:
        value = operand_of_value(self._text, match.end())
        name = _LAST_NAME.search(match[1])
        if value is None or name is None:
            return False
        self._declares.add(name[1])
        self._leads.take(value)
        return True

    def _is_typed(self, match: re.Match[bytes]) -> bool:
        """Tell whether a type, or another declarator, may be before the ``*`` of ``match``."""
        before = self._text[: match.start()].rstrip()[-1:]
        return before.isalnum() or before in (b"_", b",", b">", b")", b"]")
