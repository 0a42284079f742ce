"""``regwright clock`` as a user runs it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from clock_chips import LINE, SOURCES, TIMER, chip_tree

from conftest import DESCRIPTIONS, Cli
from regwright.cli.clock import REPORT_NAMES, command
from regwright.reports.clock_forms import FORMS

CAUTION = (
    "Check the datasheet and its errata: how far an oscillator is off depends on temperature and "
    "supply.\n"
)


@pytest.fixture
def thistle(tmp_path: Path) -> Path:
    return written(tmp_path)


def written(folder: Path, **changes: Any) -> Path:
    path = folder / "thistle8.json"
    path.write_text(json.dumps(chip_tree(**changes)))
    return path


def within(path: Path, arguments: list[str]) -> Result:
    """Run the command in this very process: there are many cases, and a process costs time."""
    return CliRunner().invoke(command, [str(path), *arguments])


def test_the_chain_as_delivered(cli: Cli, thistle: Path) -> None:
    done = cli("clock", thistle)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == (
        "thistle8: the CPU runs at 1 MHz\n"
        "with low = 0x62\n"
        "\n"
        "  internal            8 MHz  clock-source = internal (low, bits 3:0); ± 10 %\n"
        "  start-divider  ÷ 8  1 MHz  clock-divider = divide-by-8 (low, bit 7)\n"
        "  prescaler      ÷ 1  1 MHz  CLOCK.DIVIDE = 0x00 after reset\n"
        "  CPU                 1 MHz  900 kHz to 1.1 MHz\n"
        "\n"
        "1 MHz takes 1.8 V or more.\n"
        "\n" + CAUTION
    )


def test_all_that_can_be_asked_at_once(cli: Cli, thistle: Path) -> None:
    options = [
        "--supply",
        "3.3V",
        "--timer",
        "1kHz",
        "--baud",
        "9600",
        "--set",
        "clock-divider=off",
    ]
    done = cli("clock", thistle, *options)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == (
        "thistle8: the CPU runs at 8 MHz\n"
        "with low = 0xE2\n"
        "\n"
        "  internal            8 MHz  clock-source = internal (low, bits 3:0); ± 10 %\n"
        "  start-divider  ÷ 1  8 MHz  clock-divider = off (low, bit 7)\n"
        "  prescaler      ÷ 1  8 MHz  CLOCK.DIVIDE = 0x00 after reset\n"
        "  CPU                 8 MHz  7.2 MHz to 8.8 MHz\n"
        "\n"
        "3.3 V allows it: up to 8 MHz there.\n"
        "At worst it is 8.8 MHz, which is more than 8 MHz.\n"
        "8 MHz takes 2.7 V or more.\n"
        "\n"
        "tick (timer), made from 8 MHz (7.2 MHz to 8.8 MHz)\n"
        "  1 kHz  TMR_CTRL.CLOCK = 0x03 (÷ 64), TMR_COMPARE = 0x7C    1 kHz               "
        "exact    (-10 % to +10 %)\n"
        "  1 kHz  TMR_CTRL.CLOCK = 0x04 (÷ 256), TMR_COMPARE = 0x1E   about 1.008065 kHz  "
        "+0.81 %  (-9.27 % to +10.89 %)\n"
        "  1 kHz  TMR_CTRL.CLOCK = 0x05 (÷ 1024), TMR_COMPARE = 0x07  976.5625 Hz         "
        "-2.34 %  (-12.11 % to +7.42 %)\n"
        "\n"
        "line (serial port), made from 8 MHz (7.2 MHz to 8.8 MHz)\n"
        "  9600 baud  BAUD_HIGH = 0x03, BAUD_LOW.VALUE = 0x03  9615.385 baud  +0.16 %  "
        "(-9.86 % to +10.18 %)  beyond 2 % at worst\n"
        "\n"
        "A serial line that is beyond 2 % may not be understood (common practice, no source).\n"
        + CAUTION
    )


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (["low=0xE2"], 0, ["runs at 8 MHz"]),
        (["--set", "clock-divider=off", "--supply", "2000mV"], 1, ["2 V does not allow 8 MHz"]),
        (["--supply", "1.7V"], 1, ["1.7 V is too low", "works from 1.8 V"]),
        (["--supply", "6 V"], 1, ["6 V is too high", "5.5 V is the most"]),
        (["low=0x60"], 0, ["watchdog", "runs at 16 kHz"]),
        (["low=0x6F"], 0, ["125 kHz to 2.5 MHz", "Give --frequency", "up to 16 MHz"]),
        (["low=0xEF", "--frequency", "20MHz"], 1, ["No supply allows 20 MHz: at most 16 MHz"]),
        (["low=0xEF", "--frequency", "24MHz"], 1, ["24 MHz is too fast for crystal: at most 20"]),
        (["low=0xEF", "--frequency", "500kHz"], 1, ["500 kHz is too slow for crystal"]),
        (["low=0xEF", "--frequency", "crystal=12 MHz"], 0, ["12 MHz", "± 50 ppm; as given"]),
        (["--frequency", "7.9MHz"], 0, ["as given, instead of 8 MHz", "987.5 kHz"]),
        (["--register", "CLOCK.DIVIDE=0x4"], 0, ["÷ 16", "62.5 kHz", "0x04 as given"]),
        (["--register", "CLOCK=0b0000_0001"], 0, ["runs at 500 kHz"]),
        (["--register", "CLOCK.DIVIDE=0xF"], 1, ["no option for CLOCK.DIVIDE = 0x0F"]),
        (["--baud", "1000000"], 1, ["no divisor makes 1000000 baud", "62500 baud"]),
        (["--baud", "38400"], 1, ["31250 baud", "-18.62 %", "beyond 2 %"]),
        (["--timer", "1kHz", "--rate", "tick"], 0, ["TMR_COMPARE = 0x7C"]),
        (
            ["--timer", "300kHz"],
            1,
            ["+11.11 %", "beyond 5 %", "A timer that is beyond 5 %"],
        ),
        (["--timer", "480kHz"], 0, ["500 kHz  +4.17 %"]),
        (["low=0x6F", "--timer", "1kHz"], 1, ["how fast the CPU runs is not known"]),
    ],
)
def test_answers(thistle: Path, arguments: list[str], code: int, words: list[str]) -> None:
    done = within(thistle, arguments)
    assert (done.exit_code, done.stderr) == (code, "")
    for word in words:
        assert word in done.stdout
    assert done.stdout.endswith(CAUTION)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["lwo=0xE2"], ["no configuration word 'lwo'", "low"]),
        (["low=E2"], ["base"]),
        (["--set", "clock-divder=off"], ["clock-divider"]),
        (["--set", "clock-divider=of"], ["did you mean off?"]),
        (["--supply", "3.3"], ["--supply", "with its unit, as 3.3V"]),
        (["--timer", "1000"], ["--timer", "with its unit"]),
        (["--baud", "9600Hz"], ["--baud", "as 9600"]),
        (["--frequency", "8"], ["--frequency", "with its unit"]),
        (["--frequency", "16MHz"], ["the clock comes from internal", "8 MHz"]),
        (["--frequency", "cristal=16MHz"], ["did you mean crystal?"]),
        (
            ["low=0x6F", "--frequency", "8MHz", "--frequency", "crystal=9MHz"],
            ["given twice"],
        ),
        (["--register", "CLOCK.DIVIDER=0x1"], ["did you mean CLOCK.DIVIDE?"]),
        (["--register", "CLOCK.DIVIDE=0x1F"], ["does not fit", "4 bits"]),
        (["--register", "CLOCK.DIVIDE=11"], ["base"]),
        (["--register", "CLOCK.DIVIDE"], ["NAME=VALUE", "CLOCK.DIVIDE=0x3"]),
        (["--register", "TMR_CTRL.CLOCK=0x1"], ["does not divide the clock", "CLOCK.DIVIDE does"]),
        (
            ["--register", "CLOCK=0x1", "--register", "CLOCK=0x2"],
            ["CLOCK=0x2 contradicts CLOCK=0x1"],
        ),
        (["--rate", "tik", "--timer", "1kHz"], ["did you mean tick?"]),
        (["--rate", "tick", "--baud", "9600"], ["--rate tick", "--timer 1kHz"]),
        (["--rate", "line"], ["--baud 9600"]),
        (["--report", "text", "--report", "json"], ["only one report"]),
    ],
)
def test_what_cannot_be_asked(thistle: Path, arguments: list[str], words: list[str]) -> None:
    done = within(thistle, arguments)
    assert (done.exit_code, done.stdout) == (2, "")
    for word in words:
        assert word in done.stderr


def test_a_frequency_needs_one_source(cli: Cli, tmp_path: Path) -> None:
    written(tmp_path, sources=SOURCES[:2])
    done = cli("clock", "thistle8.json", "low=0x60", "--frequency", "8MHz")
    assert done.returncode == 2
    assert "choose no one source" in done.stderr
    done = cli("clock", "thistle8.json", "low=0x60")
    assert done.returncode == 1
    assert "the frequency of the CPU cannot be told" in done.stdout
    assert "clock-source = external" in done.stdout


@pytest.mark.parametrize(
    ("rates", "option", "noun"),
    [([TIMER], ["--baud", "9600"], "serial port"), ([LINE], ["--timer", "1kHz"], "timer")],
)
def test_rates_that_are_not_described(
    cli: Cli, tmp_path: Path, rates: Any, option: list[str], noun: str
) -> None:
    written(tmp_path, rates=rates)
    done = cli("clock", "thistle8.json", *option)
    assert done.returncode == 2
    assert f"no rate of a {noun}" in done.stderr


def test_a_chip_without_a_clock(cli: Cli, tmp_path: Path) -> None:
    tree = chip_tree()
    del tree["clock"]
    (tmp_path / "bare.json").write_text(json.dumps(tree))
    done = cli("clock", "bare.json")
    assert done.returncode == 2
    assert "bare.json describes no clock" in done.stderr


def test_a_chip_without_configuration_words(cli: Cli, tmp_path: Path) -> None:
    written(tmp_path, configuration=None, sources=SOURCES[2:], dividers=None)
    done = cli("clock", "thistle8.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert "\nwith" not in done.stdout
    done = cli("clock", "thistle8.json", "low=0x62")
    assert done.returncode == 2
    assert "describes no configuration words" in done.stderr


def test_a_description_with_an_error(cli: Cli, tmp_path: Path) -> None:
    tree = chip_tree()
    tree["registers"] = [*tree["registers"], tree["registers"][0]]
    (tmp_path / "twice.json").write_text(json.dumps(tree))
    done = cli("clock", "twice.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert "[duplicate-name]" in done.stderr
    assert "nothing was computed" in done.stderr


@pytest.mark.parametrize("path", ["missing.json", "."])
def test_a_description_that_cannot_be_read(cli: Cli, path: str) -> None:
    done = cli("clock", path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr


def test_reports_go_to_files(cli: Cli, thistle: Path) -> None:
    options = ["--report", "json", "--report", "markdown", "--output", "a.json", "--output", "-"]
    done = cli("clock", thistle, *options)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("# thistle8: the CPU runs at 1 MHz\n")
    assert json.loads((thistle.parent / "a.json").read_text())["chip"] == "thistle8"


def test_a_report_never_replaces_the_description(cli: Cli, thistle: Path) -> None:
    before = thistle.read_bytes()
    done = cli("clock", thistle, "--report", "json", "--output", "./thistle8.json")
    assert done.returncode == 2
    assert "no place for a report" in done.stderr
    assert thistle.read_bytes() == before


def test_a_device_has_a_clock_but_no_cpu(cli: Cli) -> None:
    done = cli("clock", DESCRIPTIONS / "uart16550.xml", "--baud", "9600")
    assert (done.returncode, done.stderr) == (0, "")
    assert "the clock runs at 1.8432 MHz" in done.stdout
    assert "DIVISOR_HIGH = 0x00, DIVISOR_LOW = 0x0C  9600 baud  exact" in done.stdout
    assert "CPU" not in done.stdout


def test_the_forms_are_those_of_the_command_line() -> None:
    assert set(FORMS) == set(REPORT_NAMES)
