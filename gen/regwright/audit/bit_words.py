"""What a number is among the bits of a register, in numbers and in words."""

from __future__ import annotations

from regwright.audit.address_words import listed
from regwright.audit.names import ALIKE, MASK, POSITION, RESET, Match
from regwright.audit.put import value_of
from regwright.macros.literals import shown
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts
from regwright.resolve.layout import Layout
from regwright.rules.wording import bit_list


def as_bits(placed: Placed, number: int) -> int:
    """Return a number as a register has it: ``1 << 31`` may be negative, and is bit 31."""
    return number if number >= 0 else number & ((1 << placed.facts.width) - 1)


def is_right(match: Match, name: str, number: int, *, has_shift: bool = False) -> bool:
    """Tell whether ``number`` is one that ``name``, which means ``match``, can stand for.

    ``has_shift`` tells whether the sources have a name for the field's position too: then a mask
    may be that of the field at bit 0, as ``(value >> SHIFT) & MASK`` wants it.
    """
    number = as_bits(match.placed, number)
    if match.field is None:
        return match.says != RESET or _resets_to(match.placed, number)
    layout = match.field.layout
    if match.value is not None:
        return number in (match.value.value, layout.insert(match.value.value))
    ones = (1 << layout.width) - 1
    if match.says == POSITION:
        is_called_bit = match.certainty == ALIKE and name.upper().endswith("BIT")
        return number == layout.position or (is_called_bit and number == layout.mask)
    if match.says == MASK:
        return number == layout.mask or (has_shift and number == ones)
    is_chosen = layout.width > 1 and name not in match.field.field.aliases
    if is_chosen and (number <= ones or not number & ~layout.mask):
        return True  # what somebody has chosen for the field, in place or not
    return number in (layout.position, layout.mask)


def _resets_to(placed: Placed, number: int) -> bool:
    reset = placed.facts.reset
    return reset is None or not (reset.value ^ number) & ~reset.undefined


def reaches(layout: Layout, number: int) -> bool:
    """Tell whether a shift by ``number`` reaches the field."""
    if number == layout.position:
        return True
    return layout.width > 1 and 0 <= number < 64 and bool(layout.mask >> number & 1)


def fits_as_mask(match: Match, layout: Layout, number: int) -> bool:
    """Tell whether ``number`` can be meant as bits of the field: its mask, or a value in place.

    A number that has the mask in it is for that field and others; a negative one may be ``~mask``.
    """
    bits = as_bits(match.placed, number)
    if bits & layout.mask == layout.mask or (number < 0 and ~number == layout.mask):
        return True
    if layout.width == 1:
        return bits == 0 and layout.position != 0
    return not bits & ~layout.mask


def what_has(placed: Placed, mask: int) -> str:
    """Say what the bits of ``mask``, which is not 0, are in a register."""
    if mask >> placed.facts.width:
        return f"past the {placed.facts.width} bits of {placed.name}"
    names = []
    rest = mask
    for item in placed.facts.fields:
        own = item.layout.mask & mask
        if own:
            names.append(_part(item.field.name, own, item.layout.mask))
        rest &= ~own
    for reserved in placed.facts.reserved:
        if reserved.mask & rest:
            names.append("reserved")
            rest &= ~reserved.mask
    if rest:
        names.append("nothing that has a name")
    return listed(names)


def _part(name: str, bits: int, whole: int) -> str:
    if bits == whole:
        return name
    return f"one bit of {name}" if bits.bit_count() == 1 else f"{bit_list(bits)} of {name}"


def right_of(match: Match) -> str:
    """Say what the number of a name should be."""
    placed, field = match.placed, match.field
    if field is None:
        reset = placed.facts.reset
        return f"{placed.name} resets to {value_of(placed, reset.value if reset else 0)}"
    layout, name = field.layout, field.field.name
    if match.value is not None:
        inside = layout.insert(match.value.value)
        return (
            f"{match.value.name} of {placed.name}.{name} is {value_of(placed, inside)}, "
            f"{shown(match.value.value, 1)} in the field itself"
        )
    if match.says == POSITION:
        verb = "is" if layout.width == 1 else "starts at"
        return f"{name} of {placed.name} {verb} bit {layout.position}"
    mask = value_of(placed, layout.mask)
    if match.says == MASK:
        return f"the mask of {placed.name}.{name} is {mask}"
    return f"{name} of {placed.name} is {bit_list(layout.mask)}, its mask {mask}"


def in_truth(match: Match, number: int) -> str:
    """Say what a wrong number is in the register of the name; nothing where that says nothing."""
    placed, field = match.placed, match.field
    if field is None:
        return ""
    if match.value is not None:
        same = _value_named(field, number)
        return f"; {value_of(placed, number)} is {same}" if same else ""
    if match.says == POSITION:
        bits = 1 << number if 0 <= number < 64 else 0
        return f"; bit {number} is {what_has(placed, bits)}" if bits else ""
    if number < 0:
        return ""
    mask = f"{value_of(placed, number)} is {what_has(placed, number)}" if number else ""
    if match.says or number >= placed.facts.width:
        return f"; {mask}" if mask else ""
    position = f"bit {number} is {what_has(placed, 1 << number)}"
    return f"; {position}, {mask}" if mask else f"; {position}"


def _value_named(field: FieldFacts, number: int) -> str:
    return next(
        (
            value.name
            for value in field.field.values
            if number in (value.value, field.layout.insert(value.value))
        ),
        "",
    )
