"""Static assertions about the chip: held against the compiler, which sees the emitted header."""

from __future__ import annotations

import pytest
from audit_sources import subject_of, told

from conftest import ROOT, Compile

RULE = "assertion-contradicts"

CONDITIONS = [
    "OUT_B_LED_BITPOS == 2",
    "OUT_B_LED_BITPOS == 3",
    "OUT_B_LED_MASK == (1U << OUT_B_LED_BITPOS)",
    "OUT_B_LED_MASK == OUT_B_LED_BITPOS",
    "OUT_B_DATA_ADDR - OUT_B_IO_ADDR == 0x20",
    "OUT_B_DATA_ADDR - OUT_B_IO_ADDR != 0x20",
    "OUT_B_SINGLE_BIT",
    "ADC_CTRL_SINGLE_BIT",
    "ADC_CTRL_CLOCK_EXTRACT(ADC_CTRL_CLOCK_DIV64) == 6",
    "ADC_CTRL_CLOCK_EXTRACT(ADC_CTRL_CLOCK_DIV64) == 5",
    "sizeof(OUT_B) == 1",
    "sizeof(ADC_RESULT) == 1",
    "OUT_B_PULLS_MASK > 0x30 && TMR0_COMPARE_RESET == 0xFF",
    "!(OUT_B_PULLS_MASK & OUT_B_LED_MASK)",
    "~OUT_B_PULLS_MASK & 0",
]


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize("word", ["_Static_assert", "static_assert"])
def test_it_finds_what_the_compiler_refuses(word: str, condition: str, compile_c: Compile) -> None:
    # gcc, ISO C11 6.7.10
    source = f'{word}({condition}, "chip");\n'
    program = f'#include <assert.h>\n#include "sorrel14.h"\n{source}'
    process = compile_c(program, f"-I{ROOT / 'out'}", strict=False)
    assert ("static assertion failed" in process.stderr) == (process.returncode != 0)
    found = told(subject_of(source, name="f.c"), RULE)
    assert [item.text for item in found] == ([condition] if process.returncode else [])


@pytest.mark.parametrize(
    "source",
    [
        '_Static_assert(SIZE == 3, "our own");\n#define SIZE 2\n',
        '_Static_assert(0, "nothing of the chip");\n',
        '_Static_assert(LED == 3, "a field, but of which register?");\n#define LED 2\n',
        '#define STACK 64\n_Static_assert(STACK >= 128, "not the register");\n',
        '_Static_assert(OUT_B_LED_BITPOS == lamp, "not known");\n',
        '_Static_assert(sizeof(struct s) == OUT_B_LED_MASK, "not known");\n',
    ],
)
def test_what_is_not_about_the_chip_or_not_known(source: str) -> None:
    assert told(subject_of(source, name="f.c"), RULE) == []


def test_the_sources_own_definition_counts() -> None:
    source = '#define OUT_B_LED_BITPOS 3\n_Static_assert(OUT_B_LED_BITPOS == 2, "lamp");\n'
    (item,) = told(subject_of(source, name="f.c"), RULE)
    assert item.message == ("this does not hold: OUT_B_LED_BITPOS == 2: OUT_B_LED_BITPOS is 3")


def test_numbers_and_branches_are_told() -> None:
    source = (
        '#if NEW\n_Static_assert(OUT_B_LED_MASK\n  == OUT_B_VENT_OPEN_BITPOS + 8, "");\n#endif\n'
    )
    (item,) = told(subject_of(source, name="f.c"), RULE)
    assert item.message == (
        "this does not hold: OUT_B_LED_MASK == OUT_B_VENT_OPEN_BITPOS + 8: OUT_B_LED_MASK is 4 and "
        "OUT_B_VENT_OPEN_BITPOS is 0 (under #if NEW)"
    )
