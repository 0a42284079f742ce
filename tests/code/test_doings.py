"""Assertions, shifts, mentions, instructions and comments that silence, as they are seen."""

from __future__ import annotations

import pytest
from code_reading import seen, shown

from regwright.code.integers import ILP32, IP16, DataModel
from regwright.code.seen import Number
from regwright.code.sources import read_sources
from regwright.code.text import ASSEMBLER, CPP, C, CodeText, language_of
from regwright.code.vocabulary import Vocabulary

HEAD = "#define OUT (*(volatile unsigned char *)0x38)\n#define LED 2\nenum { FAN = 3 };\n"


# Assertions.


@pytest.mark.parametrize(
    ("text", "language", "holds", "names"),
    [
        ('_Static_assert(LED == 2, "x");', C, True, ("LED",)),
        ('_Static_assert(LED == FAN, "x");', C, False, ("LED", "FAN")),
        ("_Static_assert(LED);", C, True, ("LED",)),
        ('static_assert(1 << LED == 4, "x");', C, True, ("LED",)),
        ('static_assert((FAN) + 1 == 4, "x");', CPP, True, ("FAN",)),
        ("static_assert(sizeof(int) == 2);", CPP, False, ("sizeof", "int")),
        ('_Static_assert(x == 2, "x");', C, None, ("x",)),
        ('void f(void) { _Static_assert(FAN == 3, "x"); }', C, True, ("FAN",)),
    ],
)
def test_assertions(text: str, language: str, holds: bool | None, names: tuple[str, ...]) -> None:
    (item,) = seen(HEAD + text, language=language).assertions
    assert (item.holds, item.names) == (holds, names)
    assert shown(HEAD + text, item.at) == item.text


def test_assertions_in_branches() -> None:
    text = '#ifdef A\n#define X 1\n#else\n#define X 2\n#endif\n_Static_assert(X == 1, "");\n'
    found = [(item.holds, item.branch) for item in seen(text).assertions]
    assert found == [(True, ("defined(A)",)), (False, ("!defined(A)",))]


# Shifts that do not fit their types (6.5.7).


@pytest.mark.parametrize(
    ("text", "model", "expected"),
    [
        ("1 << 15", IP16, (16, True, 1, 15)),
        ("1 << 14", IP16, None),
        ("1u << 15", IP16, None),
        ("1u << 16", IP16, (16, False, 1, 16)),
        ("1l << 16", IP16, None),
        ("1 << 31", ILP32, (32, True, 1, 31)),
        ("1u << 31", ILP32, None),
        ("3u << 31", ILP32, (32, False, 3, 31)),
        ("1 << -1", ILP32, (32, True, 1, -1)),
        ("(unsigned char)0xFF << 8", IP16, (16, True, 0xFF, 8)),
        ("(1 << LED) | (1 << (LED * 20))", ILP32, (32, True, 1, 40)),
        ("x << 40", ILP32, None),
        ("1 << x", ILP32, None),
        ("1 >> 40", ILP32, None),
    ],
)
def test_shifts(text: str, model: DataModel, expected: tuple[int, bool, int, int] | None) -> None:
    source = f"{HEAD}void f(void) {{ OUT = {text}; }}\n"
    found = seen(source, model=model).shifts
    assert [(item.bits, item.signed, item.value, item.by) for item in found] == (
        [expected] if expected else []
    )
    whole = "1 << (LED * 20)" if "LED" in text else text
    assert {shown(source, item.at) for item in found} <= {whole}


# Mentions.


def test_names_that_something_is_known_of_are_mentioned_once_each() -> None:
    text = (
        HEAD
        + """\
void OUTER(void) { LED; }
void f(int LAMP) {
    OUT |= LAMP; // LAMP
    g("LAMP", 'L', LAMP + LAMP);
LAMP:
    goto LAMP;
}
#define USES_LAMP (1 << LAMP)
#if LAMP
#endif
int h = USES_LAMP;
"""
    )
    found = seen(text, knows={"LAMP"}.__contains__).mentions
    assert [(item.name, text[: item.at.start].count("\n") + 1) for item in found] == [
        ("LAMP", 6),
        ("LAMP", 7),
        ("LAMP", 7),
    ]
    assert all(shown(text, item.at) == item.name for item in found)


