"""What expressions stand for: numbers against gcc, addresses by hand.

Source: gcc for this host (LP64), for random expressions of ``unsigned long long``, where C leaves
nothing undefined but shifts by 64 and more, and division by 0.
"""

from __future__ import annotations

import random
import subprocess
from pathlib import Path

import pytest
from code_reading import evaluator, laid_out, seen, shown

from conftest import Compile
from regwright.code.integers import ILP32, IP16, LP64
from regwright.code.pieces import Spot
from regwright.code.scope import Scope
from regwright.code.seen import CType, Location, Meaning, Number, Pointer
from regwright.code.text import CPP, C

OPERATORS = ["+", "-", "*", "|", "&", "^", "<", ">", "<=", ">=", "==", "!=", "&&", "||"]
HEAD = "#include <stdint.h>\n#include <stdio.h>\n"
NAMES = """\
#define BASE 0x20
#define PLUS 0x20 + 0x18
#define MINUS - 5
#define TWICE(x) ((x) + (x))
#define JOIN(a, b) a ## b
#define PICK(a, ...) PICK_(__VA_ARGS__, a)
#define PICK_(a, ...) a
enum { ZERO, ONE, SEVEN = 7, EIGHT, LATER = SEVEN * 2 + BASE, AFTER };
enum { NEGATIVE = -3, NEXT };
typedef unsigned char byte;
struct pair { byte a, b; };
static const unsigned char SMALL = 0x1FF;
static const uint32_t WIDE = ~0u;
"""


def expression(rng: random.Random, depth: int) -> str:
    """Return an expression without the parentheses that C does not need."""
    if depth == 0:
        number = rng.getrandbits(rng.choice([1, 4, 8, 16, 63]))
        spelling = rng.choice(["{:d}ull", "{:#x}ULL", "0{:o}Ull", "{:#b}uLL"]).format(number)
        words = ["BASE", "PLUS", "MINUS", "ONE", "LATER", "AFTER", "SMALL", "WIDE", "NEXT"]
        words += ["JOIN(0x, 3F)", "JOIN(SEV, EN)", "sizeof(byte)", "sizeof(struct pair)", "'a'"]
        words += ["sizeof(uint16_t *)", "'\\101'", "'\\x7f'", "'1'", "'\\n'", "sizeof 1ull"]
        return rng.choice([spelling, spelling, rng.choice(words)])
    one, other, third = (expression(rng, rng.randrange(depth)) for _ in range(3))
    return rng.choice(
        [
            f"{one} {rng.choice(OPERATORS)} {other}",
            f"{one} {rng.choice(OPERATORS)} {other}",
            f"({one}) {rng.choice(OPERATORS)} ({other})",
            f"{one} << ({other}) % 8",
            f"({one} + 0ull) >> (({other}) & 63)",
            f"({one}) / (({other}) | 1ull)",
            f"({one}) % (({other}) | 1ull)",
            f"{one} ? {other} : {third}",
            f"({one} ? {other} : {third})",
            f"{rng.choice('~-+!')} ({one} + 0ull)",
            f"(unsigned char)({one})",
            f"(uint32_t)({one}) /* , */ + 0ull",
            f"(0, {one})",
            f"TWICE({one})",
            f"PICK(1, ({one}), {other})",
        ]
    )


def value_of(text: str, definitions: str = "") -> Meaning | None:
    """Return what an expression stands for, as the body of a macro."""
    for item in seen(f"{definitions}\n#define RESULT ({text})\n", model=LP64).definitions:
        if item.name == "RESULT":
            return item.means
    return None


