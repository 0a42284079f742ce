"""What one whole expression reads and writes, once its macros are expanded."""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.code import integers
from regwright.code.evaluate import Evaluator
from regwright.code.expanded import Expanded
from regwright.code.grammar import Shapes
from regwright.code.pieces import Spot
from regwright.code.seen import (
    Access,
    Bits,
    Instruction,
    Location,
    Meaning,
    Number,
    Operand,
    Part,
    Shift,
    Where,
)
from regwright.code.syntax import Node
from regwright.code.words import WORD, names_in
from regwright.code.written import UNKNOWN, Known, combined, constant, roles, written

_NAME = re.compile(r"[A-Za-z_]\w*")


class Expression(NamedTuple):
    """A whole expression of a file: its text, where it stands, and its macros expanded."""

    text: bytes
    start: int
    spot: Spot
    steps: tuple[int, ...]
    made: Expanded


class Doings(NamedTuple):
    """What one whole expression does; the branch of each is still to be filled in."""

    accesses: list[Access]
    instructions: list[Instruction]
    shifts: list[Shift]


class Visitor:
    """Finds the accesses, shifts and calls of whole expressions of one file."""

    def __init__(self, evaluator: Evaluator, shapes: Shapes, calls: frozenset[str]):
        """``calls`` are the functions whose calls are wanted."""
        self._evaluator = evaluator
        self._shapes = shapes
        self._calls = calls
        self._found = Doings([], [], [])
        self._order = self._arm = self._arms = 0

    def visit(self, whole: Expression, *, is_bound: bool) -> Doings:
        """Return what ``whole`` does, in its order; what a reference is bound to is not read."""
        self._found = Doings([], [], [])
        self._order = self._arm = self._arms = 0
        if is_bound:
            self._visit_place(whole, whole.made.node)
        else:
            self._visit(whole, whole.made.node)
        return self._found

    def _visit(self, whole: Expression, node: Node) -> None:
        if node.kind == "assign":
            self._assign(whole, node)
        elif node.kind == "update":
            if not self._write(whole, node, node.kids[0], "modify", UNKNOWN, ()):
                self._visit(whole, node.kids[0])
        elif node.kind == "address":
            self._visit_place(whole, node.kids[0])
        elif node.kind == "comma":
            self._visit_kids(whole, node)
        elif node.kind not in ("sizeof", "number"):
            self._visit_value(whole, node)

    def _visit_place(self, whole: Expression, node: Node) -> None:
        """Visit what names a place, and does nothing to it."""
        while node.kind == "group" and node.kids:
            node = node.kids[0]
        for kid in node.kids:
            self._visit(whole, kid)

    def _visit_value(self, whole: Expression, node: Node) -> None:
        if node.kind == "call" and node.text in self._calls:
            self._call(whole, node)
        if node.kind == "binary" and node.text == "<<":
            self._shift(whole, node)
        if node.kind == "binary" and node.text == "&" and self._test(whole, node):
            return
        target = self._value(whole, node)
        if isinstance(target, Location):
            if target.type.bits is not None:
                self._add(whole, node, target, "read", "", None, ())
            return
        self._visit_kids(whole, node)

    def _visit_kids(self, whole: Expression, node: Node) -> None:
        """Visit the parts of ``node``, and note between which of them C has a sequence point."""
        around = self._arm
        for number, kid in enumerate(node.kids):
            if number and _is_sequenced(node):
                self._order += 1
            if number and node.kind == "choice":
                self._arms += 1
                self._arm = self._arms
            self._visit(whole, kid)
        self._arm = around

    def _test(self, whole: Expression, node: Node) -> bool:
        """See a read of some bits: an object ``&`` a constant. Tell whether it is that."""
        for one, other in (node.kids, node.kids[::-1]):
            target, mask = self._value(whole, one), self._value(whole, other)
            is_object = isinstance(target, Location) and target.type.bits is not None
            if is_object and isinstance(mask, Number) and isinstance(target, Location):
                bits = Bits(constant(mask.value).ones, 0, 0)
                self._add(whole, one, target, "read", "", bits, self._parts(whole, other))
                return True
        return False

    def _value(self, whole: Expression, node: Node) -> Meaning | None:
        return self._evaluator.value(whole.made, node, whole.spot)

    def _assign(self, whole: Expression, node: Node) -> None:
        left, right = node.kids
        target = self._value(whole, left)
        if not isinstance(target, Location):
            for kid in node.kids:
                self._visit(whole, kid)
            return
        operator = node.text or "="
        known = Known(lambda part: self._value(whole, part), self._evaluator.integer_of)
        made = written(right, target, known)
        bits = made.bits
        if operator != "=":
            every = Bits(0, 0, constant(-1).ones)
            bits = combined(operator[:-1], every, bits)
        how = "modify" if operator != "=" or made.reads_target else "write"
        self._write(whole, node, left, how, bits, self._parts(whole, right))
        accesses = self._found.accesses
        before = len(accesses)
        self._visit(whole, right)
        if made.reads_target:
            accesses[before:] = [
                item for item in accesses[before:] if item.target.address != target.address
            ]

    def _write(
        self,
        whole: Expression,
        node: Node,
        left: Node,
        how: str,
        bits: Bits,
        parts: tuple[Part, ...],
    ) -> bool:
        target = self._value(whole, left)
        if not isinstance(target, Location) or target.type.bits is None:
            return False
        operator = node.text or "="
        self._add(whole, left, target, how, operator, bits, parts)
        return True

    def _add(
        self,
        whole: Expression,
        node: Node,
        target: Location,
        how: str,
        operator: str,
        bits: Bits | None,
        parts: tuple[Part, ...],
    ) -> None:
        inner = node
        while inner.kind == "group" and inner.kids:
            inner = inner.kids[0]
        if not whole.made.site(node).starts_there:  # parentheses of a macro around its argument
            node = inner
        start, end = _span(whole, node)
        word = WORD.match(whole.text, _span(whole, inner)[0] - whole.start)
        name = word[0].decode("ascii", "replace") if word else ""
        if node.kind in ("member", "arrow", "index"):
            shown = whole.text[start - whole.start : end - whole.start]
            name = "".join(shown.decode("utf-8", "replace").split())[:80]
        file = whole.spot.file
        self._found.accesses.append(
            Access(
                *(name if _NAME.match(name) else "", target, how, operator, bits, parts),
                Where(file, whole.start, whole.start + len(whole.text)),
                *(Where(file, start, end), (), (*whole.steps, self._order, self._arm)),
            )
        )

    def _parts(self, whole: Expression, node: Node) -> tuple[Part, ...]:
        """Return the names in the value ``node``, as the source writes it."""
        start, end = _span(whole, node)
        text = whole.text[start - whole.start : end - whole.start]
        parsed = self._shapes.parse(text)
        if parsed is None:
            return ()
        found = []
        for name, role in roles(parsed.node):
            place = start + parsed.at(name.start)
            means = self._evaluator.meaning(name.text.encode(), whole.spot, place)
            number = means if isinstance(means, Number) else None
            at = Where(whole.spot.file, place, place + len(name.text))
            found.append(Part(name.text, role, number, at))
        return tuple(found)

    def _call(self, whole: Expression, node: Node) -> None:
        operands = []
        for kid in node.kids:
            start, end = _span(whole, kid)
            text = whole.text[start - whole.start : end - whole.start]
            at = Where(whole.spot.file, start, end)
            shown = text.decode("utf-8", "replace")
            operands.append(Operand(shown, self._value(whole, kid), names_in(text), at))
        site = whole.made.site(node).start
        at = Where(whole.spot.file, site, site + len(node.text))
        self._found.instructions.append(
            Instruction(node.text, tuple(operands), at, (), is_call=True)
        )

    def _shift(self, whole: Expression, node: Node) -> None:
        left, count = (self._value(whole, kid) for kid in node.kids)
        if not isinstance(left, Number) or not isinstance(count, Number):
            return
        kind = integers.promote(left.type, self._evaluator.model)
        if integers.shift_fits(left.value, kind, count.value):
            return
        at = whole.made.where(node.start, node.end)
        at = at or Where(whole.spot.file, *_span(whole, node))
        self._found.shifts.append(Shift(kind.bits, kind.signed, left.value, count.value, at, ()))


