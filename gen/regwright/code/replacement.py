"""What the body of a macro becomes: parameters replaced, ``#`` and ``##`` done (6.10.3.1 to 3)."""

from __future__ import annotations

import re
from collections.abc import Callable

from regwright.code.calls import Bound
from regwright.code.pieces import LARGEST, Chunk, Piece, TooLarge
from regwright.code.scope import HEADER
from regwright.code.words import WORD

_IN_BODY = re.compile(rb"##|#|" + WORD.pattern)
_TOKEN = re.compile(
    rb"\"(?:\\.|[^\"\\])*+\"?|'(?:\\.|[^'\\])*+'?|\.?\d(?:[eEpP][+-]|[\w.])*+|\w++"
    rb"|<<=|>>=|\.\.\.|->|\+\+|--|<<|>>|&&|\|\||##|[-+*/%&|^<>=!]=|\S",
    re.DOTALL,
)
_PASTED = re.compile(rb"\s*+##")
_NAME = re.compile(rb"\s*+([A-Za-z_]\w*+)")
_IN_STRING = re.compile(rb"(\"(?:\\.|[^\"\\])*+\"?|'(?:\\.|[^'\\])*+'?)|\s++", re.DOTALL)
_ESCAPED = re.compile(rb"[\"\\]")


def replacement(
    body: Piece, given: Bound, expanded: Callable[[list[Piece]], list[Piece]], *, is_call: bool
) -> list[Piece]:
    """Return ``body`` with the arguments ``given``; ``expanded`` expands those that want it.

    Without a list of parameters (``is_call``) a single ``#`` means nothing. Raises
    :class:`TooLarge`.
    """
    return _Replacement(body, given, expanded).made(is_call=is_call)


class _Replacement:
    """Collects parts of a body; each may be glued to the one before it by ``##``."""

    def __init__(
        self, body: Piece, given: Bound, expanded: Callable[[list[Piece]], list[Piece]]
    ) -> None:
        self._body = body
        self._given = given
        self._expanded = expanded
        self._known: dict[str, list[Piece]] = {}
        self._size = 0
        self._parts: list[list[Piece]] = []
        self._glued: list[bool] = []
        self._glues = False

    def made(self, *, is_call: bool) -> list[Piece]:
        """Return the body with everything done."""
        text = self._body.text
        done = 0
        for match in _IN_BODY.finditer(text):
            start, end = match.span()
            if start < done:
                continue
            if match[0] == b"##":
                self._add_text(done, start, is_glued=True)
                self._glues = bool(self._parts)
                done = end
            elif match[0] == b"#":
                named = _NAME.match(text, end) if is_call else None
                argument = self._argument(named[1]) if named else None
                if named and argument is not None:
                    self._add_text(done, start)
                    self._add(self._string(named[1], argument))
                    done = named.end()
            elif (argument := self._argument(match[0])) is not None:
                self._add_text(done, start)
                self._add_argument(match[0].decode("ascii"), argument, end)
                done = end
        self._add_text(done, len(text))
        return self._joined()

    def _argument(self, name: bytes) -> list[Piece] | None:
        return self._given.arguments.get(name.decode("ascii", "replace"))

    def _new(self, text: bytes) -> Piece:
        chunk = Chunk(text, HEADER, 0, self._body.chunk.site)
        return Piece(chunk, self._body.hidden, self._body.spot)

    def _add(self, pieces: list[Piece]) -> None:
        self._size += sum(len(piece.text) for piece in pieces)
        if self._size > LARGEST:
            raise TooLarge
        self._parts.append(pieces)
        self._glued.append(self._glues)
        self._glues = False

    def _add_text(self, start: int, end: int, *, is_glued: bool = False) -> None:
        """Add a part of the body itself; blanks beside a ``##`` do not count."""
        piece = self._body.part(start, end)
        if piece.text and (piece.text.strip() or not (is_glued or self._glues)):
            self._add([piece])

    def _add_argument(self, name: str, argument: list[Piece], end: int) -> None:
        if self._glues and name == self._given.variable and self._drops_comma(argument):
            self._glues = False
        elif self._glues or _PASTED.match(self._body.text, end):
            self._add(argument)
            return
        if name not in self._known:
            self._known[name] = self._expanded(argument)
        self._add(self._known[name])

    def _string(self, name: bytes, argument: list[Piece]) -> list[Piece]:
        """Return the string that ``#`` makes of an argument."""
        key = f"#{name.decode('ascii')}"
        if key not in self._known:
            text = b"".join(piece.text for piece in argument)
            self._known[key] = [self._new(b'"%s"' % _IN_STRING.sub(_in_string, text))]
        return self._known[key]

    def _drops_comma(self, argument: list[Piece]) -> bool:
        """Tell whether a comma is before ``## __VA_ARGS__``; drop it when that has nothing."""
        last = self._parts[-1]
        if not last or last[-1].chunk.file == HEADER or not last[-1].text.rstrip().endswith(b","):
            return False
        if not argument:
            text = last[-1].text.rstrip()
            last[-1] = last[-1].part(0, len(text) - 1)
        return True

    def _joined(self) -> list[Piece]:
        hidden = self._body.hidden
        made: list[Piece] = []
        left: list[Piece] = []
        for pieces, is_glued in zip(self._parts, self._glued, strict=True):
            part = [piece._replace(hidden=piece.hidden | hidden) for piece in pieces]
            if is_glued:
                left = self._pasted(left, part)
            else:
                made += left
                left = part
        return made + left

    def _pasted(self, left: list[Piece], right: list[Piece]) -> list[Piece]:
        """Return both with the last token of ``left`` and the first of ``right`` joined."""
        while left and not left[-1].text.strip():
            left = left[:-1]
        if not left or not right:
            return left or right
        last, first = left[-1], right[0]
        ends = [match.span() for match in _TOKEN.finditer(last.text)]
        begins = _TOKEN.search(first.text)
        if not ends or begins is None:
            return left + right
        start, end = ends[-1]
        token = self._new(last.text[start:end] + begins[0])
        joined = token._replace(hidden=last.hidden & first.hidden)
        rest = first.part(begins.end(), len(first.text))
        made = [*left[:-1], last.part(0, start), joined, rest, *right[1:]]
        return [piece for piece in made if piece.text]


def _in_string(match: re.Match[bytes]) -> bytes:
    """Return a literal within a string, or the one blank that blanks become."""
    return _ESCAPED.sub(rb"\\\g<0>", match[1]) if match[1] else b" "
