"""Pins are found both ways round."""

from __future__ import annotations

from pathlib import Path

import pytest

from regwright.pins.lookup import Pins
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.resolve.chip import ResolvedChip

DESCRIPTIONS = Path(__file__).parents[2] / "descriptions"


def resolved(name: str) -> ResolvedChip:
    path = DESCRIPTIONS / name
    data = path.read_bytes()
    found = check(Source(name, data, spelling_of(name, data))).resolved
    assert found is not None
    return found


@pytest.mark.parametrize("name", ["sorrel14.xml", "sorrel40.json"])
def test_from_every_pin_to_its_bit_and_back(name: str) -> None:
    chip = resolved(name)
    pins = Pins(chip)
    seen = 0
    for item in pins.every():
        assert [found.pin for found in pins.named(item.pin.number)] == [item.pin]
        if item.pin.port is None:
            assert item.bits == ()
            continue
        seen += 1
        port, bit = item.pin.port
        for text in (f"{port}.{bit}", *(f"{place.placed.name}.{bit}" for place in item.bits)):
            found = pins.port_bit(text)
            assert found is not None, text
            assert [other.pin for other in found.pins] == [item.pin]
            assert found.bits == item.bits
        assert [place.placed.name for place in item.bits] == [
            f"{way}_{port}" for way in ("DIR", "OUT", "IN")
        ]
    widths = {"sorrel14.xml": 14, "sorrel40.json": 23}
    assert seen == widths[name], "as many as the ports have bits"


def test_a_field_of_one_bit_is_a_bit() -> None:
    pins = Pins(resolved("sorrel14.xml"))
    found = pins.port_bit("OUT_B.LED")
    assert found is not None
    assert (found.port.name, found.bit, [item.pin.number for item in found.pins]) == ("B", 2, ["4"])


@pytest.mark.parametrize(
    "text",
    [
        "",
        ".",
        "B",
        "B.",
        "B.6",
        "B.99",
        "B.100",
        "OUT_B.PULLS",
        "OUT_Z.1",
        "TMR0_CTRL.1",
        "B.²",
        "21",
    ],
)
def test_what_is_no_pin_is_none(text: str) -> None:
    pins = Pins(resolved("sorrel14.xml"))
    assert pins.port_bit(text) is None
    assert pins.named(text) == []


def test_a_number_goes_before_a_name_and_a_name_before_a_function() -> None:
    pins = Pins(resolved("sorrel40.json"))
    assert [item.pin.number for item in pins.named("VCC")] == ["1", "32"]
    assert [item.pin.number for item in pins.named("VENT_OPEN")] == ["20"]
