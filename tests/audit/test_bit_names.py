"""Whose bit a name is, and positions and masks taken for each other.

The numbers are those of the descriptions, read off them by hand: in sorrel14 OUT_B has PULLS in
bits 5:3, LED at 2, VENT_CLOSE at 1 and VENT_OPEN at 0. The names and numbers of the real devices
are those of ``linux/serial_reg.h`` and ``linux/mii.h``, as the C library has them.
"""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from audit_sources import repaired, subject_of, told
from described import made

from conftest import ROOT, Compile

NAME, REGISTER = "bit-of-another-name", "bit-of-another-register"
POSITION, MASK = "position-as-mask", "mask-as-position"
RULES = (NAME, REGISTER, POSITION, MASK)

PORTS = """#define OUT_B (*(volatile uint8_t *)0x38)
#define DIR_B (*(volatile uint8_t *)0x37)
#define WATCHDOG (*(volatile uint8_t *)0x24)
"""


def found(source: str, *rules: str, chip: str = "sorrel14", name: str = "f.c") -> list[str]:
    """Return the rules that find something, with the text that they are about."""
    subject = subject_of(source, chip=chip, name=name)
    return [f"{item.rule}: {item.text}" for item in told(subject, *(rules or RULES))]


def in_function(code: str, before: str = "") -> str:
    return f"{before}void f(void)\n{{\n    {code}\n}}\n"


# Definitions by the name of a register and its field.


@pytest.mark.parametrize(
    ("definition", "is_right"),
    [
        ("#define OUT_B_LED_BITPOS 2", True),
        ("#define OUT_B_LED_BITPOS 4", False),  # that is the mask
        ("#define OUT_B_LED_MASK 0x04", True),
        ("#define OUT_B_LED_MASK 2", False),  # that is the position
        ("#define OUT_B_LED 2", True),  # nothing said: either will do
        ("#define OUT_B_LED 0x04", True),
        ("#define OUT_B_LED (1 << 2)", True),
        ("#define OUT_B_LED 1", False),
        ("#define OUT_B_LED 0", False),
        ("#define OUTB_LED_BIT 2", True),
        ("#define OUTB_LED_BIT 0x04", True),  # BIT is said of both: common practice
        ("#define OUTB_LED_BIT 1", False),
        ("#define OUTB_LED_SHIFT 3", False),
        ("#define Out_B_Led_Msk 4", True),
        ("#define Out_B_Led_Msk 8", False),
        ("#define OUT_B_PULLS_MASK 0x38", True),
        ("#define OUT_B_PULLS_MASK 0x07", False),  # at bit 0, and no name for the shift
        ("#define OUT_B_PULLS_SHIFT 3\n#define OUT_B_PULLS_MASK 0x07", True),
        ("#define OUT_B_PULLS 0x28", True),  # a value in place
        ("#define OUT_B_PULLS 5", True),  # the same for itself
        ("#define OUT_B_PULLS 0x40", False),
        ("#define ADC_MUX_CHANNEL_MASK 0x27", True),
        ("#define ADC_MUX_CHANNEL_BITPOS 0", True),
        ("#define ADC_CTRL_CLOCK_DIV64 0xC0", True),
        ("#define ADC_CTRL_CLOCK_DIV64 6", True),
        ("#define ADC_CTRL_CLOCK_DIV64 64", False),
        ("#define ADC_CTRL_CLOCK_DIV1 0", True),
        ("#define OUT_B_LED_SINGLE_BIT 7", True),  # no name of the header
        ("#define OUT_B_SINGLE_BIT 7", True),  # what it should be is no bit
        ("#define TMR0_COMPARE_RESET 0xFF", True),
        ("#define TMR0_COMPARE_RESET 0", False),
        ("#define WATCHDOG_RESET 0x02", True),  # bit 1 is not defined after reset
        ("#define WATCHDOG_RESET 0x01", False),
        ("#define Tmr0Compare_Reset 0", True),  # may be anything
        ("#define LED 1", True),  # of what?
        ("#define LED_OF_OUT_B 9", True),
        ("enum { OUT_B_VENT_OPEN, OUT_B_VENT_CLOSE, OUT_B_LED };", True),
        ("enum { OUT_B_VENT_CLOSE = 1, OUT_B_PULLS_BITPOS };", False),
        ("static const uint8_t OUT_B_LED_MASK = 1 << 2;", True),
        ("static const uint8_t OUT_B_LED_MASK = 1 << 3;", False),
    ],
)
def test_the_number_of_a_name(definition: str, is_right: bool) -> None:
    assert (found(definition) == []) == is_right


