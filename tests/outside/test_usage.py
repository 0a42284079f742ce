"""What a user of a header writes, in every dialect, with and without the optimizer.

Source: the compiler, with every warning an error.
"""

from __future__ import annotations

import re
import subprocess

import pytest
from outside_tools import DIALECTS, ROOT, emitted

PROGRAM = """#include "sorrel14.h"
void blink(void);
uint16_t measure(void);
void blink(void)
{
    DIR_B = OUT_B_LED_MASK | OUT_B_VENT_OPEN_MASK;
    OUT_B |= OUT_B_LED_MASK;
    OUT_B &= (uint8_t)~OUT_B_LED_MASK;
    OUT_B ^= OUT_B_LED_MASK;
    TMR_FLAGS_OVERFLOW_CLEAR();
}
uint16_t measure(void)
{
    uint16_t result;
    uint8_t control = ADC_CTRL_RESET;
    ADC_MUX = ADC_MUX_REFERENCE_INTERNAL;
    ADC_MUX = ADC_MUX_CHANNEL_INSERT(ADC_MUX, 3U);
    control = ADC_CTRL_CLOCK_INSERT(control, ADC_CTRL_CLOCK_EXTRACT(ADC_CTRL_CLOCK_DIV64));
    ADC_CTRL = control;
    ADC_CTRL |= ADC_CTRL_ENABLE_MASK;
    while (!(ADC_CTRL & ADC_CTRL_DONE_MASK)) {
        if (ADC_CTRL & (1U << ADC_CTRL_START_BITPOS)) continue;
    }
    ADC_RESULT_READ_INTO(result);
    ADC_CTRL_DONE_CLEAR();
    return ADC_RESULT_VALUE_EXTRACT(result);
}
"""
#: GCC takes the first page of a hosted target for no object and warns of what lies in it; a
#: microcontroller's registers do lie there.
OPTIMIZED = ["-O2", "--param=min-pagesize=0"]


@pytest.fixture(autouse=True)
def header(tmp_path) -> None:
    emitted(ROOT / "descriptions" / "sorrel14.xml").write(tmp_path)


@pytest.mark.parametrize("flags", [["-O0"], OPTIMIZED, ["-Os", OPTIMIZED[1]]])
@pytest.mark.parametrize("std", DIALECTS)
def test_the_program_compiles(std, flags, compile_c):
    process = compile_c(PROGRAM, *flags, std=std)
    assert (process.returncode, process.stderr) == (0, "")


def test_each_access_is_one_load_or_store_of_the_right_width_and_place(compile_c, tmp_path):
    # volatile: the optimizer keeps every access, and joins or widens none
    source = """#include "sorrel14.h"
void first(void);
void first(void)
{
    OUT_B = 1U;
    OUT_B = 2U;
    (void)IN_B;
    (void)ADC_RESULT;
    NVM_DATA = 3U;
}
"""
    process = compile_c(source, *OPTIMIZED, "-fdump-tree-optimized=dump")
    assert process.returncode == 0, process.stderr
    dump = (tmp_path / "dump").read_text()
    assert dump.count("MEM[(volatile uint8_t *)56B] ={v} ") == 2
    assert len(re.findall(r"={v} MEM\[\(const volatile uint8_t \*\)", dump)) == 1
    assert len(re.findall(r"={v} MEM\[\((?:const )?volatile uint16_t \*\)", dump)) == 1


def test_a_read_only_register_cannot_be_written(compile_c):
    source = '#include "sorrel14.h"\nvoid first(void);\nvoid first(void) { IN_B = 1U; }\n'
    process = compile_c(source)
    assert process.returncode != 0
    assert "read-only location" in process.stderr


def test_the_same_code_runs_on_another_machine(compile_c, tmp_path):
    source = f"""#include <assert.h>
#include <stdint.h>
static uint8_t memory[0x160];
#define SORREL14_REG8(address) memory[address]
#define SORREL14_READ8(address) memory[address]
{PROGRAM}
int main(void)
{{
    memory[0x38] = 0x30U;
    blink();
    assert(memory[0x37] == 0x05U);
    assert(memory[0x38] == 0x34U);
    assert(memory[0x2E] == 0x08U);
    return 0;
}}
"""
    process = compile_c(source, link=True)
    assert process.returncode == 0, process.stderr
    assert subprocess.run([tmp_path / "program"], check=False).returncode == 0


def test_split_fields_and_results_are_put_together_by_a_running_program(compile_c, tmp_path):
    # the channel's bits are 5 and 2:0, the result's are 9:0: worked out by hand
    source = """#include <assert.h>
#include <stdint.h>
static uint8_t memory[0x160];
#define SORREL14_REG8(address) memory[address]
#define SORREL14_READ8(address) memory[address]
#include "sorrel14.h"
int main(void)
{
    uint16_t result;
    ADC_MUX = 0x98U;
    ADC_MUX = ADC_MUX_CHANNEL_INSERT(ADC_MUX, 0x0DU);
    assert(memory[0x56] == 0xBDU);
    assert(ADC_MUX_CHANNEL_EXTRACT(ADC_MUX) == 0x0DU);
    assert(ADC_MUX_REFERENCE_EXTRACT(ADC_MUX) == 2U);
    memory[0x57] = 0x34U;
    memory[0x58] = 0xFEU;
    ADC_RESULT_READ_INTO(result);
    assert(result == 0xFE34U);
    assert(ADC_RESULT_VALUE_EXTRACT(result) == 0x0234U);
    return 0;
}
"""
    process = compile_c(source, link=True)
    assert process.returncode == 0, process.stderr
    assert subprocess.run([tmp_path / "program"], check=False).returncode == 0
