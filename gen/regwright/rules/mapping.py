"""Rules on the two addresses of a register: the offset, forgotten, doubled or on the wrong side."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import shown
from regwright.model.chip import Window
from regwright.model.finding import ERROR
from regwright.resolve.addresses import into_window, out_of_window
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.digits import explain_slip
from regwright.rules.wording import (
    Pair,
    given_pairs,
    label,
    place_of,
    region_at,
    what_is_at,
    word_of,
)


def _equal_pairs(subject: Subject) -> Iterator[Pair]:
    for pair in given_pairs(subject.resolved, subject.described):
        if pair.window.offset and pair.inside.value == pair.outside.value:
            yield pair


def _taken(resolved: ResolvedChip, space: str, value: int, besides: Placed) -> bool:
    """Tell whether another register is at an address that the document prints."""
    found = (other.address(space) for other in resolved.registers if other is not besides)
    return any(item is not None and item.given and item.value == value for item in found)


def _side_at_fault(subject: Subject, pair: Pair) -> str:
    """Return which of two equal addresses is wrong: ``outside``, ``inside`` or ``either``.

    The outside address is wrong when nothing of the window is seen there; the inside one is
    wrong when the window ends before it. Between the two, the register that already stands at
    what one of them would have to be decides.
    """
    value, window = pair.inside.value, pair.window
    if out_of_window(window, value) is None:
        return "outside"
    if into_window(window, value) is None:
        return "inside"
    resolved = subject.resolved
    moved_out = _taken(resolved, window.into, value + window.offset, pair.placed)
    moved_in = _taken(resolved, window.source, value - window.offset, pair.placed)
    if moved_out != moved_in:
        return "inside" if moved_out else "outside"
    return "either"


def _effect(subject: Subject, window: Window, value: int, placed: Placed) -> str:
    """Say what a pointer with the wrong address does."""
    space = subject.resolved.spaces.get(window.into)
    region = region_at(space, value) if space else None
    hit = what_is_at(subject.resolved, window.into, value, placed)
    if region is not None and region.kind == "cpu-registers":
        return (
            f"in {label(window.into)} space {shown(value)} is "
            f"one of {hit}, so a write there changes nothing at the pin"
        )
    return f"in {label(window.into)} space that address hits {hit}"


def _not_added(subject: Subject, placed: Placed, window: Window, value: int) -> Problem:
    wrong = shown(value)
    right = shown(value + window.offset)
    inner = shown(value)
    message = (
        f"{placed.name} has the {label(window.into)} address {wrong}, but {inner} is its "
        f"{label(window.source)} address: {_effect(subject, window, value, placed)}. "
        f"{right} is meant ({inner} + {shown(window.offset)})"
    )
    return Problem(message, place_of(placed), word_of(placed, window.into))


@rule("offset-not-added", ERROR)
def offset_not_added(subject: Subject) -> Iterator[Problem]:
    """The distance between two spaces was not added to an address.

    ## What it catches
    A register whose data address is its I/O address: both are given and are the same number, or
    only the data address is given and it lies among the CPU's own registers where the window
    says that an I/O address was meant.

    ## Why it matters
    A C pointer takes the data address. With the I/O address in it the program compiles, uploads
    and writes a CPU register; the pin stays dead.

    ## Example
    `<register name="OUT_A" address="io:0x18 data:0x18"/>` where I/O 0x00 is seen at data 0x20.

    ## Instead
    `address="io:0x18 data:0x38"`, or only `address="io:0x18"`: the other follows.

    ## When to silence it
    Never. Where a chip has no distance between its spaces, give its window the offset 0.
    """
    for pair in _equal_pairs(subject):
        if _side_at_fault(subject, pair) == "outside":
            yield _not_added(subject, pair.placed, pair.window, pair.outside.value)
    for window in subject.chip.windows:
        space = subject.resolved.spaces.get(window.into)
        for placed in subject.described if space and window.offset else ():
            found = placed.address(window.into)
            if found is None or not found.given or placed.address(window.source):
                continue
            region = region_at(space, found.value) if space else None
            inside = window.first <= found.value <= window.last
            if inside and region is not None and region.kind == "cpu-registers":
                yield _not_added(subject, placed, window, found.value)


@rule("offset-already-added", ERROR)
def offset_already_added(subject: Subject) -> Iterator[Problem]:
    """An I/O address is really the data address.

    ## What it catches
    A register whose I/O address is its data address, where the data address can be right and the
    I/O address cannot.

    ## Why it matters
    Port and single-bit instructions take the I/O address. With the data address in them they
    reach another register, or the assembler refuses the number.

    ## Example
    `<register name="OUT_A" address="io:0x58 data:0x58"/>` where I/O space ends at 0x3F.

    ## Instead
    `address="io:0x38 data:0x58"`.

    ## When to silence it
    Never.
    """
    for pair in _equal_pairs(subject):
        side = _side_at_fault(subject, pair)
        if side == "outside":
            continue
        placed, window, value = pair.placed, pair.window, pair.inside.value
        inner = shown(value - window.offset)
        wrong = shown(value)
        offset = shown(window.offset)
        message = (
            f"{placed.name} has the {label(window.source)} address {wrong}, the same as its "
            f"{label(window.into)} address: the {offset} between the two was already added. "
            f"{inner} is meant"
        )
        if side == "either":
            outer = shown(value + window.offset)
            message = (
                f"{placed.name} has the same {label(window.source)} and {label(window.into)} "
                f"address {wrong}, which must differ by {offset}: either the "
                f"{label(window.source)} address is {inner} or the {label(window.into)} address "
                f"is {outer}; look it up"
            )
        yield Problem(message, place_of(placed), word_of(placed, window.source))


@rule("offset-added-twice", ERROR)
def offset_added_twice(subject: Subject) -> Iterator[Problem]:
    """The distance between two spaces was added twice.

    ## What it catches
    A register whose data address is its I/O address plus twice the window's offset.

    ## Why it matters
    A pointer with that address reaches another register, and changes that one.

    ## Example
    `<register name="OUT_A" address="io:0x18 data:0x58"/>` where the offset is 0x20.

    ## Instead
    `address="io:0x18 data:0x38"`.

    ## When to silence it
    Never.
    """
    resolved = subject.resolved
    for placed, window, inside, outside in given_pairs(resolved, subject.described):
        if not window.offset or outside.value != inside.value + 2 * window.offset:
            continue
        hit = what_is_at(resolved, window.into, outside.value, placed)
        right = shown(inside.value + window.offset)
        message = (
            f"{placed.name} has the {label(window.into)} address "
            f"{shown(outside.value)}: "
            f"{shown(window.offset)} was added twice to the "
            f"{label(window.source)} address {shown(inside.value)}. "
            f"{right} is meant; the address given hits {hit}"
        )
        yield Problem(message, place_of(placed), word_of(placed, window.into))


@rule("window-disagrees", ERROR)
def window_disagrees(subject: Subject) -> Iterator[Problem]:
    """Two addresses of a register do not fit its window.

    ## What it catches
    A register whose addresses on the two sides of a window differ by something else than the
    window's offset, and not in one of the ways that have a rule of their own.

    ## Why it matters
    One of the two is mistyped. Whoever uses it reaches another register.

    ## Example
    `<register name="OUT_A" address="io:0x18 data:0x83"/>` where the offset is 0x20: two digits
    were swapped.

    ## Instead
    `address="io:0x18 data:0x38"`.

    ## When to silence it
    Never. Where some registers lie at another distance, describe a second window for them.
    """
    resolved = subject.resolved
    for placed, window, inside, outside in given_pairs(resolved, subject.described):
        expected = into_window(window, inside.value)
        distance = outside.value - inside.value
        if expected is None or distance in (0, window.offset, 2 * window.offset):
            continue
        message = (
            f"{placed.name} has the {label(window.source)} address "
            f"{shown(inside.value)} and the {label(window.into)} "
            f"address {shown(outside.value)}, but the window puts it at "
            f"{shown(expected)}"
        )
        slip = explain_slip(outside.value, expected)
        backwards = out_of_window(window, outside.value)
        if not slip and backwards is not None:
            inner = explain_slip(inside.value, backwards)
            slip = f"or in the {label(window.source)} address, {inner}" if inner else ""
        message += f"; {slip}" if slip else "; look both up"
        yield Problem(message, place_of(placed), word_of(placed, window.into))
