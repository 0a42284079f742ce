"""The catalogue: every rule, one line each, in the order in which they run."""

from __future__ import annotations

from regwright.rules import bits, mapping, names, overlaps, places, references
from regwright.rules.catalogue import Rule

RULES: tuple[Rule, ...] = (
    mapping.offset_not_added,
    mapping.offset_already_added,
    mapping.offset_added_twice,
    mapping.window_disagrees,
    places.address_missing,
    places.unknown_space,
    places.address_outside_space,
    places.address_outside_window,
    overlaps.registers_overlap,
    references.unknown_reference,
    references.row_without_step,
    references.halves_do_not_fit,
    bits.fields_overlap,
    bits.field_outside_register,
    bits.bits_reversed,
    bits.flags_count,
    bits.reset_does_not_fit,
    bits.value_does_not_fit,
    names.name_not_identifier,
    names.name_is_keyword,
    names.name_is_reserved,
    names.name_is_device,
    names.duplicate_name,
    names.macro_collision,
)
