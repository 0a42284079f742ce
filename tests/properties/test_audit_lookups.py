"""Laws of looking up names and addresses of sources, held over generated descriptions."""

from __future__ import annotations

import re
from collections.abc import Iterator

from chips import STEADY, Tree, chips
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from spelled import as_json, source

from regwright.audit.locations import ADDED_TWICE, ALREADY_ADDED, NOT_ADDED, Locations
from regwright.audit.names import EXACT, Names
from regwright.macros.registers import RegisterMacros, chip_macros, macro_name
from regwright.read.description import read_description
from regwright.resolve.chip import ResolvedChip, TooManyRegisters, resolve

#: What a C identifier looks like: ISO/IEC 9899:2011, 6.4.2.1.
IDENTIFIER = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
#: Registers of one example that are tried.
TRIED = 40
#: Longer names are only found as they are.
LONGEST = 127


def resolved(tree: Tree) -> ResolvedChip:
    chip = read_description(source(as_json(tree), "json")).chip
    assume(chip is not None)
    assert chip is not None
    try:
        found = resolve(chip)
    except TooManyRegisters:
        assume(False)
    assume(found.registers)
    return found


def without_long_rows(chip: ResolvedChip) -> ResolvedChip:
    """Return the start of a chip: a row may have 4,096 registers, which are named alike."""
    end = min(TRIED, len(chip.registers))
    while end < len(chip.registers) and chip.registers[end].half:
        end += 1
    return chip._replace(registers=chip.registers[:end])


def meanings(item: RegisterMacros) -> Iterator[tuple[str, tuple[object, object, str, str]]]:
    """Yield each macro of a register, with the field and value that it is of, and what it says."""
    start = item.placed.name + "_"
    spaces = {f"{one.space.upper()}_ADDR": one.space for one in item.placed.addresses}
    for name, _ in item.numbers:
        tail = name.removeprefix(start)
        if tail in ("SINGLE_BIT", "RESET_DEFINED"):
            yield name, (None, None, "other", "")
        elif tail == "RESET":
            yield name, (None, None, "reset", "")
        else:
            yield name, (None, None, "address", spaces[tail])
    for name, _ in item.code:
        is_register = name == item.placed.name
        yield macro_name(name), (None, None, "" if is_register else "other", "")
    for field in item.fields:
        (position, _), (mask, _), *values = field.numbers
        yield position, (field.facts, None, "position", "")
        yield mask, (field.facts, None, "mask", "")
        for (name, _), value in zip(values, field.facts.field.values, strict=True):
            yield name, (field.facts, value, "", "")
        for name, _ in field.code:
            yield macro_name(name), (field.facts, None, "other", "")


def usable(item: RegisterMacros) -> Iterator[tuple[str, tuple[object, object, str, str]]]:
    """Yield what :func:`meanings` has that a source can use: a rule reports the other names."""
    if IDENTIFIER.fullmatch(item.placed.name):
        yield from ((name, means) for name, means in meanings(item) if IDENTIFIER.fullmatch(name))


@settings(STEADY, max_examples=80)
@given(chips())
def test_every_macro_of_the_header_is_exact_and_says_what_it_is(tree: Tree) -> None:
    chip = without_long_rows(resolved(tree))
    macros = chip_macros(chip)
    names = Names(chip, macros)
    for item in macros.registers:
        for name, meaning in usable(item):
            found = names.find(name)
            assert {match.certainty for match in found} == {EXACT}
            own = [tuple(match)[1:5] for match in found if match.placed is item.placed]
            assert meaning in own, name


@settings(STEADY, max_examples=80)
@given(chips())
def test_the_form_of_a_name_does_not_change_what_it_means(tree: Tree) -> None:
    chip = without_long_rows(resolved(tree))
    macros = chip_macros(chip)
    names = Names(chip, macros)
    for item in macros.registers:
        for name, (field, value, says, _) in usable(item):
            other = name.swapcase()
            if len(name) > LONGEST or not name.strip("_"):
                continue
            found = names.find(other)
            if found and found[0].certainty == EXACT:
                continue  # it is the name of something else
            own = [match[1:4] for match in found if match.placed is item.placed]
            assert (field, value, says) in own, other


# most chips have no address, and which are drawn depends on what else is imported
@settings(
    STEADY,
    max_examples=80,
    suppress_health_check=[*STEADY.suppress_health_check, HealthCheck.filter_too_much],
)
@given(chips(), st.data())
def test_a_lookup_finds_what_a_search_through_all_registers_finds(
    tree: Tree, data: st.DataObject
) -> None:
    chip = resolved(tree)
    locations = Locations(chip)
    addresses = [address for placed in chip.registers[:TRIED] for address in placed.addresses]
    assume(addresses)
    for _ in range(5):
        near = data.draw(st.sampled_from(addresses))
        space, value = near.space, near.value + data.draw(st.integers(-2, 9))
        wanted = []
        for placed in chip.registers:
            at = placed.address(space)
            unit = chip.spaces[space].unit if space in chip.spaces else 8
            size = (placed.facts.width + unit - 1) // unit
            if at is not None and at.value <= value < at.value + size:
                wanted.append((size, placed, value - at.value))
        wanted.sort(key=lambda item: -item[0])
        found = locations.at(space, value)
        assert [spot.offset for spot in found] == [item[2] for item in wanted]
        assert all(one.placed is item[1] for one, item in zip(found, wanted, strict=True))


@st.composite
def windowed(draw: st.DrawFn) -> Tree:
    """Draw a chip with registers near each other on both sides of a window or two."""
    spaces = ["io", "data", "bus"]
    number = st.integers(0, 12)
    windows = []
    for source_space, into in (("io", "data"), ("data", "bus")):
        first = draw(number)
        span = {"first": hex(first), "last": hex(first + draw(number))}
        windows.append({"from": source_space, **span, "into": into, "offset": hex(draw(number))})
    registers = [
        {
            "name": f"R{index}",
            "address": f"{draw(st.sampled_from(spaces))}:{draw(number):#x}",
            "width": draw(st.sampled_from([8, 16, 32])),
        }
        for index in range(draw(st.integers(1, 8)))
    ]
    return {
        "format": 1,
        "name": "windowed",
        "spaces": [{"name": name, "size": "0x40"} for name in spaces],
        "windows": windows[: draw(st.integers(1, 2))],
        "registers": registers,
    }


@settings(STEADY, max_examples=200)
@given(windowed())
def test_what_is_meant_is_what_a_search_through_all_registers_finds(tree: Tree) -> None:
    chip = resolved(tree)
    locations = Locations(chip)
    for space, value in ((space, value) for space in chip.spaces for value in range(40)):
        wanted = set()
        for placed in chip.registers:
            at = {address.space: address.value for address in placed.addresses}
            own = at.get(space)
            units = range(placed.facts.width // 8) if own is not None else ()
            for window, unit in ((window, unit) for window in chip.chip.windows for unit in units):
                is_seen = window.source in at and window.into in at
                if not is_seen or space not in (window.source, window.into) or not window.offset:
                    continue
                other = window.source if space == window.into else window.into
                if at[other] + unit == value:
                    kind = NOT_ADDED if space == window.into else ALREADY_ADDED
                    wanted.add((placed.name, kind, own + unit))
                elif space == window.into and own + unit + window.offset == value:
                    wanted.add((placed.name, ADDED_TWICE, own + unit))
        found = locations.seen_through(space, value)
        # of one register that an address may mean in two ways only one is told
        assert {(one.placed.name, one.kind, one.right) for one in found} <= wanted
        assert {one.placed.name for one in found} == {name for name, _, _ in wanted}
