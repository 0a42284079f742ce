"""Ports, packages and their pins."""

from typing import NamedTuple

from regwright.model.chip import BitRange
from regwright.model.origin import Origin


class Port(NamedTuple):
    """A port: the bits that it has, and the registers in which they stand at the same places."""

    name: str
    bits: tuple[BitRange, ...]
    registers: tuple[str, ...] = ()
    title: str | None = None
    page: int | None = None
    origin: Origin = None


class PortBit(NamedTuple):
    """A bit of a port."""

    port: str
    bit: int


class Pin(NamedTuple):
    """A pin; ``number`` may be a ball's row and column. ``functions`` are what else it can be."""

    number: str
    name: str
    kind: str = "io"
    port: PortBit | None = None
    functions: tuple[str, ...] = ()
    title: str | None = None
    page: int | None = None
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Package(NamedTuple):
    """A package; ``arrangement`` is dual, quad or grid, ``pin_count`` how many it has."""

    name: str
    arrangement: str
    pin_count: int
    title: str | None = None
    page: int | None = None
    pins: tuple[Pin, ...] = ()
    origin: Origin = None