@pytest.mark.parametrize(("name", "language"), [("a.s", "equ"), ("a.S", "set")])
def test_equates_are_definitions(name: str, language: str) -> None:
    source = f"\t.{language} OUT_B_LED_BITPOS, 3\n\t.{language} OUT_B_LED_MASK, 4\n"
    assert found(source, name=name) == [f"{NAME}: OUT_B_LED_BITPOS"]


def test_the_sign_bit_is_a_bit() -> None:
    # int has 32 bits on that chip: 1 << 31 is negative
    source = "#define COPY_LANE0_SETUP_RUN_MASK (1 << 31)\n#define COPY_LANE0_SETUP_RUN (1 << 30)\n"
    assert found(source, chip="sorrel32") == [f"{NAME}: COPY_LANE0_SETUP_RUN"]


@pytest.mark.parametrize(
    ("source", "chip", "message"),
    [
        (
            "#define OUT_B_LED_BITPOS 1",
            "sorrel14",
            "OUT_B_LED_BITPOS is 1, but LED of OUT_B is bit 2; bit 1 is VENT_CLOSE",
        ),
        (
            "#define OUT_B_LED_MASK 0x18",
            "sorrel14",
            "OUT_B_LED_MASK is 0x18, but the mask of OUT_B.LED is 0x04; 0x18 is bits 4:3 of PULLS",
        ),
        (
            "#define ADC_CTRL_CLOCK_DIV64 0xA0",
            "sorrel14",
            "ADC_CTRL_CLOCK_DIV64 is 0xA0, but DIV64 of ADC_CTRL.CLOCK is 0xC0, 0x6 in the field "
            "itself; 0xA0 is DIV32",
        ),
        (
            "#define OUT_B_PULLS_BITPOS 6",
            "sorrel14",
            "OUT_B_PULLS_BITPOS is 6, but PULLS of OUT_B starts at bit 3; bit 6 is reserved",
        ),
        (
            "#define TMR_IRQ_MATCH_MASK 0x1000",
            "sorrel14",
            "TMR_IRQ_MATCH_MASK is 0x1000, but the mask of TMR_IRQ.MATCH is 0x10; 0x1000 is past "
            "the 8 bits of TMR_IRQ",
        ),
        (
            "#define TMR0_COMPARE_RESET 0x00",
            "sorrel14",
            "TMR0_COMPARE_RESET is 0x00, but TMR0_COMPARE resets to 0xFF",
        ),
        (
            "#define UART_LSR_THRE 0x40",
            "uart16550",
            "UART_LSR_THRE is 0x40, but TX_EMPTY of LINE_STATUS is bit 5, its mask 0x20; 0x40 is "
            "TX_IDLE",
        ),
        (
            "#define BMCR_RESET 0x4000",
            "ethernet_phy",
            "BMCR_RESET is 0x4000, but RESET of CTRL is bit 15, its mask 0x8000; 0x4000 is "
            "LOOPBACK",
        ),
    ],
)
def test_what_is_said_of_a_wrong_number(source: str, chip: str, message: str) -> None:
    (item,) = told(subject_of(source, chip=chip), NAME)
    assert item.message == message


@pytest.mark.parametrize(
    ("header", "chip", "start"),
    [
        ("/usr/include/linux/serial_reg.h", "uart16550", "UART_"),
        ("/usr/include/linux/mii.h", "ethernet_phy", ""),
    ],
)
def test_published_headers_have_no_finding(header: str, chip: str, start: str) -> None:
    # the descriptions were made from them: https://docs.kernel.org, uapi
    text = Path(header).read_text(encoding="utf-8")
    names = re.findall(rf"#define\s+({start}\w+)\s+(?:0x)?\d", text)
    subject = subject_of(text, chip=chip)
    assert sum(bool(subject.names.find(name)) for name in names) > 60
    assert told(subject, *RULES) == []


