"""Read sources: from their bytes to all that was seen in them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import chain

from regwright.code import assembly
from regwright.code.declarations import Declarations, structures
from regwright.code.definitions import Definitions
from regwright.code.directives import directives
from regwright.code.evaluate import Evaluator
from regwright.code.grammar import Shapes, parse
from regwright.code.integers import DataModel
from regwright.code.interest import Telling
from regwright.code.layouts import Layouts
from regwright.code.passing import Lexed, Passing
from regwright.code.reach import Reach, known_in
from regwright.code.scope import Constant, Entry, Scope
from regwright.code.seen import Quiet, Seen, Unread, Where
from regwright.code.text import ASSEMBLER, CPP, C, CodeText
from regwright.code.unread import unread
from regwright.code.uses import File, Uses, Wanted
from regwright.code.valueless import valued
from regwright.code.vocabulary import Vocabulary
from regwright.code.worlds import Worlds

_QUIET = re.compile(rb"regwright:\s*silence\s+([a-z][a-z-]*+)\s*:?\s*((?:(?!\*/)[^\r\n])*+)")
_IS_CPP = re.compile(
    rb"^[ \t]*+(?:class|namespace|template|using)\b|\b(?:static|reinterpret)_cast<", re.MULTILINE
)
#: How much work there may be, as the scope counts it: at least, and for each byte that is read.
_WORK, _WORK_FOR_A_BYTE = 1_000_000, 12
_NO_WORK = "these sources are more work than code is: not all of it was looked at"
_NO_END = "this takes too long to understand: the code behind it was not looked at"
#: The conditionals of each file are numbered from a multiple of this.
_GROUPS = 1 << 20


def read_sources(texts: Sequence[CodeText], vocabulary: Vocabulary, model: DataModel) -> Seen:
    """Return what is seen in ``texts``, which are read as one program."""
    files = [_lexed(number, text) for number, text in enumerate(texts)]
    passing = Passing(files, vocabulary)
    while True:
        reader = _Reader(files, vocabulary, model, passing.known)
        wanted = (reader.wanted.telling, reader.wanted.known)
        if not passing.takes_back(wanted, reader.meaning, reader.constants()):
            return reader.read()


def _lexed(number: int, text: CodeText) -> Lexed:
    return Lexed(text, _language(text), directives(text.data, number * _GROUPS))


class _Reader:
    """Reads files as one program: first what they define, then what they do.

    What is ``wanted`` in what they do is known once everything is defined.
    """

    def __init__(
        self, files: list[Lexed], vocabulary: Vocabulary, model: DataModel, known: frozenset[bytes]
    ) -> None:
        """Define all that ``files`` do; ``known`` are their words that the chip gives a meaning."""
        self._vocabulary = vocabulary
        self._model = model
        work = _WORK + _WORK_FOR_A_BYTE * sum(len(item.text.data) for item in files)
        self.scope = Scope(vocabulary.header, work)
        define = Layouts(-1, self.scope, model).define
        languages = {C: Shapes(C, define), CPP: Shapes(CPP, define)}
        languages[ASSEMBLER] = languages[C]
        self._languages = [item.language for item in files]
        self._shapes = {number: languages[kind] for number, kind in enumerate(self._languages)}
        self._evaluator = Evaluator(self.scope, model, self._shapes)
        self._worlds = Worlds(self.scope)
        self._seen = Seen([], [], [], [], [], [], [], [])
        self._files = [self._open(number, item) for number, item in enumerate(files)]
        for file in self._files:
            self._define(file)
        for file in self._files:
            self._definitions(file)
        macros = chain.from_iterable(file.found.macros for file in self._files)
        self.meaning = valued(macros, self.constants(), self.scope)
        telling = Telling(self._files, self.scope, vocabulary.calls, self.meaning)
        self.wanted = Wanted.of(telling.names, self._known(known), vocabulary.calls, telling.tells)

    def read(self) -> Seen:
        """Return all that is seen."""
        for file in self._files:
            self._quiets(file)
            self._seen.unread.extend(unread(file))
        for file in self._files:
            shapes = self._shapes[file.number]
            uses = Uses(file, self._evaluator, shapes, self._worlds, self._seen)
            if file.root is None:
                uses.read_assembler()
            else:
                uses.read(self.wanted)
        if self.scope.work < 0:
            self._seen.unread.append(Unread(_NO_WORK, Where(0, 0, 0)))
        return self._seen

    def constants(self) -> Iterator[Constant]:
        """Yield every constant that the files define."""
        return chain.from_iterable(file.constants for file in self._files)

    def _known(self, known: frozenset[bytes]) -> Reach:
        """Return where a name means something on the chip, which ``known`` ones do anywhere.

        Constants do where they are known.
        """
        knows = self._vocabulary.knows_loosely
        reach = Reach(known)
        for item in self.constants():
            if knows(item.name):
                reach.add(item.name.encode(), known_in(item))
        return reach

    def _open(self, number: int, item: Lexed) -> File:
        text, found = item.text, item.found
        self._worlds.conditions.update(found.conditions)
        self.scope.elses.update(found.elses)
        for macro in found.macros:
            self.scope.macros.add(macro.name, number, Entry(number, macro))
        root = None
        if item.language != ASSEMBLER:
            size = found.end(text.data)
            root, end = parse(item.shown[:size], item.language)
            if end < size:
                found = found._replace(unclosed=[*found.unclosed, (end, end + 1, _NO_END)])
        return File(number, text, found, root, item.shown)

    def _define(self, file: File) -> None:
        if file.root is None:
            file.constants = assembly.equates(file.source, file.number, file.found)
            for item in file.constants:
                self.scope.constants.add(item.name, file.number, item)
            return
        nodes = structures(self._languages[file.number], file.root)
        taker = Declarations(file.number, file.source, file.found, self.scope)
        file.constants = taker.take(nodes)
        Layouts(file.number, self.scope, self._model).take(nodes.get("structure", []))

    def _definitions(self, file: File) -> None:
        shapes = self._shapes[file.number]
        size = len(file.source.data)
        maker = Definitions(file.number, self._evaluator, shapes, self._worlds)
        self._seen.definitions.extend(maker.make(file.found.macros, file.constants, size))

    def _quiets(self, file: File) -> None:
        data = file.source.data
        if b"regwright:" not in data:
            return
        for start, end in file.found.comments:
            match = _QUIET.search(data, start, end)
            if match is None:
                continue
            rule = match[1].decode("ascii")
            reason = match[2].decode("utf-8", "replace").strip().removesuffix("*/").strip()
            line = file.source.line(end - 1 if data[end - 1 : end] != b"\n" else end - 2)
            at = Where(file.number, *match.span(1))
            self._seen.quiets.append(Quiet(rule, reason, file.number, line, at))


def _language(text: CodeText) -> str:
    """Return the language to read a file in: a header that only C++ can be is that."""
    if text.language == C and text.name.endswith(".h") and _IS_CPP.search(text.data):
        return CPP
    return text.language
