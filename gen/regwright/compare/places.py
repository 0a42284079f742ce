"""Registers that stand at the same place: within two blocks, or in two versions of one chip."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator

from regwright.compare.pairs import NAME, Pair
from regwright.compare.seats import Seats
from regwright.resolve.chip import Placed, ResolvedChip

#: A chip is another version of one when so many of the registers with the same name, of four,
#: have the same addresses.
_KEPT_OF_FOUR = 3


class Places:
    """The places of the registers of two chips, some of which are pairs."""

    def __init__(
        self, a: ResolvedChip, b: ResolvedChip, seats: Seats, pairs: Iterable[Pair]
    ) -> None:
        """Look at where the registers of ``pairs`` stand."""
        self._space = _common_space(a, b)
        self._seats = seats
        self._known: dict[int, tuple[int, int] | None] = {}
        kept = named = 0
        for one, other, why in pairs:
            if one is None or other is None:
                continue
            self._note(one, other)
            if why == NAME and one.addresses:
                named += 1
                kept += _addresses(one) == _addresses(other)
        #: Whether most registers with the same name have the same addresses.
        self.are_kept = kept > 1 and 4 * kept >= _KEPT_OF_FOUR * named
        self._first = _first(a, seats, self._space), _first(b, seats, self._space)
        self._of_a = {id(placed) for placed in a.registers}

    def _note(self, a: Placed, b: Placed) -> None:
        """Note the addresses of a pair for its blocks; none where pairs moved differently."""
        one, other = a.address(self._space), b.address(self._space)
        if one is None or other is None:
            return
        there = self._seats.of(b)
        for number in self._seats.of(a):
            if number not in there:
                continue
            known = self._known.setdefault(number, (one.value, other.value))
            if known is not None and other.value - one.value != known[1] - known[0]:
                self._known[number] = None

    def within(self, placed: Placed) -> Iterator[Hashable]:
        """Yield where a register stands in each of its paired blocks.

        That is counted from a register that is a pair, else from the first of each block.
        """
        address = placed.address(self._space)
        if address is None:
            return
        side = int(id(placed) not in self._of_a)
        for number in self._seats.of(placed):
            known = self._known.get(number, ())
            if known is not None:
                base = known[side] if known else self._first[side][number]
                yield number, address.value - base, placed.facts.width, placed.facts.access

    def exact(self, placed: Placed) -> Iterator[Hashable]:
        """Yield where a register stands in the chip."""
        if placed.addresses:
            yield *_addresses(placed), placed.facts.width, placed.facts.access


def _common_space(a: ResolvedChip, b: ResolvedChip) -> str:
    """Return a space that both chips have, rather one that pointers reach in both."""
    common = [name for name in a.spaces if name in b.spaces]
    reach = {name: a.spaces[name].pointer and b.spaces[name].pointer for name in common}
    return min(common, key=lambda name: (not reach[name], name), default="")


def _addresses(placed: Placed) -> tuple[tuple[str, int], ...]:
    return tuple((item.space, item.value) for item in placed.addresses)


def _first(chip: ResolvedChip, seats: Seats, space: str) -> dict[int, int]:
    """Return the lowest address in each paired block."""
    found: dict[int, int] = {}
    for placed in chip.registers:
        address = placed.address(space)
        if address is not None:
            for number in seats.of(placed):
                found[number] = min(found.get(number, address.value), address.value)
    return found
