"""The form of definitions: volatile, parentheses, width; and configuration values.

Whether a repair does what it should is asked of the compiler (gcc): the type of the object with
``_Generic`` (ISO C11 6.5.1.1), the value of an expression with ``_Static_assert``. Widths and
configuration bits are read off the descriptions by hand.
"""

from __future__ import annotations

import pytest
from audit_sources import Told, repaired, subject_of, told
from described import made

from conftest import Compile
from regwright.resolve.chip import ResolvedChip

VOLATILE = "not-volatile"
CLOSED = "macro-without-parentheses"
WIDTH = "access-width"
CONFIGURED = "configuration-value"


def only(source: str, rule: str, chip: str | ResolvedChip = "sorrel14") -> Told:
    (found,) = told(subject_of(source, chip=chip, name="f.c"), rule)
    return found


def number_of(source: str, rule: str, chip: str | ResolvedChip = "sorrel14") -> int:
    return len(told(subject_of(source, chip=chip, name="f.c"), rule))


# Volatile.

PORT = "struct port { uint8_t dir, out, in; };\n"


@pytest.mark.parametrize(
    ("source", "object_"),
    [
        ("#define OUT_B (*(uint8_t *)0x38)", "OUT_B"),
        ("#define OUT_B (*((unsigned char*) 56))", "OUT_B"),
        ("#define IN_B (*(const uint8_t *)0x39)", "IN_B"),
        ("#define IN_B (*(uint8_t const *)0x39)", "IN_B"),
        ("#define R8(a) (*(uint8_t *)(a))\n#define OUT_B R8(0x38)", "OUT_B"),
        ("static uint8_t *const dir_a = (uint8_t *)0x34;", "*dir_a"),
        ("uint8_t *dir_a = (uint8_t *)0x34;", "*dir_a"),
        ("static const uint8_t *const in_a = (const uint8_t *)0x36;", "*in_a"),
        (PORT + "#define PORT_A (*(struct port *)0x34)", "PORT_A.out"),
        (PORT + "#define PORT_A ((struct port *)0x34)", "PORT_A->out"),
        (PORT + "static struct port *const port = (struct port *)0x34;", "port->in"),
        ("#define PORTS ((uint8_t *)0x30)\n#define OUT_A (PORTS[5])", "OUT_A"),
        ("uint8_t *volatile out_b = (uint8_t *)0x38;", "*out_b"),
    ],
)
def test_what_is_repaired_is_volatile_to_the_compiler(
    source: str, object_: str, compile_c: Compile
) -> None:
    ask = (
        f"#include <stdint.h>\n{source}\n_Static_assert(_Generic(&({object_}), "
        'volatile uint8_t *: 1, const volatile uint8_t *: 1, default: 0), "volatile");\n'
        f"uint8_t now(void) {{ return {object_}; }}\n"
    )
    assert compile_c(ask, "-w", strict=False).returncode != 0
    (text,) = repaired(subject_of(ask, name="f.c"), VOLATILE)
    done = compile_c(text, "-w", strict=False)
    assert done.returncode == 0, done.stderr
    assert number_of(text, VOLATILE) == 0


def test_a_cast_in_code_is_repaired(compile_c: Compile) -> None:
    source = "#include <stdint.h>\nvoid f(void) { *(uint8_t *)0x38 = 1; }\n"
    (text,) = repaired(subject_of(source, name="f.c"), VOLATILE)
    assert "*(volatile uint8_t *)0x38 = 1" in text
    assert compile_c(text, "-w", strict=False).returncode == 0


def test_the_message_names_the_register() -> None:
    found = only("#define LATCH (*(uint8_t *)0x38)", VOLATILE)
    assert found.text == "LATCH"
    assert found.message.startswith("LATCH (OUT_B) is not volatile: the compiler may")


def test_a_shared_cast_is_told_once_where_it_stands() -> None:
    source = (
        "#define R8(a) (*(uint8_t *)(a))\n#define DIR_B R8(0x37)\n#define OUT_B R8(0x38)\n"
        "void f(void) { R8(0x39); DIR_B = 7; }\n"
    )
    found = only(source, VOLATILE)
    assert (found.line, found.text) == (1, "uint8_t")
    assert (
        "through which DIR_B, OUT_B and 0x39 (DIR_B, OUT_B and IN_B) are reached" in found.message
    )
    assert repaired(subject_of(source), VOLATILE) == [
        source.replace("(*(uint8_t", "(*(volatile uint8_t")
    ]


