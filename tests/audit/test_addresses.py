"""Addresses in code: behind pointers, in a whole file, and as constants by a register's name.

What is right and what is hit is worked out by hand from the descriptions' own text: on the 8-bit
Sorrel chips I/O 0x00 to 0x3F is seen at data 0x20 to 0x5F, and data 0x00 to 0x1F are the CPU's own
registers.
"""

from __future__ import annotations

import re
import time
from xml.etree import ElementTree

import pytest
from audit_sources import Told, findings, repaired, subject_of, told
from described import made
from hypothesis import given
from hypothesis import strategies as st

from conftest import DESCRIPTIONS, ROOT

WHOLE_FILE = "file-off-by-a-constant"
BEHIND = "io-address-behind-pointer"
TWICE = "pointer-offset-added-twice"
NAME = "name-at-other-address"
OTHER_NAME = "address-with-other-name"
NOTHING = "address-hits-nothing"
NAMELESS = "name-means-nothing"
ALL = (WHOLE_FILE, BEHIND, TWICE, NAME, OTHER_NAME, NOTHING, NAMELESS)

#: The addresses that the description prints: register, I/O, data.
PRINTED = [
    (register.get("name", ""), int(found[1], 16), int(found[2], 16))
    for register in ElementTree.parse(DESCRIPTIONS / "sorrel14.xml").iter("register")
    if (found := re.fullmatch(r"io:(\w+) data:(\w+)", register.get("address", "")))
]


def lines(source: str, *, chip: str = "sorrel14", name: str = "pins.h") -> list[tuple[int, str]]:
    return [(item.line, item.rule) for item in told(subject_of(source, chip=chip, name=name), *ALL)]


def only(source: str, rule: str, **options: str) -> Told:
    """Return the one finding about a source, which must be of ``rule``."""
    (found,) = told(subject_of(source, **options), *ALL)
    assert found.rule == rule
    return found


def define(name: str, address: str, kind: str = "volatile uint8_t") -> str:
    return f"#define {name} (*({kind} *){address})\n"


# An address of another space behind a pointer.


def test_the_message_says_what_is_hit_and_what_is_right() -> None:
    found = only(define("OUT_B", "0x18"), BEHIND)
    assert (found.line, found.text) == (1, "OUT_B")
    assert found.message == (
        "OUT_B is 0x18 behind a pointer, but that is its I/O address: in data space 0x18 is one "
        "of the CPU's own registers, so a write there changes nothing at the pin. 0x38 is meant "
        "(0x18 + 0x20)"
    )


@pytest.mark.parametrize(
    ("name", "address", "phrase"),
    [
        # the number alone tells: nothing that a pointer aims at is at 0x18
        ("LAMP", "0x18", "LAMP is 0x18 behind a pointer, but that is the I/O address of OUT_B: "),
        ("OUTB", "0x18", "the I/O address of OUT_B, which the name means: "),
        ("PORT_B_DIR", "0x17", "the I/O address of DIR_B, which the name means: "),
        # data 0x35 is OUT_A, and I/O 0x35 is ADC_CTRL
        (
            "ADC_CTRL",
            "0x35",
            "its I/O address: in data space 0x35 hits the register OUT_A. 0x55 is",
        ),
    ],
)
def test_how_the_register_is_known(name: str, address: str, phrase: str) -> None:
    assert phrase in only(define(name, address), BEHIND).message


