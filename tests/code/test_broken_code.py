"""Sources that are broken, hostile or no code: nothing raises, nothing hangs, places stay inside.

Without bounds each of the endless texts would take minutes or gigabytes.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterator
from typing import NamedTuple

import pytest
from code_reading import files_of, seen
from hypothesis import example, given, settings
from hypothesis import strategies as st
from test_walk import CPP_SOURCE, SOURCE

from regwright.code import grammar
from regwright.code.integers import ILP32
from regwright.code.scope import HeaderMacro
from regwright.code.seen import Seen, Where
from regwright.code.sources import read_sources
from regwright.code.text import ASSEMBLER, CPP, C, CodeText
from regwright.code.vocabulary import Vocabulary

REGISTERS = """\
#ifndef REGISTERS_H
#define REGISTERS_H
#define BASE 0x20
#define OUT (*(volatile unsigned char *)(0x18 + BASE)) /* the lamp */
#define PINS ((pin_t *)0x36)
#define SET(r, b) ((r) |= 1 << (b))
#define JOIN(a, ...) a ## __VA_ARGS__
typedef struct { volatile unsigned char in, out[2]; union { char a; short b; }; } pin_t;
enum { LED = 2, FAN,
#if BOARD == 3
  PUMP,
#endif
  LAST = 'a' };
static const unsigned char MASK = 1 << LED;
static volatile unsigned char *const DIR = (unsigned char *)0x37;
volatile unsigned char IN __attribute__((address(0x36)));
unsigned char LATCH @ 0x39;
_Static_assert(LED == 2, "");
void f(unsigned char *p) {
    SET(OUT, LED); PINS->out[1] &= ~MASK; *DIR = *p++; // regwright: silence x y
    asm volatile("out 0x18, %0" :: "r"(LED));
    if (OUT & FAN) { JOIN(OU, T) = x ? 1 : 2; } else outb(LED, 0x18);
}
#endif
"""
HEADER = {
    "OUT_B": HeaderMacro(None, b"REG8(0x38)"),
    "REG8": HeaderMacro(("a",), b"(*(volatile unsigned char *)(a))"),
}
ASSEMBLY = ".equ OUT, 0x18\n#define LED 2\nstart: out OUT, r1 ; x\n bset OUT, LED\n"
LANGUAGES = {C: REGISTERS + SOURCE, CPP: REGISTERS + CPP_SOURCE, ASSEMBLER: ASSEMBLY}


def places(found: object) -> Iterator[Where]:
    """Yield every place in what was seen."""
    if isinstance(found, Where):
        yield found
    elif isinstance(found, (list, tuple)):
        for item in found:
            yield from places(item)


def read(data: bytes, language: str = C) -> Seen:
    """Read a source that knows a chip's header, and check that all places are within it."""
    file = CodeText({C: "a.h", CPP: "a.cpp", ASSEMBLER: "a.s"}[language], data, language)
    vocabulary = Vocabulary(HEADER, lambda name: name in ("LED", "OUT_B"), frozenset({"outb"}))
    found = read_sources([file], vocabulary, ILP32)
    for at in places(found):
        assert at.file == 0
        assert 0 <= at.start <= at.end <= len(data)
        file.line_and_column(at.start)
    return found


# Broken code.


SIGNS = [
    b"/*", b"*/", b'"', b"'", b"(", b")", b"{", b"}", b"\\\n", b"#", b"##", b"\n#if A\n",
    b"\n#endif\n", b"\x00", b",", b"\xef\xbb\xbf", b"\r", b"@", b"__VA_ARGS__",
]  # fmt: skip


def broken(rng: random.Random, data: bytes) -> bytes:
    """Return ``data`` with some bytes gone, doubled, moved or replaced."""
    made = bytearray(data)
    for _ in range(rng.randint(1, 6)):
        start = rng.randrange(len(made) + 1)
        end = min(start + rng.choice([1, 1, 2, 5, 40]), len(made))
        other = rng.randrange(len(made) + 1)
        part = bytes(made[start:end])
        change = rng.choice(["cut", "double", "move", "byte", "sign"])
        if change in ("cut", "move"):
            del made[start:end]
        if change in ("double", "move"):
            made[other:other] = part
        if change == "byte":
            made[start:end] = bytes([rng.randrange(256)])
        if change == "sign":
            made[start:start] = rng.choice(SIGNS)
    return bytes(made)