def test_numbers_are_those_of_gcc(compile_c: Compile, tmp_path: Path) -> None:
    rng = random.Random(8)
    texts = [expression(rng, 1 + turn % 4) for turn in range(700)]
    rows = "".join(f'    printf("%llu\\n", (unsigned long long)({text}));\n' for text in texts)
    source = f"{HEAD}{NAMES}int main(void) {{\n{rows}    return 0;\n}}\n"
    done = compile_c(source, "-w", std="gnu11", strict=False, link=True)
    assert done.returncode == 0, done.stderr
    printed = subprocess.run([tmp_path / "program"], capture_output=True, text=True, check=True)
    by_gcc = [int(line) for line in printed.stdout.splitlines()]
    body = "".join(f"#define R{number} ({text})\n" for number, text in enumerate(texts))
    found = {
        item.name: item.means.value % 2**64
        for item in seen(NAMES + body, model=LP64).definitions
        if isinstance(item.means, Number)
    }
    unknown = 0
    for number, (text, expected) in enumerate(zip(texts, by_gcc, strict=True)):
        value = found.get(f"R{number}")
        # An int may overflow, which C leaves undefined, and a negative one must not be shifted.
        unknown += value is None
        assert value in (expected, None), text
    assert unknown < 15


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("0x20 + 0x18", 0x38),
        ("1 << 3 | 1", 9),
        ("~0x01 & 0xFF", 0xFE),
        ("1 ? 2 : f()", 2),
        ("0 && f()", 0),
        ("1 || f()", 1),
        ("1'000", 1000),
        ("'1'", 0x31),
        ("'\\0'", 0),
        ("'\\12'", 10),
        ("-1", -1),
        ("true + true", 2),
        ("sizeof(long)", 8),
        ("sizeof(char *)", 8),
        ("sizeof(struct unknown)", None),
        ("1.5", None),
        ("1e3", None),
        ('"text"', None),
        ("f(1)", None),
        ("x", None),
        ("1 << 64", None),
        ("1 / 0", None),
        ("0x7FFFFFFF + 1", None),
        ("x = 1", None),
        ("1)(2", None),
        ("", None),
        ("1 +", None),
    ],
)
def test_numbers_by_hand(text: str, expected: int | None) -> None:
    means = value_of(text)
    assert (means.value if isinstance(means, Number) else means) == expected


