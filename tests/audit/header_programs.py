"""Programs that use every macro of an emitted header as the header's comments say it is used."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.macros.registers import ChipMacros, FieldMacros, RegisterMacros, macro_name
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.facts import FieldFacts

READABLE = ("read-write", "read-only", "read-writeOnce")
WRITABLE = ("read-write", "write-only", "writeOnce", "read-writeOnce")

HEAD = """#include "{chip}.h"
void take(unsigned long number);
unsigned char inb(unsigned port);
void outb(unsigned char value, unsigned port);
int phy_read(void *device, unsigned number);
int phy_write(void *device, unsigned number, unsigned short value);
"""


class Ways(NamedTuple):
    """What may be done with one register: read it, write it whole, change a part of it."""

    read: bool
    write: bool
    modify: bool
    constant: bool


def ways_of(placed: Placed) -> Ways:
    """Work out what the description says may be done: the rules take no part in this.

    A part may be changed where a write of what was read does nothing by itself and the read
    neither; a constant may be written where no reserved bit asks for anything but 0.
    """
    facts = placed.facts
    acting = any(item.field.modified_write_value for item in facts.fields)
    touchy = facts.register.read_action or any(item.field.read_action for item in facts.fields)
    read, write = facts.access in READABLE, facts.access in WRITABLE
    plain = all(item.reserved.write in (None, "0") for item in facts.reserved)
    return Ways(read, write, read and write and not acting and not touchy, write and plain)


def c_program(chip: str, resolved: ResolvedChip, macros: ChipMacros) -> str:
    """Return a C program that uses all macros, a function for each register."""
    lines = [HEAD.format(chip=chip)]
    functions = {name for item in resolved.chip.instructions for name in item.names}
    for item in macros.registers:
        if item.placed.half:
            continue  # the function of the whole register is for them
        placed = item.placed
        halves = [half for half in macros.registers if half.placed.whole == placed.name]
        lines.append(f"void use_{placed.name}(void *device);")
        lines.append(f"void use_{placed.name}(void *device) {{")
        lines.append("    unsigned long value = 0; (void)device;")
        lines += [f"    {text}" for text in _statements(item, halves, functions)]
        lines.append("    take(value);\n}")
    lines += _frame(resolved, macros)
    lines += _parts(macros)
    return "\n".join(lines) + "\n"


def _frame(resolved: ResolvedChip, macros: ChipMacros) -> Iterator[str]:
    """Use the macros by which C reaches an address, each with a register of its kind."""
    space = resolved.pointer_space
    for head, _ in macros.frame.accesses:
        name = macro_name(head)
        is_read = "_READ" in name
        assert space is not None
        item = next(
            item
            for item in macros.registers
            if item.access is not None
            and name.endswith(str(item.access))
            and is_read == (item.placed.facts.access == "read-only")
        )
        place = f"{name}({item.placed.name}_{space.name.upper()}_ADDR)"
        text = f"sizeof({place})"
        if item.placed.facts.access in READABLE and not _ordered(item):
            text = place
        yield f"unsigned long by_{name}(void);"
        yield f"unsigned long by_{name}(void) {{ return {text}; }}"


def _ordered(item: RegisterMacros) -> bool:
    halves = item.placed.register.halves
    is_half = bool(item.placed.half)
    return is_half or bool(halves and (halves.read_first or halves.write_first))


def _parts(macros: ChipMacros) -> Iterator[str]:
    """Use the macros of memories, settings and the like: numbers, and texts."""
    for index, part in enumerate(macros.parts):
        yield f"void use_part{index}(void);"
        yield f"void use_part{index}(void) {{"
        yield from (f"    take({name});" for name, _ in part.numbers)
        yield from (f"    take(sizeof({name}));" for name, _ in part.code)
        yield "}"


def _statements(
    item: RegisterMacros,
    halves: list[RegisterMacros],
    functions: set[str],
) -> Iterator[str]:
    placed = item.placed
    yield from _numbers(item)
    for half in halves:
        yield from _numbers(half)
    has_object = item.access is not None
    if halves:
        yield from _of_halves(item, halves)
    elif has_object:
        yield from _of_register(item)
    for field in item.fields:
        yield from _of_value(item, field)
        if has_object and not halves:
            yield from _of_field(item, field)
    if functions & {"inb", "phy_read"}:
        yield from _by_function(item, functions)
    if has_object:
        yield f"take(sizeof({placed.name}));"


def _numbers(item: RegisterMacros) -> Iterator[str]:
    for name, _ in item.numbers:
        if name.endswith("_SINGLE_BIT"):
            yield f"if ({name}) take(1);"
        else:
            yield f"take({name});"


def _reset(item: RegisterMacros) -> str:
    name = f"{item.placed.name}_RESET"
    names = [macro for macro, _ in item.numbers]
    if name not in names:
        return ""
    defined = f"{name}_DEFINED"
    return f"{name} & {defined}" if defined in names else name


def _of_halves(item: RegisterMacros, halves: list[RegisterMacros]) -> Iterator[str]:
    placed = item.placed
    ways, order = ways_of(placed), placed.register.halves
    assert order is not None
    kind = f"uint{placed.facts.width}_t"
    by_half = {half.placed.half: half.placed.name for half in halves}
    for verb, first in (("read", order.read_first), ("write", order.write_first)):
        if first is None or not (ways.read if verb == "read" else ways.write):
            continue
        names = [by_half[first], by_half["low" if first == "high" else "high"]]
        if verb == "read":
            yield f"{{ {kind} all; {placed.name}_READ_INTO(all); value += all; }}"
            yield from (f"value += {name};" for name in names)
            yield f"{{ uint8_t one = {names[0]}, other = {names[1]}; value += one + other; }}"
            yield f"value += {names[0]}, value += {names[1]};"
        else:
            yield f"{{ {kind} all = {_reset(item) or '7'}; {placed.name}_WRITE(all); }}"
            yield from (f"{name} = {name}_RESET;" for name in names if _reset(item))
            yield f"{names[0]} = 1, {names[1]} = 2;"


def _of_register(item: RegisterMacros) -> Iterator[str]:
    name, ways = item.placed.name, ways_of(item.placed)
    if ways.read:
        yield f"value = {name};"
        yield f"if ({name} == 3U) take({name});"
    if ways.write:
        yield f"{name} = (uint{item.access}_t)value;"
        reset = _reset(item)
        if reset:
            yield f"{name} = {reset};"
    if ways.modify and not item.placed.facts.fields and not item.placed.facts.reserved:
        yield f"{name}++; {name} |= 1; {name} = {name} + 1; {name} &= 0x7F;"


def _of_value(item: RegisterMacros, field: FieldMacros) -> Iterator[str]:
    """Use what needs no register: on a value that was read before."""
    for name, _ in field.numbers:
        yield f"take({name});"
    kind = f"uint{max(8, item.placed.facts.width)}_t"
    for head, _ in field.code:
        name = macro_name(head)
        if name.endswith(("_EXTRACT", "_TO_CLEAR")):
            yield f"take({name}(({kind})value));"
        elif name.endswith("_INSERT"):
            yield f"value = {name}(({kind})value, 1U);"


def _of_field(item: RegisterMacros, field: FieldMacros) -> Iterator[str]:
    ways = ways_of(item.placed)
    if ways.read:
        yield from _asked(item, field)
    if field.facts.access in WRITABLE:
        if ways.modify:
            yield from _changed(item, field)
        yield from _beside_flags(item, field.facts)
        yield from _put(item, field)


def _asked(item: RegisterMacros, field: FieldMacros) -> Iterator[str]:
    name, facts = item.placed.name, field.facts
    stem = f"{name}_{facts.field.name}"
    yield f"if ({name} & {stem}_MASK) take(1);"
    yield f"while (({name} & {stem}_MASK) != 0) take(2);"
    yield f"value = (value & ~{stem}_MASK) | ({name} & {stem}_MASK);"
    yield f"value = ({name} >> {stem}_BITPOS) & 1U;"
    if facts.layout.width > 1:
        yield f"value = {stem}_EXTRACT({name});"
    for value in facts.field.values:
        yield f"if (({name} & {stem}_MASK) == {stem}_{value.name}) take(3);"


def _changed(item: RegisterMacros, field: FieldMacros) -> Iterator[str]:
    """Change a field of a register without flags."""
    name, facts = item.placed.name, field.facts
    stem, kind = f"{name}_{facts.field.name}", f"uint{item.access}_t"
    yield f"{name} |= {stem}_MASK; {name} &= ({kind})~{stem}_MASK; {name} ^= {stem}_MASK;"
    yield f"{name} |= ({kind})((1UL << {stem}_BITPOS));"
    yield f"{name} &= ({kind})~(1UL << {stem}_BITPOS);"
    yield f"{name} = {name} | {stem}_MASK; {name} = ({kind})({name} & ~{stem}_MASK);"
    if facts.layout.width > 1:
        yield f"{name} = {stem}_INSERT({name}, 1U); {name} = {stem}_INSERT({name}, value);"
    for value in _written(facts):
        yield f"{name} = ({kind})(({name} & ~{stem}_MASK) | {stem}_{value});"
        yield f"{name} |= {stem}_{value};"


def _written(facts: FieldFacts) -> list[str]:
    return [value.name for value in facts.field.values if value.usage != "read"]


def _put(item: RegisterMacros, field: FieldMacros) -> Iterator[str]:
    """Write a register as a whole, and clear its flags."""
    name, facts = item.placed.name, field.facts
    stem, kind = f"{name}_{facts.field.name}", f"uint{item.access}_t"
    if ways_of(item.placed).constant:
        yield f"{name} = {stem}_MASK; {name} = ({kind})(1UL << {stem}_BITPOS); {name} = 0;"
        yield from (f"{name} = {stem}_{value};" for value in _written(facts))
    for head, _ in field.code:
        macro = macro_name(head)
        if macro.endswith("_CLEAR") and head.endswith("()"):
            yield f"{macro}(); if ({name} & {stem}_MASK) {macro}();"
        elif macro.endswith("_TO_CLEAR"):
            yield f"{name} = {macro}({name}); value = {name}; {name} = {macro}(value);"


def _beside_flags(item: RegisterMacros, field: FieldFacts) -> Iterator[str]:
    """Change a plain field of a register with flags, and leave those alone."""
    name, facts = item.placed.name, item.placed.facts
    ways = ways_of(item.placed)
    effects: dict[str, list[str]] = {"oneToClear": [], "zeroToClear": []}
    for other in facts.fields:
        effect = other.field.modified_write_value
        if effect is not None:
            effects.setdefault(effect, []).append(f"{name}_{other.field.name}_MASK")
    is_plain = field.field.modified_write_value is None
    ones, zeros = effects.pop("oneToClear"), effects.pop("zeroToClear")
    if not is_plain or effects or not (ones or zeros) or not (ways.read and ways.write):
        return
    mask, kind = f"{name}_{field.field.name}_MASK", f"uint{item.access}_t"
    for change in (f"| {mask}", f"& ~{mask}"):
        value = f"(({name} & ~({' | '.join(ones)})) {change})" if ones else f"({name} {change})"
        yield f"{name} = ({kind})({' | '.join([value, *zeros])});"


def _by_function(item: RegisterMacros, functions: set[str]) -> Iterator[str]:
    """Use a register that no pointer reaches, by the functions that the description names."""
    placed, ways = item.placed, ways_of(item.placed)
    (address,) = (name for name, _ in item.numbers if name.endswith("_ADDR"))
    is_port = "inb" in functions
    read = f"inb({address})" if is_port else f"(unsigned)phy_read(device, {address})"
    if ways.read:
        yield f"value = {read};"
    for field in item.fields:
        mask = f"{placed.name}_{field.facts.field.name}_MASK"
        if ways.read:
            yield f"if ({read} & {mask}) take(4);"
        if ways.constant:
            yield f"{_call(is_port, address, mask)};"
        if ways.modify:
            yield f"{_call(is_port, address, f'{read} | {mask}')};"
            yield f"{_call(is_port, address, f'{read} & ~{mask}')};"
    if ways.write:
        yield f"{_call(is_port, address, 'value')};"


def _call(is_port: bool, address: str, value: str) -> str:
    if is_port:
        return f"outb((unsigned char)({value}), {address})"
    return f"phy_write(device, {address}, (unsigned short)({value}))"


def assembler_program(chip: str, macros: ChipMacros) -> str:
    """Return assembler that reaches every register of a Sorrel chip by the header's numbers."""
    lines = [f'#include "{chip}.h"', "start:"]
    for item in macros.registers:
        name, ways = item.placed.name, ways_of(item.placed)
        names = {macro for macro, _ in item.numbers}
        if item.placed.facts.width > 8:
            continue
        if f"{name}_IO_ADDR" in names:
            lines += [f"\tin r16, {name}_IO_ADDR"] * ways.read
            lines += [f"\tout {name}_IO_ADDR, r16"] * ways.write
        if f"{name}_DATA_ADDR" in names:
            lines += [f"\tload r16, {name}_DATA_ADDR"] * ways.read
            lines += [f"\tstore {name}_DATA_ADDR, r16"] * ways.write
        for field in item.fields if item.placed.single_bit else ():
            bit = f"{name}_IO_ADDR, {name}_{field.facts.field.name}_BITPOS"
            lines += [f"\tbskip {bit}"] * ways.read
            lines += [f"\tbset {bit}", f"\tbclr {bit}"] * ways.modify
    return "\n".join([*lines, "\tret", ""])
