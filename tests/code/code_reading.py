"""Helpers of this folder: sources read in this process, and what gcc's preprocessor says."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable, Mapping

from regwright.code.directives import directives
from regwright.code.evaluate import Evaluator
from regwright.code.expand import Expander
from regwright.code.grammar import Shapes, parse
from regwright.code.integers import ILP32, DataModel
from regwright.code.layouts import Layouts
from regwright.code.pieces import Spot
from regwright.code.scope import Entry, HeaderMacro, Layout, Scope
from regwright.code.seen import Seen, Where
from regwright.code.sources import read_sources
from regwright.code.text import CPP, C, CodeText
from regwright.code.vocabulary import Vocabulary
from regwright.code.worlds import Worlds

PLENTY = 1 << 40
#: Tokens of C, the longest first (ISO C11 6.4, without digraphs).
_TOKEN = re.compile(
    r'"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'|\.?\d(?:[eEpP][+-]|\'(?=\w)|[\w.])*'
    r"|\w+|\.\.\.|<<=|>>="
    r"|->|\+\+|--|<<|>>|<=|>=|==|!=|&&|\|\||[-*/%+&^|]=|##|\S"
)


def tokens(text: str) -> list[str]:
    """Return the tokens of a text without comments."""
    return _TOKEN.findall(text)


def preprocessed(text: str, *flags: str, language: str = "c") -> str:
    """Return ``text`` as gcc's preprocessor gives it, without line markers."""
    return run_preprocessor(text, *flags, language=language).stdout


def run_preprocessor(
    text: str, *flags: str, language: str = "c"
) -> subprocess.CompletedProcess[str]:
    """Run gcc's preprocessor on ``text``, whatever it says."""
    command = ["gcc", "-E", "-P", "-undef", f"-x{language}", *flags, "-"]
    return subprocess.run(command, input=text, capture_output=True, text=True, check=False)


def files_of(*texts: str | bytes, language: str = C) -> list[CodeText]:
    """Return sources with the endings of their language."""
    ending = "cpp" if language == CPP else "c"
    return [
        CodeText(
            f"f{number}.{ending}", text if isinstance(text, bytes) else text.encode(), language
        )
        for number, text in enumerate(texts)
    ]


def seen(
    *texts: str | bytes,
    language: str = C,
    model: DataModel = ILP32,
    header: Mapping[str, HeaderMacro] | None = None,
    knows: Callable[[str], bool] = lambda _: False,
    calls: frozenset[str] = frozenset(),
) -> Seen:
    """Return what is seen in sources that are read as one program."""
    files = files_of(*texts, language=language)
    return read_sources(files, Vocabulary(header or {}, knows, calls), model)


def shown(text: str | bytes, at: Where | None) -> str | None:
    """Return what stands at a place of the only source."""
    data = text if isinstance(text, bytes) else text.encode()
    return None if at is None else data[at.start : at.end].decode()


class Macros:
    """The macros of one text, and what other texts are with them."""

    def __init__(self, text: str, header: Mapping[str, HeaderMacro] | None = None) -> None:
        self.data = text.encode()
        self.found = directives(self.data)
        self.scope = Scope(header or {}, PLENTY)
        self.scope.elses.update(self.found.elses)
        for macro in self.found.macros:
            self.scope.macros.add(macro.name, 0, Entry(0, macro))
        self.worlds = Worlds(self.scope)
        self.worlds.conditions.update(self.found.conditions)
        self.expander = Expander(self.scope)

    def expanded(self, start: int, end: int) -> str:
        """Return the bytes ``start:end`` of the text with their macros expanded."""
        spot = Spot(0, self.found.arms_at(start), start)
        chunks = self.expander.expand(self.data[start:end], spot, start)
        return b"".join(chunk.text for chunk in chunks).decode()


def laid_out(text: str, model: DataModel, language: str = C) -> Scope:
    """Return a scope with the layouts of the structures in ``text``."""
    from regwright.code.declarations import Declarations, structures

    (source,) = files_of(text, language=language)
    scope = Scope({}, PLENTY)
    nodes = structures(language, parse(source.data, language).root)
    Declarations(0, source, directives(source.data), scope).take(nodes)
    Layouts(0, scope, model).take(nodes.get("structure", []))
    return scope


def layout_of(scope: Scope, tag: str) -> Layout:
    """Return the layout of the structure ``tag``."""
    found = scope.layouts.get(tag)
    assert found is not None, tag
    return found


def evaluator(scope: Scope, model: DataModel = ILP32, language: str = C) -> Evaluator:
    """Return what evaluates expressions with the names of ``scope``."""
    return Evaluator(scope, model, {0: Shapes(language)})