PORT = """
typedef struct { unsigned char in, out; } pin_t;
struct odd { char a; short b; };
typedef unsigned char byte;
typedef volatile byte *pointer_t;
enum pins { LED = 2 };
"""
U8, V8 = CType(8, name="unsigned char"), CType(8, volatile=True, name="unsigned char")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("(unsigned char *)0x38", Pointer(0x38, U8)),
        ("*(unsigned char *)0x38", Location(0x38, U8)),
        ("*(volatile byte *)(0x20 + 0x18)", Location(0x38, V8)),
        ("*(byte volatile *)0x38", Location(0x38, V8)),
        ("*(pointer_t)0x38", Location(0x38, V8)),
        ("*(const volatile byte *)0x38", Location(0x38, V8._replace(const=True))),
        ("&*(byte *)0x38", Pointer(0x38, U8)),
        ("(byte *)0x30 + 8", Pointer(0x38, U8, base=0x30)),
        ("8 + (byte *)0x30", Pointer(0x38, U8, base=0x30)),
        ("((byte *)0x40)[-8]", Location(0x38, U8, base=0x40)),
        (
            "*((unsigned long *)0x30 + 1)",
            Location(0x38, CType(64, name="unsigned long"), base=0x30),
        ),
        ("(byte *)(unsigned long)(char *)0x38", Pointer(0x38, U8)),
        ("(unsigned long)(char *)0x38", 0x38),
        ("((pin_t *)0x37)->out", Location(0x38, U8, member="out", base=0x37)),
        ("(*(pin_t *)0x37).out", Location(0x38, U8, member="out", base=0x37)),
        ("((volatile pin_t *)0x35)[1].out", Location(0x38, V8, member="out", base=0x35)),
        ("&((pin_t *)0x37)->out", Pointer(0x38, U8, member="out", base=0x37)),
        ("((pin_t *)0x37)->none", None),
        ("((struct odd *)0x37)->b", None),
        ("(struct odd *)0x37 + 1", None),
        ("sizeof(pin_t) + sizeof(((pin_t *)0)->in)", 3),
        ("sizeof(struct odd)", None),
        ("(enum pins)LED", 2),
        ("*(enum pins *)0x38", Location(0x38, CType(None, name="enum"))),
        # 16-bit pointers of a pointer: only the one behind the last * counts
        ("*(byte **)0x38", Location(0x38, CType(64, name="unsigned char *"))),
        (
            "*(byte *volatile *)0x38",
            Location(0x38, CType(64, volatile=True, name="unsigned char *")),
        ),
        ("*(volatile byte **)0x38", Location(0x38, CType(64, name="unsigned char *"))),
        ("*(volatile pointer_t *)0x38", Location(0x38, CType(64, name="unsigned char *"))),
        ("1 ? (byte *)0x38 : 0", Pointer(0x38, U8)),
        ("*x", None),
        ("*0x38", None),
        ("&0x38", None),
        ("-(byte *)0x38", None),
        ("(byte *)0x38 + (byte *)1", None),
        ("f((byte *)0x38)", None),
    ],
)
def test_addresses_by_hand(text: str, expected: Meaning | int | None) -> None:
    means = value_of(text, PORT)
    if isinstance(means, Number):
        assert means.value == expected
    else:
        plain = means._replace(literal=None, qualifier=None) if means else None
        assert plain == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("reinterpret_cast<volatile uint8_t *>(0x38)", Pointer(0x38, V8._replace(name="uint8_t"))),
        ("*reinterpret_cast<uint8_t *>(0x38)", Location(0x38, CType(8, name="uint8_t"))),
        ("*const_cast<uint8_t *>((uint8_t *)0x38)", Location(0x38, CType(8, name="uint8_t"))),
        ("static_cast<std::uint8_t>(0x138)", 0x38),
        ("unsigned(3)", None),
    ],
)
def test_casts_of_cpp(text: str, expected: Meaning | int | None) -> None:
    found = seen(f"#define RESULT {text}\nint i;\n", language=CPP).definitions
    means = found[0].means if found else None
    if isinstance(means, Number):
        assert means.value == expected
    else:
        assert (means._replace(literal=None, qualifier=None) if means else None) == expected


# Literals: which one gives a value, and where it stands.


@pytest.mark.parametrize(
    ("text", "literal"),
    [
        ("#define R 0x38", "0x38"),
        ("#define R (0x38)", "0x38"),
        ("#define R ((volatile char *)(0x38))", "0x38"),
        ("#define R (*(volatile char *)0x38u)", "0x38u"),
        ("#define R ((char)+0x38)", "0x38"),
        ("#define A 0x38\n#define R (*(char *)A)", "0x38"),
        ("#define A(x) (*(char *)(x))\n#define R A(0x38)", "0x38"),
        ("enum { A = 0x38 };\n#define R A", "0x38"),
        ("const int A = 0x38;\n#define R (*(char *)A)", "0x38"),
        ("#define R (0x18 + 0x20)", None),
        ("#define R (-1)", None),
        ("#define R (*((char *)0x38 + 1))", None),
        ("enum { A };\n#define R A", None),
        ("enum { A = 1, B };\n#define R B", None),
        ("#define R (1 ? 0x38 : 0x39)", None),
        # a literal that is put together stands nowhere
        ("#define A(x) 0x ## x\n#define R A(38)", None),
    ],
)
def test_the_one_literal_that_gives_a_value(text: str, literal: str | None) -> None:
    (means,) = [item.means for item in seen(text).definitions if item.name == "R"]
    assert shown(text, means.literal) == literal


# Bounds.


def chain(number: int, form: str, *, backwards: bool = False) -> str:
    rows = [form.format(this=f"A{n}", other=f"A{n - 1}") for n in range(1, number)]
    first = form.format(this="A0", other="1")
    return "".join([*rows, first][::-1] if not backwards else [first, *rows])


