"""``regwright emit`` as a user runs it."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from conftest import DESCRIPTIONS, ROOT, Cli

CHIP = """<chip format="1" name="one"><space name="data" size="0x100"/>
<register name="A" address="0x20"/></chip>
"""


@pytest.fixture
def one(tmp_path: Path) -> Path:
    path = tmp_path / "one.xml"
    path.write_text(CHIP)
    return path


def test_out_is_current(cli: Cli, tmp_path: Path) -> None:
    done = cli("emit", DESCRIPTIONS, "--to", tmp_path / "out")
    assert done.returncode == 0
    made = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}
    kept = {path.name: path.read_bytes() for path in (ROOT / "out").iterdir()}
    assert made == kept, "run: regwright emit descriptions --to out"


def test_output_does_not_depend_on_the_folder_or_locale(cli: Cli, one: Path) -> None:
    cli("emit", "one.xml", "--to", "a", env={"LC_ALL": "C", "PYTHONHASHSEED": "1"})
    cli("emit", one.resolve(), "--to", "b", env={"TZ": "Asia/Tokyo", "PYTHONHASHSEED": "2"})
    for path in (one.parent / "a").iterdir():
        text = path.read_bytes()
        assert text == (one.parent / "b" / path.name).read_bytes()
        assert str(one.parent).encode() not in text


def test_both_spellings_give_the_same_header(cli: Cli, one: Path) -> None:
    cli("convert", "one.xml", "one.json")
    cli("emit", "one.xml", "--to", "x")
    cli("emit", "one.json", "--to", "j")
    xml, json = ((one.parent / f / "one.h").read_text() for f in ("x", "j"))
    assert xml.replace("one.xml", "one.json") == json


def test_error_writes_nothing(cli: Cli, one: Path) -> None:
    one.write_text(CHIP.replace("0x20", "0x100"))
    shutil.copy(DESCRIPTIONS / "sorrel14.xml", one.parent)
    done = cli("emit", "one.xml", "sorrel14.xml", "--to", "out")
    assert done.returncode == 1
    assert "one.xml:2:29: error: A has the data address 0x100" in done.stderr
    assert "nothing was written" in done.stderr
    assert not (one.parent / "out").exists()


def test_check_tells_a_stale_folder(cli: Cli, one: Path) -> None:
    assert cli("emit", "one.xml").returncode == 0
    assert cli("emit", "one.xml", "--check").returncode == 0
    header = one.parent / "out" / "one.h"
    text = header.read_text()
    header.write_text(text.replace("A_DATA_ADDR 0x20U", "A_DATA_ADDR 0x21U"))
    done = cli("emit", "one.xml", "--check")
    assert done.returncode == 1
    assert "-#define A_DATA_ADDR 0x21U\n+#define A_DATA_ADDR 0x20U\n" in done.stdout
    assert "0x21U" in header.read_text()
    (one.parent / "out" / "one_check.c").unlink()
    assert "+++ out/one_check.c" in cli("emit", "one.xml", "--check").stdout


def test_same_content_keeps_its_time(cli: Cli, one: Path) -> None:
    cli("emit", "one.xml")
    header = one.parent / "out" / "one.h"
    os.utime(header, (1, 1))
    done = cli("emit", "one.xml")
    assert done.stdout == ""
    assert "0 written, 3 already current" in done.stderr
    assert header.stat().st_mtime == 1


def test_template_by_name_and_by_file(cli: Cli, one: Path) -> None:
    (one.parent / "list.csv.j2").write_text(
        "{% for r in chip.registers %}{{ r.name }},{{ r.addresses[0].text }}\n{% endfor %}"
    )
    done = cli("emit", "one.xml", "--template", "header", "--template", "list.csv.j2")
    assert done.stdout == "out/one.h\nout/one_list.csv\n"
    assert (one.parent / "out" / "one_list.csv").read_text() == "A,0x20\n"


def test_a_chip_gets_what_its_description_has_the_data_for(cli: Cli, one: Path) -> None:
    shutil.copy(DESCRIPTIONS / "sorrel14.xml", one.parent)
    done = cli("emit", "one.xml", "sorrel14.xml")
    assert done.stdout.split() == [
        *(f"out/one{end}" for end in (".h", "_check.c", ".report.md")),
        *(f"out/sorrel14{end}" for end in (".h", "_check.c", ".report.md", ".mk", ".cmake")),
        *(f"out/sorrel14{end}" for end in ("_memory.ld", "_size.sh", "_DUAL20.svg")),
    ]
    assert cli("emit", "one.xml", "sorrel14.xml", "--check").returncode == 0
    (one.parent / "out" / "sorrel14_DUAL20.svg").unlink()
    done = cli("emit", "one.xml", "sorrel14.xml", "--check")
    assert "+++ out/sorrel14_DUAL20.svg" in done.stdout
    assert "10 of 11 files are current" in done.stderr


@pytest.mark.parametrize(
    ("template", "needs"),
    [
        ("make", "a chip with memories or names for tools"),
        ("cmake", "a chip with memories or names for tools"),
        ("linker", "a chip with memories"),
        ("size", "a chip with a memory for programs or data"),
        ("drawing", "packages with pins"),
    ],
)
@pytest.mark.usefixtures("one")
def test_a_template_that_makes_nothing_is_refused(cli: Cli, template: str, needs: str) -> None:
    done = cli("emit", "one.xml", "--template", template)
    assert (done.returncode, done.stdout) == (2, "")
    assert f"{template} makes nothing here: it needs {needs}" in done.stderr
    # it is for one of several chips
    done = cli("emit", "one.xml", DESCRIPTIONS / "sorrel40.json", "--template", template)
    assert (done.returncode, len(done.stdout.split())) == (0, 1)


def test_a_users_template_is_told_of_memories_and_names(cli: Cli, one: Path) -> None:
    (one.parent / "list.txt.j2").write_text(
        "{% for memory in fragment.memories %}{{ memory.name }} {{ memory.size }}\n{% endfor %}"
        "{% for word, name in fragment.build %}{{ word }} {{ name }}\n{% endfor %}"
    )
    cli("emit", "one.xml", DESCRIPTIONS / "sorrel14.xml", "--template", "list.txt.j2")
    assert (one.parent / "out" / "one_list.txt").read_text() == ""
    told = (one.parent / "out" / "sorrel14_list.txt").read_text()
    assert told.startswith("FLASH 2048\nSRAM 256\nEEPROM 64\nCONFIG 3\nTARGET sorrel14\n")


def test_prefix(cli: Cli, one: Path) -> None:
    cli("emit", "one.xml", "--prefix", "GH_", "--template", "header")
    assert "#define GH_A_DATA_ADDR 0x20U\n" in (one.parent / "out" / "one.h").read_text()
    done = cli("emit", "one.xml", "--prefix", "9 x")
    assert done.returncode == 2
    assert "letters, digits and underscores only" in done.stderr


def test_depfile_is_read_by_make(cli: Cli, one: Path) -> None:
    folder = one.parent / "a $b #c"
    folder.mkdir()
    source = folder / "one.xml"
    one.rename(source)
    (one.parent / "list.txt.j2").write_text("x\n")
    done = cli(
        "emit", source.relative_to(one.parent), "--to", "o ut", "--depfile", "deps.mk",
        "--template", "header", "--template", "list.txt.j2",
    )  # fmt: skip
    assert done.returncode == 0
    rules = "o\\ ut/one.h:\n\t@echo made\ninclude deps.mk\n"
    (one.parent / "Makefile").write_text(rules)

    def make() -> str:
        command = ["make", "-s", "o ut/one.h"]
        ran = subprocess.run(command, cwd=one.parent, capture_output=True, text=True, check=True)
        return ran.stdout.strip()

    for path in one.parent.rglob("*"):
        os.utime(path, (1000, 1000))
    assert make() == ""
    os.utime(source, (2000, 2000))
    assert make() == "made"
    source.unlink()
    assert "No rule" not in make()


@pytest.mark.usefixtures("one")
def test_two_descriptions_of_one_chip(cli: Cli) -> None:
    cli("convert", "one.xml", "two.json")
    done = cli("emit", "one.xml", "two.json")
    assert done.returncode == 2
    assert "both describe 'one'" in done.stderr
