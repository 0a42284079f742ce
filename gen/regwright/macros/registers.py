"""The macros of each register: names with their prefix, and values."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from regwright.macros.frame import Frame, frame
from regwright.macros.literals import access_bits, decimal, digits_of, hexadecimal
from regwright.macros.operations import (
    Clearing,
    extract,
    insert,
    leaving_alone,
    read_halves,
    to_clear,
    write_halves,
)
from regwright.model.chip import Chip, Space
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.facts import FieldFacts

if TYPE_CHECKING:  # many chips have no parts: not loaded for them
    from regwright.macros.parts import Part

#: A macro: its name, with its parameters when it has some, and its value.
Macro = tuple[str, str]

CLEARED_BY = ("oneToClear", "zeroToClear")


class FieldMacros(NamedTuple):
    """The macros of one field: plain numbers, and those that only C can use."""

    facts: FieldFacts
    numbers: list[Macro]
    code: list[Macro]


class RegisterMacros(NamedTuple):
    """The macros of one register and of its fields; ``access`` is the width of one C access."""

    placed: Placed
    access: int | None
    numbers: list[Macro]
    code: list[Macro]
    fields: list[FieldMacros]


class ChipMacros(NamedTuple):
    """The macros of a whole chip; ``frame`` holds those that are of no register.

    ``widths`` are those of the accesses to registers, ``read_widths`` to read-only ones.
    ``parts`` are of what the chip has besides registers.
    """

    frame: Frame
    widths: list[int]
    read_widths: list[int]
    registers: list[RegisterMacros]
    parts: "tuple[Part, ...]" = ()


def macro_name(macro: str) -> str:
    """Return the name of ``R_F_INSERT(value, field)`` without its parameters."""
    return macro.partition("(")[0]


def frame_macros(chip: ChipMacros) -> list[Macro]:
    """Return the macros of the header's frame, the guard with no value."""
    return [(chip.frame.guard, ""), *chip.frame.marks, *chip.frame.accesses]


def macro_names(chip: ChipMacros) -> list[str]:
    """Return the name of every macro that the header defines, those of a register together."""
    names = [macro_name(macro) for macro, _ in frame_macros(chip)]
    for item in chip.registers:
        names += names_of_register(item)
    for part in chip.parts:
        names += names_of_part(part)
    return names


def names_of_register(item: RegisterMacros) -> list[str]:
    """Return the name of every macro of a register and of its fields."""
    names = [name for name, _ in item.numbers]
    names += [macro_name(macro) for macro, _ in item.code]
    for field in item.fields:
        names += [name for name, _ in field.numbers]
        names += [macro_name(macro) for macro, _ in field.code]
    return names


def names_of_part(part: "Part") -> list[str]:
    """Return the name of every macro of a memory, a setting and the like."""
    return [macro_name(macro) for macro, _ in (*part.numbers, *part.code)]


def header_macros(chip: ChipMacros) -> Iterator[Macro]:
    """Yield every macro in the order in which the header defines them."""
    yield chip.frame.guard, ""
    yield from chip.frame.marks
    for item in chip.registers:
        yield from item.numbers
        for field in item.fields:
            yield from field.numbers
    for part in chip.parts:
        yield from part.numbers
    yield from chip.frame.accesses
    for item in chip.registers:
        yield from item.code
        for field in item.fields:
            yield from field.code
    for part in chip.parts:
        yield from part.code


def _register_numbers(placed: Placed, resolved: ResolvedChip) -> list[Macro]:
    name, facts = placed.name, placed.facts
    macros = [
        (f"{name}_{address.space.upper()}_ADDR", hexadecimal(address.value))
        for address in placed.addresses
        if address.space in resolved.spaces
    ]
    if placed.single_bit is not None:
        macros.append((f"{name}_SINGLE_BIT", decimal(int(placed.single_bit))))
    if facts.reset is not None:
        width = digits_of(facts.width)
        macros.append((f"{name}_RESET", hexadecimal(facts.reset.value, width)))
        if facts.reset.undefined:
            defined = ((1 << facts.width) - 1) & ~facts.reset.undefined
            macros.append((f"{name}_RESET_DEFINED", hexadecimal(defined, width)))
    return macros


