"""Operands of instructions: addresses of another space, out of reach, bits that are not there.

On the 8-bit Sorrel chips instructions reach I/O 0x00 to 0x3F, single-bit ones 0x00 to 0x1F; I/O
0x00 is data 0x20. What is where is read off the descriptions by hand.
"""

from __future__ import annotations

import pytest
from audit_sources import Told, repaired, subject_of, told
from described import made

OTHER = "data-address-in-instruction"
REACH = "instruction-out-of-reach"
BOTH = (OTHER, REACH)


def only(line: str, rule: str, chip: str = "sorrel14") -> Told:
    (found,) = told(subject_of(f"start: {line}\n", chip=chip, name="a.S"), *BOTH)
    assert found.rule == rule
    return found


def rules(*lines: str, chip: str = "sorrel14") -> list[str]:
    source = "".join(f" {line}\n" for line in lines)
    return [item.rule for item in told(subject_of(source, chip=chip, name="a.S"), *BOTH)]


# The address of another space.


@pytest.mark.parametrize(
    ("line", "message"),
    [
        (
            # past the end of I/O space
            "out 0x56, r16",
            "out takes an I/O address, but 0x56 is the data address of ADC_MUX. 0x36 is meant "
            "(0x56 - 0x20)",
        ),
        (
            # I/O 0x38 is the converter's; the name tells
            "out OUT_B_DATA_ADDR, r16",
            "out takes an I/O address, but OUT_B_DATA_ADDR (0x38) is the data address of OUT_B; "
            "the I/O address 0x38 hits the register ADC_RESULT_H. 0x18 is meant (0x38 - 0x20)",
        ),
        (
            # a single-bit instruction cannot mean I/O 0x35, ADC_CTRL
            "bset 0x35, 1",
            "bset takes an I/O address, but 0x35 is the data address of OUT_A; the I/O address "
            "0x35 hits the register ADC_CTRL. 0x15 is meant (0x35 - 0x20)",
        ),
        (
            # no register has the I/O address 0x34
            "in r16, 0x34",
            "in takes an I/O address, but 0x34 is the data address of DIR_A. 0x14 is meant "
            "(0x34 - 0x20)",
        ),
        (
            # 0x57 is a whole register and its low half
            "in r16, 0x57",
            "in takes an I/O address, but 0x57 is the data address of ADC_RESULT or "
            "ADC_RESULT_L. 0x37 is meant (0x57 - 0x20)",
        ),
    ],
)
def test_a_data_address_in_an_instruction_of_io_space(line: str, message: str) -> None:
    assert only(line, OTHER).message == message


@pytest.mark.parametrize(
    ("source", "better"),
    [
        (" out 0x56, r16\n", " out 0x36, r16\n"),
        (" bset 88, 1\n", " bset 88, 1\n"),  # I/O 56 is past what bset reaches: nothing is sure
        (" bset 53, 1\n", " bset 21, 1\n"),
        (" BSET 0X35, 1 ; OUT_A\n", " BSET 0X15, 1 ; OUT_A\n"),
        # within reach: the description may lack a register at I/O 0x34
        (" in r16, 0x34\n", " in r16, 0x34\n"),
        # a sum, and a name of the header
        (" out 0x36 + 0x20, r16\n", " out 0x36 + 0x20, r16\n"),
        (" out OUT_B_DATA_ADDR, r16\n", " out OUT_B_DATA_ADDR, r16\n"),
        # a number of the file's own, for this and for nothing else
        (" .equ PORT, 0x35\n bset PORT, 1\n", " .equ PORT, 0x15\n bset PORT, 1\n"),
        (
            " .equ PORT, 0x35\n bset PORT, 1\n store PORT, r1\n",
            " .equ PORT, 0x35\n bset PORT, 1\n store PORT, r1\n",
        ),
    ],
)
def test_only_what_is_certain_is_repaired(source: str, better: str) -> None:
    assert repaired(subject_of(source, name="a.S"), *BOTH) == [better]


def test_inline_assembly_is_repaired_in_its_string_and_in_its_operands() -> None:
    source = (
        "void f(unsigned char v)\n{\n"
        '    __asm__ volatile("in r2, 0x19\\n\\t"\n        "out 0x56, r2");\n'
        '    __asm__ volatile("bset %[port], 1" : : [port] "I"(0x35));\n}\n'
    )
    found = told(subject_of(source, name="f.c"), *BOTH)
    assert [(item.line, item.text) for item in found] == [(4, "0x56"), (5, "0x35")]
    assert repaired(subject_of(source, name="f.c"), OTHER) == [
        source.replace("0x56", "0x36").replace("0x35", "0x15")
    ]


@pytest.mark.parametrize(
    "lines",
    [
        ["out 0x18, r16", "out OUT_B_IO_ADDR, r16", "in r16, 0x37", "bset 0x18, 2"],
        ["out OUT_B_DATA_ADDR - 0x20, r16"],
        # nothing is described at either, and a register of the CPU
        ["out 0x3F, r16", "in r16, 0x00", "store 0x90, r16", "load r1, 0x38"],
        # what it stands for is not known; other mnemonics take what they like
        ["out PORT, r16", "out \\port, r16", "load_number r16, 0x38", "nop"],
    ],
)
def test_right_addresses_are_not_told(lines: list[str]) -> None:
    assert rules(*lines) == []


