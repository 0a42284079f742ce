"""``check -`` reads standard input."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from conftest import PACKAGES, Cli

XML = '<chip format="1" name="one"><space name="data" size="0x100"/>\n{}</chip>\n'
JSON = '{{"format": 1, "name": "one", "spaces": [{{"name": "data", "size": "0x100"}}],\n{}}}\n'
WRONG_XML = XML.format('<register name="A" reset="0x1FF" address="1"/>')
WRONG_JSON = JSON.format('"registers": [{"name": "A", "reset": "0x1FF", "address": 1}]')


@pytest.mark.parametrize("start", ["", " \r\n\t"])
@pytest.mark.parametrize("spelling", [[], ["--as", "xml"]])
def test_xml(cli: Cli, start: str, spelling: list[str]) -> None:
    done = cli("check", "-", *spelling, stdin=start + WRONG_XML)
    line = 2 + start.count("\n")
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout.startswith(f"<stdin>:{line}:27: error: A has the reset value 0x1FF")
    assert done.stdout.endswith("1 description, 1 error\n")


@pytest.mark.parametrize("spelling", [[], ["--as", "json"]])
def test_json(cli: Cli, spelling: list[str]) -> None:
    done = cli("check", "-", *spelling, stdin=" \n" + WRONG_JSON)
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout.startswith("<stdin>:3:38: error: A has the reset value 0x1FF")


def test_clean(cli: Cli) -> None:
    done = cli("check", "-", stdin=XML.format(""))
    assert (done.returncode, done.stdout, done.stderr) == (0, "1 description, no findings\n", "")


def test_the_wrong_spelling(cli: Cli) -> None:
    done = cli("check", "-", "--as", "json", stdin=WRONG_XML)
    assert done.returncode == 1
    assert done.stdout.startswith("<stdin>:1:1: error: no JSON: ")
    done = cli("check", "-", "--as", "xml", stdin=WRONG_JSON)
    assert done.stdout.startswith("<stdin>:1:1: error: no XML: ")


def test_nothing(cli: Cli) -> None:
    done = cli("check", "-", stdin="")
    assert done.returncode == 1
    assert done.stdout.startswith("<stdin>:1:1: error: the file is empty")


def test_among_files_and_in_several_processes(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.json").write_text(WRONG_JSON)
    (tmp_path / "-").write_text(WRONG_XML)
    done = cli("check", "a.json", "-", "./-", "-", "--jobs", "2", stdin=WRONG_XML)
    assert done.returncode == 1
    assert [line.split(":")[0] for line in done.stdout.splitlines()] == [
        "a.json",
        "<stdin>",
        "./-",
        "3 descriptions, 3 errors",
    ]


def test_a_patch_of_it(cli: Cli) -> None:
    done = cli("check", "-", "--diff", stdin=XML.format('<register name="A" adress="1"/>'))
    assert done.returncode == 1
    assert done.stdout.startswith("--- <stdin>\n+++ <stdin>\n@@ -1,2 +1,2 @@\n")
    assert '+<register name="A" address="1"/></chip>\n' in done.stdout


def test_as_is_for_standard_input(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.json").write_text(WRONG_JSON)
    done = cli("check", "a.json", "--as", "json")
    assert done.returncode == 2
    assert "--as is for standard input (-)" in done.stderr


def test_it_is_closed(tmp_path: Path) -> None:
    command = f'"{sys.executable}" -m regwright check - <&-'
    done = subprocess.run(
        ["sh", "-c", command],
        cwd=tmp_path,
        env={"PYTHONPATH": PACKAGES},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "regwright: <stdin>: standard input is closed\n"
