"""From where on a text means the same: no name in it is one of the sources, or all are macros.

A text with none of the names that the sources define means the same everywhere. One whose names are
macros of its own file does so behind the last of their definitions, in the same arms of ``#if``.
"""

from __future__ import annotations

import re

from regwright.code.scope import Scope
from regwright.code.words import IDENTIFIER

EVERYWHERE = -1
#: What hides a name from a search for identifiers, and structures, which are known by their place.
_HIDING = re.compile(rb"[\\{$\x80-\xff]")
#: Longer texts are hardly ever there twice; what leads to more names is not followed.
_LONGEST = 400
_MOST_NAMES = 24


class Anywhere:
    """Tells of texts from where on all names in them mean the same."""

    def __init__(self, scope: Scope) -> None:
        """Look names up in ``scope``, which has all that the sources define when it is asked."""
        self._scope = scope
        self._known: dict[tuple[int, bytes], int | None] = {}

    def is_same(self, text: bytes, file: int) -> bool:
        """Tell whether ``text`` means the same in every file, arm of ``#if`` and block."""
        return self.since(text, file) == EVERYWHERE

    def since(self, text: bytes, file: int) -> int | None:
        """Return from which byte of ``file`` on ``text`` means the same in the same arms.

        :data:`EVERYWHERE` where it does in every arm of every file; ``None`` where that is not
        known.
        """
        if len(text) > _LONGEST or _HIDING.search(text) is not None:
            return None
        latest = EVERYWHERE
        for word in IDENTIFIER.findall(text):
            key = file, word
            if key not in self._known:
                self._known[key] = self._since(word.decode("ascii"), file)
            found = self._known[key]
            if found is None:
                return None
            latest = max(latest, found)
        return latest

    def _since(self, word: str, file: int) -> int | None:
        """Return from where on ``word`` and all names that it leads to mean the same."""
        latest = EVERYWHERE
        for led in self._scope.led_to((word,)):
            if led.met > _MOST_NAMES or led.constants:
                return None
            if any(b"##" in value or len(value) > _LONGEST for value in led.values):
                return None
            for macro in led.macros:
                if macro.file != file:
                    return None
                latest = max(latest, macro.start)
        return latest
