"""The script that holds a program's size against the memories.

Source: the shells of this machine, and ``shellcheck`` where there is one; what ``size`` prints is
given by hand, in the form of the GNU binutils.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest
from fragment_runs import ROOT, emitted, needs, write

SHELLS = [shell for shell in ("sh", "dash", "bash", "busybox") if shutil.which(shell)]
SCRIPT = "sorrel14_size.sh"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    files = emitted(ROOT / "descriptions" / "sorrel14.xml")
    (tmp_path / "a program.elf").write_bytes(b"")
    return write({SCRIPT: files[SCRIPT]}, tmp_path)


def told(
    folder: Path, size: str, *arguments: str, shell: str = "sh"
) -> subprocess.CompletedProcess[str]:
    """Run the script where ``size`` is a program with this text."""
    program = folder / "my size"
    program.write_text(f"#!/bin/sh\n{size}\n")
    program.chmod(0o755)
    command = ["busybox", "sh"] if shell == "busybox" else [shell]
    return subprocess.run(
        [*command, SCRIPT, *arguments],
        cwd=folder,
        env={**os.environ, "SIZE": str(program)},
        capture_output=True,
        text=True,
        check=False,
    )


def printing(text: int, data: int, bss: int) -> str:
    total = text + data + bss
    head = "   text\\t   data\\t    bss\\t    dec\\t    hex\\tfilename\\n"
    return f"printf '{head}   {text}\\t     {data}\\t     {bss}\\t {total}\\t    {total:x}\\tx\\n'"


@pytest.mark.parametrize("shell", SHELLS)
@pytest.mark.parametrize(
    ("sizes", "code", "lines"),
    [
        # 0x400 words are 2048 bytes, SRAM has 256
        ((1000, 24, 8), 0, ["1024 of 2048 bytes, 50.0 %", "32 of 256 bytes, 12.5 %"]),
        ((2000, 48, 208), 0, ["2048 of 2048 bytes, 100.0 %", "256 of 256 bytes, 100.0 %"]),
        ((2000, 49, 0), 1, ["2049 of 2048 bytes, 100.0 %", "49 of 256 bytes, 19.1 %"]),
        ((0, 1, 256), 1, ["1 of 2048 bytes, 0.0 %", "257 of 256 bytes, 100.4 %"]),
        ((0, 0, 0), 0, ["0 of 2048 bytes, 0.0 %", "0 of 256 bytes, 0.0 %"]),
    ],
)
def test_it_fits_or_not(
    folder: Path, shell: str, sizes: tuple[int, int, int], code: int, lines: list[str]
) -> None:
    done = told(folder, printing(*sizes), "a program.elf", shell=shell)
    wanted = [f"program in FLASH: {lines[0]}", f"data in SRAM: {lines[1]}"]
    assert (done.returncode, done.stdout.splitlines()) == (code, wanted)
    assert done.stderr == ("a program.elf does not fit into sorrel14\n" if code else "")


@pytest.mark.parametrize(
    ("size", "arguments", "why"),
    [
        ("exit 0", [], "give one program"),
        ("exit 0", ["a program.elf", "another"], "give one program"),
        ("exit 0", ["missing.elf"], "missing.elf cannot be read"),
        ("exit 1", ["a program.elf"], "cannot tell the size of a program.elf"),
        ("exit 0", ["a program.elf"], "does not print text, data and bss"),
        ("printf 'a\\n1 2\\n'", ["a program.elf"], "does not print text, data and bss"),
        ("printf 'a\\n1 x 3\\n'", ["a program.elf"], "does not print text, data and bss"),
        ("printf 'a\\n* * *\\n'", ["a program.elf"], "does not print text, data and bss"),
    ],
)
def test_it_says_why_it_cannot_tell(
    folder: Path, size: str, arguments: list[str], why: str
) -> None:
    done = told(folder, size, *arguments)
    assert (done.returncode, done.stdout) == (2, "")
    assert why in done.stderr


def test_a_size_command_that_is_missing(folder: Path) -> None:
    done = subprocess.run(
        ["sh", SCRIPT, "a program.elf"],
        cwd=folder,
        env={**os.environ, "SIZE": "no-such-size"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "no-such-size cannot tell the size" in done.stderr


@needs("shellcheck")
@pytest.mark.parametrize("name", ["sorrel14.xml", "sorrel32.xml", "sorrel40.json"])
def test_shellcheck_has_nothing_to_say(name: str, tmp_path: Path) -> None:
    files = emitted(ROOT / "descriptions" / name)
    (script,) = (item for item in files if item.endswith("_size.sh"))
    write({script: files[script]}, tmp_path)
    done = subprocess.run(
        ["shellcheck", "--shell=sh", script],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout) == (0, "")


def test_only_one_of_the_two_is_described(folder: Path) -> None:
    space = {"name": "data", "size": "0x1000"}
    memory = {"name": "R", "kind": "ram", "space": "data", "first": 0, "size": "0x100"}
    chip = {"name": "part", "spaces": [space], "memories": [memory]}
    write({SCRIPT: emitted(chip)["part_size.sh"]}, folder)
    done = told(folder, printing(10**6, 0, 64), "a program.elf")
    assert (done.returncode, done.stdout) == (0, "data in R: 64 of 256 bytes, 25.0 %\n")


def test_memories_of_a_kind_are_counted_together(folder: Path) -> None:
    space = {"name": "data", "size": "0x1000"}
    memories = [
        {"name": name, "kind": kind, "space": "data", "first": first, "size": "0x100"}
        for name, kind, first in (
            ("A", "ram", 0),
            ("B", "ram", "0x200"),
            ("F", "rom", "0x400"),
        )
    ]
    chip = {"name": "part", "spaces": [space], "memories": memories}
    write({SCRIPT: emitted(chip)["part_size.sh"]}, folder)
    done = told(folder, printing(128, 0, 384), "a program.elf")
    assert done.stdout.splitlines() == [
        "program in F: 128 of 256 bytes, 50.0 %",
        "data in A, B: 384 of 512 bytes, 75.0 %",
    ]
