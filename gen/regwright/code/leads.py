"""With which names begins what may be a constant or an address: nothing when these are nothing.

What an operand is worth is not known without its first name: neither ``base->next[3] + 1`` nor
``(T *)base`` is a constant where ``base`` is none. So a look at a text tells of which names alone
it depends whether something in it has a value.
"""

from __future__ import annotations

import re

from regwright.code.bodies import COMMENT, STRING
from regwright.code.words import HIDDEN_CAST, POINTER_CAST, words_in

#: Strings, characters and comments. Each begins with a sign of its own: so the search is fast.
_TEXT = re.compile(rb"%s|'(?:[^'\\\n]|\\.)*+'|%s" % (STRING, COMMENT), re.DOTALL)
#: What hides names, or makes new ones, and a cast of C++.
_HIDING = re.compile(rb"[#\\$\x80-\xff]")
_CAST_IN_CPP = re.compile(rb"_cast\s*+(?:<|\Z)")
#: Words before a value that has a meaning of its own.
_OPERATORS = frozenset({b"sizeof", b"alignof", b"_Alignof", b"not", b"compl", b"true", b"false"})
#: A longer statement is not looked through.
_LONGEST = 2000
_ENDS = bytes.maketrans(b"{}=", b";;;")

#: A cast: to a pointer, or to a type of words where an operand follows that can be nothing else.
_CAST = (
    rb"\(\s*+(?:\w[\w\s]*+\*[\s*]*+(?:const\s*+|volatile\s*+)*+\)"
    rb"|[A-Za-z_][\w\s]*+\)(?=\s*+[\w(\"]))"
)
_SIGN = rb"(?:(?:%s|&(?!&)|[*!~+-])\s*+)" % _CAST
_NAMED = rb"([A-Za-z_]\w*+)(?![\w\"'{]|\s*+::)"
#: A name first in parentheses that are no cast, as far as what is in them tells.
_NAMED_INSIDE = rb"([A-Za-z_]\w*+)\s*+(?![\w\"'{)]|%s|::|\(\s*+[*^&])" % (
    rb"\*(?!\s*+(?:\d|[A-Za-z_]\w*+\s*+[.\[+\-/<>=?|&^]))"
)
#: A name in parentheses, which would be a cast if an operand followed.
_NAMED_ALONE = rb"([A-Za-z_]\w*+)\s*+\)(?=\s*+(?:->|[)\],;:?|^<>=/%}]|\Z))"
_LITERAL = rb"(?:\(\s*+[A-Za-z_][\w\s]*+\)\s*+)?+\.?\d[\w.]*+"
#: A number and an operator: no value either, without one of what follows.
_NUMBER = rb"(?:(?:%s|\(\s*+%s\s*+\))\s*+(?:<<|>>|[<>=!]=|[<>]|[|&](?![|&])|[-+*/%%^])\s*+)" % (
    _LITERAL,
    _LITERAL,
)


def _balanced(depth: int) -> bytes:
    return rb"(?:[^;()]|\(%s\))*+" % _balanced(depth - 1) if depth else rb"[^;()]*+"


#: What is in balanced brackets, without a comma that is in none, and without blanks at its end.
_ARGUMENTS = rb"(?:[^;,()\s]|\s++(?!\))|\(%s\))*+" % _balanced(3)


#: Where something is between the parenthesis and a name, so that it is no cast to a type.
_BEHIND_SOMETHING = rb"(?<!\()(?<!\(\s)"


def _in_parentheses(depth: int) -> bytes:
    """Return a pattern of parentheses with an operand first; not of a cast, nor of its value."""
    before = rb"(?:%s,\s*+%s?+|%s)?+%s{0,8}+" % (_ARGUMENTS, _NUMBER, _NUMBER, _SIGN)
    inner = rb"|" + _in_parentheses(depth - 1) if depth else b""
    first = rb"(?:%s|%s%s%s)" % (_NAMED_INSIDE, _BEHIND_SOMETHING, _NAMED, inner)
    rest = rb"%s(?<![*&>])\s*+\)(?!\s*+\()" % _ARGUMENTS
    return rb"\(\s?(?!\s)(?:%s|%s%s%s)" % (_NAMED_ALONE, before, first, rest)


#: An operand that is nothing when its first name is nothing: behind casts, ``*`` and ``&``, or in
#: parentheses, that name first.
_OPERAND = re.compile(rb"\s*+%s{0,16}+(?:%s|%s|\"\")" % (_SIGN, _NAMED, _in_parentheses(2)))
_NUMBER_FIRST = re.compile(rb"\s*+%s" % _NUMBER)
#: What may follow the first operand of a value, and one that members, calls and indices belong to.
_REST_OF_VALUE = re.compile(rb"(?=\s*+[^\w\s\"'{])%s;" % _ARGUMENTS)
_REST_OF_OPERAND = re.compile(
    rb"(?:\s*+(?:(?:->|\.)\s*+\w++|\(%s\s*+\)|\[\w*+\]))*+\s*+" % _ARGUMENTS
)
#: What follows the type of a parameter, or of ``sizeof``, and no cast.
_NO_CAST = re.compile(rb"\s*+(?:[;,)\]}?=]|:(?!:))")
_LEFT = re.compile(rb"<<")
_SHIFTED = re.compile(rb"(?<![\w.])([\w.]++)\s*+\Z")
#: A literal that is a whole operand of a shift, as far as what is next to it tells.
_SMALL_LEFT = re.compile(rb"(?:^|[(,=|&^?:])\s*+(0|[1-9]\d{0,4})[uUlL]*+\s*+\Z")
_SMALL_COUNT = re.compile(rb"\s*+(\d{1,2})[uUlL]*+\s*+(?:[),;|&^?:]|\Z)")
#: A number below this fits any ``int``. Source: ISO C11 5.2.4.2.1.
_FITS = 1 << 15
#: So much before a shift is looked at.
_NEAR = 80
_LONGEST_NAME = 60


