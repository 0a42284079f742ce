"""Rules on where registers stand: addresses that are missing, unknown or outside everything."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import shown
from regwright.model.chip import Chip, Space, Window
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.resolve.addresses import Address, out_of_window
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.digits import explain_slip
from regwright.rules.wording import label, place_of, what_is_at, word_of, wrong_bases

#: A space can have this many addresses: those of 64 bits.
LARGEST_SPACE = 1 << 64


@rule("address-missing", ERROR)
def address_missing(subject: Subject) -> Iterator[Problem]:
    """A register has no address, or two that exclude each other.

    ## What it catches
    A register with neither an address nor an offset, with both, or with an offset where no block
    around it has a base.

    ## Why it matters
    A header can only name what has a place.

    ## Example
    `<register name="STATUS"/>`

    ## Instead
    `<register name="STATUS" address="data:0x60"/>`, or an offset in a block with a base.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        register = placed.register
        if register.addresses and register.offset is not None:
            message = f"{placed.name} has both an address and an offset; keep one of them"
            yield Problem(message, (register.origin, "offset"))
        elif placed.addresses or placed.half:
            continue
        elif register.offset is not None:
            message = f"{placed.name} has an offset, but no block around it has a base address"
            yield Problem(message, (register.origin, "offset"))
        else:
            message = f"{placed.name} has no address; give it one, or an offset in its block"
            yield Problem(message, register.origin)


@rule("unknown-space", ERROR)
def unknown_space(subject: Subject) -> Iterator[Problem]:
    """A space is named that the chip does not have, or one space twice.

    ## What it catches
    An address, window, instruction, memory, table of vectors, configuration or signature with a
    space name that no `space` of the description has, and an address that names a space twice.

    ## Why it matters
    A mistyped space would leave the register without an address in the right one.

    ## Example
    `address="i0:0x18"`, with a zero.

    ## Instead
    `address="io:0x18"`.

    ## When to silence it
    Never.
    """
    known = ", ".join(subject.resolved.spaces)
    for what, space, origin in _other_spaces(subject.chip):
        if space not in subject.resolved.spaces:
            yield Problem(f"{what} {space!r}; the chip has {known}", origin)
    for placed in subject.described:
        seen: set[str] = set()
        for found in placed.addresses:
            if found.space not in subject.resolved.spaces:
                message = f"{placed.name} names the space {found.space!r}; the chip has {known}"
                yield Problem(message, place_of(placed), f"{found.space}:")
            elif found.space in seen:
                message = f"{placed.name} has two addresses in {label(found.space)} space"
                yield Problem(message, place_of(placed), f"{found.space}:")
            seen.add(found.space)


def _other_spaces(chip: Chip) -> Iterator[tuple[str, str, Origin]]:
    """Yield what else names a space, the space's name, and where it stands."""
    for window in chip.windows:
        yield "the window names the space", window.source, (window.origin, "from")
        yield "the window names the space", window.into, (window.origin, "into")
    for item in chip.instructions:
        yield f"{item.names[0]} takes addresses of", item.space, (item.origin, "space")
    for memory in chip.memories:
        yield f"{memory.name} lies in the space", memory.space, (memory.origin, "space")
    table, configuration, identity = chip.vector_table, chip.configuration, chip.identity
    if table:
        yield "the vectors lie in the space", table.space, (table.origin, "space")
    if configuration:
        where = (configuration.origin, "space")
        yield "the configuration lies in the space", configuration.space, where
    if identity and identity.space is not None:
        yield "the signature lies in the space", identity.space, (identity.origin, "space")


@rule("address-outside-space", ERROR)
def address_outside_space(subject: Subject) -> Iterator[Problem]:
    """A register, region or window lies outside its space.

    ## What it catches
    An address at or past the end of its space, a register that reaches past it, a region or
    window whose ends are swapped or lie outside; a space with more than 2^64 addresses.

    ## Why it matters
    No such address exists; the number was mistyped or belongs to another space.

    ## Example
    `address="io:0x6E"` where I/O space has 0x40 addresses: above the port window only the data
    address exists.

    ## Instead
    `address="data:0x6E"`.

    ## When to silence it
    Never.
    """
    resolved = subject.resolved
    outside = list(_outside(subject))
    bases = wrong_bases(resolved.registers, {id(placed) for placed, _, _ in outside})
    told: set[tuple[int, str]] = set()
    for placed, found, space in outside:
        base = bases.get(id(placed.within))
        key = (id(placed.within if base else placed.register.origin), space.name)
        if key in told:
            continue
        told.add(key)
        name = label(space.name)
        message = (
            f"{placed.name} has the {name} address {shown(found.value)}, but {name} space ends "
            f"at {shown(space.size - 1)}"
        )
        if found.value < space.size:
            message = (
                f"{placed.name} takes {placed.units} addresses from {shown(found.value)}, but "
                f"{name} space ends at {shown(space.size - 1)}"
            )
        if base:
            yield Problem(f"{message}; look the base address of {placed.block} up", base)
        else:
            message += _what_is_meant(subject, placed, found)
            yield Problem(message, place_of(placed), word_of(placed, space.name))
    for space in subject.chip.spaces:
        if space.size > LARGEST_SPACE:
            message = f"{label(space.name)} space has more addresses than 64 bits can tell apart"
            yield Problem(message, (space.origin, "size"))
        for region in space.regions:
            yield from _bad_span(region.first, region.last, space.size, region.origin, region.name)


