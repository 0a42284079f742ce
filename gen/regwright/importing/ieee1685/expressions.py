"""Evaluate constant expressions of SystemVerilog, bounded in length, depth and size of numbers.

Precedence and meaning: IEEE 1800-2017, 11.3 and 11.4; all binary operators, ``**`` among them,
group from the left. Whole numbers are not cut to 32 bits, as these expressions set 64-bit values.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from regwright.importing.ieee1685.functions import call
from regwright.importing.ieee1685.literals import BadNumber, Value, shown
from regwright.importing.ieee1685.operators import (
    binary,
    bits_of,
    concatenated,
    is_true,
    known,
    repeated,
    unary,
    whole,
)
from regwright.importing.ieee1685.tokens import tokens_of

if TYPE_CHECKING:
    from regwright.importing.ieee1685.tokens import Token

#: Parentheses and ``?:`` may be nested this deep.
DEEPEST = 64

_LEVELS = (
    ("||",),
    ("&&",),
    ("|",),
    ("^", "~^", "^~"),
    ("&",),
    ("==", "!=", "===", "!==", "==?", "!=?"),
    ("<", "<=", ">", ">="),
    ("<<", ">>", "<<<", ">>>"),
    ("+", "-"),
    ("*", "/", "%"),
    ("**",),
)
_PRECEDENCE = {operator: level for level, row in enumerate(_LEVELS) for operator in row}
_UNARY = frozenset({"+", "-", "!", "~", "&", "~&", "|", "~|", "^", "~^", "^~"})
_WORDS = {"true": Value(1, 1), "false": Value(0, 1)}

#: Gives the value of a parameter, or ``None`` when there is none of that name.
Lookup = Callable[[str], "Value | None"]


def evaluate(text: str, lookup: Lookup, is_name: Callable[[str], bool], odd: set[str]) -> Value:
    """Return what ``text`` comes to; unusual spellings of numbers are added to ``odd``.

    Raises :class:`BadNumber`, which says why there is no value.
    """
    reader = _Reader(text, tokens_of(text, is_name, odd), lookup)
    value = reader.expression(0)
    reader.expect("end", "")
    return value


class _Reader:
    """Reads one expression, evaluating as it goes."""

    def __init__(self, text: str, tokens: list[Token], lookup: Lookup) -> None:
        self._text = text
        self._tokens = tokens
        self._lookup = lookup
        self._at = 0

    def expect(self, kind: str, text: str) -> None:
        """Step over a token of ``kind`` with ``text`` (any when empty)."""
        token = self._tokens[self._at]
        if token.kind != kind or (text and token.text != text):
            found = shown(token.text) if token.text.strip() else "its end"
            wanted = f"{text!r} is missing before {found}" if text else f"{found} is too much"
            raise BadNumber(f"{shown(self._text)} is no expression: {wanted}")
        self._at += 1

    def expression(self, depth: int) -> Value:
        """Read a whole expression, conditional or not."""
        if depth > DEEPEST:
            raise BadNumber(f"an expression is nested more than {DEEPEST} deep")
        condition = self._binary(0, depth)
        if not self._take("?"):
            return condition
        one = self.expression(depth + 1)
        self.expect("operator", ":")
        other = self.expression(depth + 1)
        return one if is_true(condition) else other

    def _take(self, *operators: str) -> str:
        token = self._tokens[self._at]
        if token.kind == "operator" and token.text in operators:
            self._at += 1
            return token.text
        return ""

    def _binary(self, level: int, depth: int) -> Value:
        """Read operands joined by operators of ``level`` or higher ones."""
        left = self._unary(depth)
        while True:
            token = self._tokens[self._at]
            own = _PRECEDENCE.get(token.text, -1) if token.kind == "operator" else -1
            if own < level:
                return left
            self._at += 1
            left = binary(token.text, left, self._binary(own + 1, depth))

    def _unary(self, depth: int) -> Value:
        signs = []
        while operator := self._take(*_UNARY):
            signs.append(operator)
        value = self._postfix(self._primary(depth), depth)
        for operator in reversed(signs):
            value = unary(operator, value)
        return value

    def _postfix(self, value: Value, depth: int) -> Value:
        """Read ``[3]`` and ``[7:4]`` behind an operand."""
        while self._take("["):
            high = whole(self.expression(depth + 1))
            low = high
            if self._take(":"):
                low = whole(self.expression(depth + 1))
            self.expect("operator", "]")
            value = bits_of(value, high, low)
        return value

    def _primary(self, depth: int) -> Value:
        token = self._tokens[self._at]
        self._at += 1
        if token.value is not None:
            return token.value
        if token.kind == "name":
            return self._named(token.text)
        if token.kind == "call":
            self.expect("operator", "(")
            return call(token.text, self._list(")", depth))
        if token.text == "(":
            value = self.expression(depth + 1)
            self.expect("operator", ")")
            return value
        if token.text == "{":
            return self._concatenation(depth)
        self._at -= 1
        found = f"at {shown(token.text)}" if token.text.strip() else "at its end"
        raise BadNumber(
            f"{shown(self._text)} is no expression: a number or name is missing {found}"
        )

    def _named(self, name: str) -> Value:
        value = self._lookup(name)
        if value is None:
            value = _WORDS.get(name)
        if value is None:
            raise BadNumber(f"no parameter is called {shown(name)}")
        return known(value)

    def _list(self, end: str, depth: int) -> list[Value]:
        found: list[Value] = []
        if self._take(end):
            return found
        while True:
            found.append(self.expression(depth + 1))
            if self._take(end):
                return found
            self.expect("operator", ",")

    def _concatenation(self, depth: int) -> Value:
        first = self.expression(depth + 1)
        if self._take("{"):
            inner = concatenated(self._list("}", depth))
            self.expect("operator", "}")
            return repeated(whole(first), inner)
        rest = [] if self._take("}") else self._after_comma(depth)
        return concatenated([first, *rest])

    def _after_comma(self, depth: int) -> list[Value]:
        self.expect("operator", ",")
        return self._list("}", depth)
