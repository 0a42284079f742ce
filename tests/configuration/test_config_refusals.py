"""What ``regwright config`` says when it computes nothing: of what was given, and to programs."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from config_runs import config
from jsonschema import Draft202012Validator
from lamp_chip import lamp, lamp_file

from conftest import ROOT
from regwright.configuration.decode import problems_left

SCHEMA = json.loads((ROOT / "schemas" / "configuration.schema.json").read_bytes())


@pytest.fixture
def lamp8(tmp_path: Path) -> Path:
    return lamp_file(tmp_path)


def test_the_complaint_is_about_what_was_given(lamp8: Path) -> None:
    done = config(lamp8, "high=0xD7", "--set", "debugger=programmed")
    assert done.exit_code == 1
    assert "high: bit 3 of 0xD7 must be 1; unused bits are to be as they are in 0xDF" in done.stderr
    assert "0x97" not in done.stderr  # with the setting: nobody typed it


def test_what_a_setting_mends_is_no_problem() -> None:
    before, after = {"low": 0x72, "high": 0xD7, "lock": 0xFF}, {"low": 0x62, "high": 0xD7}
    [problem] = problems_left(lamp(), before, after)
    assert (problem.word, "0xD7" in problem.message) == ("high", True)
    [new] = problems_left(lamp(), {}, {"low": 0x72})
    assert (new.setting, "0x72" in new.message) == ("start-up", True)


def test_nothing_is_asked_when_no_answer_can_help(lamp8: Path) -> None:
    done = config(lamp8, "high=0xD7", "--ask", answers="\n" * 20)
    assert (done.exit_code, done.stdout) == (1, "")
    assert "bit 3 of 0xD7 must be 1" in done.stderr
    assert "1 of 10" not in done.stderr
    # a value without a meaning can be answered
    asked = config(lamp8, "low=0x72", "--ask", answers="\n\n3\n" + "\n" * 8)
    assert (asked.exit_code, "1 of 10" in asked.stderr) == (0, True)


@pytest.mark.parametrize(
    ("arguments", "hazards", "words"),
    [
        (("--set", "reset-pin=port"), ["no-reset"], []),
        (("--set", "reset-pin=port", "--set", "clock-source=crystal"), None, []),
        (("high=0xD7", "--set", "clock-divider=off"), [], ["high"]),
        (("high=0xD7", "--ask"), [], ["high"]),
    ],
)
def test_a_refusal_is_json_too(
    lamp8: Path, arguments: tuple[str, ...], hazards: list[str] | None, words: list[str]
) -> None:
    done = config(lamp8, *arguments, "--report", "json")
    data = json.loads(done.stdout)
    Draft202012Validator(SCHEMA).validate(data)
    assert (done.exit_code, data["computed"], "words" in data) == (1, False, False)
    refused = [item["name"] for item in data["refused"]]
    assert refused == (["needs-crystal", "no-reset"] if hazards is None else hazards)
    assert [item["word"] for item in data["problems"]] == words
    for item in data["refused"]:
        assert item["message"] in done.stderr


def test_the_schema_wants_a_reason(lamp8: Path) -> None:
    data = json.loads(config(lamp8, "--set", "reset-pin=port", "--report", "json").stdout)
    validator = Draft202012Validator(SCHEMA)
    assert not validator.is_valid({**data, "refused": []})
    assert not validator.is_valid({**data, "words": []})


def test_words_nobody_gave_are_said_to_be_assumed(lamp8: Path) -> None:
    done = config(lamp8, "low=0x62", "--set", "supply-watch=0x3")
    rows = {line.split()[0]: line for line in done.stdout.splitlines() if line[:1].isalpha()}
    assert rows["low"].endswith("  unchanged")
    assert rows["high"].endswith("  was 0xDF, assumed as delivered")
    assert rows["lock"].endswith("  unchanged, assumed as delivered")
    shown = config(lamp8, "--report", "markdown")
    assert "assumed as delivered" not in shown.stdout  # nothing was computed from them


def test_a_refusal_is_wrapped_on_a_terminal(lamp8: Path) -> None:
    main, other = pty.openpty()
    environment = {**os.environ, "COLUMNS": "60", "NO_COLOR": "1"}
    command = [sys.executable, "-m", "regwright", "config", str(lamp8), "--set", "reset-pin=port"]
    with subprocess.Popen(command, stderr=other, stdout=other, env=environment) as running:
        os.close(other)
        read = b""
        try:
            while chunk := os.read(main, 4096):
                read += chunk
        except OSError:  # the other end is closed
            pass
        assert running.wait() == 1
    os.close(main)
    lines = read.decode().splitlines()
    assert max(map(len, lines)) <= 60
    assert "Only a high voltage brings it back." in " ".join(map(str.strip, lines))