@pytest.mark.parametrize("line", range(60))
def test_a_published_number_that_is_doubled_is_found(line: int) -> None:
    # a slip by one bit in a copy of linux/mii.h
    text = Path("/usr/include/linux/mii.h").read_text(encoding="utf-8")
    wanted = r"#define (?:BMCR|BMSR|ADVERTISE|LPA)_[0-9A-Z_]+\t+(0x[0-9a-f]{4})"
    numbers = [item for item in re.finditer(wanted, text) if int(item[1], 16).bit_count() == 1]
    number = numbers[line % len(numbers)]
    wrong = text[: number.start(1)] + hex(2 * int(number[1], 16)) + text[number.end(1) :]
    subject = subject_of(wrong, chip="ethernet_phy")
    name = number[0].split()[1]
    expected = [name] if subject.names.find(name) else []
    assert [item.text for item in told(subject, NAME) if item.text == name] == expected


# Names without their register, tied to one by their use.


@pytest.mark.parametrize(
    ("names", "code", "finds"),
    [
        ("#define LED 1", "OUT_B |= 1 << LED;", f"{NAME}: LED"),
        ("#define LED 2", "OUT_B |= 1 << LED;", ""),
        ("#define LED 0x04", "OUT_B |= LED;", ""),
        ("#define LED 0x08", "OUT_B |= LED;", f"{NAME}: LED"),
        ("#define LED 2", "OUT_B &= ~LED;", f"{POSITION}: LED"),
        ("#define LED 4", "OUT_B |= 1 << LED;", f"{MASK}: LED"),
        ("#define LED 4", "OUT_B |= LED | 1;", ""),
        ("#define LED 0x0C", "OUT_B |= LED;", ""),  # the lamp and a pull-up
        ("#define LED 1", "DIR_B |= 1 << LED;", ""),  # DIR_B has no field LED
        ("#define LED 2", "if (OUT_B & LED) f();", f"{POSITION}: LED"),
        ("#define LED 4", "if (OUT_B & LED) f();", ""),
        ("#define LED 2", "if (OUT_B & (1 << LED)) f();", ""),
        ("#define LED 2", "if (OUT_B == LED) f();", ""),  # no mask
        ("#define LED 2", "f(LED, OUT_B);", ""),
        ("#define VENT_OPEN 0", "OUT_B |= VENT_OPEN;", f"{POSITION}: VENT_OPEN"),
        ("#define VENT_CLOSE 0", "OUT_B |= VENT_CLOSE;", ""),  # it may mean none
        ("#define led_bit 1", "OUT_B |= 1 << led_bit;", f"{NAME}: led_bit"),
        ("#define LED_MASK 2", "OUT_B |= LED_MASK;", f"{NAME}: LED_MASK"),
        ("#define BV(n) (1 << (n))\n#define LED 4", "OUT_B |= BV(LED);", f"{MASK}: LED"),
        ("#define BV(n) (1 << (n))\n#define LED 2", "OUT_B |= BV(LED);", ""),
        ("#define BV(n) (1 << (n))\n#define LED 1", "OUT_B |= BV(LED);", f"{NAME}: LED"),
        ("#define BV(n) (1 << (n))\n#define LED 4", "OUT_B &= ~BV( LED );", f"{MASK}: LED"),
        ("#define ENABLE 1", "WATCHDOG |= ENABLE << 1;", ""),  # a truth, not a position
        ("#define PULLS 0x18", "OUT_B |= PULLS;", ""),
        ("#define PULLS 3", "OUT_B |= PULLS;", f"{POSITION}: PULLS"),
        ("#define PULLS 4", "OUT_B |= 1 << PULLS;", ""),  # one of them
        ("#define PULLS 5", "OUT_B |= PULLS << 3;", ""),
        ("enum { LED = 3 };", "OUT_B |= 1 << LED;", f"{NAME}: LED"),
    ],
)
def test_a_name_is_tied_to_the_register_it_is_used_for(names: str, code: str, finds: str) -> None:
    assert found(in_function(code, f"{PORTS}{names}\n")) == ([finds] if finds else [])


