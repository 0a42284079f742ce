"""``regwright emit --family`` as a user runs it."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path
from typing import Any

import pytest

from conftest import DESCRIPTIONS, Cli


def describe(folder: Path, name: str, **more: Any) -> None:
    """Write a small description, with ``more`` properties, into ``folder``."""
    chip = {
        "format": 1,
        "name": name,
        "spaces": [{"name": "data", "size": "0x100"}],
        "registers": [{"name": "A", "address": "0x20"}],
    }
    (folder / f"{name}.json").write_text(json.dumps(chip | more))


@pytest.fixture
def chips(tmp_path: Path) -> Path:
    """Return a folder with two chips and a device."""
    folder = tmp_path / "chips"
    folder.mkdir()
    describe(folder, "small", compilerMacro="FOR_SMALL", title="The small */ one")
    describe(folder, "large")
    describe(folder, "sensor", kind="device", compilerMacro="FOR_SMALL")
    return folder


@pytest.mark.usefixtures("chips")
def test_the_family_header_is_written_beside_the_chips(cli: Cli, tmp_path: Path) -> None:
    done = cli("emit", "chips", "--to", "o/p", "--family", "Pumps", "--template", "header")
    assert done.returncode == 0
    assert done.stdout.split() == ["o/p/large.h", "o/p/sensor.h", "o/p/small.h", "o/p/Pumps.h"]
    assert "4 written, 0 already current" in done.stderr
    text = (tmp_path / "o" / "p" / "Pumps.h").read_text()
    assert " *   large.json: large\n *   small.json: The small * / one\n" in text
    assert " *   small: REGWRIGHT_FOR_SMALL or FOR_SMALL\n" in text
    assert "Caution: a wrong register value can damage hardware" in text
    assert "sensor" not in text
    assert text.count("#include") == 2


@pytest.mark.usefixtures("chips")
def test_without_the_option_there_is_none(cli: Cli, tmp_path: Path) -> None:
    assert cli("emit", "chips", "--template", "header").returncode == 0
    made = {path.name for path in (tmp_path / "out").iterdir()}
    assert made == {"small.h", "large.h", "sensor.h"}


@pytest.mark.usefixtures("chips")
def test_check_tells_a_stale_family_header(cli: Cli, tmp_path: Path) -> None:
    arguments = ("emit", "chips", "--family", "pumps")
    cli(*arguments)
    assert cli(*arguments, "--check").returncode == 0
    header = tmp_path / "out" / "pumps.h"
    text = header.read_text()
    header.write_text(text.replace('#include "small.h"', '#include "old.h"'))
    done = cli(*arguments, "--check")
    assert done.returncode == 1
    assert '-#include "old.h"\n+#include "small.h"\n' in done.stdout
    assert "9 of 10 files are current" in done.stderr
    cli(*arguments)
    assert header.read_text() == text


def test_make_makes_the_family_header_anew(cli: Cli, chips: Path, tmp_path: Path) -> None:
    cli("emit", "chips", "--family", "pumps", "--depfile", "deps.mk")
    rules = "out/pumps.h:\n\t@echo made\ninclude deps.mk\n"
    (tmp_path / "Makefile").write_text(rules)

    def make() -> str:
        command = ["make", "-s", "out/pumps.h"]
        ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True)
        return ran.stdout.strip()

    for path in tmp_path.rglob("*"):
        os.utime(path, (1000, 1000))
    assert make() == ""
    os.utime(chips / "large.json", (2000, 2000))
    assert make() == "made"


@pytest.mark.usefixtures("chips")
def test_a_prefix_changes_the_registers_only(cli: Cli, tmp_path: Path) -> None:
    cli("emit", "chips", "--family", "pumps", "--to", "a")
    cli("emit", "chips", "--family", "pumps", "--to", "b", "--prefix", "GH_")
    a, b = ((tmp_path / folder / "pumps.h").read_text() for folder in "ab")
    assert a == b
    assert "#define GH_A_DATA_ADDR" in (tmp_path / "b" / "small.h").read_text()


def test_an_error_in_one_description_writes_nothing(cli: Cli, chips: Path, tmp_path: Path) -> None:
    describe(chips, "large", registers=[{"name": "A", "address": "0x100"}])
    done = cli("emit", "chips", "--family", "pumps")
    assert done.returncode == 1
    assert "nothing was written" in done.stderr
    assert not (tmp_path / "out").exists()


#: What is no name of a header, and what the refusal says of it.
NO_NAMES = {
    "": "a letter first",
    "1st": "a letter first",
    "_pumps": "a letter first",
    "pumps.h": "a letter first",
    "a/b": "a letter first",
    "../pumps": "a letter first",
    "pumps\n": "a letter first",
    "pümps": "a letter first",
    "two__scores": "single underscores",
    "x" * 49: "48 at most",
    "CON": "some systems keep 'CON' for a device",
    "lpt1": "some systems keep 'lpt1' for a device",
    "stdint": "stdint.h is a header of C itself",
    "String": "String.h is a header of C itself",
    "small": "small.h is the header of small.json itself",
    "LARGE": "LARGE.h is the header of large.json itself",
    "Sensor": "Sensor.h is the header of sensor.json itself",
}


@pytest.mark.usefixtures("chips")
@pytest.mark.parametrize("name", NO_NAMES)
def test_names_that_are_refused(cli: Cli, tmp_path: Path, name: str) -> None:
    done = cli("emit", "chips", "--family", name)
    assert (done.returncode, done.stdout) == (2, "")
    assert NO_NAMES[name] in " ".join(done.stderr.split())
    assert not (tmp_path / "out").exists()


def refused(cli: Cli, tmp_path: Path, *arguments: str) -> str:
    """Return why ``emit --family pumps`` refuses what is in the folder ``chips``."""
    done = cli("emit", "chips", "--family", "pumps", *arguments)
    assert (done.returncode, done.stdout) == (2, "")
    assert not (tmp_path / "out").exists()
    assert done.stderr.count("\n") == 1
    return done.stderr


def test_two_chips_of_one_compiler_macro(cli: Cli, chips: Path, tmp_path: Path) -> None:
    describe(chips, "large", compilerMacro="FOR_SMALL")
    says = refused(cli, tmp_path)
    assert "large.json and small.json are both chosen by FOR_SMALL" in says


def test_a_compiler_macro_that_chooses_another_chip(cli: Cli, chips: Path, tmp_path: Path) -> None:
    describe(chips, "large", compilerMacro="REGWRIGHT_FOR_SMALL")
    says = refused(cli, tmp_path)
    assert "large.json and small.json are both chosen by REGWRIGHT_FOR_SMALL" in says


def test_a_compiler_macro_that_is_the_chips_own_choice(cli: Cli, chips: Path) -> None:
    describe(chips, "large", compilerMacro="REGWRIGHT_FOR_LARGE")
    assert cli("emit", "chips", "--family", "pumps").returncode == 0


def test_a_guard_that_a_chip_defines(cli: Cli, chips: Path, tmp_path: Path) -> None:
    half = {"low": {"name": "PUMPS_L"}, "high": {"name": "PUMPS_H"}}
    wide = {"name": "PUMPS", "address": "0x30", "width": 16, "halves": half}
    describe(chips, "large", registers=[wide])
    assert "PUMPS_H, which keeps pumps.h from being read twice" in refused(cli, tmp_path)
    # with a prefix the half is called otherwise
    assert cli("emit", "chips", "--family", "pumps", "--prefix", "X_").returncode == 0


def test_a_guard_that_a_compiler_defines(cli: Cli, chips: Path, tmp_path: Path) -> None:
    describe(chips, "large", compilerMacro="PUMPS_H")
    assert "is a macro of large.json already" in refused(cli, tmp_path)


def test_devices_alone_are_no_family(cli: Cli, chips: Path, tmp_path: Path) -> None:
    for name in ("small", "large"):
        (chips / f"{name}.json").unlink()
    assert "none of the descriptions is a chip's" in refused(cli, tmp_path)


def test_a_template_whose_output_has_its_name(cli: Cli, chips: Path, tmp_path: Path) -> None:
    (tmp_path / "list.h.j2").write_text("x\n")
    done = cli("emit", "chips/large.json", "--family", "large_list", "--template", "list.h.j2")
    assert done.returncode == 2
    assert "two outputs would be this file" in done.stderr
    assert not (tmp_path / "out").exists()
    assert chips.is_dir()


def test_the_shipped_chips_are_a_family(cli: Cli, tmp_path: Path) -> None:
    assert cli("emit", DESCRIPTIONS, "--family", "sorrel", "--to", "out").returncode == 0
    text = (tmp_path / "out" / "sorrel.h").read_text()
    chips = [line.split('"')[1] for line in text.splitlines() if line.startswith("#include")]
    assert chips == ["sorrel14.h", "sorrel32.h", "sorrel40.h"]