@pytest.mark.parametrize(
    "source",
    [
        # before a name for a pointer it would be the pointer's own
        "typedef uint8_t *cell;\n#define OUT_B (*(cell)0x38)\n",
        # other things may be of the type that a macro names
        "#define BYTE unsigned char\n#define OUT_B (*(BYTE *)0x38)\n",
        "#define CELL uint8_t *\n#define OUT_B (*(CELL)0x38)\n",
        "#define AT(type, address) (*(type *)(address))\n#define OUT_B AT(uint8_t, 0x38)\n",
        # the pointer and what a reference refers to would differ
        "uint8_t &out_b = *reinterpret_cast<uint8_t *>(0x38);\n",
    ],
)
def test_where_it_is_not_clear_what_to_write_nothing_is_written(source: str) -> None:
    subject = subject_of(source, name="f.cpp")
    assert len(told(subject, VOLATILE)) == 1
    assert repaired(subject, VOLATILE) == [source]


@pytest.mark.parametrize(
    "source",
    [
        "#define OUT_B (*(volatile uint8_t *)0x38)",
        "static volatile uint8_t *const out_b = (uint8_t *)0x38;",
        "volatile uint8_t &out_b = *reinterpret_cast<uint8_t *>(0x38);",
        # what the type is, is not known
        "#define OUT_B (*(vu8 *)0x38)",
        # no register is there
        "#define BUFFER ((uint8_t *)0x100)\n#define LAST (*(uint8_t *)0x15F)",
        PORT + "#define PORT_A (*(volatile struct port *)0x34)",
        PORT.replace("uint8_t", "volatile uint8_t") + "#define PORT_A (*(struct port *)0x34)",
    ],
)
def test_what_is_volatile_or_no_register_is_not_told(source: str) -> None:
    assert told(subject_of(source, name="f.cpp"), VOLATILE) == []


def test_members_are_told_together() -> None:
    source = (
        "struct port { volatile uint8_t dir; uint8_t out, in; };\n"
        "#define PORT_B ((struct port *)0x37)\n"
    )
    found = only(source, VOLATILE)
    assert (found.line, found.text) == (2, "PORT_B")
    assert found.message.startswith("PORT_B.out and PORT_B.in (OUT_B and IN_B) are not volatile")


def test_a_register_at_the_wrong_address_must_be_volatile_as_well() -> None:
    assert number_of("#define OUT_B (*(uint8_t *)0x18)", VOLATILE) == 1


# Parentheses.


@pytest.mark.parametrize(
    ("source", "uses"),
    [
        ("#define OUT_B_LED_MASK 1 << 2", "~OUT_B_LED_MASK == ~(1 << 2)"),
        ("#define OUT_B_PULLS_MASK 0x08 | 0x10 | 0x20", "(~OUT_B_PULLS_MASK) == ~0x38"),
        ("#define DIR_B_DATA_ADDR 0x17 + 0x20", "DIR_B_DATA_ADDR * 2 == 0x6E"),
        ("#define LED 1 ? 4 : 2", "(2 * LED) == 8"),
    ],
)
def test_a_repaired_macro_is_one_operand(source: str, uses: str, compile_c: Compile) -> None:
    ask = f'{source}\n_Static_assert({uses}, "one operand");\n'
    assert compile_c(ask, strict=False).returncode != 0
    (text,) = repaired(subject_of(ask, name="f.c"), CLOSED)
    done = compile_c(text, strict=False)
    assert done.returncode == 0, done.stderr
    assert number_of(text, CLOSED) == 0


@pytest.mark.parametrize(
    ("source", "use"),
    [
        ("#define OUT_B *(volatile uint8_t *)0x38", "OUT_B++;"),
        ("#define OUT_B (volatile uint8_t *)0x38", "OUT_B[0] = 1;"),
        (PORT + "#define PORT_A *(volatile struct port *)0x34", "PORT_A.out = 1;"),
        (PORT + "#define PORT_A (volatile struct port *)0x34", "PORT_A->out = 1;"),
        ("#define P (*(volatile uint8_t *)0x38)\n#define OUT_B &P", "OUT_B[0] = 1;"),
    ],
)
def test_what_stands_behind_a_repaired_macro_is_of_all_of_it(
    source: str, use: str, compile_c: Compile
) -> None:
    ask = f"#include <stdint.h>\n{source}\nvoid f(void) {{ {use} }}\n"
    assert compile_c(ask, strict=False).returncode != 0
    (text,) = repaired(subject_of(ask, name="f.c"), CLOSED)
    done = compile_c(text, strict=False)
    assert done.returncode == 0, done.stderr
    assert number_of(text, CLOSED) == 0


def test_the_messages_show_what_comes_apart() -> None:
    assert only("#define LED 1 << 2\n", CLOSED).message == (
        "LED has no parentheses around it: ~LED would be ~1 << 2"
    )
    assert only("#define OUT_B *(volatile uint8_t *)0x38\n", CLOSED).message == (
        "OUT_B has no parentheses around it: in OUT_B++, which would be "
        "*(volatile uint8_t *)0x38++, the ++ comes first"
    )


