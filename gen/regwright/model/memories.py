"""Memories, interrupt vectors, the chip's identity, and what tools call it."""

from typing import NamedTuple

from regwright.model.origin import Origin


class Memory(NamedTuple):
    """A memory; ``first``, ``size``, ``page_size`` and ``erase_unit`` in units of its space."""

    name: str
    kind: str
    space: str
    first: int
    size: int
    title: str | None = None
    page_size: int | None = None
    erase_unit: int | None = None
    page: int | None = None
    origin: Origin = None


class Vector(NamedTuple):
    """An interrupt vector; ``address`` is what the document prints."""

    number: int
    name: str
    address: int | None = None
    title: str | None = None
    page: int | None = None
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class VectorTable(NamedTuple):
    """The vectors, ``size`` units of ``space`` each, from ``base`` on."""

    space: str
    size: int
    vectors: tuple[Vector, ...]
    base: int = 0
    origin: Origin = None


class Identity(NamedTuple):
    """The bytes by which a programmer knows the chip, and where a program can read them."""

    signature: tuple[int, ...]
    space: str | None = None
    address: int | None = None
    page: int | None = None
    origin: Origin = None


class Build(NamedTuple):
    """What the user's own tools call the chip."""

    target: str | None = None
    instruction_set: str | None = None
    programmer_part: str | None = None
    origin: Origin = None