def test_it_is_said_at_the_definition() -> None:
    subject = subject_of(in_function("OUT_B |= 1 << LED;", f"{PORTS}#define LED 1\n"))
    (item,) = told(subject, *RULES)
    assert (item.line, item.message) == (
        4,
        "LED is 1, but LED of OUT_B is bit 2, its mask 0x04; bit 1 is VENT_CLOSE, "
        "0x01 is VENT_OPEN",
    )


def test_a_definition_that_is_right_elsewhere_is_not_to_blame() -> None:
    # UNLOCK is bit 4 of NVM_CTRL, and bit 0 of WATCHDOG
    code = "NVM_CTRL = 1 << UNLOCK;\n    WATCHDOG = 1 << UNLOCK;"
    (item,) = told(subject_of("#define UNLOCK 4\n" + in_function(code)), *RULES)
    assert (item.rule, item.line, item.text) == (NAME, 5, "UNLOCK")


@pytest.mark.parametrize(
    ("more", "is_found"),
    [
        ("", True),
        ("void g(void) { write_pin(LED, 1); }", False),  # a pin's number
        ("void g(void) { DIR_B = 1 << LED; }", False),  # this board has it elsewhere
        ("#define LED_ON 1", True),
    ],
)
def test_a_name_that_nothing_uses_is_of_the_register_of_its_neighbours(
    more: str, is_found: bool
) -> None:
    names = "#define LED 1\n#define VENT_OPEN 0x01\n"
    source = in_function("OUT_B |= VENT_OPEN;", PORTS + names) + more
    assert found(source) == ([f"{NAME}: LED"] if is_found else [])


# One register's bit for another register.


@pytest.mark.parametrize(
    ("code", "finds"),
    [
        ("TMR_IRQ |= OUT_B_LED_MASK;", True),
        ("TMR_IRQ |= 1 << OUT_B_LED_BITPOS;", True),
        ("if (TMR_IRQ & OUT_B_LED_MASK) f();", True),
        ("TMR_IRQ = TMR_FLAGS_MATCH_MASK;", False),  # both have MATCH at bit 4
        ("DIR_B = OUT_B_LED_MASK | OUT_B_VENT_OPEN_MASK;", False),  # the pins' directions
        ("DIR_B |= 1 << OUT_B_LED_BITPOS;", False),
        ("if (IN_B & OUT_B_LED_MASK) f();", False),
        ("OUT_B &= ~DIR_B_PINS_MASK;", False),  # all the pins
        ("OUT_B |= ADC_MUX_CHANNEL_MASK;", True),
        ("TMR0_COMPARE = OUT_B_LED_MASK;", False),  # a plain number
        ("OUT_B = (TMR_FLAGS & TMR_FLAGS_MATCH_MASK) | 1;", False),  # cut out, not put
        ("OUT_B = (seen & TMR_FLAGS_MATCH_MASK) != 0;", False),
        ("OUT_B = table[ADC_CTRL_IRQ_BITPOS];", False),
        ("ADC_CTRL = ADC_CTRL_CLOCK_DIV4;", False),
        ("TMR0_CTRL = ADC_CTRL_CLOCK_DIV4;", True),
        ("TMR0_CTRL = ADC_CTRL_CLOCK_DIV1;", True),  # also when it is 0
    ],
)
def test_a_bit_in_another_register(code: str, finds: bool) -> None:
    rules = [item.partition(":")[0] for item in found(in_function(code))]
    assert rules == ([REGISTER] if finds else [])


