"""What lies at an address, and what a wrong address may have meant.

The addresses are worked out by hand from the descriptions' own text. On the 8-bit Sorrel chips I/O
0x00 to 0x3F is seen at data 0x20 to 0x5F.
"""

from __future__ import annotations

import time

import pytest
from described import made, shipped

from regwright.audit.locations import ADDED_TWICE, ALREADY_ADDED, NOT_ADDED, Locations
from regwright.model.chip import Span
from regwright.resolve.chip import Placed, ResolvedChip


@pytest.mark.parametrize(
    ("chip", "space", "address", "spots"),
    [
        ("sorrel14", "data", 0x38, [("OUT_B", 0)]),
        ("sorrel14", "io", 0x18, [("OUT_B", 0)]),
        ("sorrel14", "data", 0x18, []),
        ("sorrel14", "mdio", 0x18, []),
        ("sorrel14", "data", -1, []),
        ("sorrel14", "data", 1 << 80, []),
        # a register of 16 bits and its halves
        ("sorrel14", "data", 0x57, [("ADC_RESULT", 0), ("ADC_RESULT_L", 0)]),
        ("sorrel14", "data", 0x58, [("ADC_RESULT", 1), ("ADC_RESULT_H", 0)]),
        ("sorrel14", "io", 0x38, [("ADC_RESULT", 1), ("ADC_RESULT_H", 0)]),
        ("sorrel14", "data", 0x59, []),
        # one without halves
        ("sorrel40", "io", 0x06, [("STACK", 1)]),
        ("sorrel40", "data", 0x121, [("UART0_DIVISOR", 1)]),
        # read one, write the other
        ("sorrel40", "data", 0x12C, [("UART1_RX", 0), ("UART1_TX", 0)]),
        # 32 bits of memory in bytes: the element 5 of a row that starts at 0x80 in its block
        ("sorrel32", "data", 0x7000_54A8, [("PROBE_SETTLE5", 0)]),
        ("sorrel32", "data", 0x7000_54AB, [("PROBE_SETTLE5", 3)]),
        ("sorrel32", "data", 0x7000_54AC, []),
        ("sorrel32", "data", 0x7000_029F, [("BEAT_UPTIME", 7)]),
        # a unit of 16 bits holds a whole register
        ("ethernet_phy", "mdio", 1, [("STATUS", 0)]),
    ],
)
def test_what_lies_at_an_address(
    chip: str, space: str, address: int, spots: list[tuple[str, int]]
) -> None:
    found = Locations(shipped(chip)).at(space, address)
    assert [(spot.placed.name, spot.offset) for spot in found] == spots


def test_a_register_takes_units_of_the_space_that_is_asked_for() -> None:
    # 16 bits are one word of program space, and two bytes where that is seen in data space
    resolved = made(
        spaces=[
            {"name": "words", "size": "0x10", "unit": 16},
            {"name": "bytes", "size": "0x1000"},
        ],
        windows=[{"from": "words", "first": 0, "last": 7, "into": "bytes", "offset": "0x100"}],
        registers=[{"name": "A", "address": "words:0x4", "width": 16}],
    )
    locations = Locations(resolved)
    assert [spot.offset for spot in locations.at("bytes", 0x105)] == [1]
    assert locations.at("words", 5) == ()


