"""A whole program with the classic mistake: named, repaired, and the repair seen by the compiler.

The vent controller in ``demo/`` was written by hand. In two of its definitions the I/O address
stands behind the pointer: 0x18 for 0x38 and 0x0A for 0x2A, by the description's window, 0x20.
Source of what each version does: gcc, whose preprocessor, assembler text and program are read.
"""

from __future__ import annotations

import platform
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from conftest import DESCRIPTIONS, STRICT, Cli

DEMO = Path(__file__).parent / "demo"
SORREL14 = DESCRIPTIONS / "sorrel14.xml"
BEFORE, AFTER = {"OUT_B": 0x18, "TMR0_CTRL": 0x0A}, {"OUT_B": 0x38, "TMR0_CTRL": 0x2A}
#: For a PC, where low addresses are not meant as a rule.
LOW = "--param=min-pagesize=0"


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return shutil.copytree(DEMO, tmp_path / "demo")


@pytest.fixture
def fixed(demo: Path, cli: Cli) -> Path:
    """Return a copy that ``--fix`` has been at."""
    done = cli("audit", SORREL14, demo, "--fix")
    assert (done.returncode, done.stderr) == (0, ""), done.stdout
    return demo


def line_of(name: str) -> int:
    lines = (DEMO / "pins.h").read_text().splitlines()
    return next(n for n, line in enumerate(lines, 1) if line.startswith(f"#define {name} "))


def gcc(folder: Path, *arguments: str, stdin: str = "") -> str:
    done = subprocess.run(
        ["gcc", "-std=c99", *arguments],
        cwd=folder,
        input=stdin,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_audit_names_the_mistake_and_nothing_else(cli: Cli) -> None:
    done = cli("audit", SORREL14, DEMO)
    assert done.returncode == 1
    found = re.findall(r"^\S*?([\w.]+):(\d+):\d+: (\w+): (.*) \[(.+)\]$", done.stdout, re.MULTILINE)
    rule = "io-address-behind-pointer"
    assert [(file, int(line), level, name) for file, line, level, _, name in found] == [
        ("pins.h", line_of(name), "error", rule) for name in BEFORE
    ], done.stdout
    for name, (*_, message, _) in zip(BEFORE, found, strict=True):
        assert name in message
        assert f"0x{BEFORE[name]:02X}" in message
        assert f"0x{AFTER[name]:02X}" in message


def test_repair_changes_the_two_numbers_only(fixed: Path) -> None:
    wanted = (DEMO / "pins.h").read_bytes()
    for old, new in ((b"OUT_B REG8(0x18)", b"OUT_B REG8(0x38)"), (b"REG8(0x0A)", b"REG8(0x2A)")):
        assert wanted.count(old) == 1
        wanted = wanted.replace(old, new)
    assert (fixed / "pins.h").read_bytes() == wanted
    assert (fixed / "vents.c").read_bytes() == (DEMO / "vents.c").read_bytes()


def test_nothing_is_left_after_the_repair(fixed: Path, cli: Cli) -> None:
    done = cli("audit", SORREL14, fixed)
    assert done.returncode == 0, done.stdout


def test_diff_applies_as_a_patch(demo: Path, cli: Cli, tmp_path: Path) -> None:
    patch = cli("audit", SORREL14, "demo", "--diff", cwd=tmp_path).stdout
    assert (demo / "pins.h").read_bytes() == (DEMO / "pins.h").read_bytes()
    subprocess.run(["git", "apply", "-p0", "-"], input=patch, text=True, cwd=tmp_path, check=True)
    assert dereferenced(demo) == AFTER


def dereferenced(folder: Path) -> dict[str, int]:
    """Return the address that each definition dereferences once gcc has expanded it."""
    lines = '#include "pins.h"\n' + "".join(f"<{name}> {name} ;\n" for name in BEFORE)
    text = gcc(folder, "-E", "-P", "-xc", "-", stdin=lines.replace("<", '"').replace(">", '"'))
    pattern = r'"(\w+)" \(\*\(volatile uint8_t \*\)\((\w+)\)\) ;'
    return {name: int(number, 16) for name, number in re.findall(pattern, text)}


def test_both_versions_compile_and_mean_other_places(demo: Path, cli: Cli) -> None:
    flags = [*STRICT, "-O2", LOW, "-c", "vents.c", "-o", "vents.o"]
    gcc(demo, *flags)
    assert dereferenced(demo) == BEFORE
    cli("audit", SORREL14, demo, "--fix")
    gcc(demo, *flags)
    assert dereferenced(demo) == AFTER


PROBE = '#include "pins.h"\nvoid probe(void) { OUT_B = 0x5A; TMR0_CTRL = 0x5B; }\n'


def stored(folder: Path) -> dict[str, int]:
    """Return the addresses that the compiled code stores to: ``movb $90, 24``."""
    text = gcc(folder, "-O1", LOW, "-S", "-xc", "-", "-o", "-", stdin=PROBE)
    stores = dict(re.findall(r"\bmovb\s+\$(\d+), (\d+)$", text, re.MULTILINE))
    return {"OUT_B": int(stores[str(0x5A)]), "TMR0_CTRL": int(stores[str(0x5B)])}


@pytest.mark.skipif(platform.machine() != "x86_64", reason="reads the assembler text of x86-64")
def test_the_stores_go_to_other_addresses(demo: Path, cli: Cli) -> None:
    assert stored(demo) == BEFORE
    cli("audit", SORREL14, demo, "--fix")
    assert stored(demo) == AFTER


#: The program on a PC: all of data space is a row of bytes, and the controller opens the vents.
SIMULATED = r"""
#include <stdio.h>
static unsigned char memory[0x160];
#define REG8(address) (memory[address])
#define main controller
#include "vents.c"
#undef main
int main(void) {
    motor(OPENING);
    for (int at = 0; at < 0x160; at++)
        if (memory[at])
            printf("%d=%d ", at, memory[at]);
    return vents != SHUT;
}
"""


def changed(folder: Path) -> str:
    """Return which bytes of memory the controller changes when it starts the motor."""
    gcc(folder, "-xc", "-", "-o", "simulated", stdin=SIMULATED)
    done = subprocess.run(
        [folder / "simulated"], capture_output=True, text=True, check=True, timeout=10
    )
    return done.stdout


def test_the_motor_starts_only_after_the_repair(demo: Path, cli: Cli) -> None:
    assert changed(demo) == "24=1 "
    cli("audit", SORREL14, demo, "--fix")
    assert changed(demo) == "56=1 "
