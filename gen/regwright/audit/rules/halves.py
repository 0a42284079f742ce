"""Rules on the halves of wide registers, which a chip wants one before the other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from regwright.audit.problem import CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Access, Branch
from regwright.model.chip import Halves
from regwright.model.finding import ERROR, NOTE
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import rule

#: What tells that code does not just go on from one place to the next.
_TURNS = re.compile(
    rb"[{}]|\b(?:if|else|for|while|do|switch|case|default|goto|break|continue|return)\b"
)
_COMMENT = re.compile(
    rb"//[^\n]*+|/\*(?:(?!\*/).)*+(?:\*/)?|^[ \t]*+#[^\n]*+", re.DOTALL | re.MULTILINE
)
_RETURN = re.compile(rb"\breturn\b[\s(]*+\Z")
#: More branches than this in one function are looked at one by one, without those around them.
_MOST_BRANCHES = 16


class _Half(NamedTuple):
    """An access to a half."""

    access: Access
    placed: Placed

    @property
    def is_low(self) -> bool:
        return self.placed.half == "low"


class _Row(NamedTuple):
    """All accesses of one kind to the halves of one register in one function, in their order."""

    whole: Placed
    how: str
    first: str
    halves: list[_Half]


#: The register, ``read`` or ``write``, and the file and the start of the function.
_Key = tuple[str, str, tuple[int, ...]]


def _rows(subject: AuditSubject) -> Iterator[_Row]:
    """Yield the accesses to halves whose order the chip asks for, by register and function."""
    found: dict[_Key, list[_Half]] = {}
    for touch in subject.sure_touches:
        access = touch.access
        if len(touch.registers) == 1 and touch.registers[0].half and access.how != "modify":
            placed = touch.registers[0]
            key = placed.whole, access.how, access.steps[:2]
            found.setdefault(key, []).append(_Half(access, placed))
    if not found:
        return
    wide = {placed.name: placed for placed in subject.resolved.registers if not placed.half}
    for (name, how, _), halves in found.items():
        whole = wide[name]
        first = _first(whole.register.halves, how)
        if first and len(halves) > 1:
            halves.sort(key=lambda item: item.access.steps)
            yield _Row(whole, how, first, halves)


def _first(halves: Halves | None, how: str) -> str:
    """Return which half goes first: ``low``, ``high``, or nothing where that does not matter."""
    if halves is None:
        return ""
    return (halves.read_first if how == "read" else halves.write_first) or ""


def _in_branches(row: _Row) -> Iterator[list[_Half]]:
    """Yield the accesses that are compiled together, for each set of conditions."""
    branches: dict[Branch, list[_Half]] = {}
    for item in row.halves:
        branches.setdefault(item.access.branch, []).append(item)
    for branch, own in branches.items():
        if len(branches) > _MOST_BRANCHES:
            yield own
        else:
            yield [item for item in row.halves if _is_around(item.access.branch, branch)]


def _is_around(outer: Branch, inner: Branch) -> bool:
    return inner[: len(outer)] == outer


def _are_unordered(one: _Half, other: _Half) -> bool:
    """Tell whether C leaves it open which of two accesses comes first."""
    return one.access.steps[:4] == other.access.steps[:4]


def _exclude(one: _Half, other: _Half) -> bool:
    """Tell whether two accesses are in different arms of a ``?:``."""
    arms = one.access.steps[4:], other.access.steps[4:]
    is_same_expression = one.access.steps[:3] == other.access.steps[:3]
    return is_same_expression and all(any(arm) for arm in arms) and arms[0] != arms[1]


@rule("halves-in-one-expression", ERROR)
def halves_in_one_expression(subject: AuditSubject) -> Iterator[CodeProblem]:
    """Both halves of a register are accessed in one expression, in no order.

    ## What it catches
    An expression with both halves of a wide register in it, without a comma, `&&`, `||` or `?:`
    between the two, where the description says which half goes first.

    ## Why it matters
    C does not say which operand is evaluated first (ISO C11 6.5, paragraph 3). With the wrong one
    first the halves are of different moments; another compiler, or another option, decides.

    ## Example
    `value = ADC_RESULT_L | ADC_RESULT_H << 8;`

    ## Instead
    `ADC_RESULT_READ_INTO(value);` of the emitted header, or two statements.

    ## When to silence it
    Where the one compiler that matters is known to do it in order.
    """
    for row in _rows(subject):
        for halves in _in_branches(row):
            for one, other in _pairs_in_one(halves):
                yield CodeProblem(
                    f"{one.placed.name} and {other.placed.name} are {_done(row)} in one "
                    f"expression, and C does not say which first; {_instead(subject, row)}",
                    one.access.target_at,
                    one.access.branch,
                )


def _pairs_in_one(halves: list[_Half]) -> Iterator[tuple[_Half, _Half]]:
    """Yield the first two different halves of each expression that C does not order."""
    start = 0
    while start < len(halves):
        one = halves[start]
        end = start + 1
        while end < len(halves) and _are_unordered(one, halves[end]):
            end += 1
        other = next((item for item in halves[start:end] if _is_pair(one, item)), None)
        if other is not None:
            yield one, other
        start = end


def _is_pair(one: _Half, other: _Half) -> bool:
    return one.is_low != other.is_low and not _exclude(one, other)


def _done(row: _Row) -> str:
    return "read" if row.how == "read" else "written"


def _instead(subject: AuditSubject, row: _Row) -> str:
    """Say which half goes first, and what the header has for it."""
    suffix = "_READ_INTO" if row.how == "read" else "_WRITE"
    macro = f"{row.whole.name}{suffix}"
    argument = "(variable)" if row.how == "read" else "(value)"
    by_header = f", as {macro}{argument} does" if macro in subject.header else ""
    verb = "read" if row.how == "read" else "write"
    return f"{verb} the {row.first} half first{by_header}"


@rule("halves-out-of-order", ERROR)
def halves_out_of_order(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The halves of a register are accessed in the wrong order.

    ## What it catches
    Two accesses to the halves of one wide register that follow each other in a function, both
    reads or both writes, where the half that comes first is not the one that the description says.
    What could belong together in another way is left alone.

    ## Why it matters
    The access to the first half holds the other one in a temporary register of the chip, or waits
    for it there. In the wrong order the halves are of different moments.

    ## Example
    `high = ADC_RESULT_H; low = ADC_RESULT_L;` where the low half is read first.

    ## Instead
    `ADC_RESULT_READ_INTO(value);` of the emitted header, or the low half first.

    ## When to silence it
    Where the register stands still meanwhile.
    """
    for row in _rows(subject):
        for halves in _in_branches(row):
            for one, other in _out_of_order(subject, row, halves):
                yield CodeProblem(
                    f"{one.placed.name} is {_done(row)} before {other.placed.name}; "
                    f"{_instead(subject, row)}",
                    one.access.target_at,
                    one.access.branch,
                )


