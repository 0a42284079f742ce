"""The macros of memories, interrupt vectors, the chip's identity and what tools call it."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import decimal, hexadecimal
from regwright.macros.parts import BUILD, IDENTITY, MEMORY, VECTOR, VECTORS, Part, word_of
from regwright.macros.registers import Macro
from regwright.model.memories import Memory, Vector, VectorTable
from regwright.resolve.chip import ResolvedChip


def bytes_of(units: int, unit: int) -> int | None:
    """Return how many bytes ``units`` of ``unit`` bits are, if they are whole ones."""
    bits = units * unit
    return None if bits % 8 else bits // 8


def memory_parts(resolved: ResolvedChip, stem: str) -> Iterator[Part]:
    """Yield the macros of each memory: where it starts and what it holds."""
    for memory in resolved.chip.memories:
        numbers = _memory_numbers(memory, resolved, f"{stem}MEMORY_{word_of(memory.name)}")
        yield Part(MEMORY, f"the memory {memory.name}", memory, numbers, [])


def _memory_numbers(memory: Memory, resolved: ResolvedChip, stem: str) -> list[Macro]:
    space = resolved.spaces.get(memory.space)
    numbers = []
    if space is not None:
        numbers.append((f"{stem}_{space.name.upper()}_ADDR", hexadecimal(memory.first)))
    numbers.append((f"{stem}_UNITS", hexadecimal(memory.size)))
    held = bytes_of(memory.size, space.unit) if space else None
    if held is not None:
        numbers.append((f"{stem}_BYTES", decimal(held)))
    if memory.page_size is not None:
        numbers.append((f"{stem}_PAGE_UNITS", decimal(memory.page_size)))
    if memory.erase_unit is not None:
        numbers.append((f"{stem}_ERASE_UNITS", decimal(memory.erase_unit)))
    return numbers


def places_in(table: VectorTable) -> int:
    """Return how many vectors the table has room for: one more than the highest number."""
    return max((item.number for item in table.vectors), default=-1) + 1


def vector_address(table: VectorTable, vector: Vector) -> int:
    """Return where ``vector`` is: as printed, or as its number says."""
    if vector.address is not None:
        return vector.address
    return table.base + vector.number * table.size


def vector_parts(resolved: ResolvedChip, stem: str) -> Iterator[Part]:
    """Yield the macros of the table of vectors and of each vector."""
    table = resolved.chip.vector_table
    if table is None:
        return
    numbers = [
        (f"{stem}VECTORS_COUNT", decimal(places_in(table))),
        (f"{stem}VECTORS_STEP", decimal(table.size)),
    ]
    yield Part(VECTORS, "the table of vectors", table, numbers, [])
    for vector in table.vectors:
        own = f"{stem}VECTOR_{word_of(vector.name)}"
        numbers = [(f"{own}_NUMBER", decimal(vector.number))]
        if table.space in resolved.spaces:
            place = hexadecimal(vector_address(table, vector))
            numbers.append((f"{own}_{table.space.upper()}_ADDR", place))
        yield Part(VECTOR, f"the vector {vector.name}", vector, numbers, [])


def identity_parts(resolved: ResolvedChip, stem: str) -> Iterator[Part]:
    """Yield the macros of the bytes by which a programmer knows the chip."""
    identity = resolved.chip.identity
    if identity is None:
        return
    numbers = [(f"{stem}IDENTITY_BYTES", decimal(len(identity.signature)))]
    if identity.address is not None and identity.space in resolved.spaces:
        name = f"{stem}IDENTITY_{identity.space.upper()}_ADDR"
        numbers.append((name, hexadecimal(identity.address)))
    for index, byte in enumerate(identity.signature):
        numbers.append((f"{stem}IDENTITY_BYTE{index}", hexadecimal(byte)))
    yield Part(IDENTITY, "the identity", identity, numbers, [])


def build_parts(resolved: ResolvedChip, stem: str) -> Iterator[Part]:
    """Yield the macros of what the user's tools call the chip: texts, for C only."""
    build = resolved.chip.build
    if build is None:
        return
    names = (
        ("TARGET", build.target),
        ("INSTRUCTION_SET", build.instruction_set),
        ("PROGRAMMER_PART", build.programmer_part),
    )
    code = [(f"{stem}BUILD_{word}", f'"{name}"') for word, name in names if name]
    yield Part(BUILD, "what tools call the chip", build, [], code)