@pytest.mark.parametrize(
    ("chip", "space", "address", "meant"),
    [
        # I/O 0x18 is OUT_B, whose data address is 0x38
        ("sorrel14", "data", 0x18, [("OUT_B", NOT_ADDED, 0x38, "io")]),
        # data 0x34 is DIR_A itself; no register has the I/O address 0x34
        ("sorrel14", "data", 0x34, []),
        # data 0x35 is OUT_A, but I/O 0x35 is ADC_CTRL, whose data address is 0x55
        ("sorrel14", "data", 0x35, [("ADC_CTRL", NOT_ADDED, 0x55, "io")]),
        # 0x18 + 0x20 + 0x20
        ("sorrel14", "data", 0x58, [("OUT_B", ADDED_TWICE, 0x38, "io")]),
        # the data address of OUT_B where an I/O address belongs; I/O 0x38 is ADC_RESULT_H
        ("sorrel14", "io", 0x38, [("OUT_B", ALREADY_ADDED, 0x18, "data")]),
        # the second byte of STACK, which lies at I/O 0x05
        ("sorrel40", "data", 0x06, [("STACK", NOT_ADDED, 0x26, "io")]),
        # beyond the window: ADC_MUX has no I/O address, whatever is done to it
        ("sorrel40", "io", 0x9C, []),
        ("sorrel40", "data", 0x7C, [("NVM_CTRL", ADDED_TWICE, 0x5C, "io")]),
        ("sorrel14", "data", -1, []),
        ("sorrel14", "nowhere", 0x18, []),
        # no window
        ("sorrel32", "data", 0x7003_0000, []),
    ],
)
def test_what_a_forgotten_distance_may_have_meant(
    chip: str, space: str, address: int, meant: list[tuple[str, str, int, str]]
) -> None:
    found = Locations(shipped(chip)).seen_through(space, address)
    assert [(one.placed.name, one.kind, one.right, one.wrong_space) for one in found] == meant
    assert all((one.window.source, one.window.into) == ("io", "data") for one in found)


def test_both_halves_and_the_whole_may_be_meant() -> None:
    # I/O 0x38 is the second byte of ADC_RESULT and the first of ADC_RESULT_H
    found = Locations(shipped("sorrel14")).seen_through("data", 0x38)
    assert [(one.placed.name, one.right) for one in found] == [
        ("ADC_RESULT", 0x58),
        ("ADC_RESULT_H", 0x58),
    ]


def test_of_two_windows_the_one_counts_that_shows_the_register() -> None:
    # I/O 0x00 to 0x0F is seen at data 0x20, I/O 0x10 to 0x1F at data 0x110
    first = {"from": "io", "first": 0, "last": "0x0F", "into": "data", "offset": "0x20"}
    second = {"from": "io", "first": "0x10", "last": "0x1F", "into": "data", "offset": "0x100"}
    resolved = made(
        spaces=[{"name": "io", "size": "0x20"}, {"name": "data", "size": "0x400"}],
        windows=[first, second],
        registers=[{"name": "A", "address": "io:0x12"}],
    )
    locations = Locations(resolved)
    (one,) = locations.seen_through("data", 0x12)
    assert (one.kind, one.right, one.window.offset) == (NOT_ADDED, 0x112, 0x100)
    (one,) = locations.seen_through("io", 0x112)
    assert (one.kind, one.right, one.window.offset) == (ALREADY_ADDED, 0x12, 0x100)
    (one,) = locations.seen_through("data", 0x212)
    assert (one.kind, one.right, one.window.offset) == (ADDED_TWICE, 0x112, 0x100)
    assert locations.seen_through("data", 0x132) == ()


def test_without_a_distance_nothing_was_forgotten() -> None:
    resolved = made(
        spaces=[{"name": "io", "size": "0x40"}, {"name": "data", "size": "0x40"}],
        windows=[{"from": "io", "first": 0, "last": "0x3F", "into": "data", "offset": 0}],
        registers=[{"name": "A", "address": "io:0x4"}],
    )
    locations = Locations(resolved)
    assert locations.seen_through("data", 4) == ()
    assert locations.seen_through("io", 4) == ()


@pytest.mark.parametrize(
    ("chip", "space", "address", "words"),
    [
        ("sorrel14", "data", 0x38, "the register OUT_B"),
        ("sorrel14", "data", 0x18, "the CPU's own registers"),
        ("sorrel14", "data", 0x60, "SRAM"),
        ("sorrel14", "data", 0x160, "nothing, for the space ends before it"),
        ("sorrel14", "io", 0x00, "something that the description does not name"),
        # the whole where it starts, the half where that starts
        ("sorrel14", "data", 0x57, "the register ADC_RESULT"),
        ("sorrel14", "data", 0x58, "the register ADC_RESULT_H"),
        ("sorrel40", "data", 0x26, "the register STACK"),
        ("sorrel40", "data", 0x124, "the registers UART0_RX and UART0_TX"),
        ("uart16550", "uart", 0, "the registers RX_DATA, TX_DATA and DIVISOR_LOW"),
    ],
)
def test_words_for_what_an_address_hits(chip: str, space: str, address: int, words: str) -> None:
    assert Locations(shipped(chip)).hits(space, address) == words


