"""``regwright check``, ``convert`` and ``new`` as a user runs them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from conftest import DESCRIPTIONS, Cli

BROKEN = """<chip format="1" name="one"><space name="data" size="0x100"/>
<register name="A" address="0x100" reset="0x1FF"/>
<register name="A" address="0x22"><field name="F" bits="8"/><reserved bits="7:0"/></register></chip>
"""


def test_every_finding_in_one_run_then_a_count(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "one.xml").write_text(BROKEN)
    done = cli("check", "one.xml")
    lines = done.stdout.splitlines()
    assert done.returncode == 1
    assert all(
        re.fullmatch(r"one\.xml:\d+:\d+: error: .+ \[[a-z-]+\]", line) for line in lines[:-1]
    )
    assert [re.findall(r"\[([a-z-]+)\]$", line)[0] for line in lines[:-1]] == [
        "address-outside-space",
        "reset-does-not-fit",
        "duplicate-name",
        "field-outside-register",
    ]
    assert lines[-1] == "1 description, 4 errors"


def test_folder_stands_for_its_descriptions(cli: Cli) -> None:
    done = cli("check", DESCRIPTIONS)
    assert done.returncode == 0
    assert re.fullmatch(r"5 descriptions, \d+ notes", done.stdout.splitlines()[-1])


def test_unreadable_among_others(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "one.xml").write_text(BROKEN)
    done = cli("check", "missing.xml", "one.xml")
    assert done.returncode == 2
    assert "missing.xml" in done.stderr
    assert "4 errors" in done.stdout


def test_no_colour_in_a_pipe(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "one.xml").write_text(BROKEN)
    assert "\x1b" not in cli("check", "one.xml", env={"TERM": "xterm"}).stdout


def test_prefix_matters_for_names(cli: Cli, tmp_path: Path) -> None:
    text = BROKEN.replace('address="0x100" reset="0x1FF"', 'address="0x20"').replace('"8"', '"7"')
    text = text.replace('"7:0"', '"6:0"')
    (tmp_path / "one.xml").write_text(text.replace('"A"', '"or"', 1))
    assert "keyword of C++" in cli("check", "one.xml").stdout
    assert cli("check", "one.xml", "--prefix", "GH_").returncode == 0


@pytest.mark.parametrize("spelling", ["xml", "json"])
def test_new_checks_clean_and_is_never_replaced(cli: Cli, tmp_path: Path, spelling: str) -> None:
    done = cli("new", "mine", "--as", spelling)
    assert (done.returncode, done.stdout) == (0, f"mine.{spelling}\n")
    text = (tmp_path / f"mine.{spelling}").read_text()
    assert text.count("<!--" if spelling == "xml" else '"comment"') >= 8
    assert cli("check", f"mine.{spelling}").stdout == "1 description, no findings\n"
    again = cli("new", "mine", "--as", spelling)
    assert again.returncode == 2
    assert "already there" in again.stderr


def test_new_has_the_other_half_in_both_spellings(cli: Cli, tmp_path: Path) -> None:
    """What the XML has in comments, moved by hand to where they say, is what the JSON has."""
    cli("new", "mine")
    cli("new", "mine", "--as", "json")
    lines = (tmp_path / "mine.xml").read_text().splitlines()
    start = next(i for i, line in enumerate(lines) if "The other half" in line)
    kept, moved = lines[:start], lines[start + 1 : -1]
    moved = [line for line in moved if line.strip() not in ("", "<!--", "-->")]
    spaces = [line for line in moved if line.startswith("  <space")]
    rest = [line for line in moved if line not in spaces and not line.startswith("  <!--")]
    above_window = next(i for i, line in enumerate(kept) if line.startswith("  <window"))
    above_register = next(i for i, line in enumerate(kept) if line.startswith("  <register"))
    whole = kept[:above_window] + spaces + kept[above_window:above_register] + rest
    (tmp_path / "moved.xml").write_text("\n".join(whole + kept[above_register:] + ["</chip>"]))
    assert cli("check", "moved.xml").stdout == "1 description, no findings\n"
    same = cli("compare", "moved.xml", "mine.json")
    assert same.stdout == "moved.xml against mine.json: no changes\n"
    emitted = cli("emit", "mine.json", "--to", "out").stdout
    assert "mine_DUAL8.svg" in emitted
    header = (tmp_path / "out" / "mine.h").read_text()
    for name in ("MEMORY_FLASH_BYTES 2048U", "VECTOR_PIN_CHANGE_NUMBER", "CPU_DEFAULT_HZ 8000000U"):
        assert f"#define {name}" in header
    assert "/* Caution: clock-source = external needs hardware" in header


@pytest.mark.parametrize("name", ["../evil", "a b", "9x", "", "x" * 49])
def test_new_takes_names_only(cli: Cli, tmp_path: Path, name: str) -> None:
    assert cli("new", name).returncode == 2
    assert list(tmp_path.iterdir()) == []


def test_convert_refuses_what_is_wrong(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "one.xml").write_text(BROKEN.replace("0x22", "22"))
    done = cli("convert", "one.xml", "one.json")
    assert done.returncode == 1
    assert "one.xml:3:29: error: " in done.stderr
    assert not (tmp_path / "one.json").exists()
    assert cli("convert", "one.xml", "one.yaml").returncode == 2


def test_convert_says_which_comment_has_no_place(cli: Cli, tmp_path: Path) -> None:
    text = BROKEN.replace("</chip>", "\n<!-- last words --></chip>")
    (tmp_path / "one.xml").write_text(text)
    done = cli("convert", "one.xml", "one.json")
    assert done.returncode == 0
    assert "one.xml:4:1: note:" in done.stderr
