"""The header of a family includes the header of the chip that is built for, and no other.

Source: the C and C++ compiler, and GNU as behind the preprocessor.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest
from outside_tools import emitted

from conftest import STRICT
from regwright.pipeline import check, emit_family
from regwright.read.source import Source, spelling_of

#: Each chip: what its compiler defines, if that is known, and where its register PUMP stands.
CHIPS = {
    "small": ("__SMALL__", 0x20),
    "large": ("LARGE_TARGET", 0x31),
    "plain": (None, 0x42),
    "Mixed9": ("__MIXED_9__", 0x53),
}
DEVICE = "sensor"
LANGUAGES = {
    "c89": ["gcc", "-x", "c", "-std=c89", *STRICT],
    "c11": ["gcc", "-x", "c", "-std=c11", *STRICT],
    "c++17": ["g++", "-x", "c++", "-std=c++17", *STRICT],
    "assembler": ["gcc", "-x", "assembler-with-cpp", "-Wall", "-Wundef", "-Werror"],
}
#: What each chip is listed as when none or several are chosen.
LISTED = [
    "small (define REGWRIGHT_FOR_SMALL or __SMALL__)",
    "large (define REGWRIGHT_FOR_LARGE or LARGE_TARGET)",
    "plain (define REGWRIGHT_FOR_PLAIN)",
    "Mixed9 (define REGWRIGHT_FOR_MIXED9 or __MIXED_9__)",
]


def described(name: str, macro: str | None, address: int) -> dict[str, Any]:
    chip = {
        "format": 1,
        "name": name,
        "kind": "device" if name == DEVICE else "chip",
        "spaces": [{"name": "data", "size": "0x100"}],
        "registers": [
            {
                "name": f"{DEVICE.upper()}_PUMP" if name == DEVICE else "PUMP",
                "address": hex(address),
            }
        ],
    }
    return chip | ({"compilerMacro": macro} if macro else {})


def family(name: str, chips: list[dict[str, Any]]) -> str:
    """Return the text of the family's header; each description is named after its chip."""
    checked = []
    for chip in chips:
        data = json.dumps(chip).encode()
        file = f"{chip['name']}.json"
        checked.append(check(Source(file, data, spelling_of(file, data))))
    file, text = emit_family(name, checked)
    assert file == f"{name}.h"
    return text


@pytest.fixture(autouse=True)
def headers(tmp_path: Path) -> None:
    """Write the headers of the chips, of a device, and of the family ``pumps``."""
    chips = [described(name, *facts) for name, facts in CHIPS.items()]
    device = described(DEVICE, "__SENSOR__", 0x64)
    for chip in (*chips, device):
        emitted(chip).write(tmp_path)
    (tmp_path / "pumps.h").write_text(family("pumps", [device, *chips]))


@pytest.fixture(params=list(LANGUAGES))
def build(request, tmp_path):
    """Build a program that includes the family's header, with these flags."""

    def run(*flags: str, before: str = "", after: str = "") -> subprocess.CompletedProcess[str]:
        program = f'{before}#include "pumps.h"\n{after}'
        if request.param != "assembler":
            program += "extern const char not_empty;\n"
        command = [*LANGUAGES[request.param], *flags, "-c", "-", "-o", "program.o"]
        return subprocess.run(
            command, cwd=tmp_path, input=program, capture_output=True, text=True, check=False
        )

    return run


def choices() -> list[tuple[str, str]]:
    """Return each chip with each macro that chooses it."""
    found = [(name, f"REGWRIGHT_FOR_{name.upper()}") for name in CHIPS]
    return found + [(name, macro) for name, (macro, _) in CHIPS.items() if macro]


def only(name: str) -> str:
    """Return what the preprocessor refuses unless ``name`` is the chip whose header is there."""
    others = [f"defined(REGWRIGHT_CHIP_{other.upper()})" for other in CHIPS if other != name]
    wrong = [
        f"PUMP_DATA_ADDR != {CHIPS[name][1]}",
        f"REGWRIGHT_CHIP_{name.upper()} != 1",
        "REGWRIGHT_CHIP != 1",
        *others,
        "defined(SENSOR_PUMP_DATA_ADDR)",
    ]
    return f"#if {' || '.join(wrong)}\n#error wrong chip\n#endif\n"


