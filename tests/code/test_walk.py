"""The walk to the expressions around places, held against a plain search through the whole tree."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from regwright.code.grammar import parse
from regwright.code.text import CPP, C
from regwright.code.walk import expressions_around

SOURCE = """\
#include "a.h"
#define A 1 + x
#if A > 1
int a = A, *b = &c[A];
#endif
enum e { B = A, D };
typedef struct { int x : A; } s_t;
ISR(VECTOR) { asm("x %0" :: "r"(A)); }
_Static_assert(A == 1, "A");
int f(int x, char *y) {
    for (int i = A; i < 3; i++) { A: x += y[A] ? g(A, "A") : 'A'; goto A; }
    if (x) /* A */ A = 3; else return (s_t){ .x = A }.x;
    switch (A) { case A: break; }
    return sizeof(A);
}
"""
CPP_SOURCE = (
    SOURCE
    + """\
namespace n { template <int A> class K : public B<A> { int &r = A; K() : k(A) { } }; }
auto l = [=](int A) { return A; };
"""
)


def spans(data: bytes, places: list[int], language: str = C) -> list[tuple[int, int]]:
    root = parse(data, language).root
    return [(item.node.start_byte, item.node.end_byte) for item in expressions_around(root, places)]


def occurrences(text: str, word: str) -> list[int]:
    return [place for place in range(len(text)) if text.startswith(word, place)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("int a = A;", ["A"]),
        ("int a = b(A + 1)[A];", ["b(A + 1)[A]"]),
        ("void f(void) { x = A; y = 2; g(A); }", ["x = A", "g(A)"]),
        ("void f(void) { if (A) A; else { A++; } }", ["(A)", "A", "A++"]),
        ("void f(void) { for (i = A; A; A++) A(); }", ["i = A", "A", "A++", "A()"]),
        ("void f(void) { switch (x) { case A: return A; } }", ["A", "A"]),
        ("int a[A] = { A, [2] = A };", ["A", "A", "[2] = A"]),
        ("enum { B = A };", ["A"]),
        ('void f(void) { asm("A" :: "r"(A)); }', ['asm("A" :: "r"(A))']),
        ('_Static_assert(A, "A");', ['_Static_assert(A, "A")']),
        ("void f(void) { A: goto A; }", []),
        ("int A; void A(int A); struct A { int A; };", []),
        ("#define B A\n#if A\n#elif defined(A)\n#endif\n#ifdef A\n#endif\n", []),
        ("#if X\nint a = A;\n#else\nint b = A;\n#endif\n", ["A", "A"]),
        ('char *s = "A"; // A\n/* A */ int c = L"A"[0];', ['L"A"[0]']),
        ("A;", ["A"]),
        ("x = A", ["x = A"]),
    ],
)
def test_outermost_expressions(text: str, expected: list[str]) -> None:
    data = text.encode()
    found = spans(data, occurrences(text, "A"))
    assert [text[start:end] for start, end in found] == expected


def test_the_function_around_is_told() -> None:
    text = "int a = A;\nint f(void) { return A; }\nint g(void) { A; if (1) { A; } }\n"
    found = expressions_around(parse(text.encode(), C).root, occurrences(text, "A"))
    start = text.index("int f"), text.index("int g")
    assert [item.function for item in found] == [0, start[0], start[1], start[1]]


def outermost(root: Any, language: str) -> list[tuple[int, int]]:
    """Return the expressions around every byte: those that no place is left out of."""
    return spans(root, list(range(len(root))), language)


@pytest.mark.parametrize(("source", "language"), [(SOURCE, C), (CPP_SOURCE, CPP)])
def test_fewer_places_give_the_expressions_around_them(source: str, language: str) -> None:
    data = source.encode()
    every = outermost(data, language)
    assert len(every) > 15
    rng = random.Random(9)
    for _ in range(100):
        places = sorted(rng.sample(range(len(data)), rng.randrange(12)))
        around = [
            (start, end) for start, end in every if any(start <= place < end for place in places)
        ]
        assert spans(data, places, language) == around


FRAGMENTS = [
    "int a = ", "(", ")", "{", "}", ";", "A", " ", "\n", "#if A\n", "#endif\n", "if (A)", "=",
    "f(A)", '"A"', "'", "/*", "*/", "//", "struct s {", "[", "]", "\\", "asm(", "é", "\x00",
    "return", "<", ">", "::", "template<",
]  # fmt: skip


@given(
    st.lists(st.sampled_from(FRAGMENTS), max_size=30).map(lambda row: "".join(row).encode())
    | st.binary(max_size=60),
    st.sets(st.integers(0, 80)),
    st.sampled_from([C, CPP]),
)
def test_any_text_at_any_places(data: bytes, places: set[int], language: str) -> None:
    """Spans are apart and in order, and each is around a place that was asked for."""
    found = spans(data, sorted(places), language)
    last = 0
    for start, end in found:
        assert last <= start < end <= len(data)
        assert any(start <= place < end for place in places)
        last = end
