"""``regwright config --ask``: a walk through the settings, with answers from a pipe or typed."""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
from pathlib import Path

import pytest
from config_runs import config, value_of
from lamp_chip import lamp_file, lamp_tree

from conftest import PACKAGES

ENTER = "\n"


@pytest.fixture
def lamp8(tmp_path: Path) -> Path:
    return lamp_file(tmp_path)


def test_enter_keeps_everything(lamp8: Path) -> None:
    done = config(lamp8, "--ask", answers=ENTER * 10)
    assert done.exit_code == 0
    assert "Nothing changes" in done.stdout
    assert "10 of 10  read-back (lock, bit 0)" in done.stderr
    assert "clock-divider [divide-by-8]: " in done.stderr
    assert "what becomes of the clock" not in done.stdout  # what is asked is not in the result


@pytest.mark.parametrize("answer", ["2", "off", " off "])
def test_a_choice_by_number_or_name(lamp8: Path, answer: str) -> None:
    done = config(lamp8, "low=0x62", "--ask", answers=f"{answer}\n" + ENTER * 9)
    assert (done.exit_code, value_of(done, "low")) == (0, "0xE2")


def test_back_and_again(lamp8: Path) -> None:
    done = config(lamp8, "--ask", answers="2\nb\n1\n" + "b\n" * 3 + ENTER * 10)
    assert (done.exit_code, value_of(done, "low")) == (0, "0x62")
    assert done.stderr.count("1 of 10") == 5


def test_explaining(lamp8: Path) -> None:
    done = config(lamp8, "--ask", answers=ENTER * 3 + "?\n" + ENTER * 7)
    assert "Choose it with care." in done.stderr
    assert "See page 31 of the document." in done.stderr
    assert "needs-crystal: clock-source = crystal. This needs hardware" in done.stderr
    assert (
        "the description says nothing more"
        in config(lamp8, "--ask", answers=ENTER + "?\n" + ENTER * 9).stderr
    )


def test_hazards_are_marked_where_they_are_chosen(lamp8: Path) -> None:
    shown = config(lamp8, "--ask", answers=ENTER * 10).stderr
    assert "   3  crystal     (needs-crystal: needs hardware that may not be there)" in shown
    together = "can keep the programmer or debugger out with debugger = unprogrammed)"
    assert f"(no-way-in: {together}" in shown


def test_what_cannot_be_taken_is_asked_again(lamp8: Path) -> None:
    wrong = "99\noof\n" + "2\n" + ENTER * 6 + "5x\n0x9\n0x2\n" + ENTER * 2
    done = config(lamp8, "--ask", answers=wrong)
    assert done.exit_code == 0
    assert "there is no choice of clock-divider '99'" in done.stderr
    assert "did you mean off?" in done.stderr
    assert "0x9 does not fit into the 3 bits" in done.stderr
    assert (value_of(done, "low"), value_of(done, "high")) == ("0xE2", "0xCD")


def test_a_hazard_is_accepted_by_its_name(lamp8: Path) -> None:
    until = ENTER * 3 + "crystal\n" + ENTER * 6
    done = config(lamp8, "--ask", answers=until + "yes\ny\n" + ENTER + "needs-crystal\n")
    assert (done.exit_code, value_of(done, "low")) == (0, "0x6F")
    assert "clock-source = crystal has the hazard needs-crystal." in done.stderr
    assert done.stderr.count("type needs-crystal to accept it") == 4
    at_once = config(lamp8, "--ask", "--accept", "needs-crystal", answers=until)
    assert at_once.exit_code == 0
    not_accepted = config(lamp8, "--ask", answers=until + "no\n")
    assert (not_accepted.exit_code, not_accepted.stdout) == (2, "")


def test_back_from_a_hazard_leads_to_its_setting(lamp8: Path) -> None:
    until = ENTER * 3 + "crystal\n" + ENTER * 6
    done = config(lamp8, "--ask", answers=until + "b\noscillator\n" + ENTER * 6)
    assert (done.exit_code, value_of(done, "low")) == (0, "0x62")
    assert done.stderr.count("4 of 10") == 2


@pytest.mark.parametrize(
    ("answers", "why"),
    [("", "the answers end here"), ("2\n", "the answers end"), ("q\n", "you quit")],
)
def test_no_result(lamp8: Path, answers: str, why: str) -> None:
    done = config(lamp8, "--ask", answers=answers)
    assert (done.exit_code, done.stdout) == (2, "")
    assert why in done.stderr
    assert "nothing was computed" in done.stderr


def test_what_is_set_is_the_start(lamp8: Path) -> None:
    done = config(lamp8, "--ask", "--set", "clock-divider=off", answers=ENTER * 10)
    assert "clock-divider [off]: " in done.stderr
    assert value_of(done, "low") == "0xE2"


def test_a_value_without_a_meaning_must_be_replaced(lamp8: Path) -> None:
    done = config(lamp8, "low=0x72", "--ask", answers=ENTER * 3 + "slow\n" + ENTER * 7)
    assert "start-up [no meaning]: " in done.stderr
    assert "choose one" in done.stderr
    assert (done.exit_code, value_of(done, "low")) == (0, "0x62")


def test_a_number_that_is_a_name_too(tmp_path: Path) -> None:
    tree = lamp_tree()
    tree["configuration"]["words"][0]["fields"][0]["choices"] = [
        {"name": "2", "value": 0},
        {"name": "1", "value": 1},
    ]
    path = lamp_file(tmp_path, tree)
    done = config(path, "--ask", answers="1\n=1\n" + ENTER * 9)
    assert "1 is the number of 2, and a name: type =1 for that, or =2" in done.stderr
    assert value_of(done, "low") == "0xE2"


def test_at_a_terminal(lamp8: Path) -> None:
    """Answers typed at a terminal; the result goes there too, in colour and as wide as it is."""
    main, other = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "regwright", "config", lamp8.name, "--ask"],
        cwd=lamp8.parent,
        env={
            **{name: value for name, value in os.environ.items() if name != "NO_COLOR"},
            "PYTHONPATH": PACKAGES,
            "TERM": "xterm",
            "COLUMNS": "80",
        },
        stdin=other,
        stdout=other,
        stderr=other,
    )
    os.close(other)
    os.write(main, b"2\n" + b"\n" * 9)
    shown = b""
    while True:
        try:
            piece = os.read(main, 4096)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    os.close(main)
    assert process.wait(timeout=60) == 0
    text = shown.decode().replace("\r\n", "\n")
    assert "\x1b[1mChanges\x1b[0m" in text
    plain = re.sub(r"\x1b\[[0-9;]*m", "", text)
    result = plain[plain.index("lamp8: configuration with these settings") :]
    assert "low   0xE2" in result
    assert max(map(len, result.splitlines())) <= 80
