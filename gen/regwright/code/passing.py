"""Which bodies of functions are passed over, because nothing in them can be of interest.

The first guess is made by the names of the chip alone. What the sources define shows whether it was
right: a body with a name that counts after all is read, too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass
from typing import NamedTuple

from regwright.code.bodies import Body, bodies, without
from regwright.code.directives import Directives
from regwright.code.interest import telling_macros
from regwright.code.plain import Plain, plain
from regwright.code.reach import Reach, Span, known_in
from regwright.code.scope import Constant
from regwright.code.text import ASSEMBLER, CodeText
from regwright.code.vocabulary import Vocabulary
from regwright.code.words import words_in


@dataclass
class Lexed:
    """A source, its language, and what the lexical look at it found.

    ``shown`` is its text with empty comments for what is passed over.
    """

    text: CodeText
    language: str
    found: Directives
    shown: bytes = b""


class _Passed(NamedTuple):
    """A body that is passed over, and what it declares."""

    body: Body
    plain: Plain


class Passing:
    """Passes over bodies of functions; takes that back where it turns out to be wrong.

    ``known`` are the words of all files that mean something on the chip, and their macros that do
    where the sources define them.
    """

    def __init__(self, files: list[Lexed], vocabulary: Vocabulary) -> None:
        """Choose bodies in ``files`` that have no name of the chip in them."""
        self._files = files
        self._vocabulary = vocabulary
        found = [bodies(item.text.data) if item.language != ASSEMBLER else [] for item in files]
        macros = [macro for item in files for macro in item.found.macros]
        loosely = {macro.name for macro in macros if vocabulary.knows_loosely(macro.name)}
        self.known = self._known(found).union(name.encode() for name in loosely)
        names = self.known | telling_macros(
            macros, {*vocabulary.header, *vocabulary.calls, *loosely}
        )
        self._passed = [
            list(self._passed_over(item, inside, names))
            for item, inside in zip(files, found, strict=True)
        ]
        self._is_second = False
        self._show()

    def _known(self, found: list[list[Body]]) -> frozenset[bytes]:
        words: set[bytes] = set()
        for item, inside in zip(self._files, found, strict=True):
            words.update(
                words_in(without(item.text.data, inside)), *(body.words for body in inside)
            )
        knows = self._vocabulary.knows
        return frozenset(
            word for word in words if not word[:1].isdigit() and knows(word.decode("ascii"))
        )

    def _passed_over(self, item: Lexed, inside: list[Body], names: Set[bytes]) -> Iterator[_Passed]:
        knows = self._vocabulary.knows_loosely
        for body in inside:
            if body.words.isdisjoint(names):
                found = plain(item.text.data[body.start : body.end], body.words, item.language)
                if found and not any(knows(name.decode("ascii")) for name in found.declares):
                    yield _Passed(body, found)

    def _show(self) -> None:
        for item, passed in zip(self._files, self._passed, strict=True):
            item.shown = without(item.text.data, (body for body, _ in passed))

    def takes_back(
        self, wanted: Sequence[Reach], meaning: Reach, constants: Iterable[Constant]
    ) -> bool:
        """Tell whether something that was passed over has to be read after all.

        The names that are ``wanted`` count; ``meaning`` tells where one stands for something, and
        ``constants`` are all that there are.
        """
        is_set = Reach()
        for constant in constants:
            if not constant.is_nothing and _may_be_set(constant):
                is_set.add(constant.name.encode(), known_in(constant))
        reaches = [(reach, reach.names()) for reach in (*wanted, is_set)]

        def is_met(item: _Passed, file: int) -> bool:
            where = Span(file, item.body.start, item.body.end)
            return meaning.has_one_of(item.plain.leads, where) or any(
                reach.has_one_of(every & item.body.words, where) for reach, every in reaches
            )

        left = [
            [item for item in passed if not is_met(item, number)]
            for number, passed in enumerate(self._passed)
        ]
        if left == self._passed:
            return False
        # What is read for the second time may lead to more, and that to more again: enough.
        self._passed = [[] for _ in left] if self._is_second else left
        self._is_second = True
        self._show()
        return True


def _may_be_set(item: Constant) -> bool:
    """Tell whether it makes a difference that a constant is set to something else somewhere."""
    is_fixed = item.form != "pointer" and (item.type is None or item.type.const)
    return not (is_fixed or item.loose)
