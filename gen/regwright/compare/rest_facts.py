"""What differs between two chips in what they have besides registers.

The modules for a subject are loaded only when a chip describes something of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from regwright.compare.changes import Change
from regwright.compare.pairs import Matching
from regwright.resolve.chip import ResolvedChip


def rest_changes(a: ResolvedChip, b: ResolvedChip, matching: Matching) -> Iterator[Change]:
    """Yield what differs, what a program that moves must know first before what is only new."""
    one, other = a.chip, b.chip
    if one.memories or other.memories:
        from regwright.compare.memory_facts import memory_changes

        yield from memory_changes(one, other)
    if one.vector_table or other.vector_table:
        from regwright.compare.vector_facts import vector_changes

        yield from vector_changes(one, other)
    if one.configuration or other.configuration:
        from regwright.compare.configuration_facts import configuration_changes

        yield from configuration_changes(one, other)
    if one.clock or other.clock:
        from regwright.compare.clock_facts import clock_changes

        yield from clock_changes(a, b, matching)
    if one.ports or other.ports or one.packages or other.packages:
        from regwright.compare.pin_facts import pin_changes

        yield from pin_changes(a, b, matching)
    if one.identity or other.identity or one.build or other.build:
        from regwright.compare.build_facts import build_changes

        yield from build_changes(one, other)
