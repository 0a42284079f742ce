"""Words that several rules share: numbers, spaces and what an address hits."""

from collections.abc import Container, Iterable, Iterator
from typing import NamedTuple

from regwright.model.chip import Region, Space, Window
from regwright.model.origin import Origin
from regwright.resolve.addresses import Address
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.layout import bits_in_words


def label(space: str) -> str:
    """Return how a message calls a space: ``I/O`` for ``io``, else its name."""
    return "I/O" if space == "io" else space


def place_of(placed: Placed) -> Origin:
    """Return where the address of a register stands in the description."""
    register = placed.register
    name = "address" if register.addresses else "offset"
    has_one = bool(register.addresses) or register.offset is not None
    return (register.origin, name) if has_one else register.origin


def word_of(placed: Placed, space: str) -> str:
    """Return the word that starts the address in ``space`` where several are given."""
    return f"{space}:" if len(placed.register.addresses) > 1 else ""


def bit_list(mask: int) -> str:
    """Return the bits of ``mask`` in words, neighbours as a range."""
    return bits_in_words(mask, ", ")


def region_at(space: Space, value: int) -> Region | None:
    """Return the region of ``space`` in which the address ``value`` lies."""
    return next((item for item in space.regions if item.first <= value <= item.last), None)


def what_is_at(resolved: ResolvedChip, space: str, value: int, besides: Placed) -> str:
    """Say what the address ``value`` of ``space`` hits, other than the register ``besides``."""
    for other in resolved.registers:
        found = other.address(space)
        if other is not besides and found and found.value <= value < found.value + other.units:
            return f"the register {other.name}"
    return what_lies_at(resolved, space, value)


def what_lies_at(resolved: ResolvedChip, space: str, value: int) -> str:
    """Say what lies at the address ``value`` of ``space``, where no register is."""
    found_space = resolved.spaces.get(space)
    if found_space is None or value >= found_space.size:
        return "nothing, for the space ends before it"
    region = region_at(found_space, value)
    if region is None:
        return "something that the description does not name"
    return region.title or region.name


def doubtful(resolved: ResolvedChip) -> set[int]:
    """Return the identities of registers whose two given addresses contradict each other.

    A rule of the mapping reports them; what else such an address would hit is no finding of its
    own.
    """
    if not resolved.chip.windows:
        return set()
    pairs = given_pairs(resolved, list(resolved.registers))
    return {
        id(pair.placed)
        for pair in pairs
        if pair.outside.value != pair.inside.value + pair.window.offset
    }


def wrong_bases(registers: Iterable[Placed], wrong: Container[int]) -> dict[int, Origin]:
    """Return where the base stands of each block or instance all of whose registers are wrong.

    ``wrong`` has the identities of registers; the key is that of where the block stands.
    """
    bases: dict[int, Origin] = {}
    right: set[int] = set()
    for placed in registers:
        within = placed.within
        if within is None or placed.half or placed.register.addresses:
            continue
        has_base = within[1] == "instances" or within[0] is None
        if id(placed) not in wrong or not has_base:
            right.add(id(within))
        else:
            bases[id(within)] = (within, "base")
    return {key: origin for key, origin in bases.items() if key not in right}


class Pair(NamedTuple):
    """A register with an address given on both sides of a window."""

    placed: Placed
    window: Window
    inside: Address
    outside: Address


def given_pairs(resolved: ResolvedChip, registers: list[Placed]) -> Iterator[Pair]:
    """Yield each register that the document prints on both sides of a window."""
    for window in resolved.chip.windows:
        twins = [
            other
            for other in resolved.chip.windows
            if other is not window and (other.source, other.into) == (window.source, window.into)
        ]
        for placed in registers:
            if len(placed.addresses) < 2:
                continue
            inside, outside = placed.address(window.source), placed.address(window.into)
            if not (inside and outside and inside.given and outside.given):
                continue
            if not any(twin.first <= inside.value <= twin.last for twin in twins):
                yield Pair(placed, window, inside, outside)
