"""What the names in sources are defined to be: every macro and constant that has a meaning."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain, islice

from regwright.code.directives import Macro
from regwright.code.evaluate import Evaluator
from regwright.code.grammar import Shapes
from regwright.code.overlays import members
from regwright.code.pieces import Spot
from regwright.code.scope import Constant
from regwright.code.seen import Definition, Pointer, Where
from regwright.code.worlds import Worlds

#: Members of structures that even a small file may have.
_FEW = 4096
_CLOSED = frozenset({"number", "name", "group", "call", "member", "arrow", "index"})
#: A number, a name, or parentheses around what has no more than two levels of them.
_IN_PARENTHESES = re.compile(rb"\w++|\((?:[^()]++|\((?:[^()]++|\([^()]*+\))*+\))*+\)")


class Definitions:
    """Makes the definitions of one file."""

    def __init__(self, file: int, evaluator: Evaluator, shapes: Shapes, worlds: Worlds) -> None:
        """Take the definitions of the file number ``file``."""
        self._file = file
        self._evaluator = evaluator
        self._shapes = shapes
        self._worlds = worlds

    def make(self, macros: list[Macro], constants: list[Constant], size: int) -> list[Definition]:
        """Return the definitions that ``macros`` and ``constants`` come to, by their places.

        ``size`` is that of the file: no file has more members of structures than bytes.
        """
        made: list[Definition] = []
        for macro in macros:
            if macro.parameters is None and macro.body:
                made += self._of_macro(macro)
        for constant in constants:
            made += self._of_constant(constant)
        inside = chain.from_iterable(members(item, self._evaluator) for item in made[:])
        made += islice(inside, max(_FEW, size))
        made.sort(key=lambda item: item.name_at.start)
        return made

    def _of_macro(self, macro: Macro) -> Iterator[Definition]:
        number = self._file
        spot = Spot(number, macro.arms, macro.start)
        start = macro.body_start
        for branch, means in self._worlds.outcomes(
            macro.arms, lambda: self._evaluator.meaning(macro.body, spot, start)
        ):
            if means is None:
                continue
            name_end = macro.name_start + len(macro.name)
            yield Definition(
                macro.name,
                "macro",
                means,
                Where(number, macro.name_start, name_end),
                Where(number, start, start + len(macro.body)),
                Where(number, macro.start, macro.end),
                branch,
                self._is_closed(macro.body),
            )

    def _is_closed(self, body: bytes) -> bool:
        """Tell whether a macro's body stays one operand wherever it is put."""
        if _IN_PARENTHESES.fullmatch(body):
            return True
        parsed = self._shapes.parse(body)
        return parsed is not None and parsed.node.kind in _CLOSED

    def _of_constant(self, constant: Constant) -> Iterator[Definition]:
        outcomes = list(
            self._worlds.outcomes(constant.arms, lambda: self._evaluator.constant(constant))
        )
        constant.is_nothing = all(means is None for _, means in outcomes)
        for branch, means in outcomes:
            if means is None:
                continue
            end = constant.start + len(constant.name.encode())
            is_pointer = constant.form == "constant" and isinstance(means, Pointer)
            yield Definition(
                constant.name,
                "pointer" if is_pointer else constant.form,
                means,
                Where(self._file, constant.start, end),
                constant.value_at,
                constant.whole,
                branch,
            )
