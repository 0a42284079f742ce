"""The rules on what a chip has besides registers, in the order in which they run."""

from __future__ import annotations

from regwright.rules import (
    clock_choices,
    clock_limits,
    clocks,
    configuration,
    hazards,
    memories,
    pin_names,
    pins,
    vectors,
)
from regwright.rules.catalogue import Rule

REST_RULES: tuple[Rule, ...] = (
    memories.memories_overlap,
    memories.memory_outside_space,
    memories.memory_disagrees,
    memories.memory_pages_do_not_fit,
    memories.identity_misplaced,
    vectors.vector_repeats,
    vectors.vector_missing,
    vectors.vector_misplaced,
    vectors.vectors_outside_memory,
    vectors.vectors_in_other_memory,
    configuration.configuration_repeats,
    configuration.configuration_bits,
    configuration.configuration_outside_space,
    configuration.configuration_bits_without_meaning,
    configuration.configuration_default,
    hazards.hazard_without_caution,
    hazards.unknown_setting,
    clocks.clock_contradicts,
    clocks.frequency_not_allowed,
    clock_limits.limits_contradict,
    clock_limits.supply_without_limit,
    clock_choices.clock_incomplete,
    pins.pin_repeats,
    pins.pin_missing,
    pins.port_bit_twice,
    pins.port_bit_without_pin,
    pins.port_register_unknown,
    pin_names.pin_name_repeats,
    pin_names.function_repeats,
    pin_names.port_bit_reserved,
)
