"""Rules on the regions of a space: what lies where, and which registers can be there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.macros.literals import shown
from regwright.model.chip import Block, Chip, Instance, Space
from regwright.model.finding import ERROR, WARNING
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import doubtful, label, place_of, region_at, word_of, wrong_bases


@rule("regions-overlap", ERROR)
def regions_overlap(subject: Subject) -> Iterator[Problem]:
    """Two regions of a space lie on each other.

    ## What it catches
    Regions of one space that share an address.

    ## Why it matters
    What a wrong address hits is read off the regions; one of the two would be named wrongly.

    ## Example
    `first="0x20" last="0x60"` and `first="0x60" last="0xFF"`

    ## Instead
    `last="0x5F"`: the last address of a region still belongs to it.

    ## When to silence it
    Never.
    """
    for space in subject.chip.spaces:
        regions = sorted(space.regions, key=lambda region: region.first)
        one = regions[0] if regions else None
        for other in regions[1:]:
            if one is not None and other.first <= one.last:
                message = (
                    f"{other.name} starts at {shown(other.first)}, but {one.name} ends at "
                    f"{shown(one.last)}"
                )
                yield Problem(message, (other.origin, "first"))
            one = other if one is None or other.last > one.last else one


class _Span(NamedTuple):
    """Where a block says it lies: its space, first and last address, and its base."""

    space: str
    first: int
    last: int
    name: str
    base: Origin


def _block_spans(chip: Chip) -> Iterator[_Span]:
    for block in chip.blocks:
        places: tuple[Block | Instance, ...] = block.instances or (block,)
        for place in places if block.size and not block.array else ():
            for space, value in place.base:
                last = value + (block.size or 1) - 1
                yield _Span(space, value, last, place.name, (place.origin, "base"))


@rule("blocks-overlap", WARNING)
def blocks_overlap(subject: Subject) -> Iterator[Problem]:
    """Two blocks claim the same addresses.

    ## What it catches
    Blocks or instances with a `size` whose spans share an address, whether registers meet there
    or not.

    ## Why it matters
    A base address was mistyped; every register of the block is off, and no two need to collide.

    ## Example
    `base="0x7001_80B0"` within a block that spans 0x7001_8000 to 0x7001_81FF.

    ## Instead
    Look the base up; `0x7000_0200` perhaps.

    ## When to silence it
    Where one block really lies within another; better, describe it as an inner block.
    """
    spans = sorted(_block_spans(subject.chip), key=lambda span: span[:3])
    furthest: dict[str, _Span] = {}
    for other in spans:
        one = furthest.get(other.space)
        if one is not None and other.first <= one.last:
            message = (
                f"{other.name} starts at {shown(other.first)}, but {one.name} claims the addresses "
                f"up to {shown(one.last)}; look both base addresses up"
            )
            yield Problem(message, other.base)
        if one is None or other.last > one.last:
            furthest[other.space] = other


#: Regions in which no register can lie.
_NOT_FOR_REGISTERS = frozenset({"cpu-registers", "ram", "flash", "eeprom", "reserved"})


@rule("register-outside-region", WARNING)
def register_outside_region(subject: Subject) -> Iterator[Problem]:
    """A register lies where the description says something else lies.

    ## What it catches
    A register in a region of memory, of the CPU's own registers or of reserved addresses; and, in
    a space whose registers otherwise all lie in a region for them, one that lies in none.

    ## Why it matters
    A write to that address changes a variable, or nothing.

    ## Example
    `address="data:0x160"` where SRAM starts at 0x100.

    ## Instead
    Look the address up; `0x60` perhaps.

    ## When to silence it
    When the document really has a register there; better, correct the region.
    """
    unsure = doubtful(subject.resolved) | subject.explained
    registers = [placed for placed in subject.resolved.registers if id(placed) not in unsure]
    for space in subject.chip.spaces:
        wrong = dict(_in_wrong_regions(subject, space, registers))
        if not wrong:
            continue
        bases = wrong_bases(registers, wrong)
        told: set[int] = set()
        for placed in registers:
            found = placed.address(space.name)
            base = bases.get(id(placed.within))
            key = id(placed.within if base else placed.register.origin)
            if found is None or id(placed) not in wrong or key in told:
                continue
            told.add(key)
            what = f"the base address of {placed.block}" if base else "the address"
            message = (
                f"{placed.name} has the {label(space.name)} address {shown(found.value)}, which "
                f"lies {wrong[id(placed)]}; look {what} up, or correct the region"
            )
            if base:
                yield Problem(message, base)
            else:
                yield Problem(message, place_of(placed), word_of(placed, space.name))


def _in_wrong_regions(
    subject: Subject, space: Space, registers: list[Placed]
) -> Iterator[tuple[int, str]]:
    """Yield the identity of each register in a region for something else, and where that is."""
    has_ports = any(region.kind not in _NOT_FOR_REGISTERS for region in space.regions)
    is_outer = any(window.into == space.name for window in subject.chip.windows)
    for placed in registers if space.regions else ():
        found = placed.address(space.name)
        if found is None:
            continue
        region = region_at(space, found.value)
        if region is None:
            if has_ports and found.value < space.size:
                yield id(placed), "in no region of the space"
        elif region.kind == "cpu-registers" and is_outer and found.given:
            continue  # offset-not-added says it
        elif region.kind in _NOT_FOR_REGISTERS:
            yield id(placed), f"in {region.title or region.name}"


@rule("single-bit-claim", ERROR)
def single_bit_claim(subject: Subject) -> Iterator[Problem]:
    """What is said about single-bit instructions contradicts the address.

    ## What it catches
    `singleBit="true"` on a register that they do not reach, `singleBit="false"` on one that they
    do, and either on a chip that does not say which part of a window they reach.

    ## Why it matters
    A single-bit instruction has room for a short address only: the assembler refuses the number,
    or, worse, cuts it.

    ## Example
    `<register name="STATUS" address="io:0x3F" singleBit="true"/>` where they reach 0x00 to 0x1F.

    ## Instead
    Leave `singleBit` out: it follows from the address.

    ## When to silence it
    When a single register is an exception that the document names.
    """
    for placed in subject.described:
        claim = placed.register.single_bit
        if claim is None or claim == placed.single_bit:
            continue
        origin = (placed.register.origin, "singleBit")
        if placed.single_bit is None:
            message = f"{placed.name} speaks of single-bit instructions, but no window does"
        else:
            reach = "do not reach" if claim else "reach"
            message = f"{placed.name}: by its address single-bit instructions {reach} it"
        yield Problem(message + "; leave singleBit out, or correct the window", origin)
