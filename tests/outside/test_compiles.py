"""Every header compiles without a warning, and its check file tells a wrong number.

Source: the C and C++ compiler and GNU as, on every header of ``descriptions`` and on a chip that
has one of everything.
"""

from __future__ import annotations

import platform
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
from outside_tools import DIALECTS, SHIPPED, Emitted, emitted, in_parallel, macros_of
from trial_chip import trial_chip


def words_of_16_bits() -> dict[str, Any]:
    """Return the chip that has one of everything, in spaces whose addresses hold 16 bits."""
    chip = trial_chip(name="words16", blocks=[])
    for space in chip["spaces"]:
        space["unit"] = 24 - space.get("unit", 8)
    # its halves of 24 bits would lie on each other in words of 16
    chip["registers"] = [item for item in chip["registers"] if item["name"] != "LITTLE48"]
    return chip


TRIAL = emitted(trial_chip())
ALL = {
    **{path.stem: emitted(path) for path in SHIPPED},
    "trial": TRIAL,
    "prefixed": emitted(trial_chip(name="Prefixed", prefix="Own_"), "MY_"),
    "words16": emitted(words_of_16_bits()),
}
TARGET = "-DTRIAL_TARGET"
#: How to build for integers of 32 bits; elsewhere the machine's own have to do.
NARROW = ["-m32", "-ffreestanding"] if platform.machine() == "x86_64" else []
NUMBER = re.compile(r"^#define (\w+) (0x[0-9A-F]+|[0-9]+)U$", re.MULTILINE)


@pytest.fixture(params=list(ALL))
def one(request, tmp_path) -> Emitted:
    item = ALL[request.param]
    item.write(tmp_path)
    return item


def uses_of(item: Emitted, folder: Path) -> str:
    """Return C that uses every macro of the header that is more than a number."""
    before = macros_of("#include <stdint.h>", "-x", "c", folder=folder)
    found = macros_of(f'#include "{item.name}.h"', "-x", "c", TARGET, folder=folder)
    lines = [f'#include "{item.name}.h"', f"extern const char {item.name}_used[];"]
    for index, (macro, body) in enumerate(found.items()):
        name, _, parameters = macro.partition("(")
        if macro in before or not body or re.fullmatch(r"0x\w+|\d+U", body):
            continue
        if re.search(r"_(REG|READ)\d+\(", macro):
            continue
        text = {
            "value)": f"b = {name}(a);",
            "value,field)": f"b = {name}(a, b);",
            "variable)": f"{name}(b);",
            ")": f"{name}();",
            "": f"b = {name};",
        }[parameters]
        if name.endswith("_WRITE"):
            text = f"{name}(a);"
        if body.startswith('"'):
            text = f"b = sizeof({name});"
        head = f"use{index}(uint64_t a, uint64_t b)"
        lines.append(f"uint64_t {head};")
        lines.append(f"uint64_t {head} {{ (void)a; {text} return b; }}")
    return "\n".join(lines) + "\n"


def test_the_header_its_check_file_and_every_use_compile_in_each_dialect(one, compile_c, tmp_path):
    uses = uses_of(one, tmp_path)

    def build(job):
        std, name, text = job
        return compile_c(text, TARGET, std=std, name=f"{name}_{std.strip('+')}")

    alone = f'#include "{one.name}.h"\ntypedef int not_empty;\n'
    texts = {"alone": alone, "check": one.check, "uses": uses}
    jobs = [(std, name, text) for std in DIALECTS for name, text in texts.items()]
    for job, process in zip(jobs, in_parallel(build, jobs), strict=True):
        assert process.returncode == 0, (job[:2], process.stderr)
        assert process.stderr == ""


def test_uses_are_not_empty(tmp_path):
    TRIAL.write(tmp_path)
    uses = uses_of(TRIAL, tmp_path)
    for wanted in (
        "W64_F_INSERT(a, b)",
        "ROW2_READ_INTO(b)",
        "b = CHECK;",
        "LITTLE64_WRITE(a)",
        "BIT0_CLEAR()",
    ):
        assert wanted in uses


def test_the_check_file_holds_where_int_and_long_have_32_bits(one, compile_c):
    for std in ("c99", "c++17"):
        # ISO C90 has no integer type of 64 bits there, so no number for one either
        process = compile_c(one.check, *NARROW, "-fsyntax-only", TARGET, std=std)
        assert process.returncode == 0, process.stderr


def test_the_assembler_reads_every_number_as_python_does(one, tmp_path):
    numbers = dict(NUMBER.findall(one.header))
    lines = [f'#include "{one.name}.h"', ".data", *(f".quad {name}" for name in numbers)]
    first_byte = [name for name in numbers if name.endswith("_IO_ADDR")][:1]
    lines += [f".byte {name}" for name in first_byte]
    (tmp_path / "numbers.S").write_text("\n".join(lines) + "\n")
    for command in (
        ["gcc", "-Wundef", "-Werror", TARGET, "-c", "numbers.S"],
        ["objcopy", "-O", "binary", "-j", ".data", "numbers.o", "numbers"],
    ):
        subprocess.run(command, cwd=tmp_path, check=True)
    data = (tmp_path / "numbers").read_bytes()
    for index, (name, text) in enumerate(numbers.items()):
        assert int.from_bytes(data[8 * index : 8 * index + 8], "little") == int(text, 0), name
    for name in first_byte:
        assert data[8 * len(numbers)] == int(numbers[name], 0)


def test_the_check_file_notices_every_number_of_the_header_that_is_changed(compile_c, tmp_path):
    item = ALL["sorrel14"]
    changes = []
    for match in NUMBER.finditer(item.header):
        if match[1].startswith("REGWRIGHT_"):
            continue  # nothing is known of these but that they are there
        wrong = f"#define {match[1]} {int(match[2], 0) ^ 1}U"
        changes.append((match[1], item.header.replace(match[0], wrong)))
    assert len(changes) > 150

    def build(change):
        name, header = change
        check = item.check.replace('#include "sorrel14.h"', f'#include "{name}.h"')
        (tmp_path / f"{name}.h").write_text(header)
        return compile_c(check, "-fsyntax-only", name=name)

    for (name, _), process in zip(changes, in_parallel(build, changes), strict=True):
        assert process.returncode != 0, name
        assert "static assertion failed" in process.stderr


@pytest.mark.parametrize("kind", ["EXTRACT", "INSERT"])
def test_the_check_file_notices_a_wrong_mask_or_shift_in_a_macro(kind, compile_c, tmp_path):
    item = ALL["sorrel14"]
    line = re.search(rf"^#define ADC_MUX_CHANNEL_{kind}\(.*$", item.header, re.MULTILINE)[0]
    places = [match.span(1) for match in re.finditer(r"(?<=& )(0x[0-9A-F]+)(?=U)", line)]
    places += [match.span(1) for match in re.finditer(r"(?:<<|>>) ([0-9]+)", line)]
    assert len(places) >= 3
    for start, end in places:
        number = int(line[start:end], 0)
        wrong = f"{line[:start]}{number ^ (number & -number)}{line[end:]}"
        (tmp_path / "sorrel14.h").write_text(item.header.replace(line, wrong))
        process = compile_c(item.check, "-fsyntax-only")
        assert "static assertion failed" in process.stderr, wrong
