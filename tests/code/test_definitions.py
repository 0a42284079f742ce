"""Definitions of macros: what they mean, where they stand, and whether they stay one operand.

Source: gcc, for what a macro's body is within a larger expression.
"""

from __future__ import annotations

import random
import subprocess
from pathlib import Path

import pytest
from code_reading import seen, shown
from test_evaluate import HEAD, NAMES, expression

from conftest import Compile
from regwright.code.integers import IP16
from regwright.code.scope import HeaderMacro
from regwright.code.seen import Definition, Location, Number, Pointer


def macros(text: str) -> dict[str, Definition]:
    return {item.name: item for item in seen(text).definitions if item.form == "macro"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("#define A 0x38", 0x38),
        ("#define A 070", 0x38),
        ("#define A 0b111000u", 0x38),
        ("#define A 56UL // data", 0x38),
        ("#define A (0x20 + \\\n  0x18) /* data */", 0x38),
        ("#define BASE 0x20\n#define A BASE + 0x18", 0x38),
        ("#define A B\n#define B C\n#define C 0x38", 0x38),
        ("#define AT(x) ((x) + 0x20)\n#define A AT(0x18)", 0x38),
        ("#define A (1 << 3) | (1 << 4) | (1 << 5)", 0x38),
        ("enum { BASE = 0x20 };\n#define A (BASE | 0x18)", 0x38),
        ("#define A ((unsigned char)~0xC7)", 0x38),
        ("#define A '8'", 0x38),
        ("#define A(x) 0x38", None),
        ("#define A", None),
        ("#define A x", None),
        ("#define A \"0x38\"", None),
        ("#define A 0x38;", None),
        ("#define A { 0x38 }", None),
        ("#define A do { } while (0)", None),
        ("#define A 1.5", None),
    ],
)  # fmt: skip
def test_numbers(text: str, expected: int | None) -> None:
    found = macros(text + "\n")
    means = found["A"].means if "A" in found else None
    assert (means.value if isinstance(means, Number) else means) == expected


@pytest.mark.parametrize(
    "body",
    [
        "(*(volatile unsigned char *)0x38)",
        "*(volatile unsigned char *)0x38",
        "*((volatile unsigned char *)56)",
        "*((volatile uint8_t*) 0b111000)",
        "(*(volatile unsigned char *)(0x20 + 0x18))",
        "((volatile unsigned char *)0x30)[8]",
        "(*(volatile unsigned char *)(uintptr_t)0x38)",
        "(((volatile struct { char a; unsigned char b; } *)0x37)->b)",
        "REG8(0x38)",
        "AT(BASE, 0x18)",
    ],
)
def test_objects_at_addresses(body: str) -> None:
    head = "#define BASE 0x20\n#define AT(b, a) (*(volatile uint8_t *)((b) + (a)))\n"
    header = {"REG8": HeaderMacro(("a",), b"(*(volatile unsigned char *)(a))")}
    found = seen(f"{head}#define A {body}\n", header=header).definitions
    (means,) = [item.means for item in found if item.name == "A"]
    assert isinstance(means, Location)
    assert (means.address, means.type.bits, means.type.volatile) == (0x38, 8, True)


def test_pointers() -> None:
    means = macros("#define A ((volatile unsigned char *)0x38)\n")["A"].means
    assert isinstance(means, Pointer)
    assert (means.address, means.to.bits, means.to.volatile) == (0x38, 8, True)


def test_places_of_macros() -> None:
    text = "int i;\n  #  define /* c */ OUT  ( 0x38 ) // data\n#define LED \\\n 2\n"
    found = macros(text)
    assert [
        (shown(text, item.name_at), shown(text, item.body), shown(text, item.whole))
        for item in found.values()
    ] == [
        ("OUT", "( 0x38 )", "#  define /* c */ OUT  ( 0x38 ) // data"),
        ("LED", "2", "#define LED \\\n 2"),
    ]


def test_an_int_of_16_bits_counts() -> None:
    found = seen("#define A (1 << 15)\n#define B (1u << 15)\n#define C 1l << 15\n", model=IP16)
    values = [item.means.value for item in found.definitions if isinstance(item.means, Number)]
    assert values == [-32768, 32768, 32768]


@pytest.mark.parametrize(
    ("body", "is_closed"),
    [
        ("1", True),
        ("LED", True),
        ("(1 + 2)", True),
        ("((1) + (2))", True),
        ("f(1)", True),
        ("P->a", True),
        ("(*P).a", True),
        ("P->b[1]", True),
        ("(*(char *)0x38)", True),
        ("(((char *)(unsigned long)(0x38)))", True),
        ("1 + 2", False),
        ("(1) + (2)", False),
        ("1<<3", False),
        ("-1", False),
        ("~(1)", False),
        ("*(char *)0x38", False),
        ("(char)0x38", False),
        ("(char *)0x38", False),
        ("1 ? 2 : 3", False),
        ("(1), (2)", False),
        ("&P->a", False),
        ("sizeof(char)", False),
    ],
)
def test_which_bodies_stay_one_operand(body: str, is_closed: bool) -> None:
    head = "enum { LED = 1 };\n#define f(x) x\n"
    head += "typedef struct { char a, b[2]; } pair_t;\n#define P ((pair_t *)0x38)\n"
    assert macros(f"{head}#define A {body}\n")["A"].is_closed is is_closed


AROUND = ["7ull - {} * 3", "~{}", "{} << 1", "9ull / ({} | 1ull)", "{} ? 1 : 2", "-{}", "!{} + 1"]


def test_what_is_closed_means_the_same_everywhere(compile_c: Compile, tmp_path: Path) -> None:
    """By gcc: with parentheses around it or without, in each of some larger expressions."""
    rng = random.Random(11)
    bodies = [expression(rng, 1 + turn % 3) for turn in range(300)]
    text = "".join(f"#define R{number} {body}\n" for number, body in enumerate(bodies))
    found = macros(NAMES + text)
    closed = [name for name, item in found.items() if name[1:].isdigit() and item.is_closed]
    loose = [name for name, item in found.items() if name[1:].isdigit() and not item.is_closed]
    rows = ""
    for name in closed + loose:
        pairs = [f"({form.format(name)}) == ({form.format(f'({name})')})" for form in AROUND]
        rows += f'    printf("{name} %d\\n", {" && ".join(f"({pair})" for pair in pairs)});\n'
    source = f"{HEAD}{NAMES}{text}int main(void) {{\n{rows}    return 0;\n}}\n"
    done = compile_c(source, "-w", std="gnu11", strict=False, link=True)
    assert done.returncode == 0, done.stderr
    printed = subprocess.run([tmp_path / "program"], capture_output=True, text=True, check=True)
    same = dict(line.split() for line in printed.stdout.splitlines())
    assert {name for name in closed if same[name] != "1"} == set()
    assert len(closed) > 50
    # and many of the others do not
    assert sum(same[name] == "0" for name in loose) > len(loose) // 2
