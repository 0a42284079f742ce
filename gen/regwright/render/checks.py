"""What ``<chip>_check.c`` asserts: the header's numbers, worked out by another route.

Addresses are compared with the numbers the description gives, in decimal, and with each other
through windows, bases and rows; masks with the range of bits they come from; values with what
inserting them gives; single-bit access with the window's span.
"""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import c_type
from regwright.macros.registers import FieldMacros, RegisterMacros
from regwright.model.chip import Field, Window
from regwright.render.move_checks import move_checks
from regwright.render.views import Input
from regwright.resolve.chip import Placed


def _address_checks(placed: Placed) -> Iterator[str]:
    for address in placed.addresses:
        name = f"{placed.name}_{address.space.upper()}_ADDR"
        if address.via is not None:
            inner = f"{placed.name}_{address.via.source.upper()}_ADDR"
            outer = f"{placed.name}_{address.via.into.upper()}_ADDR"
            yield f"{outer} - {inner} == {address.via.offset}U"
        elif not address.given and placed.terms and address is placed.addresses[0]:
            yield f"{name} == {'U + '.join(map(str, placed.terms))}U"
        else:
            yield f"{name} == {address.value}U"


def _range_sum(item: FieldMacros) -> int:
    """Return the mask as a sum over the field's ranges, 2^(high+1) - 2^low for each."""
    return sum((2 << max(pair)) - (1 << min(pair)) for pair in item.facts.field.bits)


def _field_checks(placed: Placed, item: FieldMacros) -> Iterator[str]:
    field = item.facts.field
    layout = item.facts.layout
    stem = f"{placed.name}_{field.name}_"
    kind = c_type(placed.facts.width)
    if layout.width == 1:
        low = field.bits[0].low
        yield f"{stem}BITPOS == {low}U && {stem}MASK == ({kind})(({kind})1 << {low})"
        for value in field.values:
            yield f"{stem}{value.name} == {value.value}U * {stem}MASK"
        yield from _clearing_check(stem, field)
        return
    yield f"{stem}MASK == {_range_sum(item)}U && {stem}BITPOS == {field.bits[-1].low}U"
    yield from move_checks(stem, field.bits, placed.facts.width)
    for value in field.values:
        yield f"{stem}{value.name} == {stem}INSERT(0U, {value.value}U)"
    yield from _clearing_check(stem, field)


def _clearing_check(stem: str, field: Field) -> Iterator[str]:
    if field.modified_write_value == "oneToClear":
        yield f"({stem}TO_CLEAR(0U) & {stem}MASK) == {stem}MASK"
    elif field.modified_write_value == "zeroToClear":
        yield f"({stem}TO_CLEAR({stem}MASK) & {stem}MASK) == 0U"


def _reset_checks(placed: Placed) -> Iterator[str]:
    reset = placed.facts.reset
    if reset is None:
        return
    yield f"{placed.name}_RESET == {reset.value}U"
    if reset.undefined:
        ones = (1 << placed.facts.width) - 1
        yield f"{placed.name}_RESET_DEFINED == {ones}U - {reset.undefined}U"


def _single_bit_checks(placed: Placed, windows: tuple[Window, ...]) -> Iterator[str]:
    if placed.single_bit is None:
        return
    within = []
    for window in windows:
        if window.single_bit and placed.address(window.source):
            name = f"{placed.name}_{window.source.upper()}_ADDR"
            first, last = window.single_bit
            above = f"{name} >= {first}U && " if first else ""
            within.append(f"({above}{name} <= {last}U)")
    yield f"{placed.name}_SINGLE_BIT == ({' || '.join(within) or '0'} ? 1U : 0U)"


def register_checks(item: RegisterMacros, windows: tuple[Window, ...]) -> list[str]:
    """Return the conditions that hold for one register, as C expressions."""
    conditions = list(_address_checks(item.placed))
    conditions += _single_bit_checks(item.placed, windows)
    conditions += _reset_checks(item.placed)
    for field in item.fields:
        conditions += _field_checks(item.placed, field)
    return conditions


def all_checks(data: Input) -> list[tuple[str, list[str]]]:
    """Return the name of each register, and of what else there is, with its conditions."""
    windows = data.resolved.chip.windows
    found = [(item.placed.name, register_checks(item, windows)) for item in data.macros.registers]
    if data.macros.parts:
        from regwright.render.part_checks import part_checks

        found += part_checks(data)
    return found
