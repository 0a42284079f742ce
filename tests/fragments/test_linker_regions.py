"""The memories for a linker: what GNU ld makes of them.

Source: GNU ld and nm of this machine; addresses and sizes are the descriptions', worked out by
hand.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fragment_runs import ROOT, emitted, needs, run, write

SCRIPT = """\
INCLUDE {chip}_memory.ld
SECTIONS
{{
  .text : {{ *(.text*) }} > {code}
  .data : {{ *(.data*) }} > {data}
  /DISCARD/ : {{ *(*) }}
}}
"""
PROGRAM = "int variable = 3;\nint program(void);\nint program(void) { return 5; }\n"
CASES = {
    "sorrel14": ("xml", "FLASH", "SRAM", 0x60),
    "sorrel40": ("json", "FLASH", "SRAM", 0x140),
    "sorrel32": ("xml", "ROM", "RAM", 0x3000_0000),
}


def linked(folder: Path, chip: str, *flags: str) -> dict[str, int]:
    """Link a program with the regions of ``chip`` and return where its names are."""
    ending, code, data, _ = CASES[chip]
    files = emitted(ROOT / "descriptions" / f"{chip}.{ending}")
    name = f"{chip}_memory.ld"
    write({name: files[name], "whole.ld": SCRIPT.format(chip=chip, code=code, data=data)}, folder)
    (folder / "program.c").write_text(PROGRAM)
    quiet = ("-fno-pie", "-fno-asynchronous-unwind-tables")
    assert run("gcc", "-c", "-O1", *quiet, "program.c", cwd=folder).returncode == 0
    done = run(
        *("ld", "-e", "program", "-T", "whole.ld", *flags, "program.o", "-o", "program"), cwd=folder
    )
    assert (done.returncode, done.stderr) == (0, "")
    lines = run("nm", "program", cwd=folder).stdout.splitlines()
    return {line.split()[2]: int(line.split()[0], 16) for line in lines}


@needs("ld", "nm")
@pytest.mark.parametrize("chip", list(CASES))
def test_the_linker_takes_them(tmp_path: Path, chip: str) -> None:
    names = linked(tmp_path, chip)
    assert names["variable"] == CASES[chip][3]
    assert names["program"] == (0x1000_0000 if chip == "sorrel32" else 0)


@needs("ld", "nm")
def test_an_offset_of_the_toolchain_is_added(tmp_path: Path) -> None:
    names = linked(tmp_path, "sorrel14", "--defsym", "regwright_data_offset=0x200000")
    assert (names["variable"], names["program"]) == (0x20_0060, 0)


@needs("ld")
def test_a_region_holds_no_byte_more(tmp_path: Path) -> None:
    linked(tmp_path, "sorrel40")
    for size, code in ((0x500, 0), (0x501, 1)):
        (tmp_path / "program.c").write_text(
            f"char variable[{size}] = {{1}};\nvoid program(void);\nvoid program(void) {{}}\n"
        )
        run("gcc", "-c", "-fno-pie", "-fno-asynchronous-unwind-tables", "program.c", cwd=tmp_path)
        flags = ("--defsym", "regwright_data_offset=0x200000")
        done = run("ld", "-e", "program", "-T", "whole.ld", *flags, "program.o", cwd=tmp_path)
        assert done.returncode == code
        assert ("region `SRAM' overflowed by 1 byte" in done.stderr) == bool(code)


@needs("ld")
def test_what_no_script_mentions_goes_to_no_eeprom(tmp_path: Path) -> None:
    # EEPROM first and alone: GNU ld would take the first region that fits
    space = {"name": "data", "size": "0x10000"}
    memories = [
        {"name": "E", "kind": "eeprom", "space": "data", "first": 0, "size": "0x100"},
        {"name": "F", "kind": "flash", "space": "data", "first": "0x1000", "size": "0x100"},
        {"name": "R", "kind": "ram", "space": "data", "first": "0x2000", "size": "0x100"},
    ]
    files = emitted({"name": "part", "spaces": [space], "memories": memories})
    write({"part_memory.ld": files["part_memory.ld"]}, tmp_path)
    (tmp_path / "whole.ld").write_text("INCLUDE part_memory.ld\nSECTIONS { }\n")
    (tmp_path / "program.c").write_text("char variable = 1;\nvoid f(void);\nvoid f(void) {}\n")
    run("gcc", "-c", "-fno-pie", "-fno-asynchronous-unwind-tables", "program.c", cwd=tmp_path)
    done = run("ld", "-e", "f", "-T", "whole.ld", "program.o", "-o", "program", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    lines = run("nm", "program", cwd=tmp_path).stdout.splitlines()
    places = {line.split()[2]: int(line.split()[0], 16) for line in lines}
    assert 0x1000 <= places["f"] < 0x1100
    assert 0x2000 <= places["variable"] < 0x2100


def test_regions_and_sizes_only() -> None:
    text = emitted(ROOT / "descriptions" / "sorrel14.xml")["sorrel14_memory.ld"]
    body = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL).split()
    assert " ".join(body).startswith("MEMORY { FLASH (rx) : ORIGIN = (DEFINED(")
    assert "SECTIONS" not in body
    # one space: nothing is told apart, nothing can be moved
    assert "DEFINED" not in emitted(ROOT / "descriptions" / "sorrel32.xml")["sorrel32_memory.ld"]


def test_memories_that_are_no_whole_bytes_are_left_out() -> None:
    spaces = [{"name": "data", "size": "0x100"}, {"name": "code", "size": "0x101", "unit": 12}]
    memories = [
        {"name": "ODD", "kind": "flash", "space": "code", "first": 0, "size": "0x101"},
        {"name": "R", "kind": "ram", "space": "data", "first": 0, "size": "0x100"},
    ]
    files = emitted({"name": "part", "spaces": spaces, "memories": memories})
    assert "ODD" not in files["part_memory.ld"]
    assert "#define MEMORY_ODD_UNITS 0x101U\n" in files["part.h"]
    assert "MEMORY_ODD_BYTES" not in files["part.h"]
