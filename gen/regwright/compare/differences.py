"""All that differs between two chips whose registers and fields have been matched."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.compare import show
from regwright.compare.block_facts import block_changes
from regwright.compare.changes import Change
from regwright.compare.chip_facts import chip_changes
from regwright.compare.field_facts import field_changes, lone_field
from regwright.compare.matching import match
from regwright.compare.pairs import Matching, sureness
from regwright.compare.pins import NO_PINS, Pins
from regwright.compare.references import References
from regwright.compare.register_facts import Part, parts, register_facts
from regwright.compare.rest_facts import rest_changes
from regwright.compare.splits import splits
from regwright.resolve.chip import Placed, ResolvedChip


class Comparison(NamedTuple):
    """Two chips, what is what in them, and what differs, in the order of A and then of B."""

    a: ResolvedChip
    b: ResolvedChip
    matching: Matching
    changes: list[Change]


def compare(a: ResolvedChip, b: ResolvedChip, pins: Pins = NO_PINS) -> Comparison:
    """Return what differs between ``a`` and ``b``; ``pins`` is what the user says about pairs.

    Compared is what a description says of the chip, however it says it: given or inherited, in one
    place or in a block. What it says for the checks of itself is left out: silences, claims of
    single-bit reach, sizes of blocks, comments.
    """
    matching = match(a, b, pins)
    changes = [
        *chip_changes(a.chip, b.chip),
        *rest_changes(a, b, matching),
        *block_changes(a.chip, b.chip, matching.blocks),
        *_register_changes(a, b, matching),
        *splits(matching),
    ]
    partners: dict[int, Placed] = {}
    for one, other, _ in matching.registers:
        if one and other:
            partners[id(one)], partners[id(other)] = other, one
    for pair in matching.fields:
        if pair.a and pair.b:
            changes += field_changes(pair.a, pair.b, sureness(pair.why), partners)
        else:
            changes += lone_field(pair, partners)
    return Comparison(a, b, matching, changes)


def _register_changes(a: ResolvedChip, b: ResolvedChip, matching: Matching) -> Iterator[Change]:
    """Yield what differs between registers; of a lone register with halves, only itself."""
    of_a, of_b = parts(a), parts(b)
    references = References(matching)
    alone = {id(one or other) for one, other, _ in matching.registers if not (one and other)}
    for one, other, why in matching.registers:
        if one and other:
            sure = sureness(why)
            origins = one.register.origin, other.register.origin
            facts = register_facts(one, other, of_a.get(id(one)), of_b.get(id(other)), references)
            for kind, detail, before, after in facts:
                yield Change(kind, one.name, other.name, before, after, detail, sure, *origins)
        elif one and not _goes_with(of_a.get(id(one)), alone):
            origin = one.register.origin
            yield Change("register-only-in-a", one.name, "", _summary(one), origin_a=origin)
        elif other and not _goes_with(of_b.get(id(other)), alone):
            origin = other.register.origin
            yield Change("register-only-in-b", "", other.name, "", _summary(other), origin_b=origin)


def _goes_with(part: Part | None, alone: set[int]) -> bool:
    """Tell whether a register is a half of one that is alone too."""
    return part is not None and id(part.whole) in alone


def _summary(placed: Placed) -> str:
    places = [f"{item.space} {item.value:#04x}" for item in placed.addresses]
    return ", ".join([*places, show.width(placed.facts.width), placed.facts.access])