@pytest.mark.parametrize("language", [C, CPP, ASSEMBLER])
def test_broken_code(language: str) -> None:
    rng = random.Random(10)
    data = LANGUAGES[language].encode()
    whole = sum(map(len, read(data, language)))
    assert whole > 3
    kept = 0
    for _ in range(400):
        kept += sum(map(len, read(broken(rng, data), language))) > whole // 2
    # most of what is not broken is still seen
    assert kept > 200


@settings(max_examples=300)
@given(st.binary(max_size=200), st.sampled_from([C, CPP, ASSEMBLER]))
@example(b"const int \xc3\xbc\xff = 3; enum { \xff = 2 };", C)
@example(b"\xef\xbb\xbf#define A (*(char*)\xff 0x38)\nvoid f(){A=1;}", C)
@example(b"\x80\x80=0", ASSEMBLER)
def test_any_bytes(data: bytes, language: str) -> None:
    read(data, language)


PIECES = [
    "#define A", "(a, b)", " A", "(A)", "A(1, 2)", "##", "#", "\n", "\\\n", "(*(char *)0x38)", "B",
    "enum {", "}", ";", "= ", "1 << ", "const int ", "*", "&", "->x", "[1]", "struct s ", "= A",
    "{ char x; }", "typedef ", "void f() {", "\n#if A\n", "\n#else\n", "\n#endif\n", "/*", "*/",
    "'", '"', "sizeof", "asm(", "_Static_assert(", ",", "?", ":", "::", "int &r = ", "auto ",
]  # fmt: skip


@settings(max_examples=400, deadline=None)
@given(
    st.lists(st.sampled_from(PIECES), max_size=40).map(lambda row: "".join(row).encode()),
    st.sampled_from([C, CPP]),
)
def test_likely_pieces(data: bytes, language: str) -> None:
    read(data, language)


def test_nothing() -> None:
    assert seen() == Seen(*[[] for _ in Seen._fields])
    assert read(b"") == Seen(*[[] for _ in Seen._fields])


def test_one_broken_file_leaves_the_others() -> None:
    found = seen("/* never closed\n#define A 1", "#if X\n((((", "#define B 2\n")
    assert [item.name for item in found.definitions] == ["B"]


# What would take for ever.

POINTER = "(*(volatile char *)0x38)"


class Endless(NamedTuple):
    """A text by its size in bytes."""

    name: str
    make: Callable[[int], str]


