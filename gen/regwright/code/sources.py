"""Read sources: from their bytes to all that was seen in them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from regwright.code import assembly
from regwright.code.declarations import Declarations, structures
from regwright.code.definitions import Definitions
from regwright.code.directives import directives
from regwright.code.evaluate import Evaluator
from regwright.code.grammar import Shapes, parse
from regwright.code.integers import DataModel
from regwright.code.interest import Telling
from regwright.code.layouts import Layouts
from regwright.code.scope import Entry, HeaderMacro, Scope
from regwright.code.seen import Quiet, Seen, Unread, Where
from regwright.code.text import ASSEMBLER, CPP, C, CodeText
from regwright.code.unread import unread
from regwright.code.uses import File, Uses
from regwright.code.words import IDENTIFIER
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


@dataclass(frozen=True)
class Vocabulary:
    """What is known beside the sources: the macros of the chip's header, and which names count.

    ``knows`` tells whether a name means something on the chip, wherever it stands;
    ``knows_loosely`` whether it does where the sources define it. ``calls`` are the functions whose
    calls stand for instructions.
    """

    header: Mapping[str, HeaderMacro]
    knows: Callable[[str], bool]
    calls: frozenset[str] = frozenset()
    knows_loosely: Callable[[str], bool] = lambda _: False


def read_sources(files: Sequence[CodeText], vocabulary: Vocabulary, model: DataModel) -> Seen:
    """Return what is seen in ``files``, which are read as one program."""
    return _Reader(files, vocabulary, model).read()


class _Reader:
    def __init__(self, files: Sequence[CodeText], vocabulary: Vocabulary, model: DataModel) -> None:
        self._texts = files
        self._vocabulary = vocabulary
        self._model = model
        work = _WORK + _WORK_FOR_A_BYTE * sum(len(item.data) for item in files)
        self._scope = Scope(vocabulary.header, work)
        define = Layouts(-1, self._scope, model).define
        languages = {C: Shapes(C, define), CPP: Shapes(CPP, define)}
        languages[ASSEMBLER] = languages[C]
        self._languages = [_language(item) for item in files]
        self._shapes = {number: languages[kind] for number, kind in enumerate(self._languages)}
        self._evaluator = Evaluator(self._scope, model, self._shapes)
        self._worlds = Worlds(self._scope)
        self._seen = Seen([], [], [], [], [], [], [], [])

    def read(self) -> Seen:
        """Read every file: first what they define, then what they do."""
        files = [self._open(number, text) for number, text in enumerate(self._texts)]
        for file in files:
            self._define(file)
        for file in files:
            self._definitions(file)
            self._quiets(file)
            self._seen.unread.extend(unread(file))
        calls = self._vocabulary.calls
        telling = Telling(files, self._scope, calls)
        names = telling.names | self._known(files)
        for file in files:
            shapes = self._shapes[file.number]
            uses = Uses(file, self._evaluator, shapes, self._worlds, self._seen)
            if file.root is None:
                uses.read_assembler()
            else:
                uses.read(names, calls, telling.tells)
        if self._scope.work < 0:
            self._seen.unread.append(Unread(_NO_WORK, Where(0, 0, 0)))
        return self._seen

    def _known(self, files: list[File]) -> frozenset[bytes]:
        """Return the words of the sources that mean something on the chip."""
        words = {word for file in files for word in set(IDENTIFIER.findall(file.source.data))}
        return frozenset(word for word in words if self._is_known(word.decode("ascii")))

    def _is_known(self, name: str) -> bool:
        if self._vocabulary.knows(name):
            return True
        is_defined = name in self._scope.macros or name in self._scope.constants
        return is_defined and self._vocabulary.knows_loosely(name)

    def _open(self, number: int, text: CodeText) -> File:
        found = directives(text.data, number * _GROUPS)
        self._worlds.conditions.update(found.conditions)
        self._scope.elses.update(found.elses)
        for macro in found.macros:
            self._scope.macros.add(macro.name, number, Entry(number, macro))
        language = self._languages[number]
        root = None
        if language != ASSEMBLER:
            root, end = parse(text.data[: found.end(text.data)], language)
            if end < found.end(text.data):
                found.unclosed.append((end, end + 1, _NO_END))
        return File(number, text, found, root)

    def _define(self, file: File) -> None:
        if file.root is None:
            file.constants = assembly.equates(file.source, file.number, file.found)
            for item in file.constants:
                self._scope.constants.add(item.name, file.number, item)
            return
        nodes = structures(self._languages[file.number], file.root)
        taker = Declarations(file.number, file.source, file.found, self._scope)
        file.constants = taker.take(nodes)
        Layouts(file.number, self._scope, self._model).take(nodes.get("structure", []))

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
