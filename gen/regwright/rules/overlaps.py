"""Rules on registers that share an address."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import shown
from regwright.model.chip import Condition
from regwright.model.finding import ERROR
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import doubtful, label, place_of, word_of

_READS = frozenset({"read-write", "read-only", "read-writeOnce"})
_WRITES = frozenset({"read-write", "write-only", "writeOnce", "read-writeOnce"})


def _exclusive(first: tuple[Condition, ...], second: tuple[Condition, ...]) -> bool:
    """Tell whether two conditions can never hold together."""
    return any(
        one.field == other.field and one.value != other.value for one in first for other in second
    )


def _told_apart(one: Placed, other: Placed) -> bool:
    """Tell whether the description gives a reason why two registers may share an address."""
    if one.whole == other.name or other.whole == one.name:
        return True
    first, second = one.facts, other.facts
    never_read = not (first.access in _READS and second.access in _READS)
    never_written = not (first.access in _WRITES and second.access in _WRITES)
    if never_read and never_written:
        return True
    if _exclusive(first.register.when, second.register.when):
        return True
    names = (first.register.name, second.register.name)
    return first.register.alias_of == names[1] or second.register.alias_of == names[0]


@rule("registers-overlap", ERROR)
def registers_overlap(subject: Subject) -> Iterator[Problem]:
    """Two registers share an address and nothing says why.

    ## What it catches
    Registers that lie on each other in a space, unless one is only read and the other only
    written, a `when` tells them apart, one is an alias or a half of the other.

    ## Why it matters
    A copied line whose address was not changed makes one of the two registers unreachable.

    ## Example
    `<register name="OUT_A" address="io:0x1B"/> <register name="OUT_B" address="io:0x1B"/>`

    ## Instead
    Correct the address, or say why both are there: `when="LINE_CTRL.DLAB = 1"`, `access`,
    `aliasOf`.

    ## When to silence it
    When the document itself is unclear about it.
    """
    told: set[int] = set()
    unsure = doubtful(subject.resolved)
    registers = [placed for placed in subject.resolved.registers if id(placed) not in unsure]
    for space in subject.chip.spaces:
        for earlier, later in _overlapping(registers, space.name):
            if id(later.register.origin) in told:
                continue
            told.add(id(later.register.origin))
            found = earlier.address(space.name)
            at = shown(found.value if found else 0)
            message = (
                f"{later.name} lies on {earlier.name} at {label(space.name)} address {at}; "
                "correct one address, or say what tells them apart (when, access or aliasOf)"
            )
            yield Problem(message, place_of(later), word_of(later, space.name))


def _overlapping(registers: list[Placed], space: str) -> Iterator[tuple[Placed, Placed]]:
    """Yield pairs that share an address without a reason; the later one of the file is second.

    Sorted by address, so that each register meets only those that reach to it.
    """
    starts = []
    for order, placed in enumerate(registers):
        found = placed.address(space)
        if found is not None:
            starts.append((found.value, order, found.value + placed.units, placed))
    starts.sort(key=lambda item: item[:2])
    open_items: list[tuple[int, int, Placed]] = []
    for value, order, end, placed in starts:
        open_items = [item for item in open_items if item[0] > value]
        for _, other_order, other in open_items:
            if not _told_apart(placed, other):
                yield (other, placed) if other_order < order else (placed, other)
                break
        open_items.append((end, order, placed))
