"""The I/O addresses 0x17 and 0x18 are the data addresses 0x37 and 0x38.

No source beyond common practice: on the small 8-bit chips that have both spaces, the I/O
registers are seen in data space at a distance of 0x20. Everyone who has read a datasheet of such
a chip can work the two numbers out by hand, which is what is done here.
"""

from __future__ import annotations

import json
import subprocess

import pytest
from outside_tools import emitted, macros_of

from regwright.read.description import read_description
from regwright.read.source import Source
from regwright.resolve.chip import resolve

BY_HAND = {"DIRECTION": (0x17, 0x37), "OUTPUT": (0x18, 0x38)}


def description(spelled: str) -> dict:
    """Return a chip whose two registers are given in one space, in the other, or in both."""
    addresses = {"io": "io:{0:#x}", "data": "data:{1:#x}", "both": "io:{0:#x} data:{1:#x}"}
    return {
        "name": "tiny",
        "spaces": [
            {"name": "data", "size": "0x100"},
            {"name": "io", "size": "0x40", "pointer": False},
        ],
        "windows": [{"from": "io", "first": 0, "last": "0x3F", "into": "data", "offset": "0x20"}],
        "registers": [
            {"name": name, "address": addresses[spelled].format(*pair)}
            for name, pair in BY_HAND.items()
        ],
    }


@pytest.mark.parametrize("spelled", ["io", "data", "both"])
def test_the_resolver_knows_both_addresses(spelled):
    data = json.dumps({"format": 1, **description(spelled)}).encode()
    chip = read_description(Source("tiny.json", data, "json")).chip
    found = {
        placed.name: tuple(placed.address(space).value for space in ("io", "data"))
        for placed in resolve(chip).registers
    }
    assert found == BY_HAND


@pytest.mark.parametrize("spelled", ["io", "data", "both"])
def test_the_preprocessor_knows_both_addresses(spelled, tmp_path):
    emitted(description(spelled)).write(tmp_path)
    found = macros_of('#include "tiny.h"', "-x", "assembler-with-cpp", folder=tmp_path)
    addresses = {
        name: tuple(int(found[f"{name}_{space}_ADDR"].rstrip("U"), 0) for space in ("IO", "DATA"))
        for name in BY_HAND
    }
    assert addresses == BY_HAND


def test_a_pointer_takes_the_data_address(compile_c, tmp_path):
    emitted(description("io")).write(tmp_path)
    source = """#include <assert.h>
#include <stdint.h>
static uint8_t memory[0x100];
#define TINY_REG8(address) memory[address]
#include "tiny.h"
int main(void) {
    DIRECTION = 0x11U;
    OUTPUT = 0x22U;
    assert(memory[0x37] == 0x11U && memory[0x38] == 0x22U);
    assert(memory[0x17] == 0U && memory[0x18] == 0U);
    return 0;
}
"""
    process = compile_c(source, link=True)
    assert process.returncode == 0, process.stderr
    assert subprocess.run([tmp_path / "program"], check=False).returncode == 0
