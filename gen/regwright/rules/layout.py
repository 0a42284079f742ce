"""Rules on how wide registers, rows, instances and blocks lie in their space."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.macros.literals import shown
from regwright.model.chip import Block
from regwright.model.finding import ERROR, WARNING
from regwright.resolve.addresses import units_of
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import doubtful, label, place_of, word_of


@rule("misaligned", WARNING)
def misaligned(subject: Subject) -> Iterator[Problem]:
    """A wide register does not stand at a multiple of its width.

    ## What it catches
    On a chip whose registers are 32 bits wide or wider, a register whose address is no multiple
    of its width. On 8-bit and 16-bit chips wide registers may stand anywhere.

    ## Why it matters
    Such a core faults on the access, or splits it in two.

    ## Example
    `<register name="CTRL" width="32" offset="0x02"/>`

    ## Instead
    Look up the offset; `0x20` perhaps.

    ## When to silence it
    When the document really has it there.
    """
    if subject.chip.width < 32:
        return
    for placed in subject.described:
        for found in placed.addresses[:1]:
            units = placed.units
            if units & (units - 1) == 0 and found.value % units:
                message = (
                    f"{placed.name} is {placed.facts.width} bits wide, but its address "
                    f"{shown(found.value)} is no multiple of {units}"
                )
                yield Problem(message, place_of(placed), word_of(placed, found.space))


@rule("halves-not-adjacent", ERROR)
def halves_not_adjacent(subject: Subject) -> Iterator[Problem]:
    """The halves of a wide register do not lie next to each other in its byte order.

    ## What it catches
    Halves with addresses of their own that are not the two halves of the whole register's span,
    the low one first on a little-endian register and last on a big-endian one.

    ## Why it matters
    Code that accesses the whole register and code that accesses the halves reach different ones.

    ## Example
    `<low address="data:0x85"/> <high address="data:0x84"/>` with the default byte order.

    ## Instead
    Swap them, or say `byteOrder="big"` where the document has the high half first.

    ## When to silence it
    Never.
    """
    wholes = {placed.name: placed for placed in subject.described}
    unsure = doubtful(subject.resolved)
    moved: set[int] = set()
    halves: dict[str, dict[str, Placed]] = {}
    for placed in subject.described:
        if placed.half:
            halves.setdefault(placed.whole, {})[placed.half] = placed
    for placed in subject.described:
        whole = wholes.get(placed.whole)
        if whole is None or id(placed) in unsure or id(whole) in unsure or id(whole) in moved:
            continue
        if whole.facts.width < 16 or whole.facts.width % 16:
            continue  # halves-do-not-fit says it
        if placed.half == "low" and (problem := _whole_is_elsewhere(whole, halves[whole.name])):
            moved.add(id(whole))
            yield problem
            continue
        is_second = (placed.half == "high") == (whole.facts.byte_order == "little")
        for found in placed.addresses:
            base = whole.address(found.space)
            if base is None or not found.given:
                continue
            expected = base.value + (whole.units // 2 if is_second else 0)
            if found.value != expected:
                message = (
                    f"{placed.name} is the {placed.half} half of {whole.name}, a "
                    f"{whole.facts.byte_order}-endian register at {shown(base.value)}, so its "
                    f"{label(found.space)} address should be {shown(expected)}, not "
                    f"{shown(found.value)}"
                )
                yield Problem(message, place_of(placed), word_of(placed, found.space))
                break


def _whole_is_elsewhere(whole: Placed, halves: dict[str, Placed]) -> Problem | None:
    """Return the problem of a whole whose halves agree with each other, but not with it."""
    first, second = halves["low"], halves["high"]
    if whole.facts.byte_order == "big":
        first, second = second, first
    for base in whole.addresses:
        one, other = first.address(base.space), second.address(base.space)
        if not (one and other and one.given and other.given):
            continue
        if one.value == base.value and other.value == one.value + first.units // 2:
            message = (
                f"the halves of {whole.name} are as far apart as those of a register of "
                f"{first.facts.width} bits, but it is {whole.facts.width} bits wide"
            )
            return Problem(message, (whole.register.origin, "width"))
        if one.value == base.value:
            continue
        if other.value == one.value + whole.units // 2:
            message = (
                f"{whole.name} has the {label(base.space)} address {shown(base.value)}, but its "
                f"halves start at {shown(one.value)}"
            )
            return Problem(message, place_of(whole), word_of(whole, base.space))
    return None


@rule("halves-order-differs", WARNING)
def halves_order_differs(subject: Subject) -> Iterator[Problem]:
    """Two registers that share a hidden register want their halves in different orders.

    ## What it catches
    Registers with the same `temporary` whose `readFirst` or `writeFirst` differ.

    ## Why it matters
    The order belongs to the hidden register: it holds the half that was accessed first. One of the
    two was copied wrongly, and the 16-bit value read there is torn.

    ## Example
    `readFirst="low"` at one counter and `readFirst="high"` at another with the same `temporary`.

    ## Instead
    Look up the order once more, and write it at both.

    ## When to silence it
    When the document says so of each of them by itself.
    """
    wanted: dict[tuple[str, str], dict[str, list[Placed]]] = {}
    for placed in subject.described:
        halves = placed.register.halves
        if halves is None or halves.temporary is None:
            continue
        for verb, order in (("read", halves.read_first), ("write", halves.write_first)):
            if order is not None:
                orders = wanted.setdefault((halves.temporary, verb), {})
                orders.setdefault(order, []).append(placed)
    for (temporary, verb), orders in wanted.items():
        usual = max(orders, key=lambda order: len(orders[order]))
        for order in orders:
            for placed in orders[order] if order != usual else ():
                message = (
                    f"{placed.name} wants its {order} half {verb} first, but "
                    f"{orders[usual][0].name}, which shares {temporary} with it, its {usual} half"
                )
                halves = placed.register.halves
                yield Problem(message, (halves.origin if halves else None, f"{verb}First"))


def _extent(block: Block, width: int, unit: int) -> int:
    """Return how many units a block takes, from its base to the end of its last register."""
    width = block.width or width
    end = block.size or 0
    for register in block.registers:
        if register.offset is None:
            continue
        units = units_of(register.width or width, unit)
        row = register.array
        steps = (row.length - 1) * (row.stride if row.stride is not None else units) if row else 0
        end = max(end, register.offset + steps + units)
    for inner in block.blocks:
        if not inner.base:
            row = inner.array
            size = _extent(inner, width, unit)
            steps = (row.length - 1) * (row.stride or inner.size or 0) if row else 0
            end = max(end, (inner.offset or 0) + steps + size)
    return end


class _Measured(NamedTuple):
    """A block, with the width its registers inherit and the unit of the space it stands in."""

    block: Block
    width: int
    unit: int


def _measured(subject: Subject) -> Iterator[_Measured]:
    """Yield each block of the chip, outer ones before those within."""
    chip, spaces = subject.chip, subject.resolved.spaces
    waiting = [_Measured(block, chip.width, chip.spaces[0].unit) for block in chip.blocks]
    while waiting:
        block, width, unit = waiting.pop(0)
        base = block.instances[0].base if block.instances else block.base
        if base and base[0].space in spaces:
            unit = spaces[base[0].space].unit
        width = block.width or width
        yield _Measured(block, width, unit)
        waiting += [_Measured(inner, width, unit) for inner in block.blocks]


@rule("stride-too-small", ERROR)
def stride_too_small(subject: Subject) -> Iterator[Problem]:
    """The elements of a row lie on each other.

    ## What it catches
    A row whose stride is smaller than its element: a register's width, or a block's registers.

    ## Why it matters
    The second element starts within the first; every address from there on is wrong.

    ## Example
    `<block name="CH" count="4" stride="0x04">` around three registers of 32 bits.

    ## Instead
    Look up the distance between the first two; `0x10` perhaps.

    ## When to silence it
    Where the elements really interleave; better, describe their registers as rows.
    """
    for placed in subject.described:
        row = placed.register.array
        if row and row.length > 1 and row.stride is not None and row.stride < placed.units:
            message = (
                f"the stride of {placed.register.name} is {shown(row.stride, 1)}, but each of the "
                f"row takes {placed.units}"
            )
            yield Problem(message, (placed.register.origin, "stride"))
    for block, width, unit in _measured(subject):
        row = block.array
        if row and row.length > 1 and row.stride:
            needed = _extent(block._replace(size=None), width, unit)
            if row.stride < needed:
                message = (
                    f"the stride of {block.name} is {shown(row.stride, 1)}, but each of the row "
                    f"takes {shown(needed, 1)}"
                )
                yield Problem(message, (block.origin, "stride"))


@rule("register-outside-block", ERROR)
def register_outside_block(subject: Subject) -> Iterator[Problem]:
    """A register reaches past the end of its block.

    ## What it catches
    A register, row or inner block whose offset and width go beyond the block's size.

    ## Why it matters
    The offset was mistyped, or belongs to another block.

    ## Example
    `<block name="ADC" size="0x100"><register name="RESULT" offset="0x104"/></block>`

    ## Instead
    Look up the offset; `0x4C` perhaps.

    ## When to silence it
    Never: correct the block's size where that is wrong.
    """
    for block, width, unit in _measured(subject):
        if block.size is None:
            continue
        for register in block.registers:
            alone = block._replace(size=None, registers=(register,), blocks=())
            if _extent(alone, width, unit) > block.size:
                message = (
                    f"{register.name} reaches past the end of {block.name}, which spans "
                    f"{shown(block.size)}"
                )
                yield Problem(message, (register.origin, "offset"))
        for inner in block.blocks:
            alone = block._replace(size=None, registers=(), blocks=(inner,))
            if not inner.base and _extent(alone, width, unit) > block.size:
                message = (
                    f"{inner.name} reaches past the end of {block.name}, which spans "
                    f"{shown(block.size)}"
                )
                yield Problem(message, (inner.origin, "offset"))