@pytest.mark.parametrize(
    ("source", "better"),
    [
        ("#define OUT_B (*(volatile uint8_t *)0x18)", "(*(volatile uint8_t *)0x38)"),
        ("#define OUT_B *((volatile uint8_t *) 24)", "*((volatile uint8_t *) 56)"),
        ("#define OUT_B (*(volatile uint8_t *) 030)", "(*(volatile uint8_t *) 070)"),
        ("#define OUT_B (*(volatile uint8_t *)0b00011000u)", "*)0b00111000u)"),
        ("#define R(a) (*(volatile uint8_t *)(a))\n#define OUT_B R(0x18)", "#define OUT_B R(0x38)"),
        ("volatile uint8_t *const out_b = (volatile uint8_t *)0x18;", "uint8_t *)0x38;"),
        ("void f(void) { *(volatile uint8_t *)0x18 = 1; }", "uint8_t *)0x38 = 1; }"),
        ("#define OUT_B (*(volatile uint8_t *)/* io */0x18)", "*)/* io */0x38)"),
    ],
)
def test_a_literal_is_repaired_in_its_own_style(source: str, better: str) -> None:
    (text,) = repaired(subject_of(source), BEHIND)
    assert text.endswith(better)
    assert len(text) == len(source)


@given(
    st.sampled_from(PRINTED),
    st.sampled_from(["0x{:02X}", "0x{:x}U", "{}", "0{:o}", "0b{:08b}", "0X{:04X}ul"]),
    st.sampled_from(["#define {0} (*(volatile uint8_t *){1})", "#define {0} *(vu8 *)({1})"]),
)
def test_each_register_is_repaired_to_what_the_description_prints(
    register: tuple[str, int, int], style: str, form: str
) -> None:
    name, inner, outer = register
    source = form.format(name, style.format(inner))
    (text,) = repaired(subject_of(source), BEHIND)
    written = re.search(r"\*\)\(?(\w+)\)", text)
    assert written is not None
    digits = written[1].lower().rstrip("ul")
    is_octal = style.startswith("0{")
    assert int(digits, 8) if is_octal else int(digits, 0) == outer
    assert lines(text) == []


@pytest.mark.parametrize(
    "source",
    [
        "#define BASE 0x10\n#define OUT_B (*(volatile uint8_t *)(BASE + 8))",
        "#define OUT_B (*(volatile uint8_t *)(0x10 | 0x08))",
    ],
)
def test_a_sum_is_told_and_not_repaired(source: str) -> None:
    assert [rule for _, rule in lines(source)] == [BEHIND]
    assert repaired(subject_of(source), BEHIND) == [source]


def test_a_structure_is_told_once_and_moved_as_a_whole() -> None:
    source = (
        "struct port { volatile uint8_t dir, out, in; };\n"
        "#define PORT_B ((struct port *)0x17)\n"
        "void f(void) { PORT_B->dir = 7; PORT_B->out |= 4; }\n"
    )
    found = only(source, BEHIND)
    assert (found.line, found.text) == (2, "PORT_B")
    assert "PORT_B lies at 0x17 behind a pointer" in found.message
    assert "only as I/O address of DIR_B, OUT_B and IN_B" in found.message
    assert "0x37 is meant (0x17 + 0x20)" in found.message
    assert repaired(subject_of(source), BEHIND) == [source.replace("0x17", "0x37")]


def test_a_structure_that_is_right_for_a_member_is_left_where_it_is() -> None:
    # DIR_A is at data 0x34; 0x35 is the I/O address of ADC_CTRL
    source = (
        "struct mixed { volatile uint8_t DIR_A, ADC_CTRL; };\n"
        "#define MIXED ((struct mixed *)0x34)\n"
    )
    assert only(source, BEHIND).line == 2
    assert repaired(subject_of(source), *ALL) == [source]


def test_a_number_behind_several_pointers_is_told_once_and_repaired_where_it_stands() -> None:
    source = (
        "#define LAMPS 0x18\n"
        "void on(void) { *(volatile uint8_t *)LAMPS = 4; }\n"
        "void off(void) { *(volatile uint8_t *)LAMPS = 0; }\n"
    )
    assert only(source, BEHIND).line == 2
    assert repaired(subject_of(source), BEHIND) == [source.replace("0x18", "0x38")]


