"""Which register a name means by the words of its title: ``PORT_B_DIR``, "Port B direction".

Sources call registers as they like; a title tells what a register is. A wrong guess does more harm
than none: every word of the name must be in the title, most of the title in the name, letters and
numbers that stand alone in both, and no other register may fit as well.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from regwright.resolve.chip import ResolvedChip

#: The words of a name or a title: ``pumpBRate`` has pump, B, Rate; ``Timer 10`` has Timer, 10.
_WORD = re.compile(r"[A-Z]+(?=[A-Z][a-z])|[A-Z]?[a-z]+|[A-Z]+|[0-9]+")
#: Where the main part of a title ends: "Stack pointer, counted from the start of SRAM".
_END = re.compile(r"[,;:(]")


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


#: Words of titles that a name leaves out.
_SMALL = _words(
    "a an and are as at by each every for from has in into is it its no of on one or that the then "
    "this to was what when where which while with"
)
#: Words that registers of any purpose are called by; these alone mean none.
_ORDINARY = _words(
    "address bit bits buffer byte bytes clear command config configuration control count counter "
    "current data enable enabled error errors event events first flag flags half high index info "
    "input interrupt interrupts last level low mask mode next number output read ready receive "
    "register registers request reset result second select set setup size start state status stop "
    "transmit value values word write"
)
#: Last words of names that tell no more than that it is a register's, or that of its address.
_ENDINGS = {"reg": True, "register": False, "addr": True, "address": True, "ptr": True}
#: Names with more words than this mean no title.
_MOST_WORDS = 12
#: When more titles than this come into question, none is meant.
_MOST_TITLES = 64
#: A word of a name may be cut, but not to less than this.
_LEAST = 3


class Titled(NamedTuple):
    """Which of the chip's registers is meant, and whether the name is that of its address."""

    register: int
    is_address: bool


class _Title(NamedTuple):
    """A title in words; ``main`` are those that a name should have.

    ``register`` is -1 where several registers have the title.
    """

    register: int
    words: tuple[str, ...]
    main: frozenset[str]


class _Fit(NamedTuple):
    """How badly a name fits a title: its words that are missing, those that are cut."""

    missing: int
    cut: int
    register: int


class Titles:
    """The titles of a chip's registers, by their words."""

    def __init__(self, resolved: ResolvedChip) -> None:
        """Index the titles of ``resolved``."""
        first: dict[str, int] = {}
        for index, placed in enumerate(resolved.registers):
            title = placed.register.title
            if title:
                first[title] = -1 if title in first else index
        # the letters and numbers that stand alone, then the start of each other word
        self._titles: dict[tuple[str, ...], dict[str, list[_Title]]] = {}
        for text, register in first.items():
            words = _words_of_title(text)
            main = _words_of_title(_END.split(text, maxsplit=1)[0])
            group = self._titles.setdefault(_alone(words), {})
            for start in {word[:_LEAST] for word in words}:
                group.setdefault(start, []).append(
                    _Title(register, words, frozenset(main) - _SMALL)
                )

    def find(self, name: str) -> Titled | None:
        """Return the one register that ``name`` means by its title, if there is one."""
        words = [word.lower() for word in _WORD.findall(name)] if name.isascii() else []
        if not 2 <= len(words) <= _MOST_WORDS:
            return None
        register = self._best(words)
        if register is not None:
            return Titled(register, is_address=False)
        is_address = _ENDINGS.get(words[-1])
        register = self._best(words[:-1]) if is_address is not None else None
        return None if register is None else Titled(register, bool(is_address))

    def _best(self, words: list[str]) -> int | None:
        fits = {fit for reading in _readings(words) for fit in self._fits(reading)}
        if not fits:
            return None
        best = min(fits)
        others = [fit for fit in fits if fit.register != best.register]
        if best.missing:
            # what is missing may be all that tells it from the others
            is_clear = not others and 2 * best.missing <= len(words)
        else:
            is_clear = all(fit[:2] > best[:2] for fit in others)
        return best.register if is_clear and best.register >= 0 else None

    def _fits(self, words: list[str]) -> Iterator[_Fit]:
        """Yield how each title fits whose words ``words`` are."""
        group = self._titles.get(_alone(words))
        if group is None or len(words) < 2:
            return
        titles = min((group.get(word[:_LEAST], []) for word in words), key=len)
        for title in titles if len(titles) <= _MOST_TITLES else ():
            meant = _meant(words, title.words)
            if meant is None or all(len(word) < _LEAST or word in _ORDINARY for word in meant):
                continue
            missing = len(title.main.difference(meant))
            yield _Fit(missing, len(set(meant).difference(words)), title.register)


def _words_of_title(text: str) -> tuple[str, ...]:
    """Return the words of a title in small letters, without what is a letter but no name of one."""
    found = _WORD.findall(text) if text.isascii() else []
    if found[:1] == ["A"]:
        del found[0]
    return tuple(word.lower() for word in found if len(word) > 1 or not word.islower())


def _is_alone(word: str) -> bool:
    return len(word) == 1 or word.isdigit()


def _alone(words: list[str] | tuple[str, ...]) -> tuple[str, ...]:
    """Return the letters and the numbers among ``words``, which tell one register from another."""
    return tuple(sorted(word for word in words if _is_alone(word)))


def _readings(words: list[str]) -> Iterator[list[str]]:
    """Yield ``words`` as they are, and with the last letter of one as a word: ``VALVEB``."""
    yield words
    for at, word in enumerate(words):
        if len(word) > _LEAST and word.isalpha():
            yield [*words[:at], word[:-1], word[-1], *words[at + 1 :]]


def _meant(words: list[str], title: tuple[str, ...]) -> list[str] | None:
    """Return the word of ``title`` that each of ``words`` is or starts; none when one is missing.

    Long words choose first: what they can mean a shorter one that starts them can mean as well.
    """
    left = list(title)
    meant = []
    for word in sorted(words, key=len, reverse=True):
        is_whole = word in left or _is_alone(word) or len(word) < _LEAST
        found = word if is_whole else next((one for one in left if one.startswith(word)), "")
        if found not in left:
            return None
        left.remove(found)
        meant.append(found)
    return meant