def test_a_name_decides_against_the_number() -> None:
    # I/O 0x35 is ADC_CTRL: right by the number alone, wrong by the name
    assert rules("out 0x35, r16", "out ADC_CTRL_IO_ADDR, r16") == []
    assert rules("out OUT_A_DATA_ADDR, r16") == [OTHER]


def test_a_function_that_takes_an_address() -> None:
    resolved = made(
        spaces=[
            {"name": "data", "size": "0x100"},
            {"name": "io", "size": "0x40", "pointer": False},
        ],
        windows=[{"from": "io", "first": 0, "last": "0x3F", "into": "data", "offset": "0x20"}],
        instructions=[
            {"names": "put", "kind": "function", "space": "io", "access": "write", "address": 1}
        ],
        registers=[{"name": "A", "address": "io:0x18"}],
    )
    source = "void f(void) { put(0x18, 1); put(0x38, 1); }"
    (found,) = told(subject_of(source, chip=resolved, name="f.c"), *BOTH)
    assert (found.rule, found.text) == (OTHER, "0x38")
    assert found.message.startswith("put takes an I/O address, but 0x38 is the data address of A")


def test_where_a_board_has_a_device_is_not_judged() -> None:
    source = "void f(void) { outb(3, 0x3F8 + UART_LCR); inb(0x3FD); }"
    assert told(subject_of(source, chip="uart16550", name="f.c"), *BOTH) == []


# Out of reach.


@pytest.mark.parametrize(
    ("line", "message"),
    [
        (
            # I/O 0x22 is TMR0_CTRL of the Sorrel 40, data 0x22 is nothing
            "bset 0x22, 5",
            "bset reaches the I/O addresses 0x00 to 0x1F, and TMR0_CTRL is at 0x22: in, out, "
            "load and store reach it",
        ),
        (
            "bskip TMR0_CTRL_IO_ADDR, 5",
            "bskip reaches the I/O addresses 0x00 to 0x1F, and TMR0_CTRL is at 0x22: in, out, "
            "load and store reach it",
        ),
        (
            # ADC_CTRL has no I/O address
            "out ADC_CTRL_DATA_ADDR, r16",
            "out reaches the I/O addresses 0x00 to 0x3F, and ADC_CTRL_DATA_ADDR (0x9B) is the "
            "data address of ADC_CTRL: load and store reach it",
        ),
        (
            "out 0x9B, r16",
            "out reaches the I/O addresses 0x00 to 0x3F, and 0x9B is the data address of "
            "ADC_CTRL: load and store reach it",
        ),
        (
            # I/O 0x22, which bset does not reach either
            "bset TMR0_CTRL_DATA_ADDR, 5",
            "bset reaches the I/O addresses 0x00 to 0x1F, and TMR0_CTRL is at 0x22: in, out, "
            "load and store reach it",
        ),
        ("out 0x7F, r16", "out reaches the I/O addresses 0x00 to 0x3F, and 0x7F is past it"),
        ("store 0x640, r1", "store reaches the data addresses 0x00 to 0x63F, and 0x640 is past it"),
    ],
)
def test_an_address_out_of_reach(line: str, message: str) -> None:
    assert only(line, REACH, "sorrel40").message == message


def test_what_the_description_claims_of_a_register_comes_first() -> None:
    resolved = made(
        spaces=[
            {"name": "data", "size": "0x100"},
            {"name": "io", "size": "0x40", "pointer": False},
        ],
        windows=[
            {
                **{"from": "io", "first": 0, "last": "0x3F", "into": "data", "offset": "0x20"},
                "singleBit": {"first": 0, "last": "0x1F"},
            }
        ],
        instructions=[{"names": "bset", "space": "io", "access": "modify", "address": 1, "bit": 2}],
        registers=[
            {"name": "A", "address": "io:0x3F", "singleBit": True},
            {"name": "B", "address": "io:0x10", "singleBit": False},
        ],
    )
    source = " bset 0x3F, 1\n bset 0x10, 1\n"
    found = told(subject_of(source, chip=resolved, name="a.S"), *BOTH)
    assert [(item.line, item.rule) for item in found] == [(2, REACH)]


# Bits.


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("bset 0x18, 9", "of OUT_B, not 9"),
        ("bset 0x18, 0x40", "of OUT_B, not 0x40, which is the mask of bit 6"),
        ("bset 0x1F, 8", ", not 8, which is the mask of bit 3"),
        ("bset PORT, 1 << 5", ", not 1 << 5, which is the mask of bit 5"),
        ("bset 0x18, OUT_B_LED_BITPOS + 7", "of OUT_B, not OUT_B_LED_BITPOS + 7 (9)"),
    ],
)
def test_a_bit_that_is_not_there(line: str, message: str) -> None:
    start = "bset takes a bit from 0 to 7"
    found = only(line, REACH).message
    assert found in (f"{start} {message}", f"{start}{message}")


def test_bits_that_are_there() -> None:
    lines = ["bset 0x18, 7", "bset 0x18, 0", "bset 0x18, LAMP", "bskip 0x19, 5"]
    assert rules(*lines) == []


def test_the_name_of_a_mask_is_another_rules() -> None:
    assert rules("bset OUT_B_IO_ADDR, OUT_B_PULLS_MASK") == []
