"""The script that holds a program's size against the memories.

Source: the shells of this machine, and ``shellcheck`` where there is one; what ``size`` prints is
given by hand, in the form of the GNU binutils, or printed by those of this machine.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from fragment_runs import ROOT, emitted, needs, run, write

SHELLS = [shell for shell in ("sh", "dash", "bash", "busybox") if shutil.which(shell)]
SCRIPT = "sorrel14_size.sh"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    files = emitted(ROOT / "descriptions" / "sorrel14.xml")
    (tmp_path / "a program.elf").write_bytes(b"")
    return write({SCRIPT: files[SCRIPT]}, tmp_path)


def told(
    folder: Path, size: str, *arguments: str, shell: str = "sh", leave_out: str = ""
) -> subprocess.CompletedProcess[str]:
    """Run the script where ``size`` is a program with this text."""
    program = folder / "my size"
    program.write_text(f"#!/bin/sh\n{size}\n")
    program.chmod(0o755)
    command = ["busybox", "sh"] if shell == "busybox" else [shell]
    return subprocess.run(
        [*command, SCRIPT, *arguments],
        cwd=folder,
        env={**os.environ, "SIZE": str(program), "LEAVE_OUT": leave_out},
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


def listing(columns: tuple[int, int, int], sections: dict[str, int]) -> str:
    """Return a ``size`` that prints the columns, and with -A the sections."""
    lines = [f"{name}   {size}   8388608" for name, size in sections.items()]
    text = "\\n".join(["x  :", "section size addr", *lines, f"Total {sum(sections.values())}", ""])
    return f"if [ \"$1\" = -A ]; then printf '{text}'; exit 0; fi\n{printing(*columns)}"


@pytest.mark.parametrize("shell", SHELLS)
@pytest.mark.parametrize(
    ("columns", "sections", "program", "data"),
    [
        # all in data, as a compiler has variables in sections with a name
        ((900, 72, 200), {".text": 900, ".data": 8, ".eeprom": 60, ".fuse": 4}, 908, 208),
        # read-only ones are in text, those that are not loaded in bss
        ((904, 68, 200), {".data": 8, ".eeprom": 60, ".fuse": 4, ".bss": 200}, 908, 208),
        ((904, 8, 260), {".data": 8, ".eeprom": 60, ".fuse": 4, ".bss": 200}, 908, 208),
        ((900, 68, 0), {".data": 4, ".data.low": 4, ".eeprom.log": 60, ".eeproms": 9}, 908, 8),
        # a section of the program's own in data, and nothing that is left out
        ((900, 30, 0), {".text": 900, ".data": 8, ".quick": 22, ".debug_info": 999}, 930, 30),
    ],
)
def test_sections_of_other_memories_are_not_counted(
    folder: Path,
    shell: str,
    columns: tuple[int, int, int],
    sections: dict[str, int],
    program: int,
    data: int,
) -> None:
    done = told(folder, listing(columns, sections), "a program.elf", shell=shell)
    assert (done.returncode, done.stderr) == (0, "")
    first, second, *rest = done.stdout.splitlines()
    assert first.startswith(f"program in FLASH: {program} of 2048 bytes")
    assert second.startswith(f"data in SRAM: {data} of 256 bytes")
    left = {name: size for name, size in sections.items() if name[1:5] in ("eepr", "fuse")}
    left.pop(".eeproms", None)
    names = " ".join(left)
    assert rest == ([f"not counted: {sum(left.values())} bytes in {names}"] if left else [])


def test_the_user_adds_names(folder: Path) -> None:
    size = listing((500, 50, 0), {".text": 500, ".data": 10, ".serial": 30, ".tune": 10})
    assert "data in SRAM: 50 of" in told(folder, size, "a program.elf").stdout
    done = told(folder, size, "a program.elf", leave_out=".serial .tune *")
    assert "data in SRAM: 10 of" in done.stdout
    assert "not counted: 40 bytes in .serial .tune\n" in done.stdout


def test_without_a_list_of_sections_all_is_counted(folder: Path) -> None:
    size = f'[ "$1" != -A ] || exit 1\n{printing(100, 20, 0)}'
    done = told(folder, size, "a program.elf")
    assert (done.returncode, done.stderr) == (
        0,
        f"{SCRIPT}: {folder / 'my size'} knows no -A: no section is left out\n",
    )
    assert "data in SRAM: 20 of" in done.stdout


def test_a_list_that_contradicts_the_columns(folder: Path) -> None:
    done = told(folder, listing((100, 20, 0), {".eeprom": 200}), "a program.elf")
    assert (done.returncode, done.stdout) == (2, "")
    assert "lists more to leave out than there is" in done.stderr


def with_memories(*memories: tuple[str, str]) -> dict[str, Any]:
    made = [
        {"name": name, "kind": kind, "space": "data", "first": f"0x{index}00", "size": "0x100"}
        for index, (name, kind) in enumerate(memories)
    ]
    spaces = [{"name": "data", "size": "0x1000"}]
    return {"name": "part", "spaces": spaces, "memories": made}


@pytest.mark.parametrize(
    ("memories", "names"),
    [
        ((("F", "flash"), ("R", "ram")), ""),
        ((("F", "flash"), ("BOOT", "rom"), ("R", "ram")), ".boot"),
        ((("ROM", "rom"), ("R", "ram")), ""),
        # a memory that is called as a program's own section
        ((("F", "flash"), ("DATA", "eeprom")), ".eeprom"),
        (
            (("F", "flash"), ("Log 1", "eeprom"), ("OPTIONS", "configuration")),
            ".log_1 .eeprom .options .config .fuse .lock .signature",
        ),
    ],
)
def test_which_sections_are_left_out(memories: tuple[tuple[str, str], ...], names: str) -> None:
    script = emitted(with_memories(*memories))["part_size.sh"]
    assert f'leave_out="{names} ${{LEAVE_OUT-}}"\n' in script


@needs("gcc", "ld", "size")
def test_a_program_with_eeprom_and_configuration(folder: Path) -> None:
    """The sections' sizes are those of the objects: 5 + 3 bytes of data, 100 of bss."""
    program = """
        __attribute__((section(".eeprom"))) unsigned char kept[48] = {1};
        __attribute__((section(".config"))) const unsigned char bytes[3] = {0x62, 0xBB, 0xFF};
        unsigned char ready[5] = {1};
        unsigned char more[3] = {2};
        unsigned char buffer[100];
        void start(void);
        void start(void) { for (;;) { } }
    """
    (folder / "p.c").write_text(program)
    (folder / "p.ld").write_text(
        "SECTIONS { .text : { *(.text*) } .data : { *(.data*) } .bss : { *(.bss*) }\n"
        ".eeprom : { *(.eeprom*) } .config : { *(.config*) }\n"
        "/DISCARD/ : { *(.comment) *(.note*) *(.eh_frame*) } }\n"
    )
    flags = ("-g", "-Os", "-ffreestanding", "-fno-pie", "-fno-asynchronous-unwind-tables")
    assert run("gcc", *flags, "-c", "p.c", cwd=folder).returncode == 0
    done = run("ld", "-e", "start", "-T", "p.ld", "p.o", "-o", "p.elf", cwd=folder)
    assert done.returncode == 0, done.stderr
    done = run("sh", SCRIPT, "p.elf", cwd=folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert "data in SRAM: 108 of 256 bytes" in done.stdout
    assert "not counted: 51 bytes in .eeprom .config\n" in done.stdout
    plain = program[program.index("unsigned char ready") :]
    (folder / "q.c").write_text(plain)
    assert run("gcc", *flags, "-c", "q.c", cwd=folder).returncode == 0
    run("ld", "-e", "start", "-T", "p.ld", "q.o", "-o", "q.elf", cwd=folder)
    without = run("sh", SCRIPT, "q.elf", cwd=folder).stdout
    assert done.stdout.splitlines()[:2] == without.splitlines()
