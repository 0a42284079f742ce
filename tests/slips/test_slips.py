"""500 single slips in right descriptions: how many are found, and where. Prints the table."""

from __future__ import annotations

from collections import Counter

import pytest

from regwright.model.finding import NOTE
from slips import DESCRIPTIONS, KINDS, SLIPS, clean, draw, outcomes, table


def test_the_descriptions_are_right_before_they_are_damaged() -> None:
    for name in DESCRIPTIONS:
        assert [str(item) for item in clean(name).findings if item.finding.level != NOTE] == []


def test_five_hundred_slips_of_every_kind_in_every_description() -> None:
    kinds = Counter(item.slip.kind for item in outcomes())
    assert sum(kinds.values()) == SLIPS
    assert set(kinds) == set(KINDS)
    assert min(kinds.values()) >= 10
    assert {item.slip.description for item in outcomes()} == set(DESCRIPTIONS)
    assert len({item.slip.text for item in outcomes()}) == SLIPS


def test_they_are_the_same_each_time() -> None:
    assert draw(100) == draw(100)


def test_at_least_85_of_100_are_found_on_the_damaged_line() -> None:
    # of a register that was left out nothing is left: the lines of its neighbours count
    print(f"\n{table()}")
    assert sum(item.on_line for item in outcomes()) >= 0.85 * SLIPS


def test_every_slip_that_contradicts_something_is_found() -> None:
    missed = [
        (item.slip.description, item.slip.kind, item.slip.what, item.contradicts)
        for item in outcomes()
        if item.contradicts and not item.rules
    ]
    assert missed == []


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_said_why_a_slip_of_this_kind_cannot_be_found(kind: str) -> None:
    missed = [item for item in outcomes() if item.slip.kind == kind and not item.rules]
    assert bool(KINDS[kind][1]) or not missed