def _field_macros(
    placed: Placed, item: FieldFacts, others: Clearing, *, is_lvalue: bool
) -> FieldMacros:
    layout, width = item.layout, placed.facts.width
    digits = digits_of(width)
    stem = f"{placed.name}_{item.field.name}_"
    numbers = [
        (stem + "BITPOS", decimal(layout.position)),
        (stem + "MASK", hexadecimal(layout.mask, digits)),
    ]
    for value in item.field.values:
        numbers.append((stem + value.name, hexadecimal(layout.insert(value.value), digits)))
    code: list[Macro] = []
    if layout.width > 1 and width <= 64:
        code.append((stem + "EXTRACT(value)", extract(layout, width)))
        code.append((stem + "INSERT(value, field)", insert(layout, width)))
    if item.field.modified_write_value in CLEARED_BY:
        code.append((stem + "TO_CLEAR(value)", to_clear(width, others, item)))
        if is_lvalue:
            name = placed.name
            code.append((stem + "CLEAR()", f"({name} = {stem}TO_CLEAR({name}))"))
    return FieldMacros(item, numbers, code)


def _halves_code(placed: Placed, low: Placed, high: Placed) -> list[Macro]:
    halves = placed.register.halves
    if halves is None:
        return []
    width = placed.facts.width
    code = []
    if halves.read_first:
        body = read_halves(low.name, high.name, width, halves.read_first)
        code.append((f"{placed.name}_READ_INTO(variable)", body))
    if halves.write_first:
        body = write_halves(low.name, high.name, width, halves.write_first)
        code.append((f"{placed.name}_WRITE(value)", body))
    return code


def _access(placed: Placed, space: Space | None) -> int | None:
    """Return how many bits a C pointer reads at once at ``placed``, if one reaches it."""
    if space is None or placed.address(space.name) is None:
        return None
    return access_bits(placed.facts.width, space.unit)


def register_macros(
    placed: Placed, resolved: ResolvedChip, halves: tuple[Placed, ...]
) -> RegisterMacros:
    """Return the macros of one register; ``halves`` are the low and the high one, if it has them.

    What accesses the halves in order is there only where C reaches both.
    """
    space = resolved.pointer_space
    access = _access(placed, space)
    code: list[Macro] = []
    if access is not None and space is not None:
        place = f"{placed.name}_{space.name.upper()}_ADDR"
        way = "READ" if is_read_only(placed) else "REG"
        code.append((placed.name, f"{resolved.chip.name.upper()}_{way}{access}({place})"))
    if halves and all(_access(half, space) is not None for half in halves):
        code += _halves_code(placed, *halves)
    others = leaving_alone(placed.facts)
    writable = not is_read_only(placed)
    fields = [
        _field_macros(placed, item, others, is_lvalue=access is not None and writable)
        for item in placed.facts.fields
    ]
    return RegisterMacros(placed, access, _register_numbers(placed, resolved), code, fields)


def is_read_only(placed: Placed) -> bool:
    """Tell whether C should refuse to write the register."""
    return placed.facts.access == "read-only"


def _with_halves(registers: tuple[Placed, ...]) -> Iterator[tuple[Placed, tuple[Placed, ...]]]:
    """Yield each register with its halves, which follow it directly."""
    for index, placed in enumerate(registers):
        yield placed, registers[index + 1 : index + 3] if placed.register.halves else ()


def chip_macros(resolved: ResolvedChip) -> ChipMacros:
    """Return every macro that the header of ``resolved`` defines."""
    registers = [
        register_macros(placed, resolved, halves)
        for placed, halves in _with_halves(resolved.registers)
    ]
    reached = [item for item in registers if item.access is not None]
    read_widths = sorted({item.access or 0 for item in reached if is_read_only(item.placed)})
    widths = sorted({item.access or 0 for item in reached if not is_read_only(item.placed)})
    shape = frame(resolved.chip, widths, read_widths)
    return ChipMacros(shape, widths, read_widths, registers, _parts(resolved))


def _parts(resolved: ResolvedChip) -> "tuple[Part, ...]":
    if not has_parts(resolved.chip):
        return ()
    from regwright.macros.parts import chip_parts

    return chip_parts(resolved)


def has_parts(chip: Chip) -> bool:
    """Tell whether ``chip`` describes anything besides registers."""
    return bool(
        chip.memories
        or chip.vector_table
        or chip.configuration
        or chip.clock
        or chip.identity
        or chip.ports
        or chip.packages
        or chip.build
    )
