"""Find pins by what stands at the breadboard or in the program: both ways round."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.model.packages import Package, Pin, Port, PortBit
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.facts import FieldFacts


class RegisterBit(NamedTuple):
    """A bit of a register that stands for a pin, and the field it is in, if it is in one."""

    placed: Placed
    bit: int
    field: FieldFacts | None


class FoundPin(NamedTuple):
    """A pin of a package, its port, and where programs find it."""

    package: Package
    pin: Pin
    port: Port | None
    bits: tuple[RegisterBit, ...]


class FoundBit(NamedTuple):
    """A bit of a port, and the pins that it is, one for each package that has it."""

    port: Port
    bit: int
    bits: tuple[RegisterBit, ...]
    pins: tuple[FoundPin, ...]


class Pins:
    """The pins of a chip, found by number, name, port bit, register bit or function."""

    def __init__(self, resolved: ResolvedChip, package: str | None = None) -> None:
        """Look at the packages of ``resolved``, or at the one of the name ``package``."""
        self._resolved = resolved
        self._ports = {port.name: port for port in resolved.chip.ports}
        self._registers = {placed.register.name: placed for placed in resolved.registers}
        self._registers.update({placed.name: placed for placed in resolved.registers})
        packages = resolved.chip.packages
        self.packages = [item for item in packages if package in (None, item.name)]

    def every(self) -> Iterator[FoundPin]:
        """Yield each pin of each package."""
        for package in self.packages:
            for pin in package.pins:
                yield self._found(package, pin)

    def named(self, text: str) -> list[FoundPin]:
        """Return the pins of which ``text`` is the number, the name or a function.

        A number goes before a name, and a name before a function.
        """
        for is_it in (_has_number, _has_name, _has_function):
            found = [item for item in self.every() if is_it(item.pin, text)]
            if found:
                return found
        return []

    def port_bit(self, text: str) -> FoundBit | None:
        """Return the bit of a port that ``text`` is.

        It may be a port's bit (``B.2``), a register's (``OUT_B.2``), or a field of one bit
        (``OUT_B.LED``).
        """
        name, _, bit = text.rpartition(".")
        if not name:
            return None
        port = self._ports.get(name)
        number = int(bit) if bit.isascii() and bit.isdigit() and len(bit) < 3 else None
        if port is None:
            placed = self._registers.get(name)
            if placed is None:
                return None
            number = _bit_of_field(placed, bit) if number is None else number
            known = (placed.name, placed.register.name)
            port = next((p for p in self._ports.values() if set(known) & set(p.registers)), None)
        if port is None or number is None or not _has(port, number):
            return None
        return self._found_bit(port, number)

    def several(self, text: str) -> list[str]:
        """Return the bits, as ``BOUT.0``, of the register, field or port that ``text`` is.

        There are none for anything else, and none that are no bit of a port.
        """
        if text in self._ports:
            return [f"{text}.{bit}" for bit in _bits_of(self._ports[text])]
        name, _, field = text.rpartition(".")
        placed, mask = self._registers.get(text), -1
        if placed is None and name in self._registers:
            placed = self._registers[name]
            own = [item.layout.mask for item in placed.facts.fields if item.field.name == field]
            mask = own[0] if own else 0
        if placed is None:
            return []
        bits = [bit for bit in range(placed.facts.width) if mask >> bit & 1]
        texts = [f"{placed.register.name}.{bit}" for bit in bits]
        return [item for item in texts if self.port_bit(item) is not None]

    def names(self) -> list[str]:
        """Return what may be asked for, besides numbers."""
        found = []
        for item in self.every():
            found += [item.pin.name, *item.pin.functions]
        for port in self._ports.values():
            found += [f"{port.name}.{bit}" for bit in _bits_of(port)]
            found += [f"{register}.0" for register in port.registers]
        return list(dict.fromkeys(found))

    def _found_bit(self, port: Port, bit: int) -> FoundBit:
        wanted = PortBit(port.name, bit)
        pins = tuple(item for item in self.every() if item.pin.port == wanted)
        return FoundBit(port, bit, self._bits(port, bit), pins)

    def _found(self, package: Package, pin: Pin) -> FoundPin:
        port = self._ports.get(pin.port.port) if pin.port else None
        bits = self._bits(port, pin.port.bit) if port and pin.port else ()
        return FoundPin(package, pin, port, bits)

    def _bits(self, port: Port, bit: int) -> tuple[RegisterBit, ...]:
        found = []
        for name in port.registers:
            placed = self._registers.get(name)
            if placed is not None and bit < placed.facts.width:
                field = next((f for f in placed.facts.fields if f.layout.mask >> bit & 1), None)
                found.append(RegisterBit(placed, bit, field))
        return tuple(found)


def _bits_of(port: Port) -> Iterator[int]:
    """Yield the bits of ``port``, range by range from the low end."""
    for ends in port.bits:
        yield from range(min(ends), max(ends) + 1)


def _has(port: Port, bit: int) -> bool:
    return any(min(ends) <= bit <= max(ends) for ends in port.bits)


def _bit_of_field(placed: Placed, name: str) -> int | None:
    """Return the bit of a register that its field ``name`` is, if it is one bit wide."""
    for item in placed.facts.fields:
        if item.field.name == name and item.layout.width == 1:
            return item.layout.position
    return None


def _has_number(pin: Pin, text: str) -> bool:
    return pin.number == text.upper()


def _has_name(pin: Pin, text: str) -> bool:
    return pin.name == text


def _has_function(pin: Pin, text: str) -> bool:
    return text in pin.functions
