"""Whether the bits of one register are at home in another."""

from __future__ import annotations

from regwright.audit.names import Match
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts


def are_related(one: Placed, other: Placed) -> bool:
    """Tell whether two registers are one in some way.

    They are in a row or a block with several instances, are halves of one register, a half and its
    whole, or aliases.
    """
    if one is other or one.register.origin is other.register.origin:
        return True
    if (
        one.name == other.whole
        or other.name == one.whole
        or (one.whole and one.whole == other.whole)
    ):
        return True
    aliased = one.register.alias_of, other.register.alias_of
    names = {one.register.name, other.register.name, one.name, other.name}
    return bool(names & set(aliased)) or (aliased[0] is not None and aliased[0] == aliased[1])


def is_at_home(match: Match, bits: int, placed: Placed) -> bool:
    """Tell whether ``bits``, which the name of another register stands for, may be for ``placed``.

    They may where the register has the same field, where its bits have no meaning of their own
    (``DIR_B |= OUT_B_LED_MASK``), and where they are all the pins that another register has.
    """
    field = match.field
    fields = placed.facts.fields
    if field is None or not fields:
        return True
    if any(_is_same(item, match) for item in fields):
        return True
    if all(_is_row(item) for item in fields):
        return True
    hit = [item.layout.mask for item in fields if item.layout.mask & bits]
    return _is_row(field) and len(hit) > 1 and sum(hit) == bits == field.layout.mask


def _is_row(field: FieldFacts) -> bool:
    """Tell whether a field is a row of bits of one kind, as pins are."""
    return field.layout.width > 1 and not field.field.values


def _is_same(item: FieldFacts, match: Match) -> bool:
    """Tell whether a field is that of ``match`` in all but its register."""
    field = match.field
    if field is None or item.field.name != field.field.name or item.layout != field.layout:
        return False
    if match.value is None:
        return True
    wanted = match.value.name, match.value.value
    return any((value.name, value.value) == wanted for value in item.field.values)
