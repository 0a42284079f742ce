"""Names of chips and files, and inputs that are no descriptions."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hostile_chips import XML_START, chip, files_below, run_here, write_chip

from conftest import Cli
from regwright.format.devices import DEVICES

IDENTIFIER = "it must be a letter, then letters, digits and underscores, 48 characters at most"
BAD_NAMES = ["../evil", "/tmp/evil", "a/b", "a\\b", "..", ".hidden", "a\0b", "a\nb", "", "x" * 49]


@pytest.mark.parametrize("name", BAD_NAMES)
def test_chip_name_is_no_path(tmp_path: Path, name: str) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    write_chip(inner, **chip(name=name))
    for command in (["check", "c.json"], ["emit", "c.json", "--to", "out"]):
        result = run_here(inner, *command)
        assert result.exit_code == 1
        assert result.output.startswith(f"c.json:1:23: error: name is {name!r}; {IDENTIFIER} [sch")
    assert files_below(tmp_path) == {"inner", "inner/c.json"}


@pytest.mark.parametrize("name", ["con", "NUL", "Com1", "lpt9", "aux", "PRN"])
def test_chip_called_like_a_device(tmp_path: Path, name: str) -> None:
    text = XML_START.replace('name="c"', f'name="{name}"', 1) + "</chip>"
    (tmp_path / "c.xml").write_text(text)
    write_chip(tmp_path, **chip(name=name))
    says = f"{name!r} is the name of a device on some operating systems, and no file there can"
    says += f" have it; write '{name}_chip', say [name-is-device]\n"
    checked = run_here(tmp_path, "check", "c.xml", "c.json")
    assert checked.exit_code == 1
    assert checked.output == (
        f"c.xml:1:24: error: {says}c.json:1:23: error: {says}2 descriptions, 2 errors\n"
    )
    emitted = run_here(tmp_path, "emit", "c.xml", "--to", "out")
    assert emitted.exit_code == 1
    assert (
        emitted.output == f"c.xml:1:24: error: {says}1 description, 1 error; nothing was written\n"
    )
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("name", ["con_", "com10", "com", "aux_board", "nulled"])
def test_chip_called_almost_like_a_device(tmp_path: Path, name: str) -> None:
    assert name not in DEVICES
    write_chip(tmp_path, **chip(name=name))
    assert run_here(tmp_path, "check", "c.json").exit_code == 0
    assert run_here(tmp_path, "emit", "c.json", "--to", "out").exit_code == 0


def test_new_is_not_called_like_a_device(tmp_path: Path) -> None:
    result = run_here(tmp_path, "new", "Con")
    assert result.exit_code == 2
    assert result.output == (
        "regwright: 'Con.xml' is no name for a file (some systems keep it for a device); "
        "choose another\n"
    )
    assert files_below(tmp_path) == set()


def test_new_does_not_replace_a_link_to_nowhere(tmp_path: Path) -> None:
    (tmp_path / "mine.xml").symlink_to("nowhere")
    result = run_here(tmp_path, "new", "mine")
    assert result.exit_code == 2
    assert "mine.xml: is already there; remove it or choose another name" in result.output
    assert (tmp_path / "mine.xml").is_symlink()


def fifo(folder: Path) -> None:
    os.mkfifo(folder / "c.json")


def no_text(folder: Path) -> None:
    (folder / "c.json").symlink_to("/dev/zero")


def circle(folder: Path) -> None:
    (folder / "c.json").symlink_to("c.json")


def unreadable(folder: Path) -> None:
    # reading it fails for everybody, root too
    (folder / "c.json").symlink_to("/proc/self/mem")


UNREADABLE = {
    "missing": (lambda _: None, "'c.json': cannot be read: No such file or directory"),
    "fifo": (fifo, "c.json: is no plain file; give a description or a folder of them"),
    "device": (no_text, "c.json: is no plain file; give a description or a folder of them"),
    "circle": (circle, "'c.json': cannot be read: Too many levels of symbolic links"),
    "unreadable": (unreadable, "'c.json': cannot be read: Input/output error"),
    "empty folder": (lambda folder: (folder / "c.json").mkdir(), "c.json: no description (.json"),
}


@pytest.mark.parametrize("kind", UNREADABLE)
def test_unreadable(tmp_path: Path, kind: str) -> None:
    make, says = UNREADABLE[kind]
    make(tmp_path)
    before = files_below(tmp_path)
    for command in ("check c.json", "emit c.json --to out", "convert c.json c.xml"):
        result = run_here(tmp_path, *command.split())
        assert result.exit_code == 2
        if (command[:7], kind) == ("convert", "empty folder"):
            says = "c.json: is a folder; one description is wanted here"
        assert result.output.startswith(f"regwright: {says}")
    assert files_below(tmp_path) == before


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything; the test above is for it")
def test_without_permission(tmp_path: Path) -> None:
    write_chip(tmp_path).chmod(0)
    result = run_here(tmp_path, "check", "c.json")
    assert result.exit_code == 2
    assert result.output.startswith("regwright: 'c.json': cannot be read: Permission denied")


@pytest.mark.parametrize(
    ("path", "reason"),
    [
        ("x" * 5000, "File name too long"),
        ("a\0b", "a path cannot hold a zero byte"),
        ("", "No such file"),
    ],
)
def test_paths_that_cannot_be(tmp_path: Path, path: str, reason: str) -> None:
    result = run_here(tmp_path, "check", path)
    assert result.exit_code == 2
    assert f": cannot be read: {reason}" in result.output or "no description" in result.output
    assert len(result.output) < 400


def test_folder_without_descriptions(tmp_path: Path) -> None:
    (tmp_path / "in" / ".git").mkdir(parents=True)
    write_chip(tmp_path / "in" / ".git")
    (tmp_path / "in" / "readme.md").write_text("x")
    for command in ("check", "emit"):
        result = run_here(tmp_path, command, "in")
        assert result.exit_code == 2
        assert result.output == ("regwright: in: no description (.json or .xml) in this folder\n")


@pytest.mark.parametrize("second", ["c", "C"])
def test_two_descriptions_of_one_chip(tmp_path: Path, second: str) -> None:
    write_chip(tmp_path, "one.json")
    write_chip(tmp_path, "two.json", **chip(name=second))
    result = run_here(tmp_path, "emit", "one.json", "two.json", "--to", "out")
    assert result.exit_code == 2
    assert result.output == (
        "regwright: two.json and one.json both describe 'c'; "
        "the files of one would replace those of the other; rename one\n"
    )
    assert not (tmp_path / "out").exists()


def test_the_same_description_twice_is_one(tmp_path: Path) -> None:
    write_chip(tmp_path)
    result = run_here(tmp_path, "check", "c.json", "c.json")
    assert result.output == "1 description, no findings\n"


def test_unreadable_does_not_hide_the_others(tmp_path: Path) -> None:
    (tmp_path / "a.json").write_text("{")
    os.mkfifo(tmp_path / "b.json")
    result = run_here(tmp_path, "check", "b.json", "a.json")
    assert result.exit_code == 2
    assert "regwright: b.json: is no plain file" in result.output
    assert "a.json:1:2: error: no JSON: a name in double quotes is expected here" in result.output


def test_file_name_cannot_speak_to_the_terminal(cli: Cli, tmp_path: Path) -> None:
    name = b"\x1b[2J\x9b\n\xe2\x80\xaed\xff.json"
    Path(os.fsdecode(os.fsencode(tmp_path) + b"/" + name)).write_text("{}x")
    done = cli("check", os.fsdecode(name))
    assert done.returncode == 1
    start = r"\x1b[2J\udc9b\n\u202ed\udcff.json:1:3: error: no JSON: the description ends before"
    assert done.stdout.startswith(start)
    assert "\x1b" not in done.stdout


def test_text_cannot_speak_to_the_terminal(tmp_path: Path) -> None:
    register = {"name": "A\u202e\x9b2J\u2028", "address": "0x20"}
    write_chip(tmp_path, registers=[register])
    result = run_here(tmp_path, "check", "c.json")
    assert result.exit_code == 1
    assert "[name-not-identifier]" in result.output
    assert all(line.isprintable() for line in result.output.split("\n"))
