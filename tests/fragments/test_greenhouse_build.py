"""The greenhouse demo, built from the emitted fragments for both 8-bit chips.

Source: make, CMake, the compiler and linker of this machine, which stand in for a toolchain of the
chip, and its ``size``. The sizes of the memories are the descriptions', worked out by hand.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from fragment_runs import CHIPS, DEMO, needs, run, sorrels

#: Bytes of program memory and RAM: 0x400 and 0x2000 words of 16 bits, 0x100 and 0x500 bytes.
HELD = {"sorrel14": (2048, 256), "sorrel40": (16384, 1280)}
#: What the outputs are when it is mild, warm and cold: motor and lamp, bits of OUT_B.
SHOWN = {
    "sorrel14": "mild 0x00, warm 0x05 for 300 ticks, cold 0x06",
    "sorrel40": "mild 0x00, warm 0x90 for 300 ticks, cold 0xA0",
}


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """Return a copy of the demo, with the emitted files in the folder ``out`` beside it."""
    sorrels(tmp_path / "out")
    return Path(shutil.copytree(DEMO, tmp_path / "demo"))


def make(demo: Path, *wanted: str) -> tuple[int, str, str]:
    done = run("make", "-s", "EMITTED=../out", *wanted, cwd=demo)
    return done.returncode, done.stdout, done.stderr


@needs("make", "ld", "size")
@pytest.mark.parametrize("chip", CHIPS)
def test_make_builds_checks_the_size_and_runs(demo: Path, chip: str) -> None:
    code, printed, complaints = make(demo, f"CHIP={chip}")
    assert (code, complaints) == (0, "")
    program, data, ran = printed.splitlines()
    flash, ram = HELD[chip]
    assert program.startswith("program in FLASH: ")
    assert f" of {flash} bytes, " in program
    assert data.startswith("data in SRAM: ")
    assert f" of {ram} bytes, " in data
    assert ran == f"{chip} at 1000000 Hz: {SHOWN[chip]}"


@needs("make", "ld", "nm")
def test_the_linker_puts_data_where_the_chip_has_its_ram(demo: Path) -> None:
    assert make(demo, "vents.elf")[0] == 0
    names = {
        line.split()[2]: int(line.split()[0], 16)
        for line in run("nm", "vents.elf", cwd=demo).stdout.splitlines()
    }
    assert names["main"] < 2048
    assert 0x100060 <= names["left"] < 0x100160  # what the Makefile adds for data space, and SRAM


@needs("make", "size")
def test_make_fails_when_the_program_is_too_big(demo: Path) -> None:
    code, printed, complaints = make(demo, "MORE=-DLOG_ROWS=300", "vents.o.fits")
    assert code == 2
    assert " of 256 bytes, 1" in printed
    assert "vents.o does not fit into sorrel14\n" in complaints
    assert not (demo / "vents.o.fits").exists()
    assert (
        make(demo, "-W", "vents.c", "MORE=-DLOG_ROWS=300", "CHIP=sorrel40", "vents.o.fits")[0] == 0
    )


@needs("make", "size")
def test_make_hands_on_what_is_not_counted(demo: Path) -> None:
    assert "not counted" not in make(demo, "vents.o.fits")[1]
    for name in ("REGWRIGHT_LEAVE_OUT", "LEAVE_OUT"):
        told = make(demo, "-W", "vents.o", f"{name}=.strange .text", "vents.o.fits")[1]
        assert re.search(r"^not counted: [1-9]\d* bytes in \.text$", told, re.MULTILINE)


@needs("make")
def test_the_size_is_checked_again_only_for_a_new_program(demo: Path) -> None:
    assert "program in FLASH" in make(demo, "vents.o.fits")[1]
    assert make(demo, "vents.o.fits")[1] == ""


@needs("make")
def test_the_fragment_decides_nothing_but_its_variables(demo: Path) -> None:
    lines = [
        "include ../out/sorrel14.mk",
        "first:",
        "\t@echo $(REGWRIGHT_CHIP) $(REGWRIGHT_TARGET) $(REGWRIGHT_INSTRUCTION_SET)",
        "\t@echo $(REGWRIGHT_PROGRAMMER_PART) $(REGWRIGHT_MEMORY_EEPROM_BYTES)",
        "\t@echo $(REGWRIGHT_MEMORY_SRAM_FIRST) $(REGWRIGHT_HEADERS) $(CC) $(CFLAGS)",
    ]
    (demo / "Makefile").write_text("CC = cc\n" + "\n".join(lines) + "\n")
    code, printed, _ = make(demo)
    assert code == 0
    assert printed == "sorrel14 sorrel14 sorrel8\ns14 64\n0x0060 ../out cc\n"
    (demo / "Makefile").write_text("include ../out/sorrel14.mk ../out/sorrel40.mk\nall:\n")
    assert "a program is built for one chip" in make(demo)[2]
    (demo / "Makefile").write_text("include ../out/sorrel14.mk ../out/sorrel14.mk\nall:\n\t@:\n")
    assert make(demo) == (0, "", "")


@needs("cmake", "make", "size")
@pytest.mark.parametrize(("chip", "more"), [("sorrel40", ""), ("sorrel14", "LOG_ROWS=300")])
def test_cmake_builds_and_checks_the_size(demo: Path, chip: str, more: str) -> None:
    emitted = demo.parent / "out"
    told = run(
        *("cmake", "-S", ".", "-B", "build", f"-DCHIP={chip}", f"-DEMITTED={emitted}"),
        *("-G", "Unix Makefiles", f"-DMORE={more}", "-DREGWRIGHT_LEAVE_OUT=.strange .text"),
        cwd=demo,
    )
    assert (told.returncode, told.stderr) == (0, "")
    built = run("cmake", "--build", "build", cwd=demo)
    flash, ram = HELD[chip]
    assert f" of {flash} bytes, " in built.stdout
    assert f" of {ram} bytes, " in built.stdout
    assert re.search(r"^not counted: [1-9]\d* bytes in \.text$", built.stdout, re.MULTILINE)
    if more:
        assert built.returncode != 0
        assert f"does not fit into {chip}\n" in built.stderr
    else:
        assert (built.returncode, built.stderr) == (0, "")


@needs("cmake")
def test_the_cmake_fragment_sets_names_and_memories_only(demo: Path) -> None:
    script = """\
cmake_minimum_required(VERSION 3.17)
project(names NONE)
get_cmake_property(before VARIABLES)
include(../out/sorrel40.cmake)
include(../out/sorrel40.cmake)
get_cmake_property(after VARIABLES)
list(REMOVE_ITEM after ${before} before)
foreach(name IN LISTS after)
  if(NOT name MATCHES "^REGWRIGHT_" AND NOT name STREQUAL "before")
    message(FATAL_ERROR "${name} is set, too")
  endif()
endforeach()
message(STATUS "${REGWRIGHT_TARGET} ${REGWRIGHT_INSTRUCTION_SET} ${REGWRIGHT_PROGRAMMER_PART}")
math(EXPR first "${REGWRIGHT_MEMORY_SRAM_FIRST}")
message(STATUS "${first} ${REGWRIGHT_MEMORY_SRAM_BYTES} ${REGWRIGHT_CPU_DEFAULT_HZ}")
"""
    (demo / "CMakeLists.txt").write_text(script)
    done = run("cmake", "-S", ".", "-B", "build", cwd=demo)
    assert done.returncode == 0, done.stderr
    assert "-- sorrel40 sorrel8x s40\n-- 320 1280 1000000\n" in done.stdout
