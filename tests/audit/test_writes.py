"""What writes do to flags and reserved bits, and what cannot be read or written at all.

What a write does to a flag is worked out by a small register of our own, after the words of
IEEE 1685 (``modifiedWriteValue``, ``readAction``); the rest by hand from the descriptions.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
from audit_sources import subject_of, told
from described import made
from hypothesis import given, settings
from hypothesis import strategies as st

FLAGS, LOST = "flags-cleared-by-the-way", "flag-lost-in-between"
NO_READ, NO_WRITE = "write-only-read", "read-only-written"
EFFECT, RESERVED = "read-has-a-side-effect", "reserved-bits-written"


def in_function(code: str) -> str:
    return f"void f(void)\n{{\n    {code}\n}}\n"


def found(code: str, *rules: str, chip: Any = "sorrel14", name: str = "f.c") -> list[str]:
    """Return the messages of these rules on code within a function."""
    source = in_function(code) if name == "f.c" else code
    return [item.message for item in told(subject_of(source, chip=chip, name=name), *rules)]


def register(name: str, address: int, **properties: Any) -> dict[str, Any]:
    return {"name": name, "address": hex(address), **properties}


def flag(name: str, bit: int, effect: str | None = None, **properties: Any) -> dict[str, Any]:
    more = {"modifiedWriteValue": effect} if effect else {}
    return {"name": name, "bits": str(bit), **more, **properties}


# A register as IEEE 1685 has it.

BITS = 4
EFFECTS = [
    None,
    "oneToClear",
    "oneToSet",
    "oneToToggle",
    "zeroToClear",
    "zeroToSet",
    "zeroToToggle",
]


def after(effect: str | None, old: int, written: int) -> int:
    """Return what a bit is after a write, by the table of modifiedWriteValue in IEEE 1685."""
    if effect is None:
        return written
    acts = written == (1 if effect.startswith("one") else 0)
    if not acts:
        return old
    return {"Clear": 0, "Set": 1, "Toggle": 1 - old}[effect.partition("To")[2]]


def changes(effect: str | None, seen: int, now: int, operator: str, operand: int) -> bool:
    """Tell whether a modifying write changes a bit that was ``seen`` when it is ``now``."""
    made = {"|=": seen | operand, "&=": seen & operand, "^=": seen ^ operand}[operator]
    return after(effect, now, made) != now


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.sampled_from(EFFECTS), min_size=BITS, max_size=BITS),
    st.sampled_from(["|=", "&="]),
    st.integers(0, 2**BITS - 1),
)
def test_a_flag_that_changes_by_the_way_is_found(
    effects: list[str | None], operator: str, mask: int
) -> None:
    fields = [flag(f"F{bit}", bit, effect) for bit, effect in enumerate(effects)]
    chip = made(registers=[register("R", 0x10, fields=fields)])
    operand = mask if operator == "|=" else ~mask
    by_the_way, in_between = set(), set()
    for bit, effect in enumerate(effects):
        if mask >> bit & 1:
            continue  # the write is about it
        own = operand >> bit & 1
        if effect and any(changes(effect, old, old, operator, own) for old in (0, 1)):
            by_the_way.add(f"F{bit}")
        elif effect and any(changes(effect, old, 1 - old, operator, own) for old in (0, 1)):
            in_between.add(f"F{bit}")
    text = f"{mask:#x}" if operator == "|=" else f"~{mask:#x}"
    for rule, expected in ((FLAGS, by_the_way), (LOST, in_between)):
        messages = found(f"R {operator} {text};", rule, chip=chip)
        told_of = [item.partition(" back as ")[0].partition(" writes ")[2] for item in messages]
        named = [name for names in told_of for name in re.findall(r"F\d", names)]
        assert sorted(named) == sorted(expected)


@pytest.mark.parametrize(
    ("code", "message"),
    [
        (
            "TMR_FLAGS |= TMR_FLAGS_MATCH_MASK;",
            "|= on TMR_FLAGS writes OVERFLOW back as it was read, and writing 1 clears OVERFLOW; "
            "TMR_FLAGS_MATCH_CLEAR() clears MATCH and no other",
        ),
        (
            "ADC_CTRL = ADC_CTRL | ADC_CTRL_START_MASK;",
            "this write to ADC_CTRL writes DONE back as it was read, and writing 1 clears DONE; "
            "to leave DONE alone write ADC_CTRL = (ADC_CTRL & ~0x08) | 0x02",
        ),
        (
            "ADC_CTRL &= (uint8_t)~ADC_CTRL_ENABLE_MASK;",
            "&= on ADC_CTRL writes DONE back as it was read, and writing 1 clears DONE; to leave "
            "DONE alone write ADC_CTRL = ADC_CTRL & ~0x09",
        ),
        (
            "ADC_CTRL |= wanted;",
            "|= on ADC_CTRL writes DONE back as it was read, and writing 1 clears DONE; to leave "
            "DONE alone write ADC_CTRL = (ADC_CTRL & ~0x08) | …",
        ),
        (
            "ADC_CTRL = ADC_CTRL_CLOCK_INSERT(ADC_CTRL, 3U);",
            "this write to ADC_CTRL writes DONE back as it was read, and writing 1 clears DONE; "
            "to leave DONE alone write ADC_CTRL = (ADC_CTRL & ~0x88) | 0x60",
        ),
        ("ADC_CTRL |= ADC_CTRL_DONE_MASK;", ""),  # the only flag, and it is meant
        ("ADC_CTRL = wanted | ADC_CTRL_DONE_MASK;", ""),
        ("ADC_CTRL = change(ADC_CTRL);", ""),  # it may know
        ("TMR_FLAGS = TMR_FLAGS;", ""),  # what was seen is cleared on purpose
        ("TMR_FLAGS = TMR_FLAGS & TMR_FLAGS_MATCH_MASK;", ""),
        ("TMR_FLAGS = TMR_FLAGS & ~TMR_FLAGS_MATCH_MASK;", "writes OVERFLOW back"),
        ("TMR_FLAGS &= TMR_FLAGS_MATCH_MASK;", "writes MATCH back"),
        ("TMR_FLAGS = TMR_FLAGS_OVERFLOW_TO_CLEAR(TMR_FLAGS);", ""),
        ("TMR_FLAGS = 0x18;", ""),
        ("TMR_FLAGS_MATCH_CLEAR();", ""),
        ("OUT_B |= OUT_B_LED_MASK;", ""),
        ("seen |= TMR_FLAGS;", ""),
    ],
)
def test_flags_of_the_shipped_chip(code: str, message: str) -> None:
    messages = found(code, FLAGS)
    assert bool(messages) == bool(message)
    assert all(message in item for item in messages)


def test_any_write_acts() -> None:
    fields = [flag("A", 0), flag("B", 1, "clear"), flag("C", 2, "modify")]
    chip = made(registers=[register("R", 0x10, fields=fields)])
    assert found("R |= 1;", FLAGS, chip=chip) == [
        "|= on R writes B and C back as they were read, and any write clears B, any write changes "
        "C; no write to R leaves B and C alone"
    ]
    assert found("R |= 6;", FLAGS, chip=chip) == []
    assert found("R = 1;", FLAGS, chip=chip) == []


def test_only_what_the_access_reaches_counts() -> None:
    flags = [flag("LOW", 3, "oneToClear"), flag("HIGH", 11, "oneToClear")]
    tree = register("R", 0x10, width=16, fields=flags)
    code = "*(volatile unsigned char *)0x10 |= 8;"
    assert found(code, FLAGS, chip=made(registers=[tree])) == []
    assert len(found("R |= 8;", FLAGS, chip=made(registers=[tree]))) == 1
    # where the high end comes first nobody knows which flag it is
    big = made(registers=[{**tree, "byteOrder": "big"}])
    assert found(code, FLAGS, chip=big) == []


def test_what_may_be_two_registers_must_be_wrong_for_both() -> None:
    when = [{"when": "MODE.ALT = 0"}, {"when": "MODE.ALT = 1"}]
    mode = register("MODE", 0x11, fields=[flag("ALT", 0)])
    plain = register("PLAIN", 0x10, fields=[flag("A", 0)], **when[0])
    flags = register("FLAGS", 0x10, fields=[flag("B", 7, "oneToClear")], **when[1])
    code = "*(volatile unsigned char *)0x10 |= 1; FLAGS |= 1; PLAIN |= 1;"
    found_at = told(
        subject_of(in_function(code), chip=made(registers=[mode, plain, flags]), name="f.c"), FLAGS
    )
    assert [item.text for item in found_at] == ["FLAGS"]


def test_a_flag_lost_in_between() -> None:
    code = "WATCHDOG |= WATCHDOG_ENABLE_MASK;"
    assert found(code, LOST) == [
        "|= on WATCHDOG writes FLAG back as read, and writing 0 clears FLAG, also when that has "
        "changed since the read; to leave FLAG alone write WATCHDOG = WATCHDOG | 0x0A"
    ]
    assert found("WATCHDOG |= WATCHDOG_ENABLE_MASK | WATCHDOG_FLAG_MASK;", LOST) == []
    assert found("WATCHDOG_FLAG_CLEAR(); WATCHDOG = 0;", LOST) == []


# What cannot be read.


@pytest.mark.parametrize(
    ("code", "finds"),
    [
        (
            "take(UART0_TX);",
            "UART0_TX is write-only, and it is read here: what is read at 0x124 is UART0_RX",
        ),
        (
            "UART0_TX |= 1;",
            "UART0_TX is write-only, and it is read by |=: what is read at 0x124 is UART0_RX",
        ),
        (
            "UART0_TX = UART0_TX + 1;",
            "UART0_TX is write-only, and it is read here: what is read at 0x124 is UART0_RX",
        ),
        ("UART0_TX = byte;", ""),
        ("take(*(volatile uint8_t *)0x124);", ""),
        ("volatile uint8_t *where = &UART0_TX;", ""),
        ("take(sizeof(UART0_TX));", ""),
    ],
)
def test_a_write_only_register_is_read(code: str, finds: str) -> None:
    assert found(code, NO_READ, chip="sorrel40") == ([finds] if finds else [])


@pytest.mark.parametrize(
    ("code", "finds"),
    [
        ("inb(port + UART_FCR);", "FIFO_CTRL is write-only, and it is read by inb"),
        (
            "inb(FIFO_CTRL_UART_ADDR);",
            "FIFO_CTRL is write-only, and it is read by inb: what is read at 0x02 is IRQ_ID",
        ),
        ("inb(2);", ""),  # that is IRQ_ID
        ("inb(port + UART_RX); inb(0);", ""),
        ("outb(1, port + UART_FCR);", ""),
    ],
)
def test_a_function_reads(code: str, finds: str) -> None:
    assert found(code, NO_READ, chip="uart16550") == ([finds] if finds else [])


@pytest.mark.parametrize("access", ["write-only", "writeOnce", "no-access"])
def test_every_access_word_without_reading(access: str) -> None:
    chip = made(registers=[register("R", 0x10, access=access)])
    assert found("take(R);", NO_READ, chip=chip) == [f"R is {access}, and it is read here"]


# What reading changes.


def test_a_read_that_has_an_effect() -> None:
    whole = register("EVENTS", 0x10, readAction="clear", flags="- - - - - - B A")
    field = register("STATE", 0x11, fields=[flag("A", 0), flag("B", 1, readAction="set")])
    chip = made(registers=[whole, field, register("PLAIN", 0x12)])
    code = "EVENTS |= 1; STATE++; PLAIN |= 1; EVENTS = 1; take(EVENTS); take(STATE & 1);"
    assert found(code, EFFECT, chip=chip) == [
        "|= on EVENTS reads it, and reading clears it",
        "++ on STATE reads it, and reading sets B",
    ]


# What cannot be written.


@pytest.mark.parametrize(
    ("code", "chip", "finds"),
    [
        ("IN_B = 1;", "sorrel14", "IN_B is read-only, and it is written here"),
        ("IN_B |= 4;", "sorrel14", "IN_B is read-only, and it is written by |="),
        (
            "*(volatile uint8_t *)0x39 ^= 1;",
            "sorrel14",
            "IN_B is read-only, and it is written by ^=",
        ),
        ("ADC_RESULT_H = 0;", "sorrel14", "ADC_RESULT_H is read-only, and it is written here"),
        (
            "UART0_RX = 1;",
            "sorrel40",
            "UART0_RX is read-only, and it is written here: what is written at 0x124 is UART0_TX",
        ),
        (
            "UART0_STATUS = UART0_STATUS_EMPTY_MASK;",
            "sorrel40",
            "this write to UART0_STATUS is "
            "about EMPTY only, which can be read but not written in UART0_STATUS",
        ),
        ("UART0_STATUS = UART0_STATUS_EMPTY_MASK | UART0_STATUS_SENT_MASK;", "sorrel40", ""),
        ("UART0_STATUS = UART0_STATUS_RESET;", "sorrel40", ""),  # only EMPTY is set in it
        ("UART0_STATUS = 0;", "sorrel40", ""),
        ("UART0_STATUS = wanted;", "sorrel40", ""),
        ("*(volatile uint8_t *)0x124 = 1;", "sorrel40", ""),  # that is UART0_TX
        ("take(IN_B);", "sorrel14", ""),
        ("IN_B == 1;", "sorrel14", ""),
    ],
)
def test_a_read_only_register_is_written(code: str, chip: str, finds: str) -> None:
    assert found(code, NO_WRITE, chip=chip) == ([finds] if finds else [])


@pytest.mark.parametrize(
    ("line", "finds"),
    [
        ("out IN_B_IO_ADDR, r16", "IN_B is read-only, and it is written by out"),
        ("bset 0x19, 1", "IN_B is read-only, and it is written by bset"),
        ("in r16, IN_B_IO_ADDR", ""),
        ("bskip IN_B_IO_ADDR, 1", ""),
        ("bset OUT_B_IO_ADDR, 1", ""),
        ("out PORT, r16", ""),
    ],
)
def test_an_instruction_writes(line: str, finds: str) -> None:
    assert found(f"\t{line}\n", NO_WRITE, name="f.S") == ([finds] if finds else [])


def test_an_instruction_writes_a_read_only_bit() -> None:
    space = [{"name": "data", "size": "0x100"}, {"name": "io", "size": "0x40", "pointer": False}]
    chip = made(
        spaces=space,
        instructions=[{"names": "bset", "space": "io", "access": "modify", "address": 1, "bit": 2}],
        registers=[
            register("R", 0x10, fields=[flag("A", 0), flag("B", 1, access="read-only")])
            | {"address": "io:0x10"}
        ],
    )
    lines = "\tbset 0x10, 0\n\tbset 0x10, 1\n\tbset 0x10, 7\n"
    assert found(lines, NO_WRITE, chip=chip, name="f.S") == [
        "B of R is read-only, and is written by bset"
    ]


# Reserved bits.


@pytest.mark.parametrize(
    ("code", "finds"),
    [
        (
            "DIR_B = 0xFF;",
            "this write to DIR_B writes 1 to bits 7:6, reserved and to be written as "
            "0; 0x3F is right",
        ),
        ("DIR_B |= 0x40;", "|= on DIR_B writes 1 to bit 6, reserved and to be written as 0"),
        (
            "DIR_B = ~DIR_B_PINS_MASK;",
            "this write to DIR_B writes 1 to bits 7:6, reserved and to "
            "be written as 0; 0x00 is right",
        ),
        (
            "DIR_B = wanted | 0x80;",
            "this write to DIR_B writes 1 to bit 7, reserved and to be written as 0",
        ),
        ("DIR_B = wanted ? 0x3F : 0xFF;", ""),  # not known
        ("DIR_B = wanted;", ""),
        ("DIR_B &= 0x3F;", ""),
        ("DIR_B &= ~0x01;", ""),
        ("DIR_B = DIR_B_RESET;", ""),
        ("OUT_A = 0xFF;", ""),
        ("CPU_STATUS = 0xFF;", ""),  # a hyphen in its row says nothing of writing
        ("IN_B = 0xFF;", ""),  # another rule's
    ],
)
def test_bits_to_be_written_as_0(code: str, finds: str) -> None:
    assert found(code, RESERVED) == ([finds] if finds else [])


RESERVING = made(
    registers=[
        register(
            "R",
            0x10,
            reset="0xC0",
            fields=[flag("A", 0)],
            reserved=[
                {"bits": "7:6", "write": "1"},
                {"bits": "5:4", "write": "preserve"},
                {"bits": "3", "write": "0"},
                {"bits": "2:1"},
            ],
        ),
        register("S", 0x11, fields=[flag("A", 0)], reserved=[{"bits": "7:6", "write": "1"}]),
    ]
)


@pytest.mark.parametrize(
    ("code", "finds"),
    [
        (
            "S = 1;",
            "this write to S writes 0 to bits 7:6, reserved and to be written as 1; 0xC1 is right",
        ),
        ("S &= 0x7F;", "&= on S writes 0 to bit 7, reserved and to be written as 1"),
        ("S |= 1;", ""),
        ("S = 0xC1;", ""),
        (
            "R = 0xC1;",
            "this write to R writes a constant to bits 5:4, reserved and to be written "
            "back as read; R = (R & 0x30) | 0xC1 is right",
        ),
        ("R = (R & 0x30) | 0xC1;", ""),
        (
            "R = 0x09;",
            "this write to R writes 1 to bit 3, reserved and to be written as 0, writes 0 to bits "
            "7:6, reserved and to be written as 1, writes a constant to bits 5:4, reserved and to "
            "be written back as read; R = (R & 0x30) | 0xC1 is right",
        ),
        (
            "R &= 0xCF;",
            "&= on R writes a constant to bits 5:4, reserved and to be written back as read",
        ),
        (
            "R |= 0x10;",
            "|= on R writes a constant to bit 4, reserved and to be written back as read",
        ),
        ("R = R_RESET;", ""),
        ("R = (R | 1) & ~6;", ""),
        ("R++;", ""),
    ],
)
def test_bits_to_be_written_as_1_or_as_read(code: str, finds: str) -> None:
    assert found(code, RESERVED, chip=RESERVING) == ([finds] if finds else [])


@pytest.mark.parametrize(
    ("call", "finds"),
    [
        (
            "outb(0x10, port + UART_IER);",
            "outb to IRQ_ENABLE writes 1 to bit 4, reserved and to be written as 0; 0x00 is right",
        ),
        ("outb(IRQ_ENABLE_LINE_MASK, port + UART_IER);", ""),
        ("outb(wanted, port + UART_IER);", ""),
        ("outb(0xFF, port + UART_SCR);", ""),
    ],
)
def test_a_function_writes_reserved_bits(call: str, finds: str) -> None:
    assert found(call, RESERVED, chip="uart16550") == ([finds] if finds else [])
