"""Which texts mean the same wherever they stand: those in which no name is one of the sources."""

from __future__ import annotations

import re

from regwright.code.scope import Scope
from regwright.code.words import IDENTIFIER, names_in

#: What hides a name from a search for identifiers, and structures, which are known by their place.
_HIDING = re.compile(rb"[\\{$\x80-\xff]")
#: Longer texts are hardly ever there twice.
_LONGEST = 400


class Anywhere:
    """Tells of texts whether all names in them mean the same at every place of the sources."""

    def __init__(self, scope: Scope) -> None:
        """Look names up in ``scope``, which has all that the sources define when it is asked."""
        self._scope = scope
        self._known: dict[bytes, bool] = {}

    def is_same(self, text: bytes) -> bool:
        """Tell whether ``text`` means the same in every file, arm of ``#if`` and block."""
        if len(text) > _LONGEST or _HIDING.search(text) is not None:
            return False
        known = self._known
        for word in IDENTIFIER.findall(text):
            found = known.get(word)
            if found is None:
                found = known[word] = self._is_foreign(word.decode("ascii"), set())
            if not found:
                return False
        return True

    def _is_foreign(self, word: str, around: set[str]) -> bool:
        """Tell whether the sources define neither ``word`` nor a name that it stands for."""
        if word in self._scope.macros or word in self._scope.constants:
            return False
        macro = self._scope.header.get(word)
        if macro is None or word in around:
            return True
        if b"##" in macro.body:
            return False
        inner = {*around, word}
        return all(self._is_foreign(name, inner) for name in names_in(macro.body))