def test_a_macro_matters_by_what_it_is_used_for() -> None:
    blink = "#define BLINK 1 + 3\n"
    assert number_of(blink, CLOSED) == 0
    assert number_of(blink + "void f(void) { OUT_B |= BLINK; }\n", CLOSED) == 1
    assert number_of(blink + "#define OUT_A (*(volatile uint8_t *)(0x31 + BLINK))\n", CLOSED) == 1
    assert number_of(blink + 'void f(void) { asm("bset 0x18, %0" :: "I"(BLINK)); }', CLOSED) == 1


@pytest.mark.parametrize(
    "source",
    [
        "#define OUT_B_LED_MASK (1 << 2)",
        "#define OUT_B_LED_BITPOS 2",
        # nothing that is put next to these comes between
        "#define OUT_B_LED_MASK (uint8_t)4",
        "#define OUT_B_LED_MASK ~3",
        "#define R8(a) (*(volatile uint8_t *)(a))\n#define OUT_B R8(0x38)",
        "#define MEMORY ((volatile uint8_t *)0)\n#define OUT_A MEMORY[0x35]",
        # nothing of the chip's
        "#define LIMIT 20 + 5",
        "#define BUFFER *(uint8_t *)0x100",
    ],
)
def test_a_macro_of_one_operand_or_without_meaning_is_not_told(source: str) -> None:
    assert number_of(source, CLOSED) == 0


def test_a_comment_behind_the_body_stays_behind_it() -> None:
    source = "#define LED 1 << 2 // the lamp\n#define VENT_OPEN /* open */ 1 | 0 /* shut */\n"
    assert repaired(subject_of(source), CLOSED) == [
        "#define LED (1 << 2) // the lamp\n#define VENT_OPEN /* open */ (1 | 0) /* shut */\n"
    ]


# Width.


@pytest.mark.parametrize(
    ("source", "chip", "message"),
    [
        (
            "#define DIR_A (*(volatile uint16_t *)0x34)",
            "sorrel14",
            "DIR_A is accessed as 16 bits, but DIR_A has 8: the access takes in OUT_A too",
        ),
        (
            # 0x55 ADC_CTRL, 0x56 ADC_MUX, 0x57 and 0x58 ADC_RESULT
            "void f(void) { *(volatile uint32_t *)0x55 = 0; }",
            "sorrel14",
            "0x55 is accessed as 32 bits, but ADC_CTRL has 8: the access takes in ADC_MUX and "
            "ADC_RESULT too",
        ),
        (
            # behind 0x4F there is nothing
            "#define NVM_CTRL (*(volatile uint16_t *)0x4F)",
            "sorrel14",
            "NVM_CTRL is accessed as 16 bits, but NVM_CTRL has 8: the access takes in what lies "
            "behind it too",
        ),
        (
            "#define ADC_RESULT (*(const volatile uint8_t *)0x57)",
            "sorrel14",
            "ADC_RESULT is accessed as 8 bits, but ADC_RESULT has 16: that is one half only; use "
            "ADC_RESULT_L and ADC_RESULT_H",
        ),
        (
            "#define STACK_HIGH (*(volatile uint8_t *)0x26)",
            "sorrel40",
            "STACK_HIGH is accessed as 8 bits, but STACK has 16: that is a part of STACK only",
        ),
        (
            "#define PROBE_SETTLE1 (*(volatile uint8_t *)0x70005488)",
            "sorrel32",
            "PROBE_SETTLE1 is accessed as 8 bits, but PROBE_SETTLE1 has 32: that is a part of "
            "PROBE_SETTLE1 only",
        ),
        (
            # the I/O address: the register that is meant has 8 bits all the same
            "#define OUT_B (*(volatile uint16_t *)0x18)",
            "sorrel14",
            "OUT_B is accessed as 16 bits, but OUT_B has 8: the access takes in IN_B too",
        ),
        (
            "#define DIRS ((volatile uint8_t *)0x30)\n"
            "void f(void) { ((volatile uint16_t *)DIRS)[2] = 0; }",
            "sorrel14",
            "0x34 is accessed as 16 bits, but DIR_A has 8: the access takes in OUT_A too",
        ),
    ],
)
def test_a_width_that_is_not_the_registers(source: str, chip: str, message: str) -> None:
    assert only(source, WIDTH, chip).message == message


def test_members_of_another_width_are_told_together() -> None:
    source = (
        "struct wide { volatile uint16_t dir; volatile uint8_t in; volatile uint8_t next; };\n"
        "#define PORT_A ((struct wide *)0x34)\n"
    )
    assert only(source, WIDTH).message == (
        "members have other widths than their registers: PORT_A.dir with 16 bits (DIR_A has 8)"
    )


