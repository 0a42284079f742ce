"""What ``regwright clock`` says of the bytes and registers that it is asked with."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from clock_chips import CONFIGURATION, REGISTERS, SOURCES, Tree, chip_tree
from jsonschema import Draft202012Validator

from conftest import ROOT
from regwright.cli.clock import command

SCHEMA = json.loads((ROOT / "schemas" / "clock.schema.json").read_bytes())


def chip_with_hazards() -> Tree:
    """Return the description of a chip whose crystal is a hazard, and which has reserved bits."""
    configuration = copy.deepcopy(CONFIGURATION)
    word = configuration["words"][0]
    word["fields"][1]["choices"][2]["hazards"] = "needs-crystal"
    word["unused"] = [{"bits": "6:5", "value": 1}, {"bits": 4}]
    configuration["hazards"] = [
        {"name": "needs-crystal", "kind": "needs-hardware", "caution": "it stands still without"},
        {
            **{"name": "fast", "kind": "other", "caution": "it is hard to slow down"},
            "when": "clock-divider = off and clock-source = crystal",
        },
    ]
    external = {
        **{"name": "pin", "kind": "external", "lowest": "0 Hz", "highest": "20 MHz"},
        "when": "clock-source = external",
    }
    tree = chip_tree(configuration=configuration, sources=[*SOURCES, external])
    tree["registers"] = copy.deepcopy(REGISTERS)
    tree["registers"][0]["reset"] = "0x20"
    tree["registers"][0]["reserved"] = [
        {"bits": "7:6", "write": "0"},
        {"bits": "5", "write": "1"},
        {"bits": "4", "write": "preserve"},
    ]
    return tree


@pytest.fixture
def thistle(tmp_path: Path) -> Path:
    path = tmp_path / "thistle8.json"
    path.write_text(json.dumps(chip_with_hazards()))
    return path


def clock(path: Path, *arguments: str) -> Result:
    done = CliRunner().invoke(command, [str(path), *arguments])
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done


def data_of(path: Path, *arguments: str) -> Any:
    data = json.loads(clock(path, *arguments, "--report", "json").stdout)
    Draft202012Validator(SCHEMA).validate(data)
    return data


CRYSTAL = ("--set", "clock-source=crystal", "--frequency", "crystal=8MHz")


def test_bytes_with_a_hazard_are_not_given_silently(thistle: Path) -> None:
    done = clock(thistle, *CRYSTAL)
    assert done.exit_code == 0  # it is about the frequency
    assert (
        "These bytes have the hazard needs-crystal: clock-source = crystal. This needs hardware "
        "that may not be there. It stands still without.\nCompute bytes to write with regwright "
        "config: it refuses a hazard until you accept it.\n"
    ) in done.stdout
    assert "hazard fast" not in done.stdout
    both = clock(thistle, *CRYSTAL, "--set", "clock-divider=off", "--report", "markdown").stdout
    assert "hazard fast: clock-divider = off and clock-source = crystal" in both
    assert "hazard" not in clock(thistle).stdout


def test_hazards_are_in_the_json(thistle: Path) -> None:
    data = data_of(thistle, "low=0xFF", "--frequency", "8MHz")
    assert [item["name"] for item in data["hazards"]] == ["needs-crystal", "fast"]
    assert data["hazards"][0]["causes"] == [[{"setting": "clock-source", "choice": "crystal"}]]
    assert (data["fine"], data_of(thistle)["hazards"]) == (True, [])


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ("low=0x22", "low: bit 6 of 0x22 must be 1; unused bits are to be as they are in 0x62."),
        ("low=0x65", "low: clock-source has the value 0b0101 in 0x65, which has no meaning"),
    ],
)
def test_bytes_that_cannot_be_right(thistle: Path, given: str, words: str) -> None:
    done = clock(thistle, given)
    assert done.exit_code == 1
    assert done.stdout.startswith("thistle8: these bytes cannot be right\n")
    assert words in done.stdout
    data = data_of(thistle, given)
    assert (data["fine"], data["problems"][0] in done.stdout) == (False, True)


def test_it_is_told_of_the_bytes_that_were_given(thistle: Path) -> None:
    done = clock(thistle, "low=0x22", "--set", "clock-divider=off")
    assert (done.exit_code, "bit 6 of 0x22 must be 1" in done.stdout) == (1, True)
    mended = clock(thistle, "low=0x65", "--set", "clock-source=internal")
    assert mended.exit_code == 0


@pytest.mark.parametrize(
    ("one", "other", "contradict"),
    [
        ("CLOCK=0x22", "CLOCK.DIVIDE=0x1", True),
        ("CLOCK.DIVIDE=0x1", "CLOCK=0x22", True),
        ("CLOCK=0x21", "CLOCK.DIVIDE=0x1", False),
        ("CLOCK=0x21", "CLOCK=0x21", False),
    ],
)
def test_a_register_and_its_field_must_agree(
    thistle: Path, one: str, other: str, contradict: bool
) -> None:
    done = clock(thistle, "--register", one, "--register", other)
    assert done.exit_code == (2 if contradict else 0)
    assert (f"{other} contradicts {one}; give one of them" in done.stderr) == contradict


@pytest.mark.parametrize(
    ("value", "remarks"),
    [
        ("0x21", []),
        ("0x31", []),
        ("0xE1", ["CLOCK = 0xE1 sets bits 7:6, which are reserved: write 0 there"]),
        ("0x01", ["CLOCK = 0x01 clears bit 5, which is reserved: write 1 there"]),
    ],
)
def test_reserved_bits_of_a_register(thistle: Path, value: str, remarks: list[str]) -> None:
    done = clock(thistle, "--register", f"CLOCK={value}")
    assert done.exit_code == 0
    assert data_of(thistle, "--register", f"CLOCK={value}")["remarks"] == remarks
    assert ("reserved" in done.stdout) == bool(remarks)
    assert all(f"{remark}.\n" in done.stdout for remark in remarks)


def test_a_clock_may_stand_still(thistle: Path) -> None:
    done = clock(thistle, "--set", "clock-source=external", "--frequency", "0Hz")
    assert done.exit_code == 0
    assert "thistle8: the CPU stands still, at 0 Hz\n" in done.stdout
    data = data_of(thistle, "--set", "clock-source=external", "--frequency", "0 Hz")
    assert data["cpu"]["nominal"] == {"value": 0.0, "exact": "0"}
    rates = ("--timer", "1kHz", "--baud", "9600")
    done = clock(thistle, "--set", "clock-source=external", "--frequency", "0Hz", *rates)
    assert (done.exit_code, done.stdout.count("its clock stands still.")) == (1, 2)


def test_a_crystal_may_not_stand_still(thistle: Path) -> None:
    done = clock(thistle, "--set", "clock-source=crystal", "--frequency", "0Hz")
    assert done.exit_code == 1
    assert "0 Hz is too slow for crystal: at least 1 MHz." in done.stdout
    assert clock(thistle, "--timer", "0Hz").exit_code == 2
