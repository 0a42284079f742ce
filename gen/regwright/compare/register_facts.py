"""What differs between two registers that are a pair."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from operator import attrgetter
from typing import Any, NamedTuple

from regwright.compare import show
from regwright.compare.references import References
from regwright.compare.resets import same_reset
from regwright.compare.unique import in_turn
from regwright.model.chip import Half, Halves, Register
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.facts import ReservedFacts

#: A kind of change, which of several it is about, and what stands in either chip.
Fact = tuple[str, str, str, str]

#: What a register says of itself: the kind of a change of it, where it stands and how it is shown.
_SAID: tuple[tuple[str, Callable[[Register], Any], Callable[[Any], str]], ...] = (
    ("register-read-action", attrgetter("read_action"), show.text),
    ("register-aliases", attrgetter("aliases"), show.names),
    ("title", attrgetter("title"), show.text),
    ("page", attrgetter("page"), show.text),
    ("notes", attrgetter("notes"), show.text),
)


class Part(NamedTuple):
    """A half of a register: the wide register, and what the description says of the half."""

    whole: Placed
    own: Half


def parts(chip: ResolvedChip) -> dict[int, Part]:
    """Return what each half of ``chip`` is a part of, by its identity."""
    found: dict[int, Part] = {}
    whole: Placed | None = None
    for placed in chip.registers:
        if not placed.half:
            whole = placed
        elif whole is not None and whole.register.halves is not None:
            halves = whole.register.halves
            own = halves.low if placed.half == "low" else halves.high
            found[id(placed)] = Part(whole, own)
    return found


def register_facts(
    a: Placed, b: Placed, part_a: Part | None, part_b: Part | None, references: References
) -> Iterator[Fact]:
    """Yield each fact in which two registers differ.

    What two halves have from their registers is not said again, but for width, access and reset.
    """
    if a.name != b.name:
        yield "register-renamed", "", a.name, b.name
    if a.addresses != b.addresses or a.single_bit != b.single_bit:
        yield from _addresses(a, b)
    if a.facts == b.facts:
        return
    yield from _inherited(a, b)
    one, other = _own(a, part_a), _own(b, part_b)
    for kind, get, shown in _SAID:
        before, after = get(one), get(other)
        if before != after and shown(before) != shown(after):
            yield kind, "", shown(before), shown(after)
    is_half = part_a is not None and part_b is not None
    if not is_half and not references.same_conditions(one.when, other.when):
        yield "condition", "", show.condition(one.when), show.condition(other.when)
    if not references.same_register(one.alias_of, other.alias_of):
        yield "alias-of", "", show.text(one.alias_of), show.text(other.alias_of)
    yield from _orders(one.halves, other.halves)


def _own(placed: Placed, part: Part | None) -> Register:
    """Return what a register says; of a half, only what it says itself."""
    if part is None:
        return placed.register
    return placed.register._replace(title=part.own.title, page=part.own.page)


def _addresses(a: Placed, b: Placed) -> Iterator[Fact]:
    for space in dict.fromkeys(item.space for item in (*a.addresses, *b.addresses)):
        one, other = a.address(space), b.address(space)
        before, after = one and one.value, other and other.value
        if before != after:
            yield "address", space, _address(before), _address(after)
    if bool(a.single_bit) != bool(b.single_bit):
        yield "single-bit-reach", "", _reach(a), _reach(b)


def _address(value: int | None) -> str:
    return "" if value is None else show.number(value)


def _reach(placed: Placed) -> str:
    return {None: "", True: "reached", False: "not reached"}[placed.single_bit]


def _inherited(a: Placed, b: Placed) -> Iterator[Fact]:
    """Yield what registers may have from their blocks or fields."""
    one, other = a.facts, b.facts
    if one.width != other.width:
        yield "register-width", "", show.width(one.width), show.width(other.width)
    if one.access != other.access:
        yield "register-access", "", one.access, other.access
    if not same_reset(one.reset, other.reset, (one.width, other.width)):
        before, after = show.reset(one.reset, one.width), show.reset(other.reset, other.width)
        yield "register-reset", "", before, after
    if one.reserved or other.reserved:
        yield from _reserved(a, b)
    if one.byte_order != other.byte_order and a.units > 1 and b.units > 1:
        yield "byte-order", "", one.byte_order, other.byte_order


def _reserved(a: Placed, b: Placed) -> Iterator[Fact]:
    one, other = _masks(a.facts.reserved), _masks(b.facts.reserved)
    if one != other:
        before, after = show.reserved(one, a.facts.width), show.reserved(other, b.facts.width)
        yield "reserved", "", before, after
    left = _in_turn(a.facts.reserved)
    right = _in_turn(b.facts.reserved)
    for key, item in left.items():
        twin = right.get(key)
        if twin is None:
            continue
        where = f"reserved {item.mask:#x}"
        for kind in ("title", "page"):
            before, after = (
                show.text(getattr(side, kind)) for side in (item.reserved, twin.reserved)
            )
            if before != after:
                yield kind, where, before, after


def _in_turn(items: tuple[ReservedFacts, ...]) -> dict[Hashable, ReservedFacts]:
    keys = in_turn(items, attrgetter("mask"))
    return {keys[id(item)]: item for item in items}


def _masks(items: tuple[ReservedFacts, ...]) -> dict[str, int]:
    """Return the reserved bits by what must be written to them."""
    masks: dict[str, int] = {}
    for item in items:
        key = item.reserved.write or ""
        masks[key] = masks.get(key, 0) | item.mask
    return masks


def _orders(left: Halves | None, right: Halves | None) -> Iterator[Fact]:
    """Yield in which order halves go; that their names differ is said of themselves."""
    if left is None or right is None:
        if left is not right:
            yield "halves", "", show.halves(left), show.halves(right)
        return
    for kind, name in (
        ("read-order", "read_first"),
        ("write-order", "write_first"),
        ("temporary", "temporary"),
    ):
        before, after = show.text(getattr(left, name)), show.text(getattr(right, name))
        if before != after:
            yield kind, "", before, after