@pytest.mark.parametrize(("name", "macro"), choices())
def test_the_chosen_chip_is_included(name, macro, build):
    process = build(f"-D{macro}", after=only(name))
    assert (process.returncode, process.stderr) == (0, "")


@pytest.mark.parametrize(("name", "macro"), choices())
def test_the_choice_may_stand_in_the_source(name, macro, build):
    process = build(before=f"#define {macro} 1\n", after=only(name))
    assert (process.returncode, process.stderr) == (0, "")


def test_a_compiler_and_a_program_may_choose_the_same(build):
    process = build("-DREGWRIGHT_FOR_SMALL", "-D__SMALL__", after=only("small"))
    assert (process.returncode, process.stderr) == (0, "")


def test_the_check_for_the_right_chip_can_fail(build):
    assert "wrong chip" in build("-D__SMALL__", after=only("large")).stderr


def test_it_may_be_included_twice_and_beside_its_chip_and_a_device(build):
    more = '#include "pumps.h"\n#include "large.h"\n#include "sensor.h"\n'
    process = build("-DREGWRIGHT_FOR_LARGE", "-D__SENSOR__", after=more)
    assert (process.returncode, process.stderr) == (0, "")


@pytest.mark.parametrize(
    "flags",
    [
        (),
        ("-D__SENSOR__",),
        ("-DREGWRIGHT_FOR_SENSOR",),
        ("-DREGWRIGHT_FOR_PLAIN9",),
        ("-DREGWRIGHT_ANY_TARGET",),
    ],
)
def test_without_a_choice_all_chips_are_listed(flags, build):
    process = build(*flags)
    assert process.returncode != 0
    start = '#error "pumps.h: the compiler builds for a chip that is not in this family; it has: '
    assert start + ", ".join(LISTED) + '"' in process.stderr
    assert process.stderr.count("error: #error") == 1


@pytest.mark.parametrize(
    "flags",
    [
        ("-D__SMALL__", "-DLARGE_TARGET"),
        ("-D__SMALL__", "-DREGWRIGHT_FOR_LARGE"),
        ("-DREGWRIGHT_FOR_PLAIN", "-DREGWRIGHT_FOR_MIXED9"),
        ("-D__MIXED_9__", "-DLARGE_TARGET", "-DREGWRIGHT_FOR_LARGE"),
        [f"-D{macro}" for _, macro in choices()],
    ],
)
def test_several_choices_are_refused(flags, build):
    process = build(*flags)
    assert process.returncode != 0
    assert '#error "pumps.h: several chips are chosen at once' in process.stderr
    assert ", ".join(LISTED) in process.stderr
    assert process.stderr.count("error: #error") == 1


def test_another_chips_header_is_still_refused(build):
    process = build(
        "-D__SMALL__", "-DLARGE_TARGET", before='#include "large.h"\n#undef LARGE_TARGET\n'
    )
    assert process.returncode != 0
    assert "small.h: another chip's header came before this one" in process.stderr


def test_a_choice_lets_a_chips_own_header_be_used_alone(build):
    # what its own header wants is what chooses it in the family
    more = '#include "small.h"\n' + only("small")
    assert build("-DREGWRIGHT_FOR_SMALL", before='#include "small.h"\n').returncode == 0
    assert build("-DREGWRIGHT_FOR_SMALL", after=more).returncode == 0


def test_a_family_of_one(tmp_path, build):
    one = [described("small", *CHIPS["small"])]
    (tmp_path / "pumps.h").write_text(family("pumps", one))
    process = build("-D__SMALL__", after=only("small"))
    assert (process.returncode, process.stderr) == (0, "")
    assert f"it has: {LISTED[0]}" in build().stderr
