"""The chain from the source to the CPU, on chips invented for it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from clock_chips import (
    CONFIGURATION,
    DIVIDER,
    KHZ,
    MHZ,
    PRESCALER,
    SOURCES,
    Tree,
    asked,
    chip,
    chip_tree,
    resolved,
)

from regwright.clock.chain import UNKNOWN, Chain, Frequency, default_chain


def steps(found: Chain) -> list[tuple[str, Fraction, str]]:
    return [(step.divider.name, step.factor, step.by) for step in found.steps]


# Clearing the bit that divides by 8 in the low byte 0x62 gives 0xE2, and 8 MHz for 1 MHz: common
# practice, no source.


def test_as_delivered_it_runs_at_an_eighth_of_the_oscillator() -> None:
    found = default_chain(chip())
    assert found.source is not None
    assert found.source.name == "internal"
    assert found.cpu.nominal == MHZ
    assert steps(found) == [
        ("start-divider", Fraction(1, 8), "setting"),
        ("prescaler", Fraction(1), "reset"),
    ]


def test_clearing_the_divider_alone_gives_0xe2_and_8_mhz() -> None:
    found = asked(chip(), {"low": 0x62}, {"clock-divider": "off"})
    assert found.question.words == {"low": 0xE2}
    assert found.chain.cpu.nominal == 8 * MHZ
    assert asked(chip(), {"low": 0xE2}).chain == found.chain


# What decides a divider.


def test_a_register_divides_by_what_the_program_wrote() -> None:
    found = asked(chip(), {"low": 0xE2}, registers={"CLOCK.DIVIDE": 3}).chain
    assert found.cpu.nominal == MHZ
    assert found.steps[1].by == "register"
    assert found.steps[1].value == 3
    whole = asked(chip(), {"low": 0xE2}, registers={"CLOCK": 0x83}).chain
    assert whole.cpu == found.cpu


def test_a_field_given_by_itself_outdoes_its_register() -> None:
    registers = {"CLOCK": 0x04, "CLOCK.DIVIDE": 1}
    assert asked(chip(), {"low": 0xE2}, registers=registers).chain.cpu.nominal == 4 * MHZ


def test_a_setting_may_decide_what_a_register_is_after_reset() -> None:
    both: Tree = {
        **{"name": "prescaler", "setting": "clock-divider", "field": "CLOCK.DIVIDE"},
        "options": [
            {"choice": "divide-by-8", "value": 3, "divide": 8},
            {"choice": "off", "value": 0},
            {"value": 1, "divide": 2},
        ],
    }
    found = chip(dividers=[both])
    assert asked(found, {"low": 0x62}).chain.cpu.nominal == MHZ
    assert asked(found, {"low": 0xE2}).chain.cpu.nominal == 8 * MHZ
    now = asked(found, {"low": 0x62}, registers={"CLOCK.DIVIDE": 1}).chain
    assert now.cpu.nominal == 4 * MHZ


def test_a_setting_that_is_a_number_divides_by_its_value() -> None:
    field = {"name": "STEP", "setting": "step", "bits": "6:4"}
    words = [
        {**word, "fields": [*word["fields"], field], "unused": []}
        for word in CONFIGURATION["words"]
    ]
    divider: Tree = {
        **{"name": "step", "setting": "step"},
        "options": [{"value": value, "divide": value + 1} for value in range(8)],
    }
    found = chip(configuration={**CONFIGURATION, "words": words}, dividers=[divider])
    assert asked(found, {"low": 0x72}).chain.cpu.nominal == MHZ


def test_a_divider_that_nothing_decides_always_divides() -> None:
    found = default_chain(chip(dividers=[{"name": "core", "options": [{"divide": 12}]}]))
    assert found.cpu.nominal == Fraction(8 * MHZ, 12)
    assert steps(found) == [("core", Fraction(1, 12), "always")]


def test_a_multiplier_multiplies() -> None:
    divider = {**PRESCALER, "options": [{"value": 0, "multiply": 6, "divide": 4}]}
    found = default_chain(chip(dividers=[divider]))
    assert found.cpu.nominal == 12 * MHZ


def test_a_divider_is_passed_by_when_the_settings_say_so() -> None:
    divider = {**PRESCALER, "options": [{"value": 0, "divide": 2}]}
    divider["when"] = "clock-divider = off"
    found = chip(dividers=[divider])
    assert asked(found, {"low": 0x62}).chain.steps == ()
    assert asked(found, {"low": 0xE2}).chain.cpu.nominal == 4 * MHZ


# Sources.


def test_a_source_that_is_chosen_outdoes_one_that_is_always_there() -> None:
    found = asked(chip(), {"low": 0x6F}).chain
    assert found.source is not None
    assert found.source.name == "crystal"


def test_without_a_frequency_the_answer_is_a_range() -> None:
    found = asked(chip(), {"low": 0x6F}).chain
    assert found.start == Frequency(Fraction(MHZ), None, Fraction(20 * MHZ))
    assert found.cpu == Frequency(Fraction(125 * KHZ), None, Fraction(2_500 * KHZ))
    assert not found.problems


def test_a_crystal_of_the_users_own() -> None:
    frequencies = {"crystal": Fraction(16 * MHZ)}
    found = asked(chip(), {"low": 0xEF}, frequencies=frequencies).chain
    off = Fraction(50 * 16)  # 50 ppm of 16 MHz
    assert found.cpu == Frequency(16 * MHZ - off, Fraction(16 * MHZ), 16 * MHZ + off)


def test_tolerance_goes_all_the_way() -> None:
    assert default_chain(chip()).cpu == Frequency(
        Fraction(900 * KHZ), Fraction(MHZ), Fraction(1100 * KHZ)
    )


def test_bounds_of_an_internal_oscillator_stand_in_for_its_tolerance() -> None:
    source = {"name": "internal", "kind": "internal", "frequency": "8 MHz", "lowest": "7.3 MHz"}
    found = default_chain(chip(sources=[{**source, "highest": "8.1 MHz"}], dividers=[])).cpu
    assert found == Frequency(Fraction(7300 * KHZ), Fraction(8 * MHZ), Fraction(8100 * KHZ))


def test_a_tolerance_beyond_all_leaves_no_negative_frequency() -> None:
    source = {"name": "internal", "kind": "internal", "frequency": "8 MHz", "tolerance": "150 %"}
    assert default_chain(chip(sources=[source], dividers=[])).cpu.lowest == 0


# What cannot be told.

EXTRA: Tree = {**SOURCES[0], "name": "second"}
UNDECIDED: Tree = {"name": "core", "options": [{"divide": 1}, {"divide": 2}]}


@pytest.mark.parametrize(
    ("low", "changes", "words"),
    [
        (0x60, {"sources": SOURCES[:2]}, ["no source fits", "clock-source = external"]),
        (0x61, {"sources": SOURCES[:2]}, ["no source fits", "a value without a name"]),
        (0x62, {"sources": [*SOURCES, EXTRA]}, ["2 sources fit", "internal and second"]),
        (
            0x62,
            {"dividers": [{**PRESCALER, "field": "CLOCK.DIVISOR"}]},
            ["CLOCK.DIVISOR", "no field"],
        ),
        (
            0x62,
            {"dividers": [{**PRESCALER, "field": "TMR_COMPARE"}]},
            ["TMR_COMPARE", "after reset"],
        ),
        (0x62, {"dividers": [{**PRESCALER, "options": [{"value": 9}]}]}, ["no option", "0x00"]),
        (0x62, {"dividers": [{**DIVIDER, "setting": "speed"}]}, ["speed", "no named choice"]),
        (0x62, {"dividers": [{**DIVIDER, "options": [{"choice": "off"}]}]}, ["divide-by-8"]),
        (0x62, {"dividers": [UNDECIDED]}, ["core", "nothing decides"]),
    ],
)
def test_what_cannot_be_told_is_said(low: int, changes: dict[str, Any], words: list[str]) -> None:
    found = asked(chip(**changes), {"low": low})
    assert found.chain.cpu == UNKNOWN
    assert not found.is_fine
    said = " ".join(found.chain.problems)
    assert len(found.chain.problems) == 1
    for word in words:
        assert word in said


def test_every_divider_that_cannot_be_told_is_named() -> None:
    found = default_chain(chip(dividers=[UNDECIDED, {**UNDECIDED, "name": "other"}]))
    assert len(found.problems) == 2


def test_without_a_source_that_always_fits_one_that_does_is_taken() -> None:
    found = asked(chip(), {"low": 0x60}).chain
    assert found.source is not None
    assert found.source.name == "watchdog"


def test_a_chip_without_a_clock_has_no_chain() -> None:
    tree: Tree = {
        **{"format": 1, "name": "bare", "spaces": [{"name": "data", "size": "0x10"}]},
        "registers": [{"name": "OUT", "address": "data:0x01"}],
    }
    found = default_chain(resolved(tree))
    assert found.source is None
    assert found.cpu == UNKNOWN
    assert "no clock" in found.problems[0]


def test_a_chip_without_configuration_has_no_settings() -> None:
    found = default_chain(chip(configuration=None, sources=SOURCES[2:], dividers=[PRESCALER]))
    assert found.cpu.nominal == 128 * KHZ


def test_registers_are_found_by_the_names_they_have_in_blocks() -> None:
    instances = [{"name": "MAIN", "base": "data:0x80"}, {"name": "AUX", "base": "data:0x90"}]
    register = {
        **{"name": "RATE", "offset": 0, "reset": "0x02"},
        "fields": [{"name": "DIVIDE", "bits": "3:0"}],
    }
    block = {"name": "CLK", "size": 4, "instances": instances, "registers": [register]}
    for name in ("MAIN_RATE.DIVIDE", "RATE.DIVIDE"):
        tree = chip_tree(dividers=[{**PRESCALER, "field": name}])
        found = default_chain(resolved({**tree, "prefix": "X_", "blocks": [block]}))
        assert found.cpu.nominal == 2 * MHZ
