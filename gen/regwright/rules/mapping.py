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
        is_explained = id(pair.placed) in subject.explained
        if pair.window.offset and pair.inside.value == pair.outside.value and not is_explained:
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
    repair: str | None = f"{window.into}:{right}"
    if placed.address(window.source) is None:
        # only one address is given: what it should be is likely, but not certain
        repair = None
        taken = _taken(subject.resolved, window.into, value + window.offset, placed)
        if taken:
            message = (
                f"{placed.name} has the {label(window.into)} address {wrong}: "
                f"{_effect(subject, window, value, placed)}. As an {label(window.source)} address "
                f"it would be {right}, where another register is; look it up"
            )
    return Problem(message, place_of(placed), word_of(placed, window.into), repair)


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
            if id(placed) in subject.explained:
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
        source, into = label(window.source), label(window.into)
        inner, wrong, offset = shown(value - window.offset), shown(value), shown(window.offset)
        message = (
            f"{placed.name} has the {source} address {wrong}, the same as its {into} address: the "
            f"{offset} between the two was already added. {inner} is meant"
        )
        repair: str | None = f"{window.source}:{inner}"
        if side == "either":
            repair = None
            message = (
                f"{placed.name} has the same {source} and {into} address {wrong}, which must "
                f"differ by {offset}: either the {source} address is {inner} or the {into} "
                f"address is {shown(value + window.offset)}; look it up"
            )
        yield Problem(message, place_of(placed), word_of(placed, window.source), repair)


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
        if id(placed) in subject.explained:
            continue
        hit = what_is_at(resolved, window.into, outside.value, placed)
        right = shown(inside.value + window.offset)
        source = out_of_window(window, outside.value)
        is_open = source is not None and not _taken(resolved, window.source, source, placed)
        unless = f", unless its {label(window.source)} address is {shown(source or 0)}"
        message = (
            f"{placed.name} has the {label(window.into)} address {shown(outside.value)}: "
            f"{shown(window.offset)} was added twice to the {label(window.source)} address "
            f"{shown(inside.value)}. {right} is meant{unless if is_open else ''}; the address "
            f"given hits {hit}"
        )
        repair = None if is_open else f"{window.into}:{right}"
        yield Problem(message, place_of(placed), word_of(placed, window.into), repair)


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
    for pair in given_pairs(subject.resolved, subject.described):
        expected = into_window(pair.window, pair.inside.value)
        distance = pair.outside.value - pair.inside.value
        if expected is None or distance in (0, pair.window.offset, 2 * pair.window.offset):
            continue
        if id(pair.placed) in subject.explained:
            continue
        is_swapped = distance == -pair.window.offset
        yield _swapped(pair) if is_swapped else _disagreement(subject, pair, expected)


def _swapped(pair: Pair) -> Problem:
    placed, window, inside, outside = pair
    right = {window.source: outside.value, window.into: inside.value}
    message = (
        f"{placed.name} has the {label(window.source)} address {shown(inside.value)} and the "
        f"{label(window.into)} address {shown(outside.value)}: the two are the wrong way round"
    )
    given = placed.register.addresses
    repair = " ".join(
        f"{space}:{shown(right.get(space, value))}" for space, value in given if space
    )
    return Problem(message, place_of(placed), "", repair)


def _disagreement(subject: Subject, pair: Pair, expected: int) -> Problem:
    """Say which of the two addresses was mistyped, as far as that can be known."""
    placed, window, inside, outside = pair
    resolved = subject.resolved
    message = (
        f"{placed.name} has the {label(window.source)} address {shown(inside.value)} and the "
        f"{label(window.into)} address {shown(outside.value)}, but the window puts it at "
        f"{shown(expected)}"
    )
    source = out_of_window(window, outside.value)
    outer_free = not _taken(resolved, window.into, expected, placed)
    inner_free = source is not None and not _taken(resolved, window.source, source, placed)
    slip = explain_slip(outside.value, expected)
    inner_slip = explain_slip(inside.value, source) if source is not None else ""
    if outer_free and slip:
        repair = None if inner_free and inner_slip else f"{window.into}:{shown(expected)}"
        return Problem(f"{message}; {slip}", place_of(placed), word_of(placed, window.into), repair)
    if inner_free and inner_slip and source is not None:
        message += f"; or in the {label(window.source)} address, {inner_slip}"
        repair = None if outer_free else f"{window.source}:{shown(source)}"
        return Problem(message, place_of(placed), word_of(placed, window.source), repair)
    return Problem(f"{message}; look both up", place_of(placed), word_of(placed, window.into))