def _is_sequenced(node: Node) -> bool:
    """Tell whether C evaluates the parts of ``node`` one after the other.

    Sources: ISO C11 6.5.13 to 6.5.17; the statements are those within ``({ … })`` of GNU C.
    """
    if node.kind == "binary":
        return node.text in ("&&", "||")
    is_statement = node.kind == "other" and node.text.endswith("statement")
    return is_statement or node.kind in ("comma", "choice")


def _span(whole: Expression, node: Node) -> tuple[int, int]:
    """Return the part of the file that ``node`` comes from, names and calls of macros whole."""
    site = whole.made.site(node)
    if site.ends_there:
        return site.start, max(site.end, site.start + 1)
    within = site.end - 1 - whole.start
    word = WORD.match(whole.text, within)
    end = _call_end(whole.text, word.end() if word else within + 1)
    return site.start, whole.start + end


def _call_end(text: bytes, start: int) -> int:
    """Return where the list of arguments that may follow at ``start`` ends."""
    position = start
    while position < len(text) and text[position : position + 1].isspace():
        position += 1
    if text[position : position + 1] != b"(":
        return start
    depth = 0
    for index in range(position, len(text)):
        sign = text[index]
        depth += (sign == 40) - (sign == 41)
        if not depth:
            return index + 1
    return start