@pytest.mark.parametrize(
    ("code", "finds"),
    [
        ("UART0_CTRL |= UART1_CTRL_RX_ENABLE_MASK;", False),  # two instances of one block
        ("TMR1_CTRL = TMR0_CTRL_CLOCK_DIV64;", False),  # the same field with the same value
        ("TMR1_CTRL = ADC_CTRL_CLOCK_DIV64;", True),  # DIV64 is 6 there and 4 here
        ("UART0_CTRL |= UART0_STATUS_SENT_MASK;", True),
    ],
)
def test_registers_that_are_alike(code: str, finds: bool) -> None:
    rules = [item.partition(":")[0] for item in found(in_function(code), chip="sorrel40")]
    assert rules == ([REGISTER] if finds else [])


def test_aliases_and_halves_are_at_home() -> None:
    bit = {"name": "RUN", "bits": "3"}
    registers = [
        {"name": "CTRL", "address": "0x10", "fields": [bit, {"name": "STOP", "bits": "2"}]},
        {"name": "MIRROR", "address": "0x10", "aliasOf": "CTRL", "flags": "- - - - A B C D"},
        {
            "name": "WIDE",
            "address": "0x20",
            "width": 16,
            "halves": {"low": {"name": "WIDE_L"}, "high": {"name": "WIDE_H"}},
            "fields": [bit],
        },
    ]
    chip = made(registers=registers)
    code = "MIRROR |= CTRL_RUN_MASK; WIDE_L |= WIDE_RUN_MASK; CTRL = MIRROR_A_MASK;"
    assert told(subject_of(in_function(code), chip=chip, name="f.c"), *RULES) == []


def test_the_message_names_both_registers() -> None:
    (item,) = told(subject_of(in_function("TMR_IRQ |= 1 << ADC_CTRL_DONE_BITPOS;")), REGISTER)
    assert item.message == (
        "ADC_CTRL_DONE_BITPOS is a bit of ADC_CTRL, but this is TMR_IRQ, where bit 3 is OVERFLOW"
    )


# Instructions and functions that stand for them.


@pytest.mark.parametrize(
    ("line", "finds"),
    [
        ("bset OUT_B_IO_ADDR, OUT_B_LED_BITPOS", ""),
        ("bset OUT_B_IO_ADDR, OUT_B_LED_MASK", MASK),
        ("bset OUT_B_IO_ADDR, TMR_FLAGS_MATCH_BITPOS", REGISTER),
        ("bset DIR_B_IO_ADDR, OUT_B_LED_BITPOS", ""),
        ("bskip IN_B_IO_ADDR, OUT_B_LED_BITPOS", ""),
        ("bset OUT_B_IO_ADDR, 2", ""),
    ],
)
def test_the_bit_of_an_instruction(line: str, finds: str) -> None:
    rules = [item.partition(":")[0] for item in found(f"\t{line}\n", name="f.S")]
    assert rules == ([finds] if finds else [])


@pytest.mark.parametrize(
    ("call", "finds"),
    [
        ("outb(UART_LCR_DLAB, port + UART_LCR)", ""),
        ("outb(UART_LCR_DLAB, port + UART_IER)", REGISTER),
        ("outb(UART_LCR_DLAB | UART_LCR_WLEN8, port + UART_LCR)", ""),
        ("outb(UART_MCR_RTS | UART_MCR_DTR, port + UART_LCR)", REGISTER),
        ("outb(lsr & UART_LSR_DR, port + UART_SCR)", ""),
        ("outb(lsr & UART_LSR_DR, port + UART_MCR)", ""),  # cut out of another register
        ("outb(f(UART_LSR_DR), port + UART_MCR)", ""),
        ("outb(UART_FCR_ENABLE_FIFO, port + offset)", ""),  # which one?
    ],
)
def test_the_value_of_a_call(call: str, finds: str) -> None:
    rules = {item.partition(":")[0] for item in found(in_function(f"{call};"), chip="uart16550")}
    assert rules == ({finds} if finds else set())


# Positions and masks.


