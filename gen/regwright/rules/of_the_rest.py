"""The rules on what a chip has besides registers, in the order in which they run."""

from __future__ import annotations

from regwright.rules import clocks, configuration, hazards, memories, pins, vectors
from regwright.rules.catalogue import Rule

REST_RULES: tuple[Rule, ...] = (
    memories.memories_overlap,
    memories.memory_outside_space,
    memories.memory_disagrees,
    memories.memory_pages_do_not_fit,
    vectors.vector_repeats,
    vectors.vector_missing,
    vectors.vector_misplaced,
    vectors.vectors_outside_memory,
    configuration.configuration_repeats,
    configuration.configuration_bits,
    configuration.configuration_default,
    hazards.hazard_without_caution,
    hazards.unknown_setting,
    clocks.clock_contradicts,
    clocks.frequency_not_allowed,
    pins.pin_repeats,
    pins.pin_missing,
    pins.port_bit_twice,
    pins.port_bit_without_pin,
    pins.port_register_unknown,
)
