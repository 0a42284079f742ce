"""What code does to addresses: what it reads and writes, with which bits and names, by hand.

Source: ISO C11 6.5 (expressions); what a volatile access is, is common practice, no source.
"""

from __future__ import annotations

from typing import NamedTuple

import pytest
from code_reading import seen, shown

from regwright.code.scope import HeaderMacro
from regwright.code.seen import Access, Bits, Number
from regwright.code.text import CPP, C

HEAD = """\
typedef unsigned char uint8_t; typedef unsigned short uint16_t;
typedef struct { volatile uint8_t in, out; uint8_t row[4]; } pin_t;
#define OUT (*(volatile uint8_t *)0x38)
#define DIR *(volatile uint8_t *)0x37
#define WIDE (*(volatile uint16_t *)0x40)
#define PINS ((pin_t *)0x50)
#define AT(a) (*(volatile uint8_t *)((a) + 0x20))
#define IO(a) AT((a))
#define TIMER IO(0x12)
#define SET(r, b) ((r) |= (1 << (b)))
#define PUT(r, v) do { (r) = (v); } while (0)
#define LED 2
#define FAN (1 << 3)
enum { PUMP = 4 };
"""


class Short(NamedTuple):
    """An access without its places; of the bits, those that a register of 8 or 16 bits has."""

    name: str
    address: int
    how: str
    operator: str
    text: str
    bits: Bits | None


def short(item: Access, text: str) -> Short:
    bits = None
    if item.value is not None:
        mask = (1 << (item.target.type.bits or 64)) - 1
        bits = Bits(*(each & mask for each in item.value))
    target = shown(text, item.target_at) or ""
    return Short(item.name, item.target.address, item.how, item.operator, target, bits)


def accesses(statement: str, language: str = C) -> list[Short]:
    text = f"{HEAD}void f(void) {{\n{statement}\n}}\n"
    return [short(item, text) for item in seen(text, language=language).accesses]


def parts(statement: str) -> list[tuple[str, str, int | None]]:
    text = f"{HEAD}void f(void) {{\n{statement}\n}}\n"
    (item,) = [item for item in seen(text).accesses if item.operator]
    return [(part.name, part.role, part.means.value if part.means else None) for part in item.parts]