@pytest.mark.parametrize(
    ("source", "chip"),
    [
        ("#define ADC_RESULT (*(const volatile uint16_t *)0x57)", "sorrel14"),
        ("#define ADC_RESULT_L (*(const volatile uint8_t *)0x57)", "sorrel14"),
        ("#define ADC_RESULT_H (*(const volatile uint8_t *)0x58)", "sorrel14"),
        # no name tells which of the two is meant
        ("#define SAMPLE (*(const volatile uint8_t *)0x57)", "sorrel14"),
        ("#define SAMPLE (*(const volatile uint16_t *)0x57)", "sorrel14"),
        # int has 16 bits there
        ("#define STACK (*(volatile unsigned int *)0x25)", "sorrel40"),
        ("#define OUT_B (*(volatile int8_t *)0x38)", "sorrel14"),
        # the width of the type is not known, and nothing is there
        ("#define OUT_B (*(cell *)0x38)", "sorrel14"),
        ("#define COUNT (*(uint16_t *)0x100)", "sorrel14"),
        # another register is there: another rule tells
        ("#define OUT_B (*(volatile uint16_t *)0x83)", "sorrel14"),
    ],
)
def test_a_right_width_is_not_told(source: str, chip: str) -> None:
    assert number_of(source, WIDTH, chip) == 0


def test_a_register_narrower_than_its_unit_is_accessed_as_a_unit() -> None:
    resolved = made(registers=[{"name": "A", "address": "0x10", "width": 6}])
    assert number_of("#define A (*(volatile uint8_t *)0x10)", WIDTH, resolved) == 0
    assert number_of("#define A (*(volatile uint16_t *)0x10)", WIDTH, resolved) == 1


# Configuration values.


def guarded(**more: object) -> ResolvedChip:
    """Return a chip with option bytes that nothing in its code reaches."""
    return made(
        spaces=[
            {"name": "data", "size": "0x100"},
            {"name": "options", "size": "4", "pointer": False},
        ],
        registers=[
            {"name": "OUT", "address": "data:0x20"},
            {
                "name": "OPTION",
                "address": "options:0",
                "fields": [{"name": "CLOCK", "bits": "3:0"}],
                "reserved": [
                    {"bits": "7", "write": "1"},
                    {"bits": "6:5", "write": "0"},
                    {"bits": "4"},
                ],
            },
        ],
        **more,
    )


@pytest.mark.parametrize(
    ("source", "wrong"),
    [
        ("#define OPTION 0x182", "OPTION is 0x182, but OPTION has 8 bits"),
        ("#define OPTION 0x12", "OPTION is 0x12, but bit 7 of OPTION must be 1"),
        ("#define OPTION 0xE2", "OPTION is 0xE2, but bits 6:5 of OPTION must be 0"),
        (
            "enum { OPTION = 0x62 };",
            "OPTION is 0x62, but bit 7 of OPTION must be 1 and bits 6:5 of OPTION must be 0",
        ),
        ("static const unsigned char option = 0xA0;", "bit 5 of OPTION must be 0"),
    ],
)
def test_a_configuration_value_that_does_not_fit(source: str, wrong: str) -> None:
    found = only(source, CONFIGURED, guarded())
    assert wrong in found.message
    assert found.message.endswith(
        ". A wrong configuration can lock the chip out: check it against the datasheet and its "
        "errata"
    )


@pytest.mark.parametrize(
    "source",
    [
        "#define OPTION 0x82",
        "#define OPTION 0x9F",
        # an int with all bits above at 1 is cut to 0x9F
        "#define OPTION (~0x60)",
        # other numbers of the register, and another register
        "#define OPTION_OPTIONS_ADDR 0",
        "#define OPTION_CLOCK_MASK 0x0F",
        "#define OUT 0x20",
    ],
)
def test_a_configuration_value_that_fits(source: str) -> None:
    assert told(subject_of(source, chip=guarded())) == []


def test_only_what_nothing_reaches_holds_configuration() -> None:
    # with an instruction that takes its address, the number is an address: 0x12 is none
    reached = guarded(
        instructions=[{"names": "fetch", "space": "options", "access": "read", "address": 1}]
    )
    found = told(subject_of("#define OPTION 0x12", chip=reached))
    assert [item.rule for item in found] == ["name-at-other-address"]
    # a description that names no way to any of its registers says nothing of the kind
    silent = made(
        spaces=[{"name": "options", "size": "4", "pointer": False}],
        registers=[{"name": "OPTION", "address": "0", "reserved": [{"bits": "7", "write": "1"}]}],
    )
    assert told(subject_of("#define OPTION 0x12", chip=silent), CONFIGURED) == []