# Instructions: in assembler, in strings, and calls that stand for one.


def test_instructions_of_assembler() -> None:
    text = (
        ".equ OUT, 0x18\n#define LED 2\n  OUT OUT, r1 ; store it\nloop: bset OUT, LED\n.byte OUT\n"
    )
    file = CodeText("a.s", text.encode(), ASSEMBLER)
    found = read_sources([file], Vocabulary({}, lambda _: False), ILP32)
    assert [
        (
            item.mnemonic,
            [
                (part.text, part.means.value if isinstance(part.means, Number) else None)
                for part in item.operands
            ],
            item.is_call,
            shown(text, item.at),
        )
        for item in found.instructions
    ] == [
        ("out", [("OUT", 0x18), ("r1", None)], False, "OUT"),
        ("bset", [("OUT", 0x18), ("LED", 2)], False, "bset"),
    ]
    assert [(item.name, item.form) for item in found.definitions] == [
        ("OUT", "equate"),
        ("LED", "macro"),
    ]


def test_instructions_of_inline_assembly_and_calls() -> None:
    text = (
        HEAD
        + """\
void f(void) {
    asm volatile("out 0x18, r1\\n\\t" "bset %0, %[bit]" :: "I"(OUT_IO), [bit] "I"(LED));
    __asm__("wait");
    outb(LED + 1, 0x18);
    other(0x18);
}
"""
    )
    found = seen(text, calls=frozenset({"outb"})).instructions
    assert [
        (item.mnemonic, [part.text for part in item.operands], item.is_call) for item in found
    ] == [
        ("out", ["0x18", "r1"], False),
        ("bset", ["OUT_IO", "LED"], False),
        ("wait", [], False),
        ("outb", ["LED + 1", "0x18"], True),
    ]
    first, second, _, call = found
    assert shown(text, first.at) == "out"
    assert shown(text, call.at) == "outb"
    assert [shown(text, part.at) for part in second.operands] == ["OUT_IO", "LED"]
    assert [part.names for part in call.operands] == [("LED",), ()]
    means = call.operands[0].means
    assert isinstance(means, Number)
    assert means.value == 3


# Comments that silence a rule.


def test_comments_that_silence() -> None:
    text = """\
int a; /* regwright: silence bit-of-another-name the board has it so */
// regwright: silence not-volatile: on purpose
/*
 * regwright: silence shift-overflow
 */
char *s = "/* regwright: silence none */";
#define A 1 // regwright: silence in-a-line
// regwright: silences nothing
/* regwright silence nothing */ // Regwright: silence nothing
"""
    assert [(item.rule, item.reason, item.line) for item in seen(text).quiets] == [
        ("bit-of-another-name", "the board has it so", 1),
        ("not-volatile", "on purpose", 2),
        ("shift-overflow", "", 5),
        ("in-a-line", "", 7),
    ]
    for item in seen(text).quiets:
        assert shown(text, item.at) == item.rule


# Files.


@pytest.mark.parametrize(
    ("name", "language"),
    [
        ("a.c", C), ("a.h", C), ("a.H", C), ("a.inc", C), ("a.C", CPP), ("a.cpp", CPP),
        ("a.ino", CPP), ("a.hh", CPP), ("a.S", ASSEMBLER), ("a.asm", ASSEMBLER), ("a.b.c", C),
        ("a", None), ("a.txt", None), ("c", None), (".c", C),
    ],
)  # fmt: skip
def test_languages_by_endings(name: str, language: str | None) -> None:
    assert language_of(name) == language


@pytest.mark.parametrize(
    ("text", "is_cpp"),
    [
        ("namespace a { constexpr int A = 3; }\n", True),
        ("  class K { static constexpr int A = 3; };\n", True),
        ("template <int N> struct K { };\nconstexpr int A = 3;\n", True),
        ("const int a = static_cast<int>(3);\nconstexpr int A = 3;\n", True),
        ("int namespace; int A;\n", False),
    ],
)
def test_a_header_that_only_cpp_can_be_is_read_as_that(text: str, is_cpp: bool) -> None:
    files = [CodeText("a.h", (text + "auto &r = *(char *)0x38;\n").encode(), C)]
    found = read_sources(files, Vocabulary({}, lambda _: False), ILP32).definitions
    assert ("r" in {item.name for item in found}) is is_cpp
