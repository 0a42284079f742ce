"""Which places of sources use the chip's header, and which use numbers of their own."""

from __future__ import annotations

import re
from bisect import bisect_left
from functools import cached_property

from regwright.audit.subject import AuditSubject
from regwright.audit.usage import NAMED, Place, Usage
from regwright.code.directives import directives
from regwright.code.seen import Where
from regwright.code.text import CodeText
from regwright.code.words import WORD, is_name, names_in

#: How a place uses something that writes the number of it, for use elsewhere.
DEFINED = "defined"
_NUMBER = re.compile(rb"(?<!\w)\d")


class HandWritten:
    """Tells apart, in the sources of one audit, what comes from the header and what does not."""

    def __init__(self, subject: AuditSubject) -> None:
        """Look at the sources of ``subject``."""
        self._subject = subject
        self._found = [directives(text.data) for text in subject.files]
        self._bodies: dict[str, set[str]] = {}
        for found in self._found:
            for macro in found.macros:
                self._bodies.setdefault(macro.name, set()).update(names_in(macro.body))
        self._own = set(self._bodies) | {item.name for item in subject.seen.definitions}
        self._behind: dict[str, frozenset[str]] = {}
        self._written: dict[str, list[tuple[Where, str]]] = {}

    @cached_property
    def header_places(self) -> dict[str, tuple[Where, ...]]:
        """Where each name of the header stands that the sources do not define themselves."""
        wanted = {name.encode(): name for name in self._subject.header - self._own}
        found: dict[str, list[Where]] = {}
        for number, text in enumerate(self._subject.files):
            for start, end, word in self._words(number, text):
                name = wanted.get(word)
                if name is not None:
                    found.setdefault(name, []).append(Where(number, start, end))
        return {name: tuple(places) for name, places in found.items()}

    def places_of(self, name: str) -> tuple[Where, ...]:
        """Return where a name stands in the sources, in a definition of it too."""
        return tuple(
            Where(number, start, end)
            for number, text in enumerate(self._subject.files)
            if name.encode() in text.data
            for start, end, word in self._words(number, text)
            if word == name.encode()
        )

    def _words(self, number: int, text: CodeText) -> list[tuple[int, int, bytes]]:
        """Return the identifiers of one source, those in comments left out."""
        comments = self._found[number].comments
        found = []
        following = 0
        for match in WORD.finditer(text.data):
            if not is_name(match[0]):
                continue
            start = match.start()
            while following < len(comments) and comments[following][1] <= start:
                following += 1
            if following == len(comments) or start < comments[following][0]:
                found.append((start, match.end(), match[0]))
        return found

    def names_behind(self, name: str) -> frozenset[str]:
        """Return the names of the header that a name of the sources leads to."""
        known = self._behind.get(name)
        if known is not None:
            return known
        reached: set[str] = set()
        passed = {name}
        waiting = [name]
        while waiting:
            for word in self._bodies.get(waiting.pop(), ()):
                if word in passed:
                    continue
                passed.add(word)
                if word in self._subject.header and word not in self._own:
                    reached.add(word)
                else:
                    waiting.append(word)
        self._behind[name] = frozenset(reached)
        return self._behind[name]

    def is_of_header(self, place: Place) -> bool:
        """Tell whether a place reaches what it uses through the header."""
        words = self._subject.names_in(place.at) if not place.name else (place.name,)
        header = self._subject.header - self._own
        return any(
            word in header or self.names_behind(word) for word in names_of(words, place.name)
        )

    def _is_by_header(self, usage: Usage, place: Place) -> bool:
        """Tell whether a place has its numbers from the header; bits without a name are numbers."""
        if usage.field is not None and not place.name:
            return False
        return self.is_of_header(place)

    def of_space(self, places: tuple[Place, ...], space: str) -> tuple[Place, ...]:
        """Return those of ``places`` that use an address of ``space``: an instruction's, or C's."""
        return tuple(
            item for item in places if self._spaces.get(item.at, self._subject.space) == space
        )

    def by_bit(self, places: tuple[Place, ...]) -> bool:
        """Tell whether any of ``places`` is an operand of an instruction for a single bit."""
        return any(item.at in self._by_bit for item in places)

    @cached_property
    def _by_bit(self) -> set[Where]:
        return {
            operand.at
            for use in self._subject.uses
            if use.described.bit is not None
            for operand in use.instruction.operands
        }

    @cached_property
    def _spaces(self) -> dict[Where, str]:
        """The space of each operand of an instruction that is an address."""
        return {
            use.instruction.operands[use.described.address - 1].at: use.described.space
            for use in self._subject.uses
            if use.described.address <= len(use.instruction.operands)
        }

    def with_numbers(self, usage: Usage, places: tuple[Place, ...]) -> tuple[Place, ...]:
        """Return ``places`` behind the definitions in which the sources write their numbers.

        Bits without a name are written at the place itself.
        """
        found: dict[Place, None] = {}
        for place in places:
            if usage.field is not None and not place.name:
                continue
            words = names_of(self._subject.names_in(place.at), place.name)
            for word in words:
                for at, name in self._numbers(word):
                    found.setdefault(Place(at, DEFINED, name))
        return *sorted(found), *places

    def _numbers(self, name: str) -> list[tuple[Where, str]]:
        """Return where the numbers of a name of the sources are written."""
        known = self._written.get(name)
        if known is None:
            passed = dict.fromkeys([name])
            waiting = [name]
            while waiting:
                for word in self._bodies.get(waiting.pop(), ()):
                    if word not in passed:
                        passed[word] = None
                        waiting.append(word)
            known = [(at, word) for word in passed for at in self._definitions.get(word, ())]
            self._written[name] = known
        return known

    @cached_property
    def _definitions(self) -> dict[str, dict[Where, None]]:
        """The definitions of the sources that have a number in them, by name."""
        found: dict[str, dict[Where, None]] = {}
        for number, text in enumerate(self._found):
            for macro in text.macros:
                if _NUMBER.search(macro.body):
                    end = macro.name_start + len(macro.name)
                    found.setdefault(macro.name, {})[Where(number, macro.name_start, end)] = None
        for item in self._subject.seen.definitions:
            if item.form != "macro" and _NUMBER.search(self._subject.text(item.body).encode()):
                found.setdefault(item.name, {})[item.name_at] = None
        return found

    def split(self, usage: Usage) -> tuple[tuple[Place, ...], tuple[Place, ...]]:
        """Return the places that use the header, and those that use numbers of their own.

        A bare name that is neither read nor written is the work of the name alone.
        """
        by_header = tuple(item for item in usage.places if self._is_by_header(usage, item))
        if usage.field is not None:
            by_header = self._with_unnamed(usage, by_header)
        by_hand = tuple(
            item for item in usage.places if item not in by_header and item.how != NAMED
        )
        return by_header, by_hand

    def _with_unnamed(self, usage: Usage, named: tuple[Place, ...]) -> tuple[Place, ...]:
        """Return ``named`` with those without a name whose bits the header's macros place.

        Those macros stand further on in the same statement.
        """
        starts = [item.at[:2] for item in named if item.name.endswith(("_INSERT", "_EXTRACT"))]

        def is_named(place: Place) -> bool:
            following = bisect_left(starts, place.at[:2])
            if following == len(starts) or starts[following][0] != place.at.file:
                return False
            end = starts[following][1]
            return self._subject.files[place.at.file].data.find(b";", place.at.end, end) < 0

        found = set(named)
        return tuple(
            item for item in usage.places if item in found or (not item.name and is_named(item))
        )


def names_of(words: tuple[str, ...], name: str) -> tuple[str, ...]:
    """Return the identifiers in ``words``; a name may be a way through a structure."""
    return names_in(name.encode()) if name else words
