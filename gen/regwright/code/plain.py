"""Which bodies of functions count for nothing but the names in them.

They define nothing that has a value, and hold no address. Their text tells, before the grammar sees
it, as long as some names mean nothing.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.code.bodies import COMMENT, STRING
from regwright.code.text import CPP, C
from regwright.code.words import ASSEMBLY_WORDS, ASSERTION_WORDS, POINTER_CAST, words_in

#: Strings, characters and comments. Each begins with a sign of its own: so the search is fast.
_TEXT = re.compile(rb"%s|'(?:[^'\\\n]|\\.)*+'|%s" % (STRING, COMMENT), re.DOTALL)
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
_MARKS = (b"@", b"<%", b"??", b"_cast")
#: A pointer or a constant with a value: what is before the value.
_INITIALIZED = tuple(
    re.compile(rb"%s([^;{}=]*(?<![<>!+\-/%%&|^*]))=(?!=)" % sign) for sign in (rb"const\b", rb"\*")
)
_LAST_NAME = re.compile(rb"([A-Za-z_]\w*+)[^A-Za-z_]*$")
_CAST = rb"(?:\(\s*+\w[\w\s]*+\*[\s*]*+(?:const\s*+|volatile\s*+)*+\)\s*+)"
#: An operand that is nothing when its first name is nothing: behind ``*`` and ``&``, or in
#: parentheses, that name first.
_OPERAND = (
    rb"\s*+%s{0,8}+(?:(?:&(?!&)|\*)\s*+){0,8}+" % _CAST + rb"(?:([A-Za-z_]\w*+)(?![\w\"'{]|\s*+::)"
    rb"|\(\s*+([A-Za-z_]\w*+)\s*+(?![\w\"'{(*)]|::)[^(),]*+\)|\"\")"
)
#: The arguments of a call, without a comma that is in none.
_REST = rb"(?:[^;,()]|\((?:[^;()]|\((?:[^;()]|\([^;()]*+\))*+\))*+\))*+;"
_OPEN_VALUE = re.compile(_OPERAND + rb"(?=\s*+[^\w\s\"'{])" + _REST)
_CAST_AWAY = re.compile(_OPERAND)
#: What follows the type of a parameter, or of ``sizeof``, and no cast.
_NO_CAST = re.compile(rb"\s*+(?:[;,)\]}?=]|:(?!:))")
#: What hides names, or makes new ones.
_HIDING = re.compile(rb"[#\\$\x80-\xff]")
_SHIFTED = re.compile(rb"(?<![\w.])([\w.]++)\s*+\Z")
#: So much before a shift is looked at.
_NEAR = 80
_LONGEST_NAME = 60
_LEFT = re.compile(rb"<<")
#: A longer statement is not looked through.
_LONGEST = 2000
_ENDS = bytes.maketrans(b"{}=", b";;;")
#: Words before a value that has a meaning of its own.
_OPERATORS = frozenset({b"sizeof", b"alignof", b"_Alignof", b"not", b"compl", b"true", b"false"})


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
    text = _TEXT.sub(_emptied, text)
    if any(mark in text for mark in _MARKS) or _HIDING.search(text) or _is_long(text):
        return None
    if _defines(text, words, language):
        return None
    if b"*" not in text and b"const" not in words:
        return Plain(frozenset(), frozenset())
    return _Look(text, words).plain()


def _is_long(text: bytes) -> bool:
    """Tell whether a statement is too long to be looked through."""
    if len(text) <= _LONGEST:
        return False
    return max(map(len, text.translate(_ENDS).split(b";"))) > _LONGEST


def _defines(text: bytes, words: frozenset[bytes], language: str) -> bool:
    """Tell whether there is a structure in ``text``, or what only C++ has."""
    if not words.isdisjoint(_STRUCTURES) and _STRUCTURE.search(text):
        return True
    return language == CPP and _IN_CPP.search(text) is not None


def leads_of(text: bytes) -> frozenset[bytes] | None:
    """Return the names with which what an expression casts to pointers or shifts starts.

    ``None`` when something may be a constant, or hides names, whatever these mean.
    """
    text = _TEXT.sub(_emptied, text)
    if _HIDING.search(text) is not None or b"_cast" in text or _is_long(text):
        return None
    found = _Look(text, frozenset(words_in(text)))
    return found.leads() if found.take_casts() and found.take_shifts() else None


def _emptied(match: re.Match[bytes]) -> bytes:
    """Return a string or character without anything in it, or a blank for a comment."""
    sign = match[0][:1]
    return b" " if sign == b"/" else sign + sign


class _Look:
    """Looks through the text of a body."""

    def __init__(self, text: bytes, words: frozenset[bytes]) -> None:
        self._text = text
        self._words = words
        self._declares: set[bytes] = set()
        self._leads: set[bytes] = set()
        self._has_cast = False

    def plain(self) -> Plain | None:
        """Return what was found, unless something has a value whatever its first name."""
        if not self._take_values() or not self.take_casts():
            return None
        if self._has_cast and not self.take_shifts():  # a constant may be, beside a cast
            return None
        leads = self.leads()
        return Plain(frozenset(self._declares), leads) if leads is not None else None

    def leads(self) -> frozenset[bytes] | None:
        """Return the names that must mean nothing; ``None`` when one is no name."""
        return frozenset(self._leads) if self._leads.isdisjoint(_OPERATORS) else None

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
        value = _OPEN_VALUE.match(self._text, match.end())
        name = _LAST_NAME.search(match[1])
        if value is None or name is None:
            return False
        self._declares.add(name[1])
        self._take_lead(value)
        return True

    def _is_typed(self, match: re.Match[bytes]) -> bool:
        """Tell whether a type, or another declarator, may be before the ``*`` of ``match``."""
        before = self._text[: match.start()].rstrip()[-1:]
        return before.isalnum() or before in (b"_", b",", b">", b")", b"]")

    def _take_lead(self, match: re.Match[bytes]) -> None:
        lead = match[1] or match[2]
        if lead:
            self._leads.add(lead)

    def take_casts(self) -> bool:
        """Take what is cast to a pointer; tell whether each starts with a name, or is a string."""
        for match in POINTER_CAST.finditer(self._text):
            if _NO_CAST.match(self._text, match.end()):
                continue
            operand = _CAST_AWAY.match(self._text, match.end())
            if operand is None:
                return False
            self._take_lead(operand)
            self._has_cast = True
        return True

    def take_shifts(self) -> bool:
        """Take what is shifted to the left; tell whether each is a name."""
        if b"<<" not in self._text:
            return True
        if b"sizeof" in self._words:
            return False
        for sign in _LEFT.finditer(self._text):
            near = self._text[max(sign.start() - _NEAR, 0) : sign.start()]
            match = _SHIFTED.search(near)
            if match is None or len(match[1]) > _LONGEST_NAME or match[1][:1] in b".0123456789":
                return False
            self._leads.add(match[1].rpartition(b".")[2])
        return True
