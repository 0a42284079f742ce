"""Memories and vectors of two chips and exactly what differs, worked out by hand."""

from __future__ import annotations

from typing import Any

from register_cases import Rows
from small_chips import SPACES, Tree, chip

from regwright.resolve.chip import ResolvedChip

WORDS: Tree = {"name": "program", "size": "0x1000", "unit": 16}
FLASH: Tree = {"name": "FLASH", "kind": "flash", "space": "program", "first": "0", "size": "0x400"}
RESET: Tree = {"number": 0, "name": "RESET"}
TICK: Tree = {"number": 1, "name": "TICK", "title": "the counter has run over"}


def both(name: str, kind: str, before: str, after: str) -> Rows:
    return [(kind, name, name, before, after)]


# Memories.


def memories(*found: Tree) -> ResolvedChip:
    return chip(spaces=[*SPACES, WORDS], memories=list(found))


def flash(**more: Any) -> ResolvedChip:
    return memories({**FLASH, **more})


SIZE = "0x400 units (2048 bytes)"
MEMORIES: list[tuple[ResolvedChip, ResolvedChip, Rows]] = [
    (
        *(flash(), memories()),
        [("memory-only-in-a", "memory FLASH", "", f"flash, program 0x00, {SIZE}", "")],
    ),
    # the only flash in its space has another name
    (
        *(flash(), flash(name="ROM")),
        [("memory-renamed", "memory FLASH", "memory ROM", "FLASH", "ROM")],
    ),
    # two that it could be: it is none of them
    (
        flash(),
        memories({**FLASH, "name": "LOW", "size": 1}, {**FLASH, "name": "HIGH", "size": 2}),
        [
            ("memory-only-in-a", "memory FLASH", "", f"flash, program 0x00, {SIZE}", ""),
            ("memory-only-in-b", "", "memory LOW", "", "flash, program 0x00, 0x1 unit (2 bytes)"),
            ("memory-only-in-b", "", "memory HIGH", "", "flash, program 0x00, 0x2 units (4 bytes)"),
        ],
    ),
    (flash(), flash(kind="eeprom"), both("memory FLASH", "memory-kind", "flash", "eeprom")),
    (
        *(flash(), flash(first="0x80")),
        both("memory FLASH", "memory-place", "program 0x00", "program 0x80"),
    ),
    (
        *(flash(), flash(size="0x800")),
        both("memory FLASH", "memory-size", SIZE, "0x800 units (4096 bytes)"),
    ),
    # as many units, and more bytes
    (
        chip(spaces=[*SPACES, {**WORDS, "unit": 8}], memories=[FLASH]),
        flash(),
        [
            *both("memory FLASH", "memory-size", "0x400 units (1024 bytes)", SIZE),
            *both(
                *("program", "space", "0x1000 units of 8 bits, pointers reach it"),
                "0x1000 units of 16 bits, pointers reach it",
            ),
        ],
    ),
    (
        *(flash(pageSize="0x20"), flash()),
        both("memory FLASH", "memory-page-size", "0x20 units (64 bytes)", ""),
    ),
    (
        *(flash(eraseUnit="0x40"), flash(eraseUnit="0x1")),
        both("memory FLASH", "memory-erase-unit", "0x40 units (128 bytes)", "0x1 unit (2 bytes)"),
    ),
    (
        *(flash(title="T", page=1), flash(title="U", page=2)),
        [*both("memory FLASH", "title", "T", "U"), *both("memory FLASH", "page", "1", "2")],
    ),
]


# Interrupt vectors.


def vectors(*found: Tree, size: int = 1, **more: Any) -> ResolvedChip:
    table = {"space": "program", "size": size, "vectors": list(found), **more}
    return chip(spaces=[*SPACES, WORDS], vectorTable=table)


ONE_EACH = "1 unit each, program from 0x00 on"
VECTORS: list[tuple[ResolvedChip, ResolvedChip, Rows]] = [
    (
        *(vectors(RESET, TICK), chip(spaces=[*SPACES, WORDS])),
        [("vectors-only-in-a", "vectors", "", f"2 vectors, {ONE_EACH}", "")],
    ),
    (
        vectors(RESET, TICK),
        vectors(RESET, TICK, size=2, base="0x10"),
        [
            *both("vectors", "vector-table", ONE_EACH, "2 units each, program from 0x10 on"),
            *both("vector RESET", "vector-address", "program 0x00", "program 0x10"),
            *both("vector TICK", "vector-address", "program 0x01", "program 0x12"),
        ],
    ),
    (
        *(vectors(RESET, TICK), vectors(RESET)),
        [("vector-only-in-a", "vector TICK", "", "number 1, program 0x01", "")],
    ),
    # one has it printed: it is the same address
    (vectors(RESET, TICK), vectors(RESET, {**TICK, "address": "0x1"}), []),
    (
        vectors(RESET, TICK),
        vectors(RESET, {**TICK, "number": 5}),
        [
            *both("vector TICK", "vector-number", "1", "5"),
            *both("vector TICK", "vector-address", "program 0x01", "program 0x05"),
        ],
    ),
    (
        vectors(RESET, TICK),
        vectors(RESET, {**TICK, "name": "T0_OVF"}),
        [("vector-renamed", "vector TICK", "vector T0_OVF", "TICK", "T0_OVF")],
    ),
    # two have the title: it is none of them
    (
        vectors(TICK),
        vectors({**TICK, "name": "T0"}, {**TICK, "number": 2, "name": "T1"}),
        [
            ("vector-only-in-a", "vector TICK", "", "number 1, program 0x01", ""),
            ("vector-only-in-b", "", "vector T0", "", "number 1, program 0x01"),
            ("vector-only-in-b", "", "vector T1", "", "number 2, program 0x02"),
        ],
    ),
    (
        *(vectors(RESET), vectors({**RESET, "title": "T", "page": 3})),
        [*both("vector RESET", "title", "", "T"), *both("vector RESET", "page", "", "3")],
    ),
]