def emptied(text: bytes) -> bytes:
    """Return ``text`` with nothing in its strings and characters, and blanks for comments."""
    return _TEXT.sub(_emptied, text)


def _emptied(match: re.Match[bytes]) -> bytes:
    sign = match[0][:1]
    return b" " if sign == b"/" else sign + sign


def hides(text: bytes) -> bool:
    """Tell whether something in ``text`` hides names or makes new ones, or is a cast of C++."""
    if _HIDING.search(text) is not None:
        return True
    return b"_cast" in text and _CAST_IN_CPP.search(text) is not None


def is_long(text: bytes) -> bool:
    """Tell whether a statement is too long to be looked through."""
    if len(text) <= _LONGEST:
        return False
    return max(map(len, text.translate(_ENDS).split(b";"))) > _LONGEST


def lead_of(value: bytes, *, is_macro: bool = False) -> str | None:
    """Return the name with which a value begins that is nothing if that is; "" for a string.

    ``None`` when that is not what the value is like; that of a macro has to be one operand.
    """
    if len(value) > _LONGEST:
        return None
    text = emptied(value)
    if hides(text):
        return None
    found = _OPERAND.match(text) if is_macro else operand_of_value(text + b";")
    if found is None or (is_macro and not _REST_OF_OPERAND.fullmatch(text, found.end())):
        return None
    names = {name for name in found.groups() if name}
    if len(names) > 1 or not names.isdisjoint(_OPERATORS):
        return None
    return names.pop().decode("ascii") if names else ""


def operand_of_value(text: bytes, start: int = 0) -> re.Match[bytes] | None:
    """Return the first operand that has a name in the value at ``start``, which ends in ``;``.

    ``None`` where the value may be something whatever that name means.
    """
    number = _NUMBER_FIRST.match(text, start)
    found = _OPERAND.match(text, number.end() if number else start)
    return found if found and _REST_OF_VALUE.match(text, found.end()) else None


def leads_of(text: bytes) -> frozenset[bytes] | None:
    """Return the names with which what an expression casts to pointers or shifts starts.

    ``None`` when something may be a constant, or hides names, whatever these mean.
    """
    text = emptied(text)
    if hides(text) or is_long(text):
        return None
    leads = Leads(text, frozenset(words_in(text)))
    return leads.names() if leads.take_casts() and leads.take_shifts() else None


class Leads:
    """Collects the names in a text that must mean nothing."""

    def __init__(self, text: bytes, words: frozenset[bytes]) -> None:
        """Look through ``text``, in which strings are empty and whose words are ``words``."""
        self.has_cast = False
        self._text = text
        self._words = words
        self._names: set[bytes] = set()

    def names(self) -> frozenset[bytes] | None:
        """Return the names that must mean nothing; ``None`` when one is no name."""
        return frozenset(self._names) if self._names.isdisjoint(_OPERATORS) else None

    def take(self, operand: re.Match[bytes]) -> None:
        """Take the first name of an operand, or of a value."""
        self._names.update(name for name in operand.groups() if name)

    def take_casts(self) -> bool:
        """Take what is cast to a pointer; tell whether each starts with a name, or is a string."""
        return all(
            self._take_operand(match.end())
            for cast in (POINTER_CAST, HIDDEN_CAST)
            for match in cast.finditer(self._text)
            if not _NO_CAST.match(self._text, match.end())
        )

    def _take_operand(self, start: int) -> bool:
        operand = _OPERAND.match(self._text, start)
        if operand is None:
            return False
        self.take(operand)
        self.has_cast = True
        return True

    def take_shifts(self) -> bool:
        """Take what is shifted to the left; tell whether each is a name, by a name, or fits."""
        if b"<<" not in self._text:
            return True
        if b"sizeof" in self._words:
            return False
        return all(self._take_shift(sign) for sign in _LEFT.finditer(self._text))

    def _take_shift(self, sign: re.Match[bytes]) -> bool:
        near = self._text[max(sign.start() - _NEAR, 0) : sign.start()]
        left = _SHIFTED.search(near)
        if left and left[1][:1] not in b".0123456789" and len(left[1]) <= _LONGEST_NAME:
            self._names.add(left[1].rpartition(b".")[2])
            return True
        small, count = _SMALL_LEFT.search(near), _SMALL_COUNT.match(self._text, sign.end())
        if small and count and int(small[1]) < _FITS >> min(int(count[1]), 15):
            return True
        operand = _OPERAND.match(self._text, sign.end())
        if operand is None:
            return False
        self.take(operand)
        return True
