"""``regwright compare`` at a terminal: as wide as it is, coloured unless NO_COLOR is set."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from terminals import at_a_terminal

from conftest import DESCRIPTIONS

BOTH = str(DESCRIPTIONS / "sorrel14.xml"), str(DESCRIPTIONS / "sorrel40.json")


def plain(shown: str) -> list[str]:
    return re.sub(r"\x1b\[[0-9;]*m", "", shown).replace("\r\n", "\n").splitlines()


@pytest.mark.parametrize("columns", [80, 120])
def test_lines_fit(tmp_path: Path, columns: int) -> None:
    lines = plain(at_a_terminal(tmp_path, "compare", *BOTH, COLUMNS=str(columns)))
    assert max(map(len, lines)) <= columns
    assert "WATCHDOG  Watchdog control" in lines
    assert "  io address                  0x04 → none, only data 0x9F" in lines
    assert "Only in sorrel40" in lines


def test_gone_new_and_changed_have_their_colours(tmp_path: Path) -> None:
    """Red 31, green 32, yellow 33: ISO 6429, as ECMA-48 has it."""
    os.environ.pop("NO_COLOR", None)
    shown = at_a_terminal(tmp_path, "compare", *BOTH)
    assert "\x1b[31mio address\x1b[0m" in shown  # WATCHDOG has left the window
    assert "WRAP \x1b[32mfield\x1b[0m" in shown
    assert "LED \x1b[33mbits\x1b[0m" in shown
    assert "\x1b[1mWATCHDOG\x1b[0m" in shown


@pytest.mark.parametrize("env", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_no_colour_when_not_wanted(tmp_path: Path, env: dict[str, str]) -> None:
    shown = at_a_terminal(tmp_path, "compare", *BOTH, **env)
    assert "\x1b[" not in shown
    assert "WATCHDOG  Watchdog control" in plain(shown)
