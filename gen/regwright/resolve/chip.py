"""Resolve a chip: expand instances and rows, and place every register in every space."""

from collections.abc import Iterator
from typing import NamedTuple

from regwright.model.chip import Array, Block, Chip, GivenAddress, Halves, Instance, Register, Space
from regwright.model.finding import ERROR, Finding
from regwright.model.origin import Origin
from regwright.resolve.addresses import Address, derive, given, units_of
from regwright.resolve.facts import Defaults, RegisterFacts, half_facts, register_facts

#: More registers than this, rows and instances expanded, are refused.
MOST_REGISTERS = 65_536


class TooManyRegisters(Exception):
    """Rows or instances expand to more than :data:`MOST_REGISTERS`; carries the finding."""

    def __init__(self, origin: Origin) -> None:
        message = f"this expands to more than {MOST_REGISTERS} registers; check count and nesting"
        super().__init__(message)
        self.finding = Finding("too-many-registers", ERROR, message, origin)


class Placed(NamedTuple):
    """A register at one place of the chip.

    ``name`` carries every prefix and index; ``units`` is how many units it takes in its first
    space; ``single_bit`` is ``None`` on a chip without single-bit instructions; ``terms`` add up to
    the address in its first space (base, offset, row), if that does not follow through a window;
    ``within`` is where the instance or block stands that put it here, ``None`` for none;
    ``whole`` is the name of the wide register of which this is the half ``half``. The halves of a
    register follow it directly, the low one first.
    """

    name: str
    facts: RegisterFacts
    addresses: tuple[Address, ...]
    units: int
    single_bit: bool | None
    block: str
    terms: tuple[int, ...] = ()
    within: Origin = None
    half: str = ""
    whole: str = ""

    @property
    def register(self) -> Register:
        """The register of the model that stands here."""
        return self.facts.register

    def address(self, space: str) -> Address | None:
        """Return its address in ``space``, if it has one."""
        return next((address for address in self.addresses if address.space == space), None)


class ResolvedChip(NamedTuple):
    """A chip with all its registers in their places; ``prefix`` includes the chip's own."""

    chip: Chip
    prefix: str
    registers: tuple[Placed, ...]
    spaces: dict[str, Space]

    @property
    def pointer_space(self) -> Space | None:
        """The space that C pointers reach, if there is one."""
        return next((space for space in self.chip.spaces if space.pointer), None)


def resolve(chip: Chip, prefix: str = "") -> ResolvedChip:
    """Return ``chip`` resolved, with ``prefix`` before each name.

    Raises :class:`TooManyRegisters`.
    """
    spaces = {space.name: space for space in chip.spaces}
    placer = _Placer(chip, spaces)
    defaults = Defaults(chip.width, chip.access, chip.byte_order)
    start = prefix + chip.prefix
    spot = _Spot(start, (), defaults)
    placer.place_registers(chip.registers, spot)
    for block in chip.blocks:
        placer.place_block(block, spot)
    return ResolvedChip(chip, start, tuple(placer.registers), spaces)


class _Spot(NamedTuple):
    """What the registers of a block inherit from where it stands.

    ``base`` is what offsets count from, ``path`` the names of the blocks around them, ``within``
    the innermost instance or block.
    """

    prefix: str
    base: tuple[GivenAddress, ...]
    defaults: Defaults
    path: str = ""
    within: Origin = None


class _Terms(NamedTuple):
    """What a register's address in each space of ``start`` is the sum of."""

    start: tuple[GivenAddress, ...]
    add: int
    step: int

    def towards(self, space: str) -> tuple[int, ...]:
        """Return the terms of the address in ``space``; none when it is not given there."""
        for name, value in self.start:
            if name == space:
                return value, self.add, self.step
        return ()


def _indices(array: Array | None) -> Iterator[tuple[str, int]]:
    """Yield the number in the name, and the position, of each element of a row."""
    if array is None:
        yield "", 0
        return
    for position in range(array.length):
        yield str(array.first + position), position


