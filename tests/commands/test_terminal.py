"""What a user at a terminal sees: colour unless NO_COLOR is set, progress when it takes long."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from chips_for_terminal import slow_chip
from terminals import at_a_terminal

BROKEN = """<chip format="1" name="one"><space name="data" size="0x10"/>
<register name="A" address="0x10"/></chip>
"""


def test_colour(tmp_path: Path) -> None:
    (tmp_path / "one.xml").write_text(BROKEN)
    os.environ.pop("NO_COLOR", None)
    shown = at_a_terminal(tmp_path, "check", "one.xml")
    assert "\x1b[31m\x1b[1merror:\x1b[0m" in shown


@pytest.mark.parametrize("env", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_no_colour_when_not_wanted(tmp_path: Path, env: dict[str, str]) -> None:
    (tmp_path / "one.xml").write_text(BROKEN)
    shown = at_a_terminal(tmp_path, "check", "one.xml", **env)
    assert "\x1b[3" not in shown
    assert "error:" in shown


def test_progress_when_it_takes_over_a_second(tmp_path: Path) -> None:
    text = slow_chip()
    for number in range(8):
        (tmp_path / f"c{number}.json").write_text(text)
    shown = at_a_terminal(tmp_path, "check", ".")
    assert " of 8 descriptions" in shown
    assert shown.rstrip().endswith("8 descriptions, no findings")
