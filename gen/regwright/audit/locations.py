"""What lies at an address of a chip, and which register a wrong address may have meant."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.model.chip import Span, Window
from regwright.resolve.addresses import units_of
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.rules.wording import region_at, what_lies_at

#: How an address of one space became one of another.
NOT_ADDED, ALREADY_ADDED, ADDED_TWICE = "not added", "already added", "added twice"

#: Regions at which no pointer and no instruction aims.
_NOT_MEANT = frozenset({"cpu-registers", "reserved"})
#: So many names a message has of the registers at one address; then their number.
_MOST_NAMES = 3


class Spot(NamedTuple):
    """A place within a register: ``offset`` units behind its start."""

    placed: Placed
    offset: int


class Meant(NamedTuple):
    """A register that an address may have meant, had the distance of ``window`` been minded.

    ``kind`` tells what was done: the address is that of ``wrong_space``, in which the register has
    it (``not added``, ``already added``), or has the distance twice in it (``added twice``, where
    ``wrong_space`` is the space that the window shows). ``right`` is what the address should be.
    """

    placed: Placed
    wrong_space: str
    right: int
    window: Window
    kind: str


class _Space(NamedTuple):
    """The registers of one space: by size and first address, and all the sizes there are."""

    starts: dict[tuple[int, int], list[int]]
    sizes: tuple[int, ...]


class Locations:
    """The addresses of one chip. Each space is indexed when it is first asked for."""

    def __init__(self, resolved: ResolvedChip) -> None:
        """Look addresses up in ``resolved``."""
        self._resolved = resolved
        self._spaces: dict[str, _Space] = {}
        self._found: dict[tuple[str, int], tuple[Spot, ...]] = {}

    def at(self, space: str, address: int) -> tuple[Spot, ...]:
        """Return the registers that take the address, and where in them it is; wide ones first."""
        found = self._found.get((space, address))
        if found is None:
            found = self._found[space, address] = tuple(self._at(space, address))
        return found

    def _at(self, space: str, address: int) -> list[Spot]:
        registers = self._resolved.registers
        index = self._index(space)
        hits = [
            (-size, number, offset)
            for size in index.sizes
            for offset in range(size)
            for number in index.starts.get((size, address - offset), ())
        ]
        return [Spot(registers[number], offset) for _, number, offset in sorted(hits)]

    def _index(self, space: str) -> _Space:
        found = self._spaces.get(space)
        if found is None:
            starts: dict[tuple[int, int], list[int]] = {}
            for number, placed in enumerate(self._resolved.registers):
                address = placed.address(space)
                if address is not None:
                    key = (self.units(placed, space), address.value)
                    starts.setdefault(key, []).append(number)
            sizes = tuple(sorted({size for size, _ in starts}))
            found = self._spaces[space] = _Space(starts, sizes)
        return found

    def units(self, placed: Placed, space: str) -> int:
        """Return how many units of ``space`` a register takes."""
        known = self._resolved.spaces.get(space)
        return units_of(placed.facts.width, known.unit) if known else placed.units

    def seen_through(self, space: str, address: int) -> tuple[Meant, ...]:
        """Return the registers that are meant if a distance between two spaces was forgotten.

        None of them is at ``address`` of ``space`` in truth. Each register is there once.
        """
        found: dict[int, Meant] = {}
        for window in self._resolved.chip.windows if address >= 0 else ():
            for meant in self._meant(window, space, address):
                if meant.right != address:
                    found.setdefault(id(meant.placed), meant)
        return tuple(found.values())

    def _meant(self, window: Window, space: str, address: int) -> Iterator[Meant]:
        if space == window.into:
            for right, spot in self._through(window, address, space, window.source):
                yield Meant(spot.placed, window.source, right, window, NOT_ADDED)
            right = address - window.offset
            for spot in self.at(space, right):
                inside = spot.placed.address(window.source)
                if inside and inside.value + spot.offset + window.offset == right:
                    yield Meant(spot.placed, window.source, right, window, ADDED_TWICE)
        elif space == window.source:
            for right, spot in self._through(window, address, space, window.into):
                yield Meant(spot.placed, window.into, right, window, ALREADY_ADDED)

    def _through(
        self, window: Window, address: int, space: str, other: str
    ) -> Iterator[tuple[int, Spot]]:
        """Yield what lies at the address of ``other``, and where ``window`` has it in ``space``."""
        for spot in self.at(other, address):
            found = spot.placed.address(space)
            inside = spot.placed.address(window.source)
            if found and inside and window.first <= inside.value <= window.last:
                yield found.value + spot.offset, spot

    def hits(self, space: str, address: int) -> str:
        """Say what the address hits: a register, a region, or nothing."""
        spots = self.at(space, address)
        if not spots:
            return what_lies_at(self._resolved, space, address)
        nearest = min(spot.offset for spot in spots)
        near = {spot.placed.name: spot.placed.whole for spot in spots if spot.offset == nearest}
        # a half that starts where its register does goes without saying
        names = [name for name, whole in near.items() if whole not in near] or list(near)
        if len(names) == 1:
            return f"the register {names[0]}"
        if len(names) > _MOST_NAMES:
            names[_MOST_NAMES - 1 :] = [f"{len(names) - _MOST_NAMES + 1} more"]
        return f"the registers {', '.join(names[:-1])} and {names[-1]}"

    def can_be_meant(self, space: str, address: int) -> bool:
        """Tell whether a pointer or an instruction may aim at the address.

        It may where a register is and where no region is; not outside the space, nor among the
        CPU's own or reserved addresses.
        """
        known = self._resolved.spaces.get(space)
        if known is None or not 0 <= address < known.size:
            return False
        region = region_at(known, address)
        return region is None or region.kind not in _NOT_MEANT or bool(self.at(space, address))

    def reach(self, space: str) -> Span | None:
        """Return the addresses that instructions of ``space`` reach; nothing if there is none."""
        known = self._resolved.spaces.get(space)
        return Span(0, known.size - 1) if known and known.size else None

    def single_bit_spans(self, space: str) -> tuple[Span, ...]:
        """Return the addresses of ``space`` that its single-bit instructions reach."""
        windows = self._resolved.chip.windows
        return tuple(
            item.single_bit for item in windows if item.source == space and item.single_bit
        )

    def single_bit_reach(self, placed: Placed) -> bool | None:
        """Tell whether single-bit instructions reach a register; ``None`` where there are none.

        What the description claims of a register by name comes before what its address tells.
        """
        claim = placed.register.single_bit
        return placed.single_bit if claim is None or placed.single_bit is None else claim
