"""Each kind of difference, from two small chips: exactly what stands on either side, by hand."""

from __future__ import annotations

import pytest
from chip_cases import CHIPS
from clock_cases import CLOCK
from configuration_cases import CONFIGURATION
from memory_cases import MEMORIES, VECTORS
from pin_cases import PINS
from register_cases import REGISTERS, one
from small_chips import chip, differences, field, flags, register

from regwright.compare.changes import CATEGORIES, KINDS, Change, category, mirrored
from regwright.compare.differences import compare
from regwright.compare.pairs import CERTAIN, LIKELY, POSSIBLE

REST = [*MEMORIES, *VECTORS, *CONFIGURATION, *CLOCK, *PINS]
CASES = [(chip(a), chip(b), rows) for a, b, rows in REGISTERS] + CHIPS + REST


@pytest.mark.parametrize("number", range(len(CASES)))
def test_exactly_this_differs(number: int) -> None:
    a, b, rows = CASES[number]
    assert sorted(differences(a, b)) == sorted(rows)


@pytest.mark.parametrize("number", range(len(CASES)))
def test_the_way_back_is_the_mirror_image(number: int) -> None:
    a, b, rows = CASES[number]
    expected = [(KINDS[kind][1], there, here, *back) for kind, here, there, *back in rows]
    mirror = [(*row[:3], row[4], row[3]) for row in expected]
    assert sorted(differences(b, a)) == sorted(mirror)


def test_every_kind_is_shown_above() -> None:
    kinds = {row[0] for _, _, rows in CASES for row in rows}
    assert kinds | {KINDS[kind][1] for kind in kinds} == set(KINDS)


def test_an_address_says_its_space() -> None:
    changes = compare(chip(register("R", 0x3F)), chip(register("R", 0x40))).changes
    assert [change.detail for change in changes] == ["data", "io", ""]


def test_a_change_is_as_sure_as_the_pair_that_it_is_of() -> None:
    a = chip(one(title="Left motor", fields=[field("F", 0, values=[{"name": "V", "value": 1}])]))
    b = chip(
        register(
            *("S", 0x101),
            title="Left motor",
            fields=[field("F", 1, values=[{"name": "W", "value": 1}])],
        )
    )
    sure = {change.kind: change.sure for change in compare(a, b).changes}
    assert sure == {
        "register-renamed": LIKELY,
        "address": LIKELY,
        "field-bits": CERTAIN,
        "value-renamed": POSSIBLE,
    }


def test_a_change_says_where_it_stands_in_either_description() -> None:
    a = chip(register("X", 0x100), one(fields=flags("S")))
    b = chip(one(fields=flags("-", "S")[1:]))
    moved = compare(a, b).changes[-1]
    assert moved.kind == "field-bits"
    assert moved.origin_a == (((None, "registers", 1), "fields", 0))
    assert moved.origin_b == (((None, "registers", 0), "fields", 0))


def test_each_kind_has_a_category_and_a_mirror_image() -> None:
    for kind, (about, back) in KINDS.items():
        change = Change(kind, "A", "B", "1", "2", "data", CERTAIN, (None, "x"), (None, "y"))
        assert category(change) == about
        assert about in CATEGORIES
        assert mirrored(change).kind == back
        assert mirrored(mirrored(change)) == change
    assert {about for about, _ in KINDS.values()} == set(CATEGORIES)
