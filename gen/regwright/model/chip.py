"""The chip as its description gives it; what follows from it is worked out in ``resolve``.

Named tuples rather than frozen dataclasses: just as frozen, and measured at a sixth of the cost
to define and half of the cost to make, which shows in a command that starts, reads 40,000 fields
and ends. ``origin`` takes part in comparisons; :func:`without_places` gives a chip whose does not.

``printed`` is what the document prints for a node that was imported, ``review`` what a person must
look at before it can be relied upon.
"""

from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from regwright.model.origin import Origin

if TYPE_CHECKING:  # many descriptions have none of these: not loaded for them
    from regwright.model.clock import Clock
    from regwright.model.configuration import Configuration
    from regwright.model.memories import Build, Identity, Memory, VectorTable
    from regwright.model.packages import Package, Port
else:  # a quoted annotation would be compiled at each start
    Build = Clock = Configuration = Identity = Memory = Package = Port = VectorTable = Any


class Document(NamedTuple):
    """The datasheet, standard or header file that a description was taken from."""

    title: str
    revision: str | None = None
    date: str | None = None
    notes: str | None = None
    origin: Origin = None


class Region(NamedTuple):
    """What lies in a span of a space; ``first`` and ``last`` are addresses in its units."""

    name: str
    kind: str
    first: int
    last: int
    title: str | None = None
    origin: Origin = None


class Space(NamedTuple):
    """An address space of ``size`` units, each ``unit`` bits wide."""

    name: str
    size: int
    unit: int = 8
    pointer: bool = True
    title: str | None = None
    regions: tuple[Region, ...] = ()
    origin: Origin = None


class Span(NamedTuple):
    """A first and a last address."""

    first: int
    last: int


class Window(NamedTuple):
    """A span of the space ``source`` that is seen in the space ``into`` at ``offset`` more."""

    source: str
    first: int
    last: int
    into: str
    offset: int
    single_bit: Span | None = None
    origin: Origin = None


class GivenAddress(NamedTuple):
    """An address that the document prints, in units of the space named."""

    space: str
    value: int


class BitRange(NamedTuple):
    """The bits ``high`` down to ``low`` of a register, both included."""

    high: int
    low: int


class Reset(NamedTuple):
    """A value after reset; a 1 in ``undefined`` stands for a bit the document leaves open."""

    value: int
    undefined: int = 0