def _outside(subject: Subject) -> Iterator[tuple[Placed, Address, Space]]:
    """Yield each register that is not wholly in its space, its address there and the space."""
    for placed in subject.resolved.registers:
        for found in placed.addresses:
            space = subject.resolved.spaces.get(found.space)
            if space is None or found.value + placed.units <= space.size:
                continue
            if id(placed) in subject.explained or _is_outer_address(subject, placed, found):
                continue
            yield placed, found, space


def _is_outer_address(subject: Subject, placed: Placed, found: Address) -> bool:
    """Tell whether an address is the one that its register has on the other side of a window.

    ``offset-already-added`` says so then.
    """
    for window in subject.chip.windows:
        outside = placed.address(window.into)
        if found.space == window.source and found.given and outside and outside.given:
            is_same = window.offset and outside.value == found.value
            if is_same and out_of_window(window, found.value) is not None:
                return True
    return False


def _what_is_meant(subject: Subject, placed: Placed, found: Address) -> str:
    """Say what an address past the end of its space was probably meant to be."""
    for window in subject.chip.windows:
        if found.space != window.source or not window.offset:
            continue
        outside = placed.address(window.into)
        if outside is not None and outside.given:
            meant = out_of_window(window, outside.value)
            if meant is None:
                return ""
            slip = explain_slip(found.value, meant)
            text = f"; by its {label(window.into)} address it is {shown(meant)}"
            return f"{text}: {slip}" if slip else text
        meant = out_of_window(window, found.value)
        if meant is not None:
            return (
                f"; {shown(found.value)} can be its {label(window.into)} address, then the "
                f"{label(window.source)} address is {shown(meant)}"
            )
    return ""


def _bad_span(first: int, last: int, size: int, origin: Origin, name: str) -> Iterator[Problem]:
    if last < first:
        yield Problem(f"{name} ends before it starts; swap first and last", (origin, "last"))
    elif last >= size:
        yield Problem(f"{name} reaches past the end of its space", (origin, "last"))


@rule("address-outside-window", ERROR)
def address_outside_window(subject: Subject) -> Iterator[Problem]:
    """An address claims a window that does not reach it.

    ## What it catches
    A register with addresses on both sides of a window although its inner address lies outside
    the window's span; a window that does not fit its spaces.

    ## Why it matters
    Port instructions do not reach such a register, whatever the header says.

    ## Example
    `address="io:0x4E data:0x6E"` where the window spans I/O 0x00 to 0x3F.

    ## Instead
    `address="data:0x6E"`.

    ## When to silence it
    Never.
    """
    resolved = subject.resolved
    for window in subject.chip.windows:
        yield from _window_problems(subject, window)
        others = [w for w in subject.chip.windows if w is not window]
        for placed in subject.described:
            inside, outside = placed.address(window.source), placed.address(window.into)
            if not (inside and outside and inside.given and outside.given):
                continue
            if any(w.source == window.source and w.into == window.into for w in others):
                continue
            if window.first <= inside.value <= window.last or inside.value == outside.value:
                continue
            source = resolved.spaces.get(window.source)
            if source is None or inside.value >= source.size:
                continue  # address-outside-space says it
            message = (
                f"{placed.name} has the {label(window.source)} address "
                f"{shown(inside.value)}, but the window ends at "
                f"{shown(window.last)}: above it only the "
                f"{label(window.into)} address exists, which hits "
                f"{what_is_at(resolved, window.into, outside.value, placed)}"
            )
            yield Problem(message, place_of(placed), word_of(placed, window.source))


def _window_problems(subject: Subject, window: Window) -> Iterator[Problem]:
    source = subject.resolved.spaces.get(window.source)
    into = subject.resolved.spaces.get(window.into)
    if source is None or into is None:
        return
    name = f"the window from {label(window.source)} into {label(window.into)}"
    yield from _bad_span(window.first, window.last, source.size, window.origin, name)
    if window.last >= window.first and window.last + window.offset >= into.size:
        message = f"{name} reaches past the end of {label(window.into)} space"
        yield Problem(message, (window.origin, "offset"))
    span = window.single_bit
    if span and not window.first <= span.first <= span.last <= window.last:
        message = f"single-bit instructions cannot reach past {name}"
        yield Problem(message, (window.origin, "singleBit"))
