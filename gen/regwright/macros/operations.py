"""The bodies of the macros that do something: extract, insert, clear a flag, access halves."""

from typing import NamedTuple

from regwright.macros.literals import c_type, digits_of, hexadecimal
from regwright.resolve.facts import FieldFacts, RegisterFacts
from regwright.resolve.layout import Layout

ZERO_ACTS = frozenset({"zeroToClear", "zeroToSet", "zeroToToggle"})
WRITABLE = frozenset({"read-write", "read-writeOnce"})


def extract(layout: Layout, width: int) -> str:
    """Return an expression for a field's value in the register value ``value``."""
    kind = c_type(width)
    digits = digits_of(width)
    parts = []
    for register_bit, field_bit, bits in layout.pieces:
        mask = hexadecimal(((1 << bits) - 1) << register_bit, digits)
        shift = register_bit - field_bit
        part = f"(({kind})(value) & {mask})"
        parts.append(f"({part} {'>>' if shift > 0 else '<<'} {abs(shift)})" if shift else part)
    return f"(({kind})({' | '.join(parts)}))"


def insert(layout: Layout, width: int) -> str:
    """Return an expression for the register value ``value`` with a field set to ``field``."""
    kind = c_type(width)
    digits = digits_of(width)
    others = hexadecimal(((1 << width) - 1) & ~layout.mask, digits)
    parts = [f"(({kind})(value) & {others})"]
    for register_bit, field_bit, bits in layout.pieces:
        mask = hexadecimal(((1 << bits) - 1) << field_bit, digits)
        shift = register_bit - field_bit
        part = f"(({kind})(field) & {mask})"
        parts.append(f"({part} {'<<' if shift > 0 else '>>'} {abs(shift)})" if shift else part)
    return f"(({kind})({' | '.join(parts)}))"


class Clearing(NamedTuple):
    """What to write: the bits of ``keep`` as read, and ``ones``."""

    keep: int
    ones: int


def leaving_alone(facts: RegisterFacts) -> Clearing:
    """Return what to write to leave every bit alone, as far as a write can.

    Plain bits are written back as they were read. Bits that act on a 1 get a 0 and bits that act
    on a 0 get a 1; reserved bits get what the document asks for. A bit on which every write acts
    cannot be left alone: the header's comment says so.
    """
    keep = ones = 0
    for item in facts.fields:
        effect = item.field.modified_write_value
        if effect in ZERO_ACTS:
            ones |= item.layout.mask
        elif effect is None and item.access in WRITABLE:
            keep |= item.layout.mask
    for reserved in facts.reserved:
        if reserved.reserved.write == "1":
            ones |= reserved.mask
        elif reserved.reserved.write == "preserve":
            keep |= reserved.mask
    return Clearing(keep & ~ones, ones)


def clearing(others: Clearing, flag: FieldFacts) -> Clearing:
    """Return what clears ``flag``, where ``others`` leaves the whole register alone."""
    mask = flag.layout.mask
    own = mask if flag.field.modified_write_value == "oneToClear" else 0
    return Clearing(others.keep & ~mask, others.ones & ~mask | own)


def to_clear(width: int, others: Clearing, flag: FieldFacts) -> str:
    """Return an expression for what to write when the register was read as ``value``."""
    kind = c_type(width)
    digits = digits_of(width)
    keep, ones = clearing(others, flag)
    if not keep:
        return f"(({kind}){hexadecimal(ones, digits)})"
    kept = f"({kind})(value) & {hexadecimal(keep, digits)}"
    return f"(({kind})(({kept}) | {hexadecimal(ones, digits)}))"


def read_halves(low: str, high: str, width: int, first: str) -> str:
    """Return an expression that reads the halves in order into ``variable``."""
    kind = c_type(width)
    shift = width // 2
    upper = f"(({kind})((({kind}){high}) << {shift}))"
    lower = f"(({kind}){low})"
    one, other = (lower, upper) if first == "low" else (upper, lower)
    return f"((variable) = {one}, (variable) = ({kind})((variable) | {other}))"


def write_halves(low: str, high: str, width: int, first: str) -> str:
    """Return an expression that writes the halves of ``value`` in order."""
    kind = c_type(width)
    half = c_type(width // 2)
    upper = f"{high} = ({half})(({kind})(value) >> {width // 2})"
    lower = f"{low} = ({half})(({kind})(value) & {hexadecimal((1 << (width // 2)) - 1, 2)})"
    one, other = (lower, upper) if first == "low" else (upper, lower)
    return f"({one}, {other})"