@pytest.mark.parametrize(
    "source",
    [
        # the port instruction needs it as it is
        '#define LAMPS 0x18\nvoid f(void) { asm("out %0, r1" :: "I"(LAMPS)); USE(LAMPS); }',
        # the name says that the number is right, and that the pointer is not
        "#define OUT_B_IO_ADDR 0x18\nvoid f(void) { USE(OUT_B_IO_ADDR); }",
        # a sum with the same number is right
        "#define N 0x18\n#define A (*(volatile uint8_t *)(N + 0x20))\nvoid f(void) { USE(N); }",
        # the next enumerator counts on
        "enum { OUT_B_ADDR = 0x18, NEXT };\nvoid f(void) { USE(OUT_B_ADDR); }",
    ],
)
def test_a_number_that_serves_something_else_is_not_repaired(source: str) -> None:
    source = re.sub(r"USE\((\w+)\)", r"*(volatile uint8_t *)\1 = 4", source)
    assert [rule for _, rule in lines(source, name="f.c")] == [BEHIND]
    assert repaired(subject_of(source, name="f.c"), BEHIND) == [source]


def test_how_often_the_number_is_used_is_said_where_it_is_not_repaired() -> None:
    use = "void f{0}(void) {{ *(volatile uint8_t *)OUT_B_IO_ADDR = {0}; }}\n"
    source = "#define OUT_B_IO_ADDR 0x18\n" + "".join(use.format(number) for number in range(3))
    found = only(source, BEHIND)
    assert found.line == 2
    assert found.message.endswith("; so in 2 more places")


def test_each_branch_is_looked_at() -> None:
    source = (
        "#ifdef OLD\n#define LAMP (*(volatile uint8_t *)0x18)\n"
        "#else\n#define LAMP (*(volatile uint8_t *)0x38)\n#endif\n"
    )
    found = only(source, BEHIND)
    assert found.line == 2
    assert found.message.endswith(" (under #if defined(OLD))")


def test_an_element_of_what_a_pointer_reaches() -> None:
    source = "#define MEMORY ((volatile uint8_t *)0)\nvoid f(void) { MEMORY[0x38] = MEMORY[0x18]; }"
    assert only(source, BEHIND, name="f.c").text == "MEMORY[0x18]"


def test_elements_of_a_wrong_pointer_are_not_told_again() -> None:
    source = (
        "static volatile uint8_t *const dir_b = (volatile uint8_t *)0x17;\n"
        "void f(void) { dir_b[1] = 4; dir_b[2] = 1; }\n"
    )
    assert lines(source, name="f.c") == [(1, BEHIND)]


@pytest.mark.parametrize(
    "source",
    [
        define("OUT_B", "0x38"),
        define("OUT_B", "(0x20 + 0x18)"),
        # RAM, a CPU register that is no I/O address of anything, and the registers' own region
        define("BUFFER", "0x0080"),
        define("CPU_R31", "0x1F"),
        define("UNKNOWN", "0x59"),
        # a member alone confirms an address, and says nothing against one in RAM
        "struct s { volatile uint8_t STACK, OUT_B; };\n#define S (*(struct s *)0x80)\n",
    ],
)
def test_what_is_right_or_means_nothing_is_not_told(source: str) -> None:
    assert lines(source) == []


def test_a_chip_without_windows_has_no_other_space() -> None:
    resolved = made(registers=[{"name": "A", "address": "0x38"}])
    assert told(subject_of(define("LAMP", "0x18"), chip=resolved), *ALL) == []


def test_a_load_is_like_a_pointer() -> None:
    source = "start: load r16, 0x38\n store 0x18, r16\n load r17, OUT_B_IO_ADDR\n store 0x90, r1\n"
    found = told(subject_of(source, name="a.S"), *ALL)
    assert [(item.line, item.rule, item.text) for item in found] == [
        (2, BEHIND, "0x18"),
        (3, BEHIND, "OUT_B_IO_ADDR"),
    ]
    assert found[0].message == (
        "store takes a data address, but 0x18 is the I/O address of OUT_B. 0x38 is meant "
        "(0x18 + 0x20)"
    )
    (text,) = repaired(subject_of(source, name="a.S"), BEHIND)
    assert text == source.replace("0x18", "0x38")