def _out_of_order(
    subject: AuditSubject, row: _Row, halves: list[_Half]
) -> Iterator[tuple[_Half, _Half]]:
    """Yield the pairs whose first half is the wrong one.

    Accesses of which each goes on with the other half than the one before make a run. A run of an
    odd number can be paired in two ways, and so can one behind it.
    """
    is_low_first = row.first == "low"
    left: _Half | None = None
    for run in _runs(subject, halves):
        is_even = len(run) % 2 == 0
        is_waited_for = left is not None and left.is_low == is_low_first
        if is_even and run[0].is_low != is_low_first and not is_waited_for:
            yield from zip(run[::2], run[1::2], strict=True)
        left = None if is_even else run[-1]


def _runs(subject: AuditSubject, halves: list[_Half]) -> Iterator[list[_Half]]:
    """Yield the runs; pairs that C does not order have their own rule, and part them."""
    unordered = {one.access.steps[:4] for one, _ in _pairs_in_one(halves)}
    run: list[_Half] = []
    for item in halves:
        is_apart = item.access.steps[:4] in unordered
        if run and (is_apart or not _goes_on(subject, run[-1], item)):
            yield run
            run = []
        if not is_apart:
            run.append(item)
    if run:
        yield run


def _goes_on(subject: AuditSubject, one: _Half, other: _Half) -> bool:
    """Tell whether the other half follows on a half for certain."""
    if not _is_pair(one, other) or _are_unordered(one, other):
        return False
    first, second = one.access.at, other.access.at
    if first == second:
        return True
    data = subject.files[first.file].data
    if _RETURN.search(data, max(first.start - 100, 0), first.start):
        return False
    between = _RETURN.sub(b"", _COMMENT.sub(b"", data[first.end : second.start]))
    return _TURNS.search(between) is None


@rule("wide-access-to-halves", NOTE)
def wide_access_to_halves(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A register of ordered halves is accessed as a whole.

    ## What it catches
    A read or write of a wide register at once, where the description says which of its halves goes
    first.

    ## Why it matters
    On a narrower bus the compiler makes two accesses of it, in an order of its own choice.

    ## Example
    `value = ADC_RESULT;` on a chip of 8 bits.

    ## Instead
    `ADC_RESULT_READ_INTO(value);` of the emitted header.

    ## When to silence it
    Where the compiler is known to take the halves in the chip's order.
    """
    for touch in subject.sure_touches:
        access, halves = touch.access, [item.register.halves for item in touch.registers]
        if len(halves) != 1 or touch.registers[0].half:
            continue
        whole = touch.registers[0]
        hows = ("read", "write") if access.how == "modify" else (access.how,)
        how = next((item for item in hows if _first(halves[0], item)), "")
        if how and (access.target.type.bits or 0) >= whole.facts.width:
            row = _Row(whole, how, _first(halves[0], how), [])
            yield CodeProblem(
                f"{whole.name} is {_done(row)} as a whole, and the compiler chooses which half "
                f"goes first; {_instead(subject, row)}",
                access.target_at,
                access.branch,
            )
