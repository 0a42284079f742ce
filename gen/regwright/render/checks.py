"""What ``<chip>_check.c`` asserts: the header's numbers, worked out by another route.

Addresses are compared with the numbers the description gives, in decimal, and with each other
through windows, bases and rows; masks with the range of bits they come from; values with what
extracting them gives.
"""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import c_type
from regwright.macros.registers import FieldMacros, RegisterMacros
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
        return
    ones = (1 << layout.width) - 1
    yield f"{stem}MASK == {_range_sum(item)}U && {stem}BITPOS == {field.bits[-1].low}U"
    yield f"{stem}EXTRACT({stem}MASK) == {ones}U && {stem}INSERT(0U, {ones}U) == {stem}MASK"
    for value in field.values:
        yield f"{stem}EXTRACT({stem}{value.name}) == {value.value}U"


def register_checks(item: RegisterMacros) -> list[str]:
    """Return the conditions that hold for one register, as C expressions."""
    conditions = list(_address_checks(item.placed))
    for field in item.fields:
        conditions += _field_checks(item.placed, field)
    return conditions


def all_checks(data: Input) -> list[tuple[str, list[str]]]:
    """Return the name of each register with its conditions."""
    return [(item.placed.name, register_checks(item)) for item in data.macros.registers]
