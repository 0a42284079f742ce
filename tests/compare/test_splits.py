"""Registers that are several in the other chip: worked out by hand, in both directions."""

from __future__ import annotations

from small_chips import chip, differences, field, flags, register

from regwright.resolve.chip import ResolvedChip

HALVES = {"low": {"name": "COUNT_L"}, "high": {"name": "COUNT_H"}}


def splits(a: ResolvedChip, b: ResolvedChip) -> list[tuple[str, ...]]:
    """Return what was split and merged; the way back has the mirror image of it."""
    kinds = "register-split", "registers-merged"
    found = [row for row in differences(a, b) if row[0] in kinds]
    back = [row for row in differences(b, a) if row[0] in kinds]
    other = dict(zip(kinds, reversed(kinds), strict=True))
    assert sorted(found) == sorted(
        (other[k], b, a, after, before) for k, a, b, before, after in back
    )
    return found


def test_a_register_whose_fields_stand_in_two_new_ones() -> None:
    a = chip(register("CTRL", 0x20, fields=flags("RUN", "WAKE", "LEFT", "RIGHT")))
    b = chip(
        register("CTRL_A", 0x30, fields=flags("RUN", "WAKE")),
        register("CTRL_B", 0x31, fields=flags("LEFT", "RIGHT")),
    )
    assert splits(a, b) == [("register-split", "CTRL", "CTRL_A, CTRL_B", "", "CTRL_A, CTRL_B")]
    moved = [row[1:5] for row in differences(a, b) if row[0] == "field-moved"]
    assert moved == [
        ("CTRL.RUN", "CTRL_A.RUN", "CTRL", "CTRL_A"),
        ("CTRL.WAKE", "CTRL_A.WAKE", "CTRL", "CTRL_A"),
        ("CTRL.LEFT", "CTRL_B.LEFT", "CTRL", "CTRL_B"),
        ("CTRL.RIGHT", "CTRL_B.RIGHT", "CTRL", "CTRL_B"),
    ]


def test_a_register_that_keeps_some_of_its_fields() -> None:
    a = chip(register("CTRL", 0x20, fields=flags("RUN", "WAKE", "LEFT")))
    b = chip(
        register("CTRL", 0x20, fields=flags("RUN", "WAKE")),
        register("CTRL_B", 0x31, fields=flags("LEFT")),
    )
    assert splits(a, b) == [("register-split", "CTRL", "CTRL, CTRL_B", "", "CTRL, CTRL_B")]


def test_a_field_that_moved_to_a_register_that_was_there_splits_nothing() -> None:
    a = chip(
        register("CTRL", 0x20, fields=flags("RUN", "LEFT")),
        register("CTRL_B", 0x21, fields=flags("GO")),
    )
    b = chip(
        register("CTRL", 0x20, fields=flags("RUN")),
        register("CTRL_B", 0x21, fields=flags("GO", "LEFT")),
    )
    assert splits(a, b) == []
    assert ("field-moved", "CTRL.LEFT", "CTRL_B.LEFT", "CTRL", "CTRL_B") in differences(a, b)


def test_halves_that_are_registers_of_their_own() -> None:
    a = chip(register("COUNT", 0x40, width=16, halves=HALVES))
    b = chip(register("COUNT_L", 0x40), register("COUNT_H", 0x41))
    assert splits(a, b) == [("register-split", "COUNT", "COUNT_H, COUNT_L", "", "COUNT_H, COUNT_L")]
    # the halves are what they were: nothing else but the whole is gone
    assert differences(a, b) == [
        (
            *("register-only-in-a", "COUNT", ""),
            *("data 0x40, io 0x20, 16 bits, read-write", ""),
        ),
        ("register-split", "COUNT", "COUNT_H, COUNT_L", "", "COUNT_H, COUNT_L"),
    ]


def test_a_wide_register_and_two_narrow_ones_named_after_it() -> None:
    a = chip(register("COUNT", 0x40, width=16))
    for low, high in (("COUNT_L", "COUNT_H"), ("COUNTLO", "COUNTHI"), ("COUNT_LOW", "COUNTHIGH")):
        b = chip(register(low, 0x60), register(high, 0x61))
        into = f"{high}, {low}"
        assert splits(a, b) == [("register-split", "COUNT", into, "", into)]
    for other in (
        [register("COUNT_L", 0x60)],
        [register("COUNT_L", 0x60), register("COUNT_HI", 0x61)],
        [register("COUNT_L", 0x60), register("COUNT_H", 0x61, width=16)],
    ):
        assert splits(a, chip(*other)) == []
    # COUNT is there: the others are new
    b = chip(
        register("COUNT", 0x40, width=16), register("COUNT_L", 0x60), register("COUNT_H", 0x61)
    )
    assert splits(a, b) == []


def test_a_register_that_is_wider_is_not_split() -> None:
    a = chip(register("COUNT", 0x40, reset="0x12", fields=[field("VALUE", "7:0")]))
    b = chip(
        register(
            "COUNT", 0x40, width=16, halves=HALVES, reset="0x12", fields=[field("VALUE", "9:0")]
        )
    )
    assert splits(a, b) == []
    assert differences(a, b) == [
        ("register-width", "COUNT", "COUNT", "8 bits", "16 bits"),
        ("halves", "COUNT", "COUNT", "", "COUNT_L, COUNT_H"),
        *(
            ("register-only-in-b", "", "COUNT_L", "", "data 0x40, io 0x20, 8 bits, read-write"),
            ("register-only-in-b", "", "COUNT_H", "", "data 0x41, io 0x21, 8 bits, read-write"),
        ),
        ("field-bits", "COUNT.VALUE", "COUNT.VALUE", "bits 7:0", "bits 9:0"),
        ("field-width", "COUNT.VALUE", "COUNT.VALUE", "8 bits", "10 bits"),
    ]
