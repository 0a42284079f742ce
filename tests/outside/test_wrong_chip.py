"""A header refuses a program for another chip, and stands beside whatever it may stand beside.

Source: the C preprocessor, from C and from assembler.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from outside_tools import SHIPPED, emitted
from trial_chip import trial_chip

LANGUAGES = {"c": "-std=c99", "c++": "-std=c++17", "assembler-with-cpp": "-Wall"}


@pytest.fixture(autouse=True)
def headers(tmp_path: Path) -> None:
    for path in SHIPPED:
        emitted(path).write(tmp_path)
    emitted(trial_chip()).write(tmp_path)


@pytest.fixture(params=list(LANGUAGES))
def preprocess(request, tmp_path):
    def run(*lines: str, flags: tuple[str, ...] = ()) -> subprocess.CompletedProcess[str]:
        text = "".join(
            f'#include "{line}.h"\n' if line[0] != "#" else f"{line}\n" for line in lines
        )
        command = ["gcc", "-E", "-Wall", "-Wundef", "-Werror", LANGUAGES[request.param]]
        return subprocess.run(
            [*command, *flags, "-x", request.param, "-"],
            cwd=tmp_path,
            input=text,
            capture_output=True,
            text=True,
            check=False,
        )

    return run


@pytest.mark.parametrize("pair", [("sorrel14", "sorrel40"), ("sorrel40", "sorrel14")])
def test_two_chips_do_not_go_together(pair, preprocess):
    process = preprocess(*pair)
    assert process.returncode != 0
    wanted = f"#error \"{pair[1]}.h: another chip's header came before this one"
    assert wanted in process.stderr


def test_one_chip_may_be_included_twice(preprocess):
    process = preprocess("sorrel14", "sorrel14")
    assert process.returncode == 0, process.stderr


@pytest.mark.parametrize(
    "names",
    [
        ("sorrel14", "uart16550"),
        ("uart16550", "sorrel14"),
        ("uart16550", "ethernet_phy"),
        ("ethernet_phy", "sorrel40", "uart16550"),
    ],
)
def test_devices_stand_beside_a_chip_and_each_other(names, preprocess):
    process = preprocess(*names)
    assert process.returncode == 0, process.stderr


def test_a_program_can_ask_which_chip_it_is_for(preprocess):
    question = ("#if !REGWRIGHT_CHIP_SORREL14 || defined(REGWRIGHT_CHIP_SORREL40)", "#error no")
    assert preprocess("sorrel14", *question, "#endif").returncode == 0
    assert preprocess("sorrel40", *question, "#endif").returncode != 0


def test_another_target_is_refused_and_told_the_way_around(preprocess):
    process = preprocess("trial")
    assert process.returncode != 0
    assert "TRIAL_TARGET is not defined" in process.stderr
    assert "define REGWRIGHT_ANY_TARGET to use the header all the same" in process.stderr


@pytest.mark.parametrize("flag", ["-DTRIAL_TARGET", "-DTRIAL_TARGET=1", "-DREGWRIGHT_ANY_TARGET"])
def test_the_right_target_and_the_way_around_are_accepted(flag, preprocess):
    process = preprocess("trial", flags=(flag,))
    assert process.returncode == 0, process.stderr


def test_the_way_around_may_stand_in_the_source(preprocess):
    assert preprocess("#define REGWRIGHT_ANY_TARGET", "trial").returncode == 0


def test_the_way_around_does_not_let_two_chips_meet(preprocess):
    process = preprocess("sorrel14", "trial", flags=("-DREGWRIGHT_ANY_TARGET",))
    assert process.returncode != 0
    assert "another chip's header came before" in process.stderr


def test_the_check_file_needs_no_target(compile_c):
    process = compile_c(emitted(trial_chip()).check)
    assert process.returncode == 0, process.stderr
