"""What contradicts what in a description, worked out apart from the rules.

This decides which slips *must* be found: a slip after which nothing here contradicts anything
else can only be found by a hint, or with the document at hand.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from regwright.model.chip import Field
from regwright.resolve.chip import Placed, ResolvedChip

UNREAD = ("write-only", "writeOnce", "no-access")
UNWRITTEN = ("read-only", "no-access")


def contradictions(resolved: ResolvedChip) -> Iterator[str]:
    """Yield in a few words each contradiction within a description."""
    for placed in resolved.registers:
        yield from _of_addresses(resolved, placed)
        yield from _of_bits(placed)
        yield from _of_access(placed)
        yield from _of_halves(resolved, placed)
    yield from _of_neighbours(resolved)
    yield from _of_names(placed.name for placed in resolved.registers)
    yield from _of_orders(resolved)
    fields = {
        f"{placed.register.name}.{item.field.name}"
        for placed in resolved.registers
        for item in placed.facts.fields
    }
    for placed in resolved.registers:
        if any(condition.field not in fields for condition in placed.register.when):
            yield "a condition names nothing"


def _of_addresses(resolved: ResolvedChip, placed: Placed) -> Iterator[str]:
    given = {found.space: found.value for found in placed.addresses if found.given}
    for window in resolved.chip.windows:
        if {window.source, window.into} <= set(given):
            inner, outer = given[window.source], given[window.into]
            if outer != inner + window.offset or not window.first <= inner <= window.last:
                yield "two addresses that the window does not join"
    for found in placed.addresses:
        space = resolved.spaces[found.space]
        if found.value + placed.units > space.size:
            yield "an address past the end"
        for region in space.regions:
            is_in = region.first <= found.value <= region.last
            if is_in and region.kind in ("cpu-registers", "ram", "reserved"):
                yield "an address in a region for something else"


def _of_neighbours(resolved: ResolvedChip) -> Iterator[str]:
    for space in resolved.spaces:
        spans = sorted(
            (found.value, number, placed)
            for number, placed in enumerate(resolved.registers)
            if (found := placed.address(space)) and not placed.half
        )
        for index, (value, _, placed) in enumerate(spans):
            for other_value, _, other in spans[index + 1 :]:
                if other_value >= value + placed.units:
                    break
                if not _have_a_reason(placed, other):
                    yield "two registers at one address"


def _have_a_reason(one: Placed, other: Placed) -> bool:
    ways = (one.facts.access, other.facts.access)
    conditions = [{(c.field, c.value) for c in p.register.when} for p in (one, other)]
    differ = any(a[0] == b[0] and a[1] != b[1] for a in conditions[0] for b in conditions[1])
    return differ or sorted(ways) == ["read-only", "write-only"]


def _of_bits(placed: Placed) -> Iterator[str]:
    width, facts = placed.facts.width, placed.facts
    masks = [item.layout.mask for item in facts.fields] + [item.mask for item in facts.reserved]
    if any(mask >> width for mask in masks):
        yield "bits past the end of the register"
    if sum(masks) != _union(masks):
        yield "a bit of two fields"
    parts = [field.bits for field in placed.register.fields]
    parts += [reserved.bits for reserved in placed.register.reserved]
    if any(high < low for bits in parts for high, low in bits):
        yield "a range from low to high"
    if placed.register.flags not in (None, width):
        yield "a row of flags of another length"
    yield from _of_names(item.field.name for item in facts.fields)
    for item in facts.fields:
        yield from _of_values(item.field, item.layout.width)
    yield from _of_reset(placed)


def _of_reset(placed: Placed) -> Iterator[str]:
    width, facts = placed.facts.width, placed.facts
    reset = placed.register.reset
    if reset and not placed.half:
        if (reset.value | reset.undefined) >> width:
            yield "a reset value past the end of the register"
        for reserved in facts.reserved:
            wanted = reserved.mask if reserved.reserved.write == "1" else 0
            says = reserved.reserved.write in ("0", "1")
            if says and (reset.value ^ wanted) & reserved.mask & ~reset.undefined:
                yield "reserved bits that reset to something else than must be written"
        for item in facts.fields:
            named = {value.value for value in item.field.values}
            value = item.reset.value if item.reset else 0
            if item.field.values_complete and value not in named:
                yield "a reset value without a name among all there are"


def _union(masks: list[int]) -> int:
    union = 0
    for mask in masks:
        union |= mask
    return union


def _of_values(field: Field, width: int) -> Iterator[str]:
    numbers = [value.value for value in field.values]
    if len(set(numbers)) != len(numbers):
        yield "two names for a value"
    if any(number >> width for number in numbers):
        yield "a value that its field cannot hold"
    if field.values_complete and len(set(numbers)) != 1 << width:
        yield "values that are said to be all and are not"
    yield from _of_names(value.name for value in field.values)


def _of_names(names: Iterator[str]) -> Iterator[str]:
    found = sorted(names)
    if any(one == other for one, other in pairwise(found)):
        yield "a name twice"


def _of_access(placed: Placed) -> Iterator[str]:
    own = placed.facts.access
    if placed.register.read_action and own in UNREAD:
        yield "an effect of reading what cannot be read"
    for item in placed.facts.fields:
        if item.field.modified_write_value and item.access in UNWRITTEN:
            yield "an effect of writing what cannot be written"
        if item.field.read_action and item.access in UNREAD:
            yield "an effect of reading what cannot be read"
        for ways in (UNREAD, UNWRITTEN):
            if item.field.access and own in ways and item.access not in ways:
                yield "a field that allows more than its register"


def _of_halves(resolved: ResolvedChip, placed: Placed) -> Iterator[str]:
    if placed.register.halves and (placed.facts.width < 16 or placed.facts.width % 16):
        yield "halves of a width that has none"
    whole = next((item for item in resolved.registers if item.name == placed.whole), None)
    if whole is None:
        return
    is_second = (placed.half == "high") == (whole.facts.byte_order == "little")
    for found in placed.addresses:
        base = whole.address(found.space)
        if base and found.value != base.value + (whole.units // 2 if is_second else 0):
            yield "a half that is not where the whole has it"


def _of_orders(resolved: ResolvedChip) -> Iterator[str]:
    seen: dict[tuple[str, str], str] = {}
    for placed in resolved.registers:
        halves = placed.register.halves
        if halves is None or halves.temporary is None:
            continue
        for verb, order in (("read", halves.read_first), ("write", halves.write_first)):
            if order and seen.setdefault((halves.temporary, verb), order) != order:
                yield "halves that share a hidden register in two orders"