NOTHING = Bits(0, 0, 0)


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        ("OUT = 0x05;", [("OUT", 0x38, "write", "=", "OUT", Bits(0x05, 0xFA, 0))]),
        ("OUT = x;", [("OUT", 0x38, "write", "=", "OUT", NOTHING)]),
        ("OUT |= 0x05;", [("OUT", 0x38, "modify", "|=", "OUT", Bits(0x05, 0, 0xFA))]),
        ("OUT |= 1 << LED;", [("OUT", 0x38, "modify", "|=", "OUT", Bits(0x04, 0, 0xFB))]),
        ("OUT |= (FAN | 1 << PUMP);", [("OUT", 0x38, "modify", "|=", "OUT", Bits(0x18, 0, 0xE7))]),
        ("OUT &= ~FAN;", [("OUT", 0x38, "modify", "&=", "OUT", Bits(0, 0x08, 0xF7))]),
        ("OUT &= (uint8_t)~FAN;", [("OUT", 0x38, "modify", "&=", "OUT", Bits(0, 0x08, 0xF7))]),
        ("OUT ^= FAN;", [("OUT", 0x38, "modify", "^=", "OUT", Bits(0, 0, 0xF7))]),
        ("OUT += 1;", [("OUT", 0x38, "modify", "+=", "OUT", NOTHING)]),
        ("OUT <<= 1;", [("OUT", 0x38, "modify", "<<=", "OUT", NOTHING)]),
        ("OUT++;", [("OUT", 0x38, "modify", "++", "OUT", NOTHING)]),
        ("--OUT;", [("OUT", 0x38, "modify", "--", "OUT", NOTHING)]),
        ("OUT = OUT | FAN;", [("OUT", 0x38, "modify", "=", "OUT", Bits(0x08, 0, 0xF7))]),
        ("OUT = (OUT & ~0x07) | 0x02;", [("OUT", 0x38, "modify", "=", "OUT", Bits(2, 5, 0xF8))]),
        ("OUT = f(OUT);", [("OUT", 0x38, "modify", "=", "OUT", NOTHING)]),
        (
            "OUT = WIDE;",
            [("OUT", 0x38, "write", "=", "OUT", NOTHING), ("WIDE", 0x40, "read", "", "WIDE", None)],
        ),
        ("WIDE = 0x1234;", [("WIDE", 0x40, "write", "=", "WIDE", Bits(0x1234, 0xEDCB, 0))]),
        ("x = OUT;", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("(void)OUT;", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("OUT;", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("return OUT;", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("x[OUT] = 1;", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("f(OUT, &OUT);", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("x = sizeof(OUT) + sizeof OUT;", []),
        ("p = &OUT;", []),
        ("if (!OUT) { }", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("for (; OUT != 3; ) { }", [("OUT", 0x38, "read", "", "OUT", None)]),
        ("switch (OUT) { case 1: break; }", [("OUT", 0x38, "read", "", "(OUT)", None)]),
        ("DIR = 1;", [("DIR", 0x37, "write", "=", "DIR", Bits(1, 0xFE, 0))]),
        ("uint8_t x = OUT, y = DIR;", [
            ("OUT", 0x38, "read", "", "OUT", None), ("DIR", 0x37, "read", "", "DIR", None)]),
        # bare casts, pointers, members, elements
        ("*(volatile uint8_t *)0x38 = 1;",
         [("", 0x38, "write", "=", "*(volatile uint8_t *)0x38", Bits(1, 0xFE, 0))]),
        ("((volatile uint8_t *)0x30)[8] = 1;",
         [("", 0x38, "write", "=", "((volatile uint8_t *)0x30)[8]", Bits(1, 0xFE, 0))]),
        ("PINS->out = 1;", [("PINS->out", 0x51, "write", "=", "PINS->out", Bits(1, 0xFE, 0))]),
        ("(*PINS).in;", [("", 0x50, "read", "", "(*PINS).in", None)]),
        ("PINS[1].in = 0;", [("PINS[1].in", 0x56, "write", "=", "PINS[1].in", Bits(0, 0xFF, 0))]),
        ("PINS -> row [ 2 ]++;",
         [("PINS->row[2]", 0x54, "modify", "++", "PINS -> row [ 2 ]", NOTHING)]),
        ("PINS->row[x] = 1;", []),
        ("*PINS = y;", []),
        # through macros with arguments
        ("AT(0x18) = 1;", [("AT", 0x38, "write", "=", "AT(0x18)", Bits(1, 0xFE, 0))]),
        ("IO (0x18) |= AT(0x17);", [
            ("IO", 0x38, "modify", "|=", "IO (0x18)", NOTHING),
            ("AT", 0x37, "read", "", "AT(0x17)", None)]),
        ("TIMER = 1;", [("TIMER", 0x32, "write", "=", "TIMER", Bits(1, 0xFE, 0))]),
        ("SET(OUT, LED);", [("OUT", 0x38, "modify", "|=", "OUT", Bits(0x04, 0, 0xFB))]),
        ("SET(AT(0x18), LED);", [("AT", 0x38, "modify", "|=", "AT(0x18)", Bits(0x04, 0, 0xFB))]),
        ("SET(TIMER, 0);", [("TIMER", 0x32, "modify", "|=", "TIMER", Bits(0x01, 0, 0xFE))]),
        # several in one expression
        ("OUT = DIR = 1;", [
            ("OUT", 0x38, "write", "=", "OUT", NOTHING),
            ("DIR", 0x37, "write", "=", "DIR", Bits(1, 0xFE, 0))]),
        ("x ? (OUT = 1) : DIR;", [
            ("OUT", 0x38, "write", "=", "OUT", Bits(1, 0xFE, 0)),
            ("DIR", 0x37, "read", "", "DIR", None)]),
        # where nothing is done
        ("puts(\"OUT = 1\"); /* OUT = 2; */ // OUT = 3;", []),
        ("OUT_B = 1; xOUT = 2; s.OUT = 3;", []),
        ("*p = 1; *(volatile uint8_t *)x = 2;", []),
    ],
)  # fmt: skip
def test_accesses_by_hand(statement: str, expected: list[Short]) -> None:
    assert (
        sorted(accesses(statement)) == sorted(expected, key=str) or accesses(statement) == expected
    )


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        ("OUT |= LED;", [("LED", "operand", 2)]),
        ("OUT |= (1 << LED) | FAN;", [("LED", "count", 2), ("FAN", "operand", 8)]),
        ("OUT &= ~(FAN | 1u << PUMP);", [("FAN", "operand", 8), ("PUMP", "count", 4)]),
        ("OUT = x + LED;", [("x", "operand", None), ("LED", "operand", 2)]),
        ("OUT = f(LED);", [("LED", "other", 2)]),
        ("OUT = x ? FAN : 0;", [("x", "other", None), ("FAN", "operand", 8)]),
        ("OUT = OUT & ~FAN;", [("OUT", "operand", None), ("FAN", "operand", 8)]),
        ("OUT = (uint8_t)LED;", [("LED", "operand", 2)]),
        ("OUT = 5;", []),
        ("OUT++;", []),
    ],
)
def test_names_in_what_is_written(
    statement: str, expected: list[tuple[str, str, int | None]]
) -> None:
    assert parts(statement) == expected


def test_places_of_an_access() -> None:
    text = f"{HEAD}void f(void) {{ if (x)\n  OUT |= /* the lamp */ 1 << LED; }}\n"
    (item,) = seen(text).accesses
    assert shown(text, item.at) == "OUT |= /* the lamp */ 1 << LED"
    assert shown(text, item.target_at) == "OUT"
    assert shown(text, item.target.literal) == "0x38"
    assert shown(text, item.target.qualifier) == ""
    assert [shown(text, part.at) for part in item.parts] == ["LED"]
    assert isinstance(item.parts[0].means, Number)
    assert shown(text, item.parts[0].means.literal) == "2"


def test_the_first_steps_are_the_file_the_function_and_the_expression() -> None:
    text = f"{HEAD}void f(void) {{ OUT = 1; OUT = 2; }}\nvoid g(void) {{ OUT = 3; }}\n"
    found = [item.steps[:3] for item in seen("", text).accesses]
    start = text.index("void f"), text.index("void g")
    assert found == [
        (1, start[0], text.index("OUT = 1")),
        (1, start[0], text.index("OUT = 2")),
        (1, start[1], text.index("OUT = 3")),
    ]


def test_cpp() -> None:
    text = """\
using u8 = unsigned char;
namespace io { constexpr int OUT = 0x38; volatile u8 &dir = *(volatile u8 *)0x37; }
template <typename T> void put(T v) { *reinterpret_cast<volatile u8 *>(io::OUT) = 1; }
struct Lamp { void on() { io::dir |= 4; } void off() const; };
void Lamp::off() const { io::dir &= ~4; [] { *(volatile u8 *)io::OUT = 0; }(); }
"""
    found = [short(item, text) for item in seen(text, language=CPP).accesses]
    assert [(item.address, item.operator, item.text) for item in found] == [
        (0x38, "=", "*reinterpret_cast<volatile u8 *>(io::OUT)"),
        (0x37, "|=", "io::dir"),
        (0x37, "&=", "io::dir"),
        (0x38, "=", "*(volatile u8 *)io::OUT"),
    ]


def test_a_reference_is_no_access_where_it_is_bound() -> None:
    text = """\
typedef unsigned char u8;
static volatile u8 &a = *(volatile u8 *)0x38;
struct K { volatile u8 &b = *(volatile u8 *)0x39; u8 c = *(volatile u8 *)0x3A; };
void f(u8 &d = a) { auto &e = a; volatile u8 &g{(a)}; u8 h = a; auto &i = k[a];
    e = 1; }
"""
    found = [short(item, text) for item in seen(text, language=CPP).accesses]
    assert [(item.address, item.how, item.text) for item in found] == [
        (0x3A, "read", "*(volatile u8 *)0x3A"),
        (0x38, "read", "a"),
        (0x38, "read", "a"),
        (0x38, "write", "e"),
    ]


def test_the_header_of_the_chip_gives_its_names() -> None:
    header = {
        "OUT_B": HeaderMacro(None, b"REG8(0x38)"),
        "REG8": HeaderMacro(("a",), b"(*(volatile unsigned char *)(a))"),
        "LED_MASK": HeaderMacro(None, b"0x04U"),
    }
    text = "void f(void) { OUT_B |= LED_MASK; }\n"
    (item,) = seen(text, header=header, knows=header.__contains__).accesses
    assert short(item, text) == ("OUT_B", 0x38, "modify", "|=", "OUT_B", Bits(0x04, 0, 0xFB))
    assert (item.target.literal, item.target.qualifier) == (None, None)
    # a definition of the source's own, a macro or a constant, comes first
    for own in ("#define OUT_B (*(char *)0x39)\n", "static char *const OUT_B = (char *)0x39;\n"):
        (item,) = [
            item
            for item in seen(
                own + "void f(void) { x = OUT_B[0]; y = OUT_B; }\n",
                header=header,
                knows=header.__contains__,
            ).accesses
            if item.target.address != 0x38
        ][:1]
        assert item.target.address == 0x39


def test_an_expression_at_the_first_byte() -> None:
    """Where the place of a macro's text is, by chance, that of its use."""
    header = {"OUT": HeaderMacro(None, b"(*(volatile char *)0x38)")}
    text = "OUT |= 1;\nOUT = 2;\n"
    found = seen(text, header=header, knows=header.__contains__).accesses
    assert [shown(text, item.target_at) for item in found] == ["OUT", "OUT"]
    other = "#define A (*(volatile char *)0x38)\n"
    text = " " * (other.index("(*") - 1) + "\nA |= 1;\n"
    (item,) = seen(text, other).accesses
    assert shown(text, item.target_at) == "A"


def test_branches_of_accesses() -> None:
    text = """\
#ifdef OLD
#define OUT (*(volatile unsigned char *)0x18)
#else
#define OUT (*(volatile unsigned char *)0x38)
#endif
void f(void) {
#if SLOW
    OUT = 1;
#endif
}
"""
    found = [(item.target.address, item.branch) for item in seen(text).accesses]
    assert found == [(0x18, ("SLOW", "defined(OLD)")), (0x38, ("SLOW", "!defined(OLD)"))]
