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
    if one.whole and one.whole == other.whole:
        return True  # halves-not-adjacent says it
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
    for space, earlier, later in _pairs(subject):
        is_inside = earlier.within is later.within  # of one block, wherever that stands
        by_instance = _is_by_instance(later) and not is_inside
        key = id(later.within if by_instance else later.register.origin)
        if key in told or _is_of_a_row_or_instance(earlier, later):
            continue
        told.add(key)
        first_is_wrong = _first_is_wrong(subject, space, earlier, later)
        wrong, right = (earlier, later) if first_is_wrong else (later, earlier)
        found = right.address(space)
        at = shown(found.value if found else 0)
        message = (
            f"{wrong.name} lies on {right.name} at {label(space)} address {at}; "
            "correct one address, or say what tells them apart (when, access or aliasOf)"
        )
        if _is_by_instance(wrong) and not is_inside:
            yield Problem(message, (wrong.within, "base"))
        else:
            yield Problem(message, place_of(wrong), word_of(wrong, space))


@rule("instances-overlap", ERROR)
def instances_overlap(subject: Subject) -> Iterator[Problem]:
    """Two instances of a block lie on each other.

    ## What it catches
    Instances whose base addresses are so near that a register of the one lies on a register of
    the other.

    ## Why it matters
    A base address was copied and not changed, or mistyped; a write to the one changes the other.

    ## Example
    `<instance name="UART0" base="0x120"/> <instance name="UART1" base="0x120"/>`

    ## Instead
    Look up the second one's base; `0x128` perhaps.

    ## When to silence it
    Never.
    """
    told: set[int] = set()
    for space, earlier, later in _pairs(subject):
        if not _are_of_two_instances(earlier, later) or id(later.within) in told:
            continue
        told.add(id(later.within))
        found = later.address(space)
        at = shown(found.value if found else 0)
        message = (
            f"{later.block} lies on {earlier.block}: {later.name} and {earlier.name} are both at "
            f"{label(space)} address {at}; look up the base address"
        )
        yield Problem(message, (later.within, "base"), f"{space}:" if space else "")


def _first_is_wrong(subject: Subject, space: str, first: Placed, second: Placed) -> bool:
    """Tell whether of two registers at one address the first is the wrong one.

    It is when they are neighbours in a table that rises by address, which has room for the first
    before that address, and none for the second behind it.
    """
    registers = [placed for placed in subject.described if not placed.half]
    index = next((i for i, placed in enumerate(registers) if placed is first), len(registers))
    if registers[index + 1 : index + 2] != [second]:
        return False
    at, same = first.address(space), second.address(space)
    if at is None or same is None or at.value != same.value:
        return False
    before = registers[index - 1].address(space) if index else None
    behind = registers[index + 2].address(space) if index + 2 < len(registers) else None
    if behind is None or behind.value < at.value or (index and before is None):
        return False
    end = before.value + registers[index - 1].units if before else 0
    return end + first.units <= at.value and at.value + first.units + second.units > behind.value


def _is_by_instance(placed: Placed) -> bool:
    """Tell whether the base address of an instance put a register where it is."""
    within = placed.within
    return within is not None and within[1] == "instances" and not placed.register.addresses


def _are_of_two_instances(one: Placed, other: Placed) -> bool:
    """Tell whether two registers were put where they are by two instances of one block."""
    if one.within is other.within or one.within is None or other.within is None:
        return False
    both = one.within[1] == other.within[1] == "instances"
    return both and one.within[0] is other.within[0]


def _is_of_a_row_or_instance(one: Placed, other: Placed) -> bool:
    """Tell whether a rule on rows or instances says why two registers lie on each other."""
    is_same = one.register.origin is other.register.origin or one.block != other.block
    is_row = one.within is other.within and is_same
    return is_row or _are_of_two_instances(one, other)


def _pairs(subject: Subject) -> Iterator[tuple[str, Placed, Placed]]:
    """Yield each space with two registers that lie on each other in it, without a reason."""
    unsure = doubtful(subject.resolved)
    registers = [placed for placed in subject.resolved.registers if id(placed) not in unsure]
    for space in subject.chip.spaces:
        for earlier, later in _overlapping(registers, space.name):
            yield space.name, earlier, later


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