class _Placer:
    """Collects the placed registers of one chip."""

    def __init__(self, chip: Chip, spaces: dict[str, Space]) -> None:
        self.chip = chip
        self.spaces = spaces
        self.registers: list[Placed] = []
        self._has_single_bit = any(window.single_bit for window in chip.windows)

    def place_block(self, block: Block, around: _Spot) -> None:
        """Place every register of ``block``, in each of its instances and rows."""
        defaults, base = around.defaults, around.base
        if block.width or block.access:
            defaults = Defaults(
                block.width or defaults.width, block.access or defaults.access, defaults.byte_order
            )
        if not block.base and base:
            add = block.offset or 0
            base = tuple(GivenAddress(space, value + add) for space, value in base)
        places: tuple[Block | Instance, ...] = block.instances or (block,)
        for instance in places:
            start = instance.base or base
            for number, position in _indices(block.array):
                step = (block.array.stride or block.size or 0) * position if block.array else 0
                here = tuple(GivenAddress(space, value + step) for space, value in start)
                own = instance.name + number + "_"
                if instance.prefix is not None:
                    own = instance.prefix + (number + "_" if number else "")
                path = f"{around.path}.{instance.name}{number}".lstrip(".")
                spot = _Spot(around.prefix + own, here, defaults, path, instance.origin)
                self.place_registers(block.registers, spot)
                for inner in block.blocks:
                    self.place_block(inner, spot)

    def place_registers(self, registers: tuple[Register, ...], spot: _Spot) -> None:
        """Place ``registers`` at ``spot``, each as often as its row says."""
        for register in registers:
            facts = register_facts(register, spot.defaults)
            start = register.addresses
            add = 0
            printed = True
            if not start and register.offset is not None:
                start, add, printed = spot.base, register.offset, False
            for number, position in _indices(register.array):
                if len(self.registers) >= MOST_REGISTERS:
                    raise TooManyRegisters(register.origin)
                step = self._stride(register, facts, start) * position
                addresses = given(start, add + step, printed=printed and not step)
                name = spot.prefix + facts.register.name + number
                terms = _Terms(start, add, step)
                whole = self._placed(name, facts, addresses, spot, terms)
                self.registers.append(whole)
                if register.halves is not None:
                    self._place_halves(spot, number, whole, register.halves, step)

    def _stride(
        self, register: Register, facts: RegisterFacts, start: tuple[GivenAddress, ...]
    ) -> int:
        if register.array is None:
            return 0
        if register.array.stride is not None:
            return register.array.stride
        return self._units(facts.width, start[0].space if start else "")

    def _units(self, width: int, space: str) -> int:
        found = self.spaces.get(space)
        return units_of(width, found.unit if found else 8)

    def _place_halves(
        self, spot: _Spot, number: str, whole: Placed, halves: Halves, step: int
    ) -> None:
        """Place both halves right behind the register ``whole``, ``step`` units into its row."""
        for half, own in (("low", halves.low), ("high", halves.high)):
            part = half_facts(whole.facts, own, half)
            addresses = given(own.addresses, step, printed=not step)
            addresses = addresses or self._half_addresses(whole, half)
            name = spot.prefix + own.name + number
            placed = self._placed(name, part, addresses, spot, None)
            self.registers.append(placed._replace(half=half, whole=whole.name))

    def _half_addresses(self, whole: Placed, half: str) -> tuple[Address, ...]:
        is_second = (half == "high") == (whole.facts.byte_order == "little")
        add = max(whole.units // 2, 1) if is_second else 0
        return tuple(Address(item.space, item.value + add, given=False) for item in whole.addresses)

    def _placed(
        self,
        name: str,
        facts: RegisterFacts,
        known: tuple[Address, ...],
        spot: _Spot,
        terms: _Terms | None,
    ) -> Placed:
        addresses = derive(self.chip, known)
        space = addresses[0].space if addresses else ""
        units = self._units(facts.width, space)
        single_bit = self._single_bit(addresses)
        sum_of = terms.towards(space) if terms else ()
        return Placed(name, facts, addresses, units, single_bit, spot.path, sum_of, spot.within)

    def _single_bit(self, addresses: tuple[Address, ...]) -> bool | None:
        if not self._has_single_bit:
            return None
        for window in self.chip.windows:
            span = window.single_bit
            if span and any(
                address.space == window.source and span.first <= address.value <= span.last
                for address in addresses
            ):
                return True
        return False
