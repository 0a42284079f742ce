"""What the code of one file does: what it reads and writes, asserts and mentions."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from regwright.code import assembly
from regwright.code.accesses import Doings, Expression, Visitor
from regwright.code.assembler import Statement
from regwright.code.directives import Arm, Directives
from regwright.code.evaluate import Evaluator
from regwright.code.grammar import Shapes
from regwright.code.moved import Move
from regwright.code.pieces import Spot
from regwright.code.reach import Reach, Span
from regwright.code.scope import Constant
from regwright.code.seen import Assertion, Branch, Instruction, Mention, Number, Seen, Where
from regwright.code.syntax import text_of
from regwright.code.text import CodeText
from regwright.code.walk import ASSEMBLY, ASSERTION, expressions_around
from regwright.code.words import (
    ASSEMBLY_WORDS,
    ASSERTION_WORDS,
    HIDDEN_CAST,
    IDENTIFIER,
    POINTER_CAST,
    found_in,
    names_in,
)
from regwright.code.worlds import Outcome, Worlds

#: One whole expression longer than this is a table, no access.
_LONGEST = 16_000
#: Where code is looked at whatever names it has.
_CASTS = (POINTER_CAST, HIDDEN_CAST, re.compile(rb"_cast[ \t]*<"))
_WORDS = frozenset(word.encode() for word in ASSEMBLY_WORDS | ASSERTION_WORDS)
#: An expression, the arms around it, whether a reference is bound to it, and whether it has a name
#: of the chip or a cast in it.
_Key = tuple[bytes, tuple[Arm, ...], bool, bool]


@dataclass
class File:
    """One source while it is read; ``root`` is that of its tree, ``None`` for assembler.

    ``shown`` is its text with empty comments for what is passed over.
    """

    number: int
    source: CodeText
    found: Directives
    root: Any
    shown: bytes
    constants: list[Constant] = field(default_factory=list)


class Wanted(NamedTuple):
    """What is looked for: expressions around names, if ``tells`` is true of their texts and places.

    The names are those that are ``telling`` and those that the chip has, ``known``, where they are
    so; ``names`` are all of them, and the words that count anywhere. ``calls`` stand for
    instructions.
    """

    names: frozenset[bytes]
    telling: Reach
    known: Reach
    calls: frozenset[str]
    tells: Callable[[bytes, Span], bool]

    @classmethod
    def of(
        cls,
        telling: Reach,
        known: Reach,
        calls: frozenset[str],
        tells: Callable[[bytes, Span], bool],
    ) -> Wanted:
        """Return what is looked for, with all its names."""
        names = telling.names() | known.names() | _WORDS
        return cls(names, telling, known, calls, tells)


class Uses:
    """Puts what the code of one file does into what was seen."""

    def __init__(
        self, file: File, evaluator: Evaluator, shapes: Shapes, worlds: Worlds, seen: Seen
    ) -> None:
        """Read ``file``; ``shapes`` parses pieces of it."""
        self._file = file
        self._evaluator = evaluator
        self._shapes = shapes
        self._worlds = worlds
        self._seen = seen
        #: What expressions came to, in which arms, with a place of each, from where on it is so.
        self._known: dict[_Key, tuple[list[Outcome[Doings]], int]] = {}

    def read_assembler(self) -> None:
        """See every instruction of an assembler file."""
        for statement in assembly.instructions(self._file.source.data):
            self._take_instruction(statement, {})

    def read(self, wanted: Wanted) -> None:
        """See what C or C++ does where ``wanted`` is."""
        data = self._file.source.data
        visitor = Visitor(self._evaluator, self._shapes, wanted.calls)
        shown = self._file.shown
        found = list(found_in(shown, wanted.names))
        places = {match.start() for cast in _CASTS for match in cast.finditer(shown)}
        places.update(
            place
            for place, word in found
            if word in _WORDS
            or self._counts(wanted.known, word, place)
            or self._counts(wanted.telling, word, place)
        )
        spans = []
        for node, function, is_bound in expressions_around(self._file.root, sorted(places)):
            start, end = node.start_byte, node.end_byte
            if end - start > _LONGEST:
                continue
            spans.append((start, end))
            if node.type == ASSEMBLY:
                operands = assembly.operands_of(node)
                for statement in assembly.inline_instructions(node):
                    self._take_instruction(statement, operands)
            elif _is_assertion(node):
                self._take_assertion(node)
            elif wanted.tells(data[start:end], Span(self._file.number, start, end)):
                is_of_chip = self._is_of_chip(wanted, start, end)
                self._take(node, function, visitor, is_bound=is_bound, is_of_chip=is_of_chip)
        known = wanted.known
        self._mention([item for item in found if self._counts(known, item[1], item[0])], spans)

    def _counts(self, reach: Reach, word: bytes, place: int) -> bool:
        return word in reach.anywhere or (
            word in reach.blocks and reach.counts(word, Span(self._file.number, place, place + 1))
        )

    def _is_of_chip(self, wanted: Wanted, start: int, end: int) -> bool:
        """Tell whether an expression has a name of the chip or a cast to a pointer in it."""
        text = self._file.source.data[start:end]
        where = Span(self._file.number, start, end)
        return any(cast.search(text) for cast in _CASTS) or wanted.known.has_one_of(
            IDENTIFIER.findall(text), where
        )

    def _mention(self, named: list[tuple[int, bytes]], spans: list[tuple[int, int]]) -> None:
        """Note the names that stand in one of the expressions ``spans``."""
        waiting = iter(spans)
        span = next(waiting, None)
        for place, word in named:
            while span is not None and span[1] <= place:
                span = next(waiting, None)
            if span is None:
                return
            if place >= span[0] and not self._file.found.in_text(place):
                at = Where(self._file.number, place, place + len(word))
                branch = self._worlds.branch(self._file.found.arms_at(place))
                self._seen.mentions.append(Mention(word.decode("ascii"), at, branch))

    def _take(
        self, node: Any, function: int, visitor: Visitor, *, is_bound: bool, is_of_chip: bool
    ) -> None:
        start = node.start_byte
        text = self._file.source.data[start : node.end_byte]
        spot = self._spot(start)
        steps = (self._file.number, function, start)
        key = text, spot.arms, is_bound, is_of_chip
        since = self._evaluator.since(text, self._file.number)
        known = self._known.get(key)
        if known is not None and since is not None and start >= since:
            outcomes, place = known
            move = Move(place, place + len(text), start - place)
            for branch, found in outcomes:
                self._add(branch, _moved(found, move, steps))
            return

        def ask() -> Doings:
            made = self._evaluator.expanded(text, spot, start)
            if made is None:
                return Doings([], [], [])
            whole = Expression(text, start, spot, steps, made)
            done = visitor.visit(whole, is_bound=is_bound)
            return done if is_of_chip else _without_its_shifts(done, whole)

        outcomes = list(self._worlds.outcomes(spot.arms, ask))
        for branch, found in outcomes:
            self._add(branch, found)
        if since is not None and start >= since:
            self._known[key] = outcomes, start

    def _add(self, branch: Branch, found: Doings) -> None:
        accesses, instructions, shifts = found
        self._seen.accesses.extend(item._replace(branch=branch) for item in accesses)
        self._seen.instructions.extend(item._replace(branch=branch) for item in instructions)
        self._seen.shifts.extend(item._replace(branch=branch) for item in shifts)

    def _spot(self, start: int) -> Spot:
        return Spot(self._file.number, self._file.found.arms_at(start), start)

    def _take_assertion(self, node: Any) -> None:
        condition = node.child_by_field_name("condition")
        if condition is None:
            given = node.child_by_field_name("arguments")
            condition = given.named_children[0] if given and given.named_children else None
        if condition is None:
            return
        start, end = condition.start_byte, condition.end_byte
        text = self._file.source.data[start:end]
        spot = self._spot(start)
        for branch, means in self._worlds.outcomes(
            spot.arms, lambda: self._evaluator.meaning(text, spot, start)
        ):
            holds = bool(means.value) if isinstance(means, Number) else None
            shown = text.decode("utf-8", "replace")
            at = Where(self._file.number, start, end)
            self._seen.assertions.append(Assertion(holds, shown, names_in(text), at, branch))

    def _take_instruction(self, statement: Statement, given: assembly.Operands) -> None:
        spot = self._spot(statement.start)
        data = self._file.source.data
        at = Where(self._file.number, statement.start, statement.mnemonic_end)
        for branch, operands in self._worlds.outcomes(
            spot.arms,
            lambda: [
                assembly.operand(piece, data, spot, self._evaluator, given)
                for piece in statement.operands
            ],
        ):
            self._seen.instructions.append(
                Instruction(statement.mnemonic, tuple(operands), at, branch)
            )


def _without_its_shifts(found: Doings, whole: Expression) -> Doings:
    """Return what an expression does without the shifts that it spells out, if it does no more.

    They are nobody's business here, whatever else led to a look at them.
    """
    if found.accesses or found.instructions or not found.shifts:
        return found
    file, start = whole.spot.file, whole.start

    def is_spelt_out(at: Where) -> bool:
        return (
            at.file == file
            and b"<<" in whole.text[max(at.start - start, 0) : max(at.end - start, 0)]
        )

    return found._replace(shifts=[item for item in found.shifts if not is_spelt_out(item.at)])


def _moved(found: Doings, move: Move, steps: tuple[int, ...]) -> Doings:
    """Return what an expression does at another place, where ``steps`` are its first."""
    return Doings(
        [move.access(item, steps) for item in found.accesses],
        [move.instruction(item) for item in found.instructions],
        [move.shift(item) for item in found.shifts],
    )


def _is_assertion(node: Any) -> bool:
    if node.type == ASSERTION:
        return True
    function = node.child_by_field_name("function") if node.type == "call_expression" else None
    return function is not None and text_of(function) in ASSERTION_WORDS