@pytest.mark.parametrize(
    ("wrong", "right", "before", "after"),
    [
        ("OUT_B |= OUT_B_LED_BITPOS;", "OUT_B |= OUT_B_LED_MASK;", 0x20, 0x24),
        ("OUT_B = OUT_B_LED_BITPOS;", "OUT_B = OUT_B_LED_MASK;", 0x20, 0x04),
        ("OUT_B &= ~OUT_B_LED_BITPOS;", "OUT_B &= ~OUT_B_LED_MASK;", 0x3F, 0x3B),
        ("if (OUT_B & OUT_B_LED_BITPOS) OUT_B = 1;", "", 0x04, 0x01),
        ("OUT_B |= 1U << OUT_B_LED_MASK;", "OUT_B |= 1U << OUT_B_LED_BITPOS;", 0x20, 0x24),
        ("OUT_B ^= (1 << (OUT_B_LED_MASK));", "OUT_B ^= (1 << (OUT_B_LED_BITPOS));", 0x3F, 0x3B),
    ],
)
def test_one_for_the_other_is_repaired_by_the_headers_name(
    wrong: str, right: str, before: int, after: int, compile_c: Compile, tmp_path: Path
) -> None:
    # a program on the host says what the repaired code does to the lamp at bit 2
    right = right or wrong.replace("BITPOS", "MASK")
    subject = subject_of(in_function(wrong), name="f.c")
    assert len(told(subject, POSITION, MASK)) == 1
    (text,) = repaired(subject, POSITION, MASK)
    assert text == in_function(right)
    assert found(text) == []
    program = f"""static unsigned char memory[0x160];
#define SORREL14_REG8(address) memory[address]
#include "{ROOT / "out" / "sorrel14.h"}"
{text}int main(void) {{ OUT_B = {before}; f(); return OUT_B != {after}; }}
"""
    process = compile_c(program, strict=False, link=True)
    assert process.returncode == 0, process.stderr
    assert subprocess.run([tmp_path / "program"], check=False).returncode == 0


@pytest.mark.parametrize(
    ("source", "is_found"),
    [
        (in_function("ADC_CTRL = ADC_CTRL_CLOCK_BITPOS;"), True),  # which bits of it?
        ("#define OUT_B_LED_BITPOS 2\n" + in_function("OUT_B = OUT_B_LED_BITPOS;"), True),
        ("#define LED 2\n" + in_function("OUT_B = LED;"), True),
        (in_function("OUT_B = OUT_B_LED_BITPOS + 1;"), True),
        (in_function("OUT_B = f(OUT_B_LED_BITPOS);"), False),
        (in_function("f(OUT_B, OUT_B_LED_BITPOS);"), False),
        (in_function("if (OUT_B == OUT_B_LED_BITPOS) f();"), False),
        (in_function("OUT_B = (uint8_t)(on << OUT_B_LED_BITPOS);"), False),
        (in_function("on = OUT_B_LED_BITPOS;"), False),
    ],
)
def test_what_is_not_certain_is_left_as_it_is(source: str, is_found: bool) -> None:
    subject = subject_of(source, name="f.c")
    assert bool(told(subject, POSITION, MASK)) == is_found
    assert repaired(subject, POSITION, MASK) == [source]


def test_what_is_said_of_one_for_the_other() -> None:
    source = in_function("OUT_B |= OUT_B_LED_BITPOS; OUT_B |= 1 << OUT_B_LED_MASK;")
    first, second = told(subject_of(source, name="f.c"), POSITION, MASK)
    assert first.message == (
        "OUT_B_LED_BITPOS is the position of LED in OUT_B and is used as a mask: 0x02 is "
        "VENT_CLOSE; its mask is 0x04, OUT_B_LED_MASK"
    )
    assert second.message == (
        "OUT_B_LED_MASK is the mask of LED in OUT_B and is used as a position: bit 4 is one bit "
        "of PULLS; its position is 2, OUT_B_LED_BITPOS"
    )


def test_the_branch_is_told() -> None:
    source = "#ifdef OLD\n#define LED 1\n#else\n#define LED 2\n#endif\n"
    (item,) = told(subject_of(PORTS + source + in_function("OUT_B |= 1 << LED;"), name="f.c"), NAME)
    assert item.line == 5
    assert item.message.endswith("(under #if defined(OLD))")