def test_the_other_way_round() -> None:
    # a space that pointers reach and that is seen, moved, in another one
    resolved = made(
        spaces=[
            {"name": "near", "size": "0x40"},
            {"name": "far", "size": "0x200", "pointer": False},
        ],
        windows=[{"from": "near", "first": 0, "last": "0x3F", "into": "far", "offset": "0x100"}],
        registers=[{"name": "A", "address": "near:0x10"}],
    )
    source = define("A", "0x110")
    (found,) = told(subject_of(source, chip=resolved), *ALL)
    assert found.rule == BEHIND
    assert "but that is its far address" in found.message
    assert found.message.endswith("0x10 is meant (0x110 - 0x100)")


# The distance twice.


def test_the_distance_was_added_twice() -> None:
    # 0x18 + 0x20 + 0x20; data 0x58 is the converter's high byte
    source = define("OUT_B", "0x58")
    found = only(source, TWICE)
    assert (
        "OUT_B is 0x58 behind a pointer: 0x20 was added twice to the I/O address 0x18"
        in found.message
    )
    assert "0x58 hits the register ADC_RESULT_H. 0x38 is meant (0x18 + 0x20)" in found.message
    assert repaired(subject_of(source), TWICE) == [source.replace("0x58", "0x38")]


# A name at another address.


def test_a_name_at_another_registers_address_is_not_repaired() -> None:
    source = define("OUT_B", "0x39")
    found = only(source, NAME)
    assert found.message == (
        "OUT_B is 0x39 behind a pointer, but its data address is 0x38; 0x39 hits the register IN_B"
    )
    assert repaired(subject_of(source), NAME) == [source]


def test_a_slip_of_the_fingers_is_repaired() -> None:
    # 0x83 is in SRAM; two digits of 0x38 are swapped
    source = define("OUT_B", "0x83")
    assert "the digits 8 and 3 of 0x83 look swapped" in only(source, NAME).message
    assert repaired(subject_of(source), NAME) == [source.replace("0x83", "0x38")]


def test_inside_a_wide_register() -> None:
    # STACK of the Sorrel 40 is 16 bits at 0x25 and 0x26
    source = define("STACK", "0x26", "volatile uint16_t")
    found = only(source, NAME, chip="sorrel40")
    assert found.message == (
        "STACK is 0x26 behind a pointer, but its data address is 0x25; 0x26 lies within it"
    )


def test_a_register_that_pointers_do_not_reach() -> None:
    resolved = made(
        spaces=[
            {"name": "data", "size": "0x100"},
            {"name": "io", "size": "0x40", "pointer": False},
        ],
        registers=[{"name": "A", "address": "io:0x10"}, {"name": "B", "address": "data:0x10"}],
    )
    (found,) = told(subject_of(define("A", "0x10"), chip=resolved), *ALL)
    assert (found.rule, found.message) == (
        NAME,
        "A is 0x10 behind a pointer, but A has no data address: pointers do not reach it; 0x10 "
        "hits the register B",
    )


@pytest.mark.parametrize(
    ("source", "phrase"),
    [
        (
            "#define OUT_B 0x19",
            "but OUT_B has the data address 0x38 and the I/O address 0x18; 0x19 is the I/O address "
            "of IN_B",
        ),
        (
            "#define OUT_B_IO_ADDR 0x38",
            "but OUT_B has the I/O address 0x18; 0x38 is its data address",
        ),
        (
            "enum { OUT_B_DATA_ADDR = 0x39 };",
            "but OUT_B has the data address 0x38; 0x39 is the data address of IN_B",
        ),
        ("static const uint8_t OUT_B = 0x19;", "OUT_B is 0x19, but OUT_B has"),
        ("#define OUT_B_DATA_ADDR 0x83", "the digits 8 and 3 of 0x83 look swapped"),
        ("#define out_b_addr 0x99", "out_b_addr reads as OUT_B and is 0x99, but OUT_B has"),
        # ~0x18 is -25
        ("#define OUT_B ~0x18", "OUT_B is -0x19, but"),
    ],
)
def test_constants_by_the_name_of_a_register(source: str, phrase: str) -> None:
    assert phrase in only(source, NAME).message


