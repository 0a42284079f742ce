"""A header defines exactly the macros that its description implies.

Source: ``gcc -E -dM``, against a reading of the description that shares no code with the program.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from implied_macros import bits_of, implied, load, moved, reset_of
from outside_tools import SHIPPED, emitted, macros_of
from trial_chip import trial_chip

CASES = {
    **{path.stem: (path, load(path), "") for path in SHIPPED},
    "trial": (trial_chip(), trial_chip(), ""),
    "prefixed": (trial_chip(prefix="Own_"), trial_chip(prefix="Own_"), "MY_"),
    "device": (trial_chip(kind="device"), trial_chip(kind="device"), ""),
}
LANGUAGES = {
    "c": ("-x", "c", "-std=c11", "-DTRIAL_TARGET"),
    "assembler": ("-x", "assembler-with-cpp", "-DTRIAL_TARGET"),
}


def listed(name: str, language: str, folder: Path) -> dict[str, str]:
    """Return the header's own macros, without the compiler's and those of stdint."""
    flags = LANGUAGES[language]
    besides = "#include <stdint.h>" if language == "c" else ""
    before = macros_of(besides, *flags, folder=folder)
    found = macros_of(f'#include "{name}.h"', *flags, folder=folder)
    return {macro: body for macro, body in found.items() if macro not in before}


@pytest.mark.parametrize("case", list(CASES))
def test_c_sees_exactly_the_implied_macros(case, tmp_path):
    source, chip, prefix = CASES[case]
    item = emitted(source, prefix)
    item.write(tmp_path)
    wanted = implied(chip, prefix)
    found = {name.partition("(")[0] for name in listed(item.name, "c", tmp_path)}
    assert found - {f"{item.name.upper()}_H"} == set(wanted.numbers) | wanted.code
    assert f"{item.name.upper()}_H" in found


@pytest.mark.parametrize("case", list(CASES))
def test_the_assembler_sees_exactly_the_numbers_and_each_is_right(case, tmp_path):
    source, chip, prefix = CASES[case]
    item = emitted(source, prefix)
    item.write(tmp_path)
    found = listed(item.name, "assembler", tmp_path)
    assert found.pop(f"{item.name.upper()}_H") == ""
    assert all(body.endswith("U") for body in found.values())
    numbers = {name: int(body.removesuffix("U"), 0) for name, body in found.items()}
    assert numbers == implied(chip, prefix).numbers


def test_no_macro_is_defined_twice():
    for source, _, prefix in CASES.values():
        header = emitted(source, prefix).header
        names = [
            line.split()[1].partition("(")[0]
            for line in header.splitlines()
            if line.startswith("#define ")
        ]
        assert len(names) == len(set(names))


def test_the_reading_itself_on_numbers_worked_out_by_hand():
    # the bits 5 and 2:0, high end first: 0b1011 stands at 0b10_0011
    assert bits_of("5,2:0") == [0, 1, 2, 5]
    assert moved(bits_of("5,2:0"), 0b1011) == 0b10_0011
    assert bits_of("0,7:1") == [1, 2, 3, 4, 5, 6, 7, 0]
    assert reset_of("0b0000_x001", 8) == (1, 8)
    assert reset_of("0x0x1F", 16) == (0x001F, 0x0F00)
