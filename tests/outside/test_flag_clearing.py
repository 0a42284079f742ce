"""``R_F_CLEAR()`` clears its flag and no other, shown by running it on simulated registers.

Source: the meaning of modifiedWriteValue in IEEE 1685, written out bit by bit in
``flag_registers``, and a running program. In C the header's hook gives the place where a value
is read and written; in C++ it gives an object that sees each read and each write.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from flag_registers import FlagRegister, chip, registers
from outside_tools import emitted

BYTES = registers(8, 60)
WIDER = registers(16, 10) + registers(32, 10) + registers(24, 2)

C_START = """#include <stdint.h>
#include <stdio.h>
static volatile uint8_t bus;
static unsigned reached, calls;
static volatile uint8_t *reach(unsigned address) { reached = address; calls++; return &bus; }
#define FLAGS_REG8(address) (*reach(address))
#include "flags.h"
"""
CPP_START = """#include <stdint.h>
#include <stdio.h>
static uint32_t s, w;
static unsigned reached, writes;
template <typename Value> struct Register {
    unsigned address;
    operator Value() const { return (Value)s; }
    void operator=(Value value) const { reached = address; w = value; writes++; }
};
#define FLAGS_REG8(address) (Register<uint8_t>{address})
#define FLAGS_REG16(address) (Register<uint16_t>{address})
#define FLAGS_REG32(address) (Register<uint32_t>{address})
#include "flags.h"
"""


def states(width: int) -> str:
    """Return C for a loop over states: all of them where there are few, else spread ones."""
    if width == 8:
        return "for (n = 0U; n < 256U; n++) { uint32_t start = n;"
    return "for (n = 0U; n < 500U; n++) { uint32_t start = n * 2654435761U + n;"


def checks(item: FlagRegister, before: str, after: str) -> str:
    """Return C that clears each flag in each state and compares the register afterwards."""
    width = len(item.kinds)
    ones = (1 << width) - 1
    lines = []
    for name, mask in item.flags():
        lines.append(f"""    {states(width)}
        start &= {ones:#x}U;
        {before}
        {item.name}_{name}_CLEAR();
        {after}
        if (reached != {item.name}_DATA_ADDR) fail("{item.name}_{name}", start, 1U);
        if ((({item.after_write()}) ^ (s & ~(uint32_t){mask:#x}U)) & {item.described_bits():#x}U)
            fail("{item.name}_{name}", start, 2U);
        if ({item.wrong_reserved()}) fail("{item.name}_{name}", start, 3U);
        cleared++;
    }}""")
    return "\n".join(lines)


def program(start: str, items: list[FlagRegister], before: str, after: str) -> str:
    body = "\n".join(checks(item, before, after) for item in items)
    return f"""{start}
static unsigned failures, cleared;
static void fail(const char *flag, uint32_t state, unsigned why) {{
    if (failures++ < 9U) printf("%s in state 0x%08lX: %u\\n", flag, (unsigned long)state, why);
}}
int main(void) {{
    uint32_t n;
{body}
    printf("%u cleared, %u failures\\n", cleared, failures);
    return failures != 0U;
}}
"""


C_BEFORE = "uint32_t s = start, w; bus = (uint8_t)start; calls = 0U;"
C_AFTER = 'w = bus; if (calls < 1U || calls > 2U) fail("accesses", start, calls);'
CPP_BEFORE = "s = start; w = ~start; writes = 0U;"
CPP_AFTER = 'if (writes != 1U) fail("writes", start, writes);'


def run(tmp_path: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([tmp_path / "program"], capture_output=True, text=True, check=False)


def flags_of(items: list[FlagRegister]) -> int:
    return sum(len(item.flags()) for item in items)


def test_in_c_each_flag_of_an_8_bit_register_is_cleared_and_no_other(compile_c, tmp_path):
    emitted(chip(BYTES)).write(tmp_path)
    process = compile_c(program(C_START, BYTES, C_BEFORE, C_AFTER), link=True)
    assert process.returncode == 0, process.stderr
    found = run(tmp_path)
    assert found.stdout == f"{256 * flags_of(BYTES)} cleared, 0 failures\n"


def test_in_cpp_each_flag_is_cleared_by_exactly_one_write(compile_c, tmp_path):
    # the hook of a register of 24 bits is never used: no single access reaches it
    items = [item for item in BYTES + WIDER if len(item.kinds) != 24]
    emitted(chip(items)).write(tmp_path)
    source = program(CPP_START, items, CPP_BEFORE, CPP_AFTER)
    process = compile_c(source, std="c++17", link=True)
    assert process.returncode == 0, process.stderr
    wide = [item for item in items if len(item.kinds) > 8]
    total = 256 * flags_of(BYTES) + 500 * flags_of(wide)
    assert run(tmp_path).stdout == f"{total} cleared, 0 failures\n"


def test_every_kind_of_bit_stands_beside_a_flag():
    kinds = {kind for item in BYTES for kind in item.kinds}
    assert len(kinds) == 11
    assert any(mask.bit_count() > 1 for item in BYTES for _, mask in item.flags())


def test_a_register_without_an_lvalue_has_the_value_to_write_and_no_operation():
    header = emitted(chip(WIDER)).header
    narrow = [item for item in WIDER if len(item.kinds) == 24]
    for item in narrow:
        for name, _ in item.flags():
            assert f"#define {item.name}_{name}_TO_CLEAR(value)" in header
            assert f"{item.name}_{name}_CLEAR()" not in header


@pytest.mark.parametrize("kind", ["one_clears", "zero_clears"])
def test_reading_and_writing_back_would_not_do(kind, compile_c, tmp_path):
    """The simulation tells right from wrong: what beginners write fails in it."""
    kinds = [kind, "plain", "one_clears", "one_toggles", "zero_clears", "0", "1", "preserve"]
    items = [FlagRegister("R", kinds)]
    emitted(chip(items)).write(tmp_path)
    wrong = "R |= R_F0_MASK" if kind == "one_clears" else "R = (uint8_t)(R & ~R_F0_MASK)"
    source = program(C_START, items, C_BEFORE, C_AFTER).replace("R_F0_CLEAR()", wrong)
    assert wrong in source
    process = compile_c(source, link=True)
    assert process.returncode == 0, process.stderr
    found = run(tmp_path)
    assert found.returncode == 1
    assert "R_F0 in state" in found.stdout


def test_bits_that_cannot_be_read_are_not_written_back_as_if_they_had_been(compile_c, tmp_path):
    fields = [
        {"name": "FLAG", "bits": 0, "modifiedWriteValue": "oneToClear"},
        {"name": "PLAIN", "bits": 1},
        {"name": "COMMAND", "bits": 2, "access": "write-only"},
        {"name": "ONCE", "bits": 3, "access": "writeOnce"},
        {"name": "LEVEL", "bits": 4, "access": "read-only"},
    ]
    description = chip([]) | {"registers": [{"name": "R", "address": "0x0", "fields": fields}]}
    emitted(description).write(tmp_path)
    source = """#include "flags.h"
_Static_assert(R_FLAG_TO_CLEAR(0xFFU) == 0x03U, "the flag, and the plain bit as read");
_Static_assert(R_FLAG_TO_CLEAR(0x00U) == 0x01U, "the flag");
"""
    process = compile_c(source)
    assert process.returncode == 0, process.stderr
