"""The header compares the program's own clock with the default, when both are known.

Source: gcc and g++ in every dialect, GNU as through gcc's preprocessor; what counts as agreeing is
the data sheet's: 8 MHz divided by 8, and 24 MHz divided by 2.
"""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from fragment_runs import ROOT, emitted, write

DIALECTS = ("c89", "c99", "c11", "c17", "c2x", "c++98", "c++17", "c++20", "assembler")
STRICT = ("-Wall", "-Wextra", "-pedantic", "-Wundef", "-Wconversion")
RIGHT = ["1000000", "1000000UL", "(8000000UL / 8)", "0xF4240", "1000 * 1000", "8000000UL >> 3"]
WRONG = ["8000000", "1000001UL", "", "(1000000 - 1)", "1000 * 999 + 999"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    files = emitted(ROOT / "descriptions" / "sorrel14.xml")
    return write(files, tmp_path_factory.mktemp("emitted"))


def complaints(folder: Path, dialect: str, *flags: str, text: str = "") -> str:
    """Return what the compiler says of a program that includes the header; it must compile."""
    language = {"a": "assembler-with-cpp", "+": "c++"}.get(
        dialect[0 if dialect[0] == "a" else 1], "c"
    )
    std = [] if language.startswith("a") else [f"-std={dialect}"]
    program = text or '#include "sorrel14.h"\n'
    if not language.startswith("a"):
        program += "typedef int not_empty;\n"
    done = subprocess.run(
        ["gcc", "-x", language, *std, *STRICT, *flags, "-c", "-o", "out.o", "-"],
        cwd=folder,
        input=program,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stderr


@pytest.mark.parametrize("dialect", DIALECTS)
def test_it_is_silent_without_a_constant_and_with_the_right_one(folder: Path, dialect: str) -> None:
    assert complaints(folder, dialect) == ""
    assert complaints(folder, dialect, f"-DCPU_CLOCK_HZ={RIGHT[1]}", "-pedantic-errors") == ""


@pytest.mark.parametrize("dialect", DIALECTS)
def test_it_warns_once_of_a_wrong_one(folder: Path, dialect: str) -> None:
    twice = '#include "sorrel14.h"\n#include "sorrel14.h"\n'
    said = complaints(folder, dialect, f"-DCPU_CLOCK_HZ={WRONG[0]}", "-pedantic-errors", text=twice)
    (line,) = re.findall(r"warning: (.*)", said)
    assert line.startswith(
        "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel14 runs at 1 MHz"
    )
    assert line.endswith("correct it, or define REGWRIGHT_CLOCK_CHANGES")
    assert "error" not in said


@pytest.mark.parametrize("value", RIGHT)
def test_every_spelling_of_the_right_number(folder: Path, value: str) -> None:
    assert complaints(folder, "c99", f"-DCPU_CLOCK_HZ={value}") == ""


@pytest.mark.parametrize("value", WRONG)
def test_every_spelling_of_a_wrong_number(folder: Path, value: str) -> None:
    assert complaints(folder, "c99", f"-DCPU_CLOCK_HZ={value}").count("warning:") == 1


@pytest.mark.parametrize("dialect", DIALECTS)
def test_a_program_that_changes_the_clock_says_so(folder: Path, dialect: str) -> None:
    flags = ("-DCPU_CLOCK_HZ=8000000.0", "-DREGWRIGHT_CLOCK_CHANGES")
    assert complaints(folder, dialect, *flags) == ""


@pytest.mark.parametrize(
    ("version", "told"), [("201112L", "#pragma message"), ("202311L", "#warning")]
)
def test_another_compiler_takes_a_message_or_the_directive_of_c23(
    folder: Path, version: str, told: str
) -> None:
    # without __GNUC__ the header takes the other ways; gcc knows both of them
    header = (folder / "sorrel14.h").read_text()
    found = re.search(r"#if defined\(CPU_CLOCK_HZ\).*?(#endif\n){3}", header, re.DOTALL)
    assert found
    flags = ["-U__GNUC__", "-U__STDC_VERSION__", f"-D__STDC_VERSION__={version}"]
    done = subprocess.run(
        ["gcc", "-x", "c", *flags, "-DCPU_CLOCK_HZ=9", "-fsyntax-only", "-"],
        input=f"#define CPU_DEFAULT_HZ 1000000U\n{found[0]}",
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0
    assert len(re.findall(rf"{told}.*CPU_CLOCK_HZ is not CPU_DEFAULT_HZ", done.stderr)) == 1


def test_the_macro_has_the_frequency_of_each_chip() -> None:
    for name, hertz in (("sorrel14.xml", 1_000_000), ("sorrel32.xml", 12_000_000)):
        header = next(
            text
            for file, text in emitted(ROOT / "descriptions" / name).items()
            if file.endswith(".h")
        )
        assert f"#define CPU_DEFAULT_HZ {hertz}U\n" in header


def chip_with(clock: dict[str, object], **more: object) -> str:
    chip = {"name": "part", "spaces": [{"name": "data", "size": "0x100"}], "clock": clock, **more}
    return emitted(chip)["part.h"]


def test_there_is_none_where_the_frequency_is_not_known_or_no_whole_number() -> None:
    crystal = {"name": "crystal", "kind": "crystal", "lowest": "1 MHz", "highest": "16 MHz"}
    header = chip_with({"constant": "HZ", "sources": [crystal]})
    assert "CPU_DEFAULT_HZ" not in header
    assert "defined(HZ)" not in header
    assert "the CPU has 1 MHz to 16 MHz, whatever is connected" in header
    inner = {"name": "inner", "kind": "internal", "frequency": "32.768 kHz"}
    third = {"name": "third", "options": [{"divide": 3}]}
    header = chip_with({"constant": "HZ", "sources": [inner], "dividers": [third]})
    assert "CPU_DEFAULT_HZ" not in header
    assert "about 10.922667 kHz" in header


def test_a_device_has_no_cpu() -> None:
    inner = {"name": "inner", "kind": "internal", "frequency": "8 MHz"}
    header = chip_with({"constant": "HZ", "sources": [inner]}, kind="device")
    assert "HZ" not in header
