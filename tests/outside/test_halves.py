"""Halves are accessed in the order that the document asks for, shown by running it.

Source: how chips latch the other half of a wide register, common practice, no source: the half
accessed first goes through a hidden register, so that both halves belong to one moment.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from outside_tools import emitted

#: In C the hook sees which address is reached, and keeps a place for each.
LOGGING = """#include <stdint.h>
#include <stdio.h>
static uint8_t memory[0x20];
static unsigned order[8], count;
static volatile uint8_t *reach(unsigned address) {
    order[count++ & 7U] = address;
    return &memory[address];
}
#define HALVED_REG8(address) (*reach(address))
#include "halved.h"
int main(void) {
    uint16_t value;
    memory[COUNT_L_DATA_ADDR] = 0x34U;
    memory[COUNT_H_DATA_ADDR] = 0x12U;
    COUNT_READ_INTO(value);
    printf("%u accesses: %X %X, 0x%04X\\n", count, order[0], order[1], (unsigned)value);
    count = 0U;
    COUNT_WRITE(0xABCDU);
    printf("%u accesses: %X %X, 0x%02X%02X\\n", count, order[0], order[1],
           (unsigned)memory[COUNT_H_DATA_ADDR], (unsigned)memory[COUNT_L_DATA_ADDR]);
    return 0;
}
"""

#: In C++ the hook is an object: a counter that runs on with each access, behind a hidden register.
LATCHED = """#include <stdint.h>
#include <stdio.h>
static uint16_t counter = 0x12FF;
static uint8_t hidden;
struct Half {
    unsigned address;
    operator uint8_t() const {
        bool is_high = address == HIGH_AT, is_first = is_high == READ_HIGH_FIRST;
        uint8_t own = (uint8_t)(is_high ? counter >> 8 : counter), result = own;
        if (is_first) hidden = (uint8_t)(is_high ? counter : counter >> 8);
        else result = hidden;
        counter++;
        return result;
    }
    void operator=(uint8_t value) const {
        bool is_high = address == HIGH_AT, is_first = is_high == WRITE_HIGH_FIRST;
        if (is_first) hidden = value;
        else counter = (uint16_t)(is_high ? value << 8 | hidden : hidden << 8 | value);
    }
};
#define HALVED_REG8(address) (Half{address})
#include "halved.h"
int main() {
    uint16_t value = 0;
    COUNT_READ_INTO(value);
    COUNT_WRITE(0xABCDU);
    printf("0x%04X 0x%04X\\n", (unsigned)value, (unsigned)counter);
}
"""


def description(read_first: str, write_first: str, byte_order: str) -> dict:
    return {
        "name": "halved",
        "spaces": [{"name": "data", "size": "0x20"}],
        "registers": [
            {
                "name": "COUNT",
                "width": 16,
                "byteOrder": byte_order,
                "address": "0x10",
                "halves": {
                    "readFirst": read_first,
                    "writeFirst": write_first,
                    "low": {"name": "COUNT_L"},
                    "high": {"name": "COUNT_H"},
                },
            }
        ],
    }


def output(compile_c, folder: Path, source: str, std: str, *flags: str) -> str:
    process = compile_c(source, *flags, std=std, link=True)
    assert process.returncode == 0, process.stderr
    program = [folder / "program"]
    return subprocess.run(program, capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize("byte_order", ["little", "big"])
@pytest.mark.parametrize("write_first", ["low", "high"])
@pytest.mark.parametrize("read_first", ["low", "high"])
def test_the_halves_are_reached_in_order(read_first, write_first, byte_order, compile_c, tmp_path):
    emitted(description(read_first, write_first, byte_order)).write(tmp_path)
    # little: the low half stands at the lower address
    low, high = ("10", "11") if byte_order == "little" else ("11", "10")
    reads = (low, high) if read_first == "low" else (high, low)
    writes = (low, high) if write_first == "low" else (high, low)
    assert output(compile_c, tmp_path, LOGGING, "c89") == (
        f"2 accesses: {' '.join(reads)}, 0x1234\n2 accesses: {' '.join(writes)}, 0xABCD\n"
    )


@pytest.mark.parametrize("byte_order", ["little", "big"])
@pytest.mark.parametrize("wanted", ["low", "high"])
@pytest.mark.parametrize("described", ["low", "high"])
def test_a_running_counter_is_read_and_written_whole_in_that_order_only(
    described, wanted, byte_order, compile_c, tmp_path
):
    emitted(description(described, described, byte_order)).write(tmp_path)
    is_high = "true" if wanted == "high" else "false"
    flags = [f"-DREAD_HIGH_FIRST={is_high}", f"-DWRITE_HIGH_FIRST={is_high}"]
    flags.append(f"-DHIGH_AT={'0x11U' if byte_order == 'little' else '0x10U'}")
    text = output(compile_c, tmp_path, LATCHED, "c++17", *flags)
    if described == wanted:
        assert text == "0x12FF 0xABCD\n"
    else:
        # the other order mixes two moments: which is why the macros are there
        read, written = text.split()
        assert read != "0x12FF"
        assert written != "0xABCD"


def test_a_row_has_its_own_halves_each(tmp_path, compile_c):
    chip = description("low", "low", "little")
    chip["registers"][0] |= {"count": 3, "stride": 4, "address": "0x10"}
    halves = chip["registers"][0]["halves"]
    # also when the document prints the address of the first one's halves
    halves["low"]["address"], halves["high"]["address"] = "0x10", "0x11"
    emitted(chip).write(tmp_path)
    source = """#include "halved.h"
_Static_assert(COUNT_L0_DATA_ADDR == 0x10U && COUNT_H0_DATA_ADDR == 0x11U, "first");
_Static_assert(COUNT_L2_DATA_ADDR == 0x18U && COUNT_H2_DATA_ADDR == 0x19U, "last");
"""
    process = compile_c(source)
    assert process.returncode == 0, process.stderr


def test_there_is_no_operation_where_c_does_not_reach_both_halves():
    chip = description("low", "low", "little")
    chip["spaces"].append({"name": "io", "size": "0x20", "pointer": False})
    halves = chip["registers"][0]["halves"]
    assert "COUNT_READ_INTO" in emitted(chip).header
    halves["low"]["address"], halves["high"]["address"] = "io:0x10", "io:0x11"
    header = emitted(chip).header
    assert "COUNT_READ_INTO" not in header
    assert "COUNT_WRITE" not in header


def test_names_of_halves_that_are_parts_of_numbers_are_not_confused():
    chip = description("low", "low", "little")
    register = chip["registers"].pop()
    register |= {"name": "1", "count": 12, "offset": 0}
    register["halves"] |= {"low": {"name": "L"}, "high": {"name": "H"}}
    del register["address"]
    chip["spaces"][0]["size"] = "0x100"
    chip["blocks"] = [{"name": "T", "base": "0x10", "registers": [register]}]
    header = emitted(chip).header
    # T_1 in a row of 12: the last is T_111, and its halves are T_L11 and T_H11
    assert "#define T_111_READ_INTO(variable) ((variable) = ((uint16_t)T_L11)" in header
