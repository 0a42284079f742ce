"""Changes that are one for whoever reads them: rows, instances, halves, blocks that moved."""

from __future__ import annotations

from collections import Counter

from small_chips import Tree, chip, field, register

from regwright.compare.changes import Change, mirrored
from regwright.compare.differences import compare
from regwright.compare.groups import Group, collapsed
from regwright.resolve.chip import ResolvedChip

HALVES = {"low": {"name": "RL"}, "high": {"name": "RH"}}
Shown = list[tuple[str, list[str], int | None]]


def groups(a: ResolvedChip, b: ResolvedChip) -> Shown:
    """Return kind, names and distance of each group; on the way back the groups are the same."""
    found = compare(a, b).changes
    made = collapsed(found)
    assert Counter(item for group in made for item in group.all) == Counter(found)
    back = collapsed(map(mirrored, found))
    assert [tuple(map(mirrored, group.all)) for group in back] == [group.all for group in made]
    assert [group.distance and -group.distance for group in back] == [g.distance for g in made]
    return [(g.change.kind, [item.a or item.b for item in g.all], g.distance) for g in made]


def block(at: int, *registers: Tree, **more: object) -> list[Tree]:
    return [{"name": "B", "base": f"data:{at:#x}", "registers": list(registers), **more}]


def test_a_row_is_one_change() -> None:
    a = chip(register("R", 0x100, count=3, fields=[field("F", 0)]))
    b = chip(register("R", 0x100, count=3, access="read-only", fields=[field("F", 1)]))
    assert groups(a, b) == [
        ("register-access", ["R0", "R1", "R2"], None),
        ("field-bits", ["R0.F", "R1.F", "R2.F"], None),
    ]


def test_a_row_that_is_gone_or_renamed_is_one_change() -> None:
    a = chip(register("R", 0x100, count=3))
    assert groups(a, chip()) == [("register-only-in-a", ["R0", "R1", "R2"], None)]
    b = chip(register("R_", 0x100, count=3))
    assert groups(a, b) == [("register-renamed", ["R0", "R1", "R2"], None)]


def test_instances_are_one_change() -> None:
    def two(**more: object) -> ResolvedChip:
        instances = [{"name": "B0", "base": "data:0x100"}, {"name": "B1", "base": "data:0x110"}]
        registers = [register("R", offset=0, **more), register("S", offset=1)]
        return chip(blocks=[{"name": "B", "instances": instances, "registers": registers}])

    assert groups(two(), two(reset="0x1")) == [("register-reset", ["B0_R", "B1_R"], None)]


def test_halves_go_with_their_register() -> None:
    a = chip(register("R", 0x100, width=16, reset="0x1234", halves=HALVES))
    b = chip(register("R", 0x104, width=16, reset="0x1235", access="read-only", halves=HALVES))
    assert groups(a, b) == [
        ("address", ["R", "RL", "RH"], 4),
        ("register-access", ["R", "RL", "RH"], None),
        ("register-reset", ["R", "RL"], None),
    ]


def test_a_half_that_changed_alone_is_a_change_of_its_own() -> None:
    a = chip(register("R", 0x100, width=16, halves=HALVES))
    b = chip(register("R", 0x100, width=16, halves={**HALVES, "low": {"name": "RL", "page": 3}}))
    assert groups(a, b) == [("page", ["RL"], None)]


def test_a_block_that_moved_is_one_change() -> None:
    registers = [register("R", offset=0), register("S", offset=1), register("T", offset=2, count=2)]
    a, b = chip(blocks=block(0x100, *registers)), chip(blocks=block(0x140, *registers))
    assert groups(a, b) == [("address", ["B_R", "B_S", "B_T0", "B_T1"], 0x40)]


def test_instances_that_moved_each_by_its_own_distance() -> None:
    def at(first: int, second: int) -> ResolvedChip:
        instances = [
            {"name": "B0", "base": f"data:{first:#x}"},
            {"name": "B1", "base": f"data:{second:#x}"},
        ]
        registers = [register("R", offset=0), register("S", offset=1)]
        return chip(blocks=[{"name": "B", "instances": instances, "registers": registers}])

    assert groups(at(0x100, 0x110), at(0x120, 0x108)) == [
        ("address", ["B0_R", "B0_S"], 0x20),
        ("address", ["B1_R", "B1_S"], -8),
    ]


def test_a_row_with_another_step_is_one_change() -> None:
    registers = [register("A", offset=0), register("B", offset=1)]
    a = chip(blocks=block(0x100, *registers, register("T", offset=2, count=4)))
    b = chip(blocks=block(0x140, *registers, register("T", offset=2, count=4, stride=2)))
    assert groups(a, b) == [
        ("address", ["B_A", "B_B"], 0x40),
        ("address", ["B_T0", "B_T1", "B_T2", "B_T3"], None),
    ]


def test_registers_in_no_block_that_moved_alike() -> None:
    """In both spaces, each space for itself: 0x18 in I/O space is 0x38 in data space."""
    a = chip(register("R", 0x38), register("S", 0x39), register("T", 0x3A))
    b = chip(register("R", 0x34), register("S", 0x35), register("T", 0x3F))
    assert groups(a, b) == [
        ("address", ["R", "S"], -4),
        ("address", ["R", "S"], -4),
        ("address", ["T"], 5),
        ("address", ["T"], 5),
    ]


def test_an_address_that_came_or_went_is_no_distance() -> None:
    a = chip(register("R", 0x38), register("S", 0x39))
    b = chip(register("R", 0x68), register("S", 0x69))
    assert groups(a, b) == [
        ("address", ["R", "S"], 0x30),
        ("address", ["R", "S"], None),
        ("single-bit-reach", ["R"], None),
        ("single-bit-reach", ["S"], None),
    ]


def test_what_differs_otherwise_stays_apart() -> None:
    a = chip(register("R", 0x100, fields=[field("F", 0), field("G", 1)]), register("S", 0x101))
    b = chip(
        register("R", 0x100, fields=[field("F", 2), field("G", 3)], title="T"),
        register("S", 0x101, title="T"),
    )
    assert groups(a, b) == [
        ("title", ["R"], None),
        ("title", ["S"], None),
        ("field-bits", ["R.F"], None),
        ("field-bits", ["R.G"], None),
    ]


def test_what_is_of_the_chip_stays_apart() -> None:
    changes = [Change("title", "chip", "chip", "A", "B"), Change("title", "data", "data", "A", "B")]
    assert collapsed(changes) == [Group(changes[0]), Group(changes[1])]
    assert collapsed([]) == []