def test_equates() -> None:
    assert only(" .equ OUT_B, 0x19\n", NAME, name="a.s").text == "OUT_B"


def test_an_alias_is_a_name() -> None:
    found = only("#define UART_LCR 4\n", NAME, chip="uart16550")
    assert "UART_LCR is 0x04, but LINE_CTRL has the uart address 0x03" in found.message


def test_a_constant_is_repaired_only_where_the_name_says_which_address() -> None:
    source = "#define OUT_B_DATA_ADDR 0x83\n#define OUT_A 0x53\n#define DIR_B_IO_ADDR 0x37\n"
    subject = subject_of(source)
    assert len(told(subject, NAME)) == 3
    assert repaired(subject, NAME) == [source.replace("0x83", "0x38")]


@pytest.mark.parametrize(
    "source",
    [
        "#define OUT_B 0x18",
        "#define OUT_B 0x38",
        "#define OUT_B_RESET 0x04",
        # near a name, and no register's address
        "#define stack 100",
        "#define Watchdog 1",
        # a switch, and mere counts
        "#define WATCHDOG 1\n#if WATCHDOG\n#endif",
        "enum task { STACK, WATCHDOG, ADC_CTRL };",
        # the names of the program's own
        "#define WATCHDOG_TICKS 55\n#define OUTPUT_COUNT 24",
    ],
)
def test_constants_that_are_right_or_no_addresses(source: str) -> None:
    assert lines(source) == []


def test_a_guard_is_no_switch() -> None:
    source = "#if !defined(OUT_B)\n#define OUT_B 0x19\n#endif\n"
    assert only(source, NAME).line == 2


def test_the_offset_in_a_block_is_right() -> None:
    # COPY_EVENTS is at 0x7001_8000 + 0x08
    assert (
        lines("#define COPY_EVENTS 0x08\n#define COPY_EVENTS_DATA_ADDR 0x70018008", chip="sorrel32")
        == []
    )
    assert lines("#define COPY_EVENTS 0x0C", chip="sorrel32") == [(1, NAME)]


def test_a_board_may_space_the_registers_of_a_device() -> None:
    spaced = "".join(
        f"#define UART_{name} 0x{0x40 + 4 * number:X}\n"
        for name, number in [("RX", 0), ("IER", 1), ("LCR", 3), ("MCR", 4)]
    )
    assert lines(spaced, chip="uart16550") == []
    assert lines(spaced + "#define UART_LSR 0x50\n", chip="uart16550") == [(5, NAME)]


def test_a_wrong_constant_behind_a_pointer_is_told_there_only() -> None:
    source = "#define OUT_B 0x39\nvoid f(void) { *(volatile uint8_t *)OUT_B = 1; }\n"
    assert lines(source) == [(2, NAME)]


def test_the_name_of_a_member_counts_against_another_registers_address() -> None:
    row = "{ volatile uint8_t TMR0_CTRL, TMR0_COUNT, TMR0_COMPARE, TMR_FLAGS; }"
    # 0x2D is TMR_IRQ: one member is missing
    assert lines(f"struct t {row};\n#define T (*(struct t *)0x2A)\n") == [(2, NAME)]
    # both serial ports of the Sorrel 40 have a member CTRL
    resolved = made(
        registers=[{"name": "CTRL", "address": "0x10"}],
        blocks=[{"name": "U", "base": "0x20", "registers": [{"name": "CTRL", "offset": 0}]}],
    )
    source = "struct u { volatile uint8_t CTRL; };\n#define FIRST (*(struct u *)0x20)\n"
    assert told(subject_of(source, chip=resolved), *ALL) == []


