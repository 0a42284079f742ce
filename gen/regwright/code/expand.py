"""Expand macros in a piece of text, as the preprocessor would, and keep where each byte came from.

ISO C11 6.10.3; each piece of text knows the names that must not be expanded in it again. What grows
beyond all that a constant may need is not looked at.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from regwright.code.calls import Bound, Call, CallReader, bound
from regwright.code.directives import blanked
from regwright.code.pieces import LARGEST, Chunk, Piece, Spot, TooLarge
from regwright.code.replacement import replacement
from regwright.code.scope import HEADER, Entry, HeaderMacro, Scope
from regwright.code.words import WORD, is_name, names_in

#: Macros within macros, and how many are replaced for one piece of text.
DEEPEST = 24
MOST = 2_000

#: The work that each of them is, beside the bytes gone through.
_STEP = 10
#: Two bytes that might be read as one token, or begin a comment, if they stood together.
_JOINING = re.compile(rb"[+\-*/%&|^<>=!:#.]{2}|[\w'\"][\w.'\"]|\.\w")


class Expander:
    """Expands texts with the macros of one scope."""

    def __init__(self, scope: Scope) -> None:
        """Look names up in ``scope``."""
        self.scope = scope
        self._left = MOST
        self._settled = Settled(scope, self.expanded)

    def expand(self, text: bytes, spot: Spot, start: int) -> list[Chunk]:
        """Return ``text``, which stands at ``start`` of the spot's file, expanded.

        Raises :class:`TooLarge`.
        """
        self._left = MOST
        if b"/" in text or b"\\" in text:
            text = blanked(text)
        piece = Piece(Chunk(text, spot.file, start, start, stands=True), frozenset(), spot)
        try:
            return self.expanded(piece)
        except TooLarge:
            self.scope.work -= LARGEST  # so much may have been done for nothing
            raise

    def expanded(self, piece: Piece) -> list[Chunk]:
        """Return ``piece`` expanded. Raises :class:`TooLarge`."""
        made = [item.chunk for item in self._expanded([piece], 0)]
        return made if len(made) == 1 else _apart(made)

    def _spend(self, number: int) -> None:
        self.scope.work -= number
        if self.scope.work < 0:
            raise TooLarge

    def _expanded(self, pieces: list[Piece], depth: int) -> list[Piece]:
        if depth > DEEPEST:
            raise TooLarge
        waiting = pieces[::-1]
        made: list[Piece] = []
        size = 0
        while waiting:
            piece = waiting.pop()
            end = len(piece.text)
            if not piece.is_settled:
                end = self._replace_first(piece, waiting, depth)
            self._spend(end)
            if end:
                made.append(piece if end == len(piece.text) else piece.part(0, end))
                size += end
                if size > LARGEST:
                    raise TooLarge
        return made

    def _replace_first(self, piece: Piece, waiting: list[Piece], depth: int) -> int:
        """Replace the first macro in ``piece``, and return how much of the text is before it.

        What it stands for, and what is behind it, goes in front of the pieces ``waiting``.
        """
        text = piece.text
        for match in WORD.finditer(text):
            if not is_name(match[0]):
                continue
            name = match[0].decode("ascii", "replace")
            found = None if name in piece.hidden else self.scope.macro(name, *piece.spot)
            if found is None:
                continue
            chunk = piece.chunk
            site = chunk.start + match.start() if chunk.stands else chunk.site
            if isinstance(found, HeaderMacro) and (known := self._settled.text(name)) is not None:
                self._spend(_STEP)
                if match.end() < len(text):
                    waiting.append(piece.part(match.end(), len(text)))
                made = Chunk(known, HEADER, 0, site)
                waiting.append(Piece(made, frozenset(), piece.spot, is_settled=True))
                return match.start()
            used = self._used(found, piece, match.end(), waiting, site)
            if used is None:
                continue
            call, given = used
            body = _body(found, piece, call.rest.hidden, name, site)
            is_call = given is not None
            inner = self._replaced(body, given or Bound({}), depth, is_call=is_call)
            del waiting[len(waiting) - call.taken :]
            if call.rest.text:
                waiting.append(call.rest)
            waiting += reversed(inner)
            return match.start()
        return len(text)

    def _used(
        self, found: Entry | HeaderMacro, piece: Piece, end: int, waiting: list[Piece], site: int
    ) -> tuple[Call, Bound | None] | None:
        """Return the call of a macro whose name ends at ``end``, if the macro is used there.

        One without parameters needs no arguments.
        """
        macro = found if isinstance(found, HeaderMacro) else found.macro
        if macro.parameters is None:
            return Call([], 0, piece.part(end, len(piece.text))), None
        reader = CallReader(piece, end, waiting)
        call = reader.read()
        self._spend(reader.gone)
        given = bound(macro.parameters, call.arguments, site) if call else None
        if call is None or given is None:
            self._left -= reader.gone // 64
            return None
        return call, given

    def _replaced(self, body: Piece, given: Bound, depth: int, *, is_call: bool) -> list[Piece]:
        self._left -= 1
        self._spend(_STEP)
        if self._left < 0 or len(body.hidden) > DEEPEST or len(body.text) > LARGEST:
            raise TooLarge
        if not given.arguments and b"#" not in body.text:
            return [body]
        return replacement(
            body, given, lambda pieces: self._expanded(pieces, depth + 1), is_call=is_call
        )


class Settled:
    """What those macros of the header stand for that mean the same at every place.

    They have no parameters, and no name in them is one that the sources give another meaning.
    """

    def __init__(self, scope: Scope, expanded: Callable[[Piece], list[Chunk]]) -> None:
        """Look names up in ``scope``, which is complete; ``expanded`` expands with it."""
        self._scope = scope
        self._expanded = expanded
        self._known: dict[str, bytes | None] = {}

    def text(self, name: str) -> bytes | None:
        """Return what the header's macro ``name`` is expanded to, if that is settled."""
        if name not in self._known:
            self._known[name] = None  # while it is looked at, for one that needs itself
            self._known[name] = self._made(name)
        return self._known[name]

    def _made(self, name: str) -> bytes | None:
        macro = self._scope.header[name]
        if macro.parameters is not None or not self._is_own(macro.body, {name}):
            return None
        piece = Piece(Chunk(macro.body, HEADER, 0, 0), frozenset({name}), Spot(HEADER, (), 0))
        try:
            made = self._expanded(piece)
        except TooLarge:
            return None
        text = b"".join(item.text for item in made)
        is_done = not any(word in self._scope.header for word in names_in(text))
        return text if is_done else None

    def _is_own(self, body: bytes, around: set[str]) -> bool:
        """Tell whether the sources define no name in ``body``, nor in what those stand for."""
        for word in names_in(body):
            if word in self._scope.macros or word in self._scope.constants or word in around:
                return False
            macro = self._scope.header.get(word)
            if macro is not None and not self._is_own(macro.body, {*around, word}):
                return False
        return True


def _body(
    found: Entry | HeaderMacro, piece: Piece, hidden: frozenset[str], name: str, site: int
) -> Piece:
    """Return the body of the macro ``name`` in ``piece``, and from where its names are looked up.

    ``hidden`` are the names that are not expanded where the use of the macro ends.
    """
    hidden = (piece.hidden & hidden) | {name}
    spot = piece.spot
    if isinstance(found, HeaderMacro):
        return Piece(Chunk(found.body, HEADER, 0, site), hidden, spot)
    macro = found.macro
    chunk = Chunk(macro.body, found.file, macro.body_start, site)
    if found.file == spot.file:
        arms = spot.arms if macro.arms == spot.arms else (*spot.arms, *macro.arms)
        return Piece(chunk, hidden, spot._replace(arms=arms))
    return Piece(chunk, hidden, Spot(found.file, macro.arms, 1 << 62))


def _apart(chunks: list[Chunk]) -> list[Chunk]:
    """Return ``chunks`` with a blank where two tokens might become one."""
    made: list[Chunk] = []
    for item in chunks:
        if made and _JOINING.match(made[-1].text[-1:] + item.text[:1]):
            made.append(Chunk(b" ", HEADER, 0, item.site))
        made.append(item)
    return made
