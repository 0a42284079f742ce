"""The calls of macros: where their arguments are, and which parameter each of them is.

ISO C11 6.10.3, paragraphs 4 and 10 to 12; that the last, variable argument may be left out, and
that it may have a name, is GNU's.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.code.pieces import Chunk, Piece, Spot, stripped
from regwright.code.scope import HEADER

_ARGUMENT = re.compile(rb"\"(?:\\.|[^\"\\])*+\"?|'(?:\\.|[^'\\])*+'?|[(),]", re.DOTALL)
_BLANK = re.compile(rb"\s*+")


class Call(NamedTuple):
    """A call's arguments, how many of the pieces waiting it takes, and what is left of the last.

    Each argument is in the pieces that it stands in, with the blanks around it.
    """

    arguments: list[list[Piece]]
    taken: int
    rest: Piece


class Bound(NamedTuple):
    """The argument that each parameter is; ``variable`` is the parameter for all that follow."""

    arguments: dict[str, list[Piece]]
    variable: str = ""


class CallReader:
    """Reads a call that may go on from one piece of text into those behind it."""

    def __init__(self, piece: Piece, position: int, waiting: list[Piece]) -> None:
        """Expect it at ``position`` of ``piece``, before ``waiting``, of which the last is next."""
        self._piece = piece
        self._position = position
        self._waiting = waiting
        self._taken = 0
        #: How many bytes have been gone through.
        self.gone = 0

    def read(self) -> Call | None:
        """Return the call, if there is one."""
        if not self._opens():
            return None
        found: list[list[Piece]] = [[]]
        depth = 0
        while True:
            text, first = self._piece.text, self._position
            self.gone += len(text) - first
            for match in _ARGUMENT.finditer(text, first):
                sign = match[0]
                if sign == b"(" or (sign == b")" and depth):
                    depth += 1 if sign == b"(" else -1
                elif sign == b")" or (sign == b"," and not depth):
                    found[-1].append(self._piece.part(first, match.start()))
                    first = match.end()
                    if sign == b")":
                        rest = self._piece.part(first, len(text))
                        return Call(found, self._taken, rest)
                    found.append([])
            found[-1].append(self._piece.part(first, len(text)))
            if not self._next():
                return None

    def _opens(self) -> bool:
        """Go behind the ``(`` that comes next, if one does."""
        while True:
            text = self._piece.text
            blank = _BLANK.match(text, self._position)
            self._position = blank.end() if blank else self._position
            if self._position < len(text):
                self._position += 1
                return text[self._position - 1 : self._position] == b"("
            if not self._next():
                return False

    def _next(self) -> bool:
        if self._taken == len(self._waiting):
            return False
        self._taken += 1
        self._piece = self._waiting[-self._taken]
        self._position = 0
        return True


def bound(parameters: tuple[str, ...], arguments: list[list[Piece]], site: int) -> Bound | None:
    """Return which argument each parameter is, or ``None`` when they do not fit.

    ``site`` is for the commas between those that one variable parameter is.
    """
    if not parameters:
        return Bound({}) if len(arguments) == 1 and not stripped(arguments[0]) else None
    if not parameters[-1].endswith("..."):
        if len(parameters) != len(arguments):
            return None
        return Bound(dict(zip(parameters, map(stripped, arguments), strict=True)))
    fixed = len(parameters) - 1
    if len(arguments) < fixed:
        return None
    given = dict(zip(parameters[:fixed], map(stripped, arguments), strict=False))
    last = parameters[-1].removesuffix("...").strip() or "__VA_ARGS__"
    comma = Piece(Chunk(b",", HEADER, 0, site), frozenset(), Spot(HEADER, (), 0))
    rest: list[Piece] = []
    for number, argument in enumerate(arguments[fixed:]):
        rest += [comma, *argument] if number else argument
    given[last] = stripped(rest)
    return Bound(given, last)