class NamedValue(NamedTuple):
    """A value of a field that has a name, counted from the field's own bit 0."""

    name: str
    value: int
    title: str | None = None
    usage: str = "read-write"
    aliases: tuple[str, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Field(NamedTuple):
    """Bits of a register that mean something together, from the high end to the low end."""

    name: str
    bits: tuple[BitRange, ...]
    title: str | None = None
    access: str | None = None
    modified_write_value: str | None = None
    read_action: str | None = None
    reset: Reset | None = None
    volatile: bool | None = None
    values: tuple[NamedValue, ...] = ()
    values_complete: bool = False
    page: int | None = None
    notes: str | None = None
    aliases: tuple[str, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Reserved(NamedTuple):
    """Bits that mean nothing yet; ``write`` is ``0``, ``1``, ``preserve`` or not said."""

    bits: tuple[BitRange, ...]
    write: str | None = None
    title: str | None = None
    page: int | None = None
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Condition(NamedTuple):
    """A field, as ``REGISTER.FIELD``, and the value it must have."""

    field: str
    value: int


class Silence(NamedTuple):
    """A rule that is to be silent about the node at ``within``, and why."""

    rule: str
    reason: str
    within: Origin
    origin: Origin


class Half(NamedTuple):
    """One half of a wide register, with an address when the document prints one."""

    name: str
    addresses: tuple[GivenAddress, ...] = ()
    title: str | None = None
    page: int | None = None
    aliases: tuple[str, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Halves(NamedTuple):
    """The halves of a wide register and which of them goes first (``low`` or ``high``)."""

    low: Half
    high: Half
    read_first: str | None = None
    write_first: str | None = None
    temporary: str | None = None
    origin: Origin = None


class Array(NamedTuple):
    """``length`` of something in a row, ``stride`` units apart, numbered from ``first``."""

    length: int
    stride: int | None = None
    first: int = 0


class Register(NamedTuple):
    """A register with the addresses that the document gives, or an offset in its block."""

    name: str
    title: str | None = None
    addresses: tuple[GivenAddress, ...] = ()
    offset: int | None = None
    width: int | None = None
    byte_order: str | None = None
    access: str | None = None
    reset: Reset | None = None
    read_action: str | None = None
    when: tuple[Condition, ...] = ()
    alias_of: str | None = None
    single_bit: bool | None = None
    array: Array | None = None
    page: int | None = None
    notes: str | None = None
    halves: Halves | None = None
    fields: tuple[Field, ...] = ()
    reserved: tuple[Reserved, ...] = ()
    flags: int | None = None  # how many entries its summary row has, named or not
    silences: tuple[Silence, ...] = ()
    aliases: tuple[str, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Instance(NamedTuple):
    """One of the places where a block stands."""

    name: str
    base: tuple[GivenAddress, ...]
    title: str | None = None
    prefix: str | None = None
    page: int | None = None
    origin: Origin = None


class Block(NamedTuple):
    """A group of registers, once or several times, in units of its base's space."""

    name: str
    title: str | None = None
    prefix: str | None = None
    base: tuple[GivenAddress, ...] = ()
    offset: int | None = None
    size: int | None = None
    array: Array | None = None
    width: int | None = None
    access: str | None = None
    page: int | None = None
    notes: str | None = None
    instances: tuple[Instance, ...] = ()
    registers: tuple[Register, ...] = ()
    blocks: tuple["Block", ...] = ()
    silences: tuple[Silence, ...] = ()
    aliases: tuple[str, ...] = ()
    printed: str | None = None
    review: str | None = None
    origin: Origin = None


class Instruction(NamedTuple):
    """Instructions, or C functions, that take an address of ``space`` as operand ``address``.

    Operands count from 1. ``access`` is ``read``, ``write`` or ``modify``; ``bit`` is the operand
    that numbers the one bit they reach, ``value`` the one that they write.
    """

    names: tuple[str, ...]
    space: str
    access: str
    address: int
    kind: str = "instruction"
    bit: int | None = None
    value: int | None = None
    origin: Origin = None


class Chip(NamedTuple):
    """A whole description."""

    name: str
    spaces: tuple[Space, ...]
    title: str | None = None
    kind: str = "chip"
    family: str | None = None
    compiler_macro: str | None = None
    prefix: str = ""
    width: int = 8
    access: str = "read-write"
    byte_order: str = "little"
    document: Document | None = None
    notes: str | None = None
    windows: tuple[Window, ...] = ()
    registers: tuple[Register, ...] = ()
    blocks: tuple[Block, ...] = ()
    silences: tuple[Silence, ...] = ()
    instructions: tuple[Instruction, ...] = ()
    int_width: int | None = None
    memories: tuple[Memory, ...] = ()
    vector_table: VectorTable | None = None
    configuration: Configuration | None = None
    clock: Clock | None = None
    identity: Identity | None = None
    ports: tuple[Port, ...] = ()
    packages: tuple[Package, ...] = ()
    build: Build | None = None
    origin: Origin = None


def int_bits(chip: Chip) -> int:
    """Return the width of ``int`` in the C compiler for ``chip``, in bits.

    When the description does not say it, 32 for registers of 32 bits or more, else 16: common
    practice, no source. ISO C wants 16 at least.
    """
    return chip.int_width or (32 if chip.width >= 32 else 16)


Node = TypeVar("Node")


def without_places(node: Node) -> Node:
    """Return ``node`` with every ``origin`` in it cleared, so that two spellings compare equal."""
    plain: Any = node
    if hasattr(plain, "_fields"):
        cleared = {
            name: None if name == "origin" else without_places(value)
            for name, value in zip(plain._fields, plain, strict=True)
        }
        plain = type(plain)(**cleared)
    elif isinstance(plain, tuple):
        plain = tuple(without_places(item) for item in plain)
    result: Node = plain
    return result