def rows(unit: str) -> Callable[[int], str]:
    return lambda size: (unit * (size // len(unit) + 1))[:size]


def counted(unit: str) -> Callable[[int], str]:
    """Repeat ``unit`` with a number, and the one after it, in each."""
    return lambda size: "".join(
        unit.format(n=number, m=number + 1) for number in range(size // len(unit))
    )


def within(head: str, unit: str, tail: str = "") -> Callable[[int], str]:
    return lambda size: head + rows(unit)(size) + tail


DOUBLED = f"#define A0 {POINTER}\n" + "".join(f"#define A{n + 1} A{n}+A{n}\n" for n in range(23))
CHOICES = "".join(
    f"#if X{n}\n#define A{n} {POINTER}\n#else\n#define A{n} 2\n#endif\n" for n in range(20)
)
CONDITIONS = counted(f"#if X{{n}}\n#define A {POINTER}\n#endif\n")(20_000)
STRUCTURE = "struct s {" + "".join(f"char a{n};" for n in range(256)) + "};\n"
CALLS = "F(" * 15 + "1" + ")" * 15 + ";"
F = "void f() {"
ENDLESS = [
    Endless("conditionals in conditionals", rows("#if A\n")),
    Endless("arms of one conditional", within("#if A\n", "#elif B\n")),
    Endless("empty lines of a header", rows("\n")),
    Endless("one macro again and again", rows("#define A A+1\n")),
    Endless("one macro under many conditions", within(CONDITIONS + F, "A;")),
    Endless("pointers", counted("char *p{n} = (char *)0x38;\n")),
    Endless("constants of one name", rows("const int a = a;\n")),
    Endless("constants the wrong way round", counted("const int a{n} = a{m} + 1;\n")),
    Endless("enumerators the wrong way round", counted("enum {{ e{n} = e{m} }};\n")),
    Endless("macros of macros", counted("#define a{n} (a{m}+1)\n")),
    Endless("macros that double", within(DOUBLED + F, "A22;")),
    Endless("a long macro used often", within(f"#define A {POINTER} {'x ' * 30_000}\n{F}", "A;")),
    Endless("calls in calls", within(f"#define F(x) (x+x+{POINTER})\n{F}", CALLS)),
    Endless("calls that never end", within(f"#define F(x) {POINTER}\n{F}", "F(")),
    Endless("choices of arms", within(CHOICES + F, "+".join(f"A{n}" for n in range(20)) + ";")),
    Endless("brackets", rows("(")),
    Endless("braces", rows("{")),
    Endless("stars", rows("* ")),
    Endless("signs", rows("* ? ")),
    Endless("a comment that never ends", rows("/* regwright: silence ")),
    Endless("structures in structures", rows("struct s {")),
    Endless(
        "structures over addresses",
        lambda size: STRUCTURE + counted("#define A{n} (*(struct s *){n})\n")(size),
    ),
    Endless("types of types", counted("typedef t{m} t{n};\n")),
    Endless("words that want something", rows("do sizeof ")),
    Endless("words before a sign", rows("a " * 7 + "@")),
    Endless("a long expression", within(f"int x = {POINTER}", "+1", ";")),
    Endless("casts", within("int x = ", "(char *)", "0x38;")),
    Endless("commas", within(f"int x = ({POINTER}", ",1", ");")),
    Endless("assembly", within('void f() { asm("', "out 0x38, r1\\n", '"); }')),
]


@pytest.mark.parametrize("endless", ENDLESS, ids=lambda item: item.name)
def test_time_and_size_have_bounds(endless: Endless) -> None:
    data = endless.make(60_000).encode()
    start = time.perf_counter()
    found = read(data, CPP if len(endless.name) % 2 else C)
    assert time.perf_counter() - start < 20
    assert sum(map(len, found)) < 10 * len(data)


LONGER = [
    "conditionals in conditionals",
    "pointers",
    "brackets",
    "stars",
    "signs",
    "words that want something",
    "a comment that never ends",
    "empty lines of a header",
    "calls that never end",
]


@pytest.mark.parametrize("name", LONGER)
def test_time_grows_as_the_text(name: str) -> None:
    """These take a second at most, where the square of their length would be minutes."""
    (endless,) = [item for item in ENDLESS if item.name == name]
    data = endless.make(400_000).encode()
    start = time.perf_counter()
    read(data)
    assert time.perf_counter() - start < 20


def test_the_parser_gets_no_more_time_than_it_may_have(monkeypatch: pytest.MonkeyPatch) -> None:
    """What it cannot make sense of takes it the square of its length; it is told where it ends."""
    monkeypatch.setattr(grammar, "_SECONDS", 0.2)
    data = b"#define A 1\n" + b"'#}int &r = ::" * 7000
    start = time.perf_counter()
    found = read(data)
    assert time.perf_counter() - start < 20
    assert [item.name for item in found.definitions] == ["A"]
    assert "takes too long" in found.unread[0].reason
    assert 0 < found.unread[0].at.start < len(data)


def test_what_was_too_much_work_is_told() -> None:
    (endless,) = [item for item in ENDLESS if item.name == "a long macro used often"]
    reasons = [item.reason for item in read(endless.make(300_000).encode()).unread]
    assert [item for item in reasons if "more work" in item]
    assert read(LANGUAGES[C].encode()).unread == []


def test_many_files_are_one_program() -> None:
    texts = [f"#define A {number}\nint x = A + B{number};\n" for number in range(3000)]
    texts += [f"#define B{number} {POINTER}\n" for number in range(100)]
    start = time.perf_counter()
    found = read_sources(files_of(*texts), Vocabulary({}, {"A"}.__contains__), ILP32)
    assert time.perf_counter() - start < 30
    assert len(found.definitions) == 3100