@pytest.mark.parametrize(
    "form", ["const int {this} = {other} + 1;\n", "enum {{ {this} = {other} + 1 }};\n"]
)
def test_long_rows_of_constants(form: str) -> None:
    """Each is worked out once where it follows those that it needs."""
    found = {item.name: item.means for item in seen(chain(5000, form, backwards=True)).definitions}
    assert {name: means.value for name, means in found.items() if isinstance(means, Number)} == {
        f"A{n}": n + 2 for n in range(5000)
    }


@pytest.mark.parametrize(
    "text",
    [
        "const int a = a + 1;\n",
        "const int a = b + 1; const int b = a + 1;\n",
        "enum { a = b, b = a };\n",
        "#define a b\n#define b a\nconst int c = a;\n",
        "#define a (a + 1)\n",
        "static char *const p = p;\n",
    ],
)
def test_what_needs_itself_stands_for_nothing(text: str) -> None:
    assert seen(text).definitions == []


def test_rows_of_constants_the_wrong_way_round_end_somewhere() -> None:
    """No recursion goes deeper than Python allows; what is too deep stands for nothing."""
    text = chain(4000, "const int {this} = ((({other} + 1)));\n")
    found = [item for item in seen(text).definitions if item.name in ("A0", "A5")]
    assert [item.means.value for item in found if isinstance(item.means, Number)] == [2, 7]
    deep = "(" * 100 + "{other}" + " + 1)" * 100
    assert seen(chain(200, "const int {this} = " + deep + ";\n"))


def test_many_constants_are_worked_out_as_few_are() -> None:
    """What one question may cost is counted for each question anew."""
    text = "enum { " + ", ".join(f"E{n} = {n} + 1" for n in range(15_000)) + " };\n"
    found = seen(text).definitions
    assert len(found) == 15_000
    assert {item.means.value for item in found if isinstance(item.means, Number)} == set(
        range(1, 15_001)
    )


def test_one_question_may_not_cost_more_than_it_may() -> None:
    doubled = "".join(f"const long B{n} = B{n - 1} + B{n - 1};\n" for n in range(40, 0, -1))
    found = {item.name for item in seen(doubled + "const long B0 = 0;\n").definitions}
    assert {"B0", "B1", "B2"} <= found


def test_work_that_is_used_up_leaves_nothing() -> None:
    scope = Scope({}, 50)
    reader = evaluator(scope)
    spot = Spot(0, (), 0)
    results = [reader.meaning(b"1 + %d" % number, spot, 0) for number in range(20)]
    assert isinstance(results[0], Number)
    assert results[-1] is None


def test_types_by_their_names() -> None:
    text = (
        "typedef unsigned char a; typedef a *b; typedef volatile a c; typedef c *d; typedef d e[2];"
    )
    scope = laid_out(text, IP16, C)
    reader = evaluator(scope, IP16)
    spot = Spot(0, (), 0)
    found = {
        name: reader.meaning(f"*({name} *)0x38".encode(), spot, 0) for name in ("a", "b", "c", "d")
    }
    kinds = {name: means.type for name, means in found.items() if isinstance(means, Location)}
    assert {name: (kind.bits, kind.volatile) for name, kind in kinds.items()} == {
        "a": (8, False),
        "b": (16, False),
        "c": (8, True),
        "d": (16, False),
    }
    assert reader.integer_of(scope.types["c"]) is not None
    assert reader.integer_of(scope.types["d"]) is None


def test_a_type_of_two_meanings_is_none() -> None:
    text = "typedef unsigned char reg_t;\n#define R (*(volatile reg_t *)0x38)\n"
    other = "typedef unsigned short reg_t;\n"
    one_file = [item.means for item in seen(text).definitions]
    two_files = [item.means for item in seen(text, other, model=ILP32).definitions]
    assert isinstance(one_file[0], Location)
    assert isinstance(two_files[0], Location)
    assert (one_file[0].type.bits, two_files[0].type.bits) == (8, None)