# An address with another name.


@pytest.mark.parametrize(
    ("source", "message"),
    [
        (define("DIRB", "0x38"), "DIRB reads as DIR_B (0x37), but 0x38 is the register OUT_B"),
        (
            define("PORT_B_DIRECTION", "0x38"),
            "PORT_B_DIRECTION reads as DIR_B, Port B direction (0x37), but 0x38 is the register "
            "OUT_B",
        ),
        # nothing is at 0x18, but as an I/O address it is OUT_B's
        (
            define("DIRB", "0x18"),
            "DIRB reads as DIR_B (0x37), but 0x18 is the I/O address of OUT_B",
        ),
        (
            "#define DIRB 0x18\n",
            "DIRB reads as DIR_B, which has the data address 0x37 and the I/O address 0x17, but "
            "0x18 is the I/O address of OUT_B",
        ),
    ],
)
def test_a_name_that_reads_as_another_register(source: str, message: str) -> None:
    assert only(source, OTHER_NAME).message == message
    assert repaired(subject_of(source), *ALL) == [source]


# What is counted only.


def test_what_means_nothing_is_told_when_it_is_asked_for() -> None:
    source = define("LATCH", "0x38") + define("BUFFER", "0x99") + define("OUT_B", "0x38")
    found = told(subject_of(source, pedantic=True), *ALL)
    assert [(item.line, item.rule) for item in found] == [(1, NAMELESS), (2, NOTHING)]
    assert "LATCH (0x38) is at OUT_B" in found[0].message
    assert "BUFFER (0x99) is no register's address: in data space it hits SRAM" in found[1].message
    assert told(subject_of(source), *ALL) == []


# A whole file.

TABLE = [("DIR_A", 0x14), ("OUT_A", 0x15), ("IN_A", 0x16), ("DIR_B", 0x17), ("OUT_B", 0x18)]


def table(*added: int) -> str:
    """Return a table of definitions with ``added`` put on each I/O address in turn."""
    rows = zip(TABLE, added, strict=False)
    return "".join(define(name, f"0x{number + more:02X}") for (name, number), more in rows)


def test_a_whole_file_is_told_once_and_repaired() -> None:
    source = table(0, 0, 0, 0, 0)
    found = only(source, WHOLE_FILE)
    assert (found.line, found.text) == (1, "DIR_A")
    assert "all 5 addresses behind pointers in this file are 0x20 too low" in found.message
    assert "was the column of I/O addresses copied?" in found.message
    assert "In data space 0x14 is one of the CPU's own registers" in found.message
    assert (
        "Right are 0x34 for DIR_A, 0x35 for OUT_A, 0x36 for IN_A, 0x37 for DIR_B and 0x38 for OUT_B"
        in found.message
    )
    assert repaired(subject_of(source), WHOLE_FILE) == [table(0x20, 0x20, 0x20, 0x20, 0x20)]


@pytest.mark.parametrize(
    ("added", "rules"),
    [
        # 4 of 5 are four fifths, 3 of 4 are not
        ((0, 0, 0, 0, 0x20), [WHOLE_FILE]),
        ((0, 0, 0, 0x20), [BEHIND] * 3),
        ((0, 0, 0), [WHOLE_FILE]),
        ((0, 0), [BEHIND] * 2),
        # two constants: the one that is left over is told by itself
        ((0, 0, 0, 0, 0x40), [WHOLE_FILE, TWICE]),
        ((0x40, 0x40, 0x40), [WHOLE_FILE]),
        # the whole table moved by one
        ((0x21, 0x21, 0x21, 0x21), [WHOLE_FILE]),
    ],
)
def test_how_much_of_a_file_must_be_wrong(added: tuple[int, ...], rules: list[str]) -> None:
    assert [item.rule for item in told(subject_of(table(*added)), *ALL)] == rules