def test_many_registers_at_one_address_are_counted() -> None:
    registers = [{"name": f"R{number}", "address": 0} for number in range(6)]
    words = Locations(made(registers=registers)).hits("data", 0)
    assert words == "the registers R0, R1 and 4 more"


@pytest.mark.parametrize(
    ("chip", "space", "address", "can"),
    [
        ("sorrel14", "data", 0x1F, False),  # the CPU's own registers
        ("sorrel14", "data", 0x20, True),  # ports
        ("sorrel14", "data", 0x15F, True),  # SRAM
        ("sorrel14", "data", 0x160, False),  # beyond
        ("sorrel14", "data", -1, False),
        ("sorrel14", "io", 0x3F, True),  # no region says
        ("sorrel14", "nowhere", 0, False),  # no such space
        ("sorrel32", "data", 0x1000_0000, True),  # program memory
    ],
)
def test_what_a_pointer_can_aim_at(chip: str, space: str, address: int, can: bool) -> None:
    assert Locations(shipped(chip)).can_be_meant(space, address) is can


def test_a_described_register_can_be_meant_wherever_it_is() -> None:
    reserved = {"name": "R", "kind": "reserved", "first": "0x10", "last": "0x1F"}
    resolved = made(
        spaces=[{"name": "data", "size": "0x100", "regions": [reserved]}],
        registers=[{"name": "A", "address": "0x12"}],
    )
    assert Locations(resolved).can_be_meant("data", 0x12)
    assert not Locations(resolved).can_be_meant("data", 0x13)


def test_what_instructions_reach() -> None:
    locations = Locations(shipped("sorrel14"))
    assert locations.reach("io") == Span(0, 0x3F)
    assert locations.reach("data") == Span(0, 0x15F)
    assert locations.reach("nowhere") is None
    assert locations.single_bit_spans("io") == (Span(0, 0x1F),)
    assert locations.single_bit_spans("data") == ()


def _named(resolved: ResolvedChip, name: str) -> Placed:
    (placed,) = (item for item in resolved.registers if item.name == name)
    return placed


def test_which_registers_single_bit_instructions_reach() -> None:
    small, large = shipped("sorrel14"), shipped("sorrel32")
    locations = Locations(small)
    assert locations.single_bit_reach(_named(small, "OUT_B")) is True  # I/O 0x18
    assert locations.single_bit_reach(_named(small, "NVM_ADDRESS")) is False  # I/O 0x2D
    assert Locations(large).single_bit_reach(_named(large, "BEAT_KEY")) is None


def test_a_claim_of_the_document_comes_before_the_address() -> None:
    window = {
        "from": "io",
        "first": 0,
        "last": "0x3F",
        "into": "data",
        "offset": "0x20",
        "singleBit": {"first": 0, "last": "0x1F"},
    }
    resolved = made(
        spaces=[{"name": "data", "size": "0x100"}, {"name": "io", "size": "0x40"}],
        windows=[window],
        registers=[{"name": "A", "address": "io:0x04", "singleBit": False}],
    )
    assert Locations(resolved).single_bit_reach(resolved.registers[0]) is False


def test_a_large_chip_is_indexed_once() -> None:
    resolved = made(
        spaces=[{"name": "data", "size": "0x20000"}, {"name": "io", "size": "0x8000"}],
        windows=[{"from": "io", "first": 0, "last": "0x7FFF", "into": "data", "offset": "0x20"}],
        registers=[
            {"name": f"R{number}_", "address": f"io:{number * 0x1000:#x}", "count": 4096}
            for number in range(8)
        ],
    )
    locations = Locations(resolved)
    start = time.process_time()
    for address in range(0x8000):
        (spot,) = locations.at("data", address + 0x20)
        assert spot.placed is resolved.registers[address]
        assert len(locations.seen_through("data", address)) == (2 if address >= 0x40 else 1)
        assert locations.hits("io", address) == f"the register {spot.placed.name}"
    # a search through all 32,768 registers for each of these takes many minutes
    assert time.process_time() - start < 10
