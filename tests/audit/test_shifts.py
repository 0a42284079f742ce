"""Shifts that their type does not hold: against gcc's warnings, and by hand for 16 bits."""

from __future__ import annotations

import re

import pytest
from audit_sources import subject_of, told

from conftest import Compile

RULE = "shift-overflows"
VALUES = ["1", "3", "1U", "1L", "1UL", "1LL", "1ULL", "0x40000000", "2147483647", "1u", "5"]
COUNTS = [0, 1, 15, 16, 29, 30, 31, 32, 33, 62, 63, 64]


def test_it_finds_what_gcc_finds(compile_c: Compile) -> None:
    # gcc 12 and later, C11, with int of 32 bits as sorrel32 has it and long of 64 as the host has:
    # -Wshift-overflow=2 tells shifts of signed numbers into the sign bit and beyond (ISO C11
    # 6.5.7), -Wshift-count-overflow those by the width or more. For L and UL the widths differ.
    shifts = [
        f"{value} << {count}" for value in VALUES if "l" not in value.lower() for count in COUNTS
    ]
    shifts += [f"{value} << {count}" for value in ("1LL", "1ULL") for count in COUNTS]
    lines = [f"    COPY_LANE0_END_TO = (uint32_t)({shift});" for shift in shifts]
    program = "\n".join(["void f(void)", "{", *lines, "}", ""])
    declared = "#include <stdint.h>\nextern volatile uint32_t COPY_LANE0_END_TO;\nvoid f(void);\n"
    flags = ("-Wshift-overflow=2", "-Wshift-count-overflow")
    process = compile_c(declared + program, *flags, strict=False)
    warned = {
        int(line) - 3 for line in re.findall(r"program\.c:(\d+):\d+: warning", process.stderr)
    }
    subject = subject_of(program, chip="sorrel32", name="f.c")
    lost = {  # an unsigned number of which nothing is left: defined, and meant by nobody
        number for number, shift in enumerate(shifts, 3) if shift == "0x40000000 << 2"
    }
    assert {item.line for item in told(subject, RULE)} == warned | lost
    assert len(warned) > 20


@pytest.mark.parametrize(
    ("code", "message"),
    [
        (
            "TMR1_COMPARE = 1 << 15;",
            "1 << 15: int has 16 bits on this chip, so this is the sign bit and the value is "
            "negative; 1U << 15 is right",
        ),
        (
            "TMR1_COMPARE = 1 << 16;",
            "1 << 16: int has 16 bits on this chip, so a shift by 16 is undefined; TMR1_COMPARE "
            "has 16 bits, and bit 16 is none of them",
        ),
        (
            "TMR1_COMPARE = (3 << 15) >> 2;",
            "3 << 15: int has 16 bits on this chip, so bits are lost; TMR1_COMPARE has 16 bits, "
            "and bit 16 is none of them",
        ),
        (
            "TMR1_COMPARE = 0x8000U << 1;",
            "32768 << 1: unsigned int has 16 bits on this chip, so bits are lost; TMR1_COMPARE "
            "has 16 bits, and bit 16 is none of them",
        ),
        ("TMR1_COMPARE = 1U << 15;", ""),
        ("TMR1_COMPARE = (uint16_t)(1UL << 16 >> 1);", ""),
        ("OUT_A = (uint8_t)(~0U << 4);", ""),  # bits are dropped on purpose
        ("OUT_A = (uint8_t)(~0 << 4);", ""),
        ("OUT_A = (uint8_t)(0xFF << 4);", ""),
        ("total = 1 << 16;", ""),  # not the chip's
    ],
)
def test_int_of_16_bits(code: str, message: str) -> None:
    source = f"void f(void)\n{{\n    {code}\n}}\n"
    messages = [
        item.message for item in told(subject_of(source, chip="sorrel40", name="f.c"), RULE)
    ]
    assert messages == ([message] if message else [])


def test_the_headers_mask_is_offered() -> None:
    source = "void f(void) { COPY_LANE1_SETUP |= 1 << 31; }"
    (item,) = told(subject_of(source, chip="sorrel32", name="f.c"), RULE)
    assert item.message.endswith("1U << 31 is right, or COPY_LANE1_SETUP_RUN_MASK")


def test_it_is_said_where_the_shift_stands() -> None:
    source = """#define TOP (1 << 15)
#define ALSO TOP
#define BIT(n) (1 << (n))
void f(void)
{
    TMR1_COMPARE = ALSO;
    TMR1_COUNT = ALSO;
    TMR1_COMPARE = BIT(15);
}
"""
    found = told(subject_of(source, chip="sorrel40", name="f.c"), RULE)
    assert [(item.line, item.text) for item in found] == [(1, "1 << 15"), (8, "BIT(15)")]