@pytest.mark.parametrize(
    ("added", "why"),
    [
        ((0, 0, 0), "0x20 too low: was the column of I/O addresses copied?"),
        ((0x40, 0x40, 0x40), "0x20 too high: was 0x20 added twice?"),
        (
            (0x21, 0x21, 0x21),
            "0x01 too high: is the base wrong, or is this the map of another chip?",
        ),
    ],
)
def test_why_a_file_may_be_wrong(added: tuple[int, ...], why: str) -> None:
    assert why in only(table(*added), WHOLE_FILE).message


def test_the_list_of_a_file_is_bounded() -> None:
    # all I/O numbers below 0x20, where nothing else can be meant
    rows = [(name, inner) for name, inner, _ in PRINTED if inner < 0x20]
    assert len(rows) == 14
    found = only("".join(define(name, f"0x{inner:02X}") for name, inner in rows), WHOLE_FILE)
    assert "all 14 addresses" in found.message
    assert found.message.endswith(" and 6 more")


def test_a_common_base_is_named() -> None:
    source = "#define PORTS 0x00\n" + "".join(
        define(name, f"(PORTS + 0x{number:02X})") for name, number in TABLE
    )
    found = only(source, WHOLE_FILE)
    assert found.message.endswith(". All are sums with PORTS")
    assert repaired(subject_of(source), WHOLE_FILE) == [source]


def test_an_address_that_may_be_either_is_named_and_left_alone() -> None:
    # data 0x35 is OUT_A; I/O 0x35 is ADC_CTRL: BLINKER tells neither
    source = table(0, 0, 0) + define("BLINKER", "0x35")
    assert "Look also at BLINKER (0x35), which no name tells" in only(source, WHOLE_FILE).message
    assert repaired(subject_of(source), WHOLE_FILE)[0].endswith(define("BLINKER", "0x35"))


def test_the_same_number_again_and_again_is_no_file_of_wrong_numbers() -> None:
    source = "void f(void) {\n" + "*(volatile uint8_t *)0x18 |= 1;\n" * 4 + "}\n"
    assert {item.rule for item in told(subject_of(source), *ALL)} == {BEHIND}


def test_files_are_counted_apart() -> None:
    subject = subject_of(table(0, 0, 0), define("TMR0_CTRL", "0x0A"))
    assert [item.rule for item in told(subject, *ALL)] == [WHOLE_FILE, BEHIND]


def test_without_the_rule_on_files_each_line_is_told() -> None:
    subject = subject_of(table(0, 0, 0))
    found = told(subject, *ALL, levels={WHOLE_FILE: "off"})
    assert [item.rule for item in found] == [BEHIND] * 3


# The whole.


@pytest.mark.parametrize("path", sorted((ROOT / "out").glob("*.[hc]")), ids=lambda path: path.name)
def test_what_is_emitted_has_no_finding(path) -> None:  # type: ignore[no-untyped-def]
    chip = path.stem.removesuffix("_check")
    subject = subject_of(path.read_text("utf-8"), chip=chip, name=path.name, pedantic=True)
    assert findings(subject) == []


def test_many_wrong_lines_take_no_longer_each() -> None:
    def cost(count: int) -> float:
        rows = [f"#define LAMP{n} (*(uint8_t *)0x{n % 0x20:02X})\n" for n in range(count)]
        uses = [f"void f{n}(void) {{ *(uint8_t *)ALL = {n}; }}\n" for n in range(count)]
        subject = subject_of("#define ALL 0x18\n", "".join(rows), "".join(uses))
        subject.verdicts  # noqa: B018 (reading is measured elsewhere)
        start = time.perf_counter()
        findings(subject)
        return time.perf_counter() - start

    cost(50)
    # ten times as much in no more than twice ten times the time, and what the clock misses
    assert cost(2000) < 20 * cost(200) + 0.2
