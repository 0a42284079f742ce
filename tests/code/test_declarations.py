"""What declarations define, and what they do not: C and C++ by hand, and qualifiers by gcc.

Sources: ISO C11 6.7, 6.2.1 (scopes); C++ [dcl.constexpr], [basic.scope]. ``address(…)`` is a
variable attribute of gcc; ``@`` is common practice, no source.
"""

from __future__ import annotations

import pytest
from code_reading import seen, shown

from conftest import Compile
from regwright.code.seen import Definition, Location, Number, Pointer
from regwright.code.text import CPP, C

Short = tuple[str, str, int]
HEAD = "typedef unsigned char uint8_t; typedef unsigned short uint16_t;\n"
CPP_HEAD = "#include <cstdint>\n"


def short(item: Definition) -> Short:
    means = item.means
    return item.name, item.form, means.value if isinstance(means, Number) else means.address


def found(text: str, language: str = C) -> list[Short]:
    return [short(item) for item in seen(HEAD + text, language=language).definitions]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("const int A = 3;", [("A", "constant", 3)]),
        ("static const uint8_t A = 0x100 | 5;", [("A", "constant", 5)]),
        ("const unsigned A = 1, B = A + 1;", [("A", "constant", 1), ("B", "constant", 2)]),
        ("int const A = 3;", [("A", "constant", 3)]),
        ("extern const int A = 3;", [("A", "constant", 3)]),
        ("const A_t A = 3;", [("A", "constant", 3)]),
        (
            "const struct { int a; } *const A = (void *)0x38;",
            [("A", "pointer", 0x38), ("A.a", "member", 0x38)],
        ),
        ("volatile uint8_t *const A = (volatile uint8_t *)0x38;", [("A", "pointer", 0x38)]),
        ("uint8_t volatile *A = (uint8_t *)0x38;", [("A", "pointer", 0x38)]),
        ("static uint8_t *A = (void *)(0x20 + 0x18), *B = 0;",
         [("A", "pointer", 0x38), ("B", "pointer", 0)]),
        ("uint8_t *A = (uint8_t *)0x30 + 8;", [("A", "pointer", 0x38)]),
        ("enum { A, B, C = 5, D };",
         [("A", "enum", 0), ("B", "enum", 1), ("C", "enum", 5), ("D", "enum", 6)]),
        ("typedef enum e { A = 1 << 3, B = A | 1 } e;", [("A", "enum", 8), ("B", "enum", 9)]),
        ("enum { A = -1, B, };", [("A", "enum", -1), ("B", "enum", 0)]),
        ("enum { A = f(), B, C = 2, D };", [("C", "enum", 2), ("D", "enum", 3)]),
        ("enum e;\nenum e x;\nenum { };", []),
        ("void f(void) { const int A = 3; enum { B = 4 }; }",
         [("A", "constant", 3), ("B", "enum", 4)]),
        # arms of conditionals within an enumeration: what is behind them depends on them
        (
            "enum { A,\n#if X\nB,\n#elif Y\nC = 7, D,\n#else\nE,\n#endif\nF, G = 9, H };",
            [("A", "enum", 0), ("B", "enum", 1), ("C", "enum", 7), ("D", "enum", 8),
             ("E", "enum", 1), ("G", "enum", 9), ("H", "enum", 10)],
        ),
        # at addresses
        ("volatile uint8_t A __attribute__((address(0x38)));", [("A", "object", 0x38)]),
        ("__attribute__((address(0x20 + 0x18))) volatile uint8_t A;", [("A", "object", 0x38)]),
        ("extern volatile uint8_t A __attribute__((used, address (0x38)));",
         [("A", "object", 0x38)]),
        ("volatile unsigned char A @ 0x38;", [("A", "object", 0x38)]),
        ("\tunsigned int\tA @ 56 ;", [("A", "object", 0x38)]),
        # what gives no constant
        ("int A = 3;", []),
        ("extern const int A;", []),
        ("extern uint8_t *const A;", []),
        ("const int A = f();", []),
        ("const int A;", []),
        ("const float A = 3; const double B = 4;", []),
        ("const int A[] = {1, 2}; const int B[1] = {3};", []),
        ("const char *const A = \"text\";", []),
        ("uint8_t *f(void); uint8_t *(*g)(void) = 0x38;", []),
        ("void f(const int A, uint8_t *B);", []),
        ("const struct { int a, b; } A = { 1, 2 };", []),
        ("// volatile unsigned char A @ 0x38;\n/*\nunsigned char B @ 0x38;\n*/", []),
        ("char *s = \"\\\nunsigned char B @ 0x38;\";", []),
        ("x @ 5;\nreturn y @ 5;\nunsigned char A @ f();", []),
        ("volatile uint8_t A __attribute__((aligned(4)));", []),
        ("volatile uint8_t A __attribute__((section(\"address(0x38)\")));", []),
    ],
)  # fmt: skip
def test_what_c_declares(text: str, expected: list[Short]) -> None:
    assert found(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("constexpr uint8_t A = 3;", [("A", "constant", 3)]),
        ("constexpr auto A = 3;", [("A", "constant", 3)]),
        ("const uint8_t A{3}; const uint8_t B(4);", [("A", "constant", 3), ("B", "constant", 4)]),
        ("inline constexpr std::uint8_t A = 3;", [("A", "constant", 3)]),
        ("auto A = (volatile uint8_t *)0x38;", [("A", "pointer", 0x38)]),
        ("auto *const A = reinterpret_cast<volatile uint8_t *>(0x38);", [("A", "pointer", 0x38)]),
        ("auto &A = *(volatile uint8_t *)0x38;", [("A", "object", 0x38)]),
        ("volatile uint8_t &A = *reinterpret_cast<volatile uint8_t *>(0x38);",
         [("A", "object", 0x38)]),
        ("static volatile uint8_t &A{*(volatile uint8_t *)0x38};", [("A", "object", 0x38)]),
        ("enum class E : uint8_t { A = 2, B };", [("A", "enum", 2), ("B", "enum", 3)]),
        ("namespace n { constexpr int A = 3; }", [("A", "constant", 3)]),
        ("class K { static constexpr int A = 3, B = 4; int c = 5; };",
         [("A", "constant", 3), ("B", "constant", 4)]),
        ("class K { volatile uint8_t *const A = (volatile uint8_t *)0x38; };",
         [("A", "pointer", 0x38)]),
        ("struct K { enum { A = 1 }; };", [("A", "enum", 1)]),
        ("auto A = 3;", []),
        ("int f(int A = 3);", []),
        ("template <int A = 3> struct K { };", []),
        ("const auto A = f();", []),
    ],
)  # fmt: skip
def test_what_cpp_declares(text: str, expected: list[Short]) -> None:
    assert found(text, CPP) == expected


# Where a name stands for its value.


def uses(text: str, language: str = C) -> list[tuple[int, int]]:
    """Return the line and the address of each access."""
    whole = HEAD + text
    return [
        (whole[: item.target_at.start].count("\n"), item.target.address)
        for item in seen(whole, language=language).accesses
    ]


def test_a_local_name_ends_with_its_block() -> None:
    text = """\
void f(void) { uint8_t *p = (uint8_t *)0x38;
    *p = 1;
    { uint8_t *p = (uint8_t *)0x39;
        *p = 2;
    }
    *p = 3;
}
void g(uint8_t *p) {
    *p = 4; }
void h(void) { uint8_t *p = (uint8_t *)0x3A;
    *p = 5; }
ISR(TIMER) { uint8_t *p = (uint8_t *)0x3B;
    *p = 6; }
"""
    assert uses(text) == [(2, 0x38), (4, 0x39), (6, 0x38), (11, 0x3A), (13, 0x3B)]


def test_a_local_name_starts_where_it_is_declared() -> None:
    text = """\
uint8_t *const p = (uint8_t *)0x38;
void f(void) {
    *p = 1;
    uint8_t *const p = (uint8_t *)0x39;
    *p = 2;
}
"""
    assert uses(text) == [(3, 0x38), (5, 0x39)]


@pytest.mark.parametrize(
    "change",
    ["p = q;", "p++;", "--p;", "p += 2;", "set(&p);", "for (;; p++) { }", "while (*p++) { }"],
)
def test_a_pointer_that_is_set_again_is_known_only_where_it_starts(change: str) -> None:
    text = f"void f(uint8_t *q) {{ uint8_t *p = (uint8_t *)0x38;\n*p = 1; {change} }}\n"
    assert found(text) == [("p", "pointer", 0x38)]
    assert uses(text) == []
    # another variable of that name is another variable
    assert uses("void g(void) { uint8_t *p = (uint8_t *)0x39;\n*p = 1; }\n" + text) == [(2, 0x39)]


@pytest.mark.parametrize(
    "other",
    ["*p = 2;", "x = *p;", "p->a = 3;", "p[0] = 1;", "q.p = r;", "q->p = r;", "if (p == q) { }",
     "/* p = q; */", "q = &p->a;", "s = \"p = q\";"],
)  # fmt: skip
def test_a_pointer_that_is_only_used_keeps_its_value(other: str) -> None:
    text = f"void f(void) {{ uint8_t *p = (uint8_t *)0x38;\n*p = 1; {other} }}\n"
    assert (2, 0x38) in uses(text)


def test_a_constant_is_found_by_the_name_of_its_class() -> None:
    text = """\
struct A { static constexpr int ADDRESS = 0x38; void f() {
    *(volatile uint8_t *)ADDRESS = 1; } };
struct B { static constexpr int ADDRESS = 0x39; void f() {
    *(volatile uint8_t *)ADDRESS = 1; } };
namespace c { constexpr int ADDRESS = 0x3A; enum class E { ADDRESS = 0x3B }; }
void g() {
    *(volatile uint8_t *)A::ADDRESS = 1;
    *(volatile uint8_t *)B::ADDRESS = 1;
    *(volatile uint8_t *)c::ADDRESS = 1;
    *(volatile uint8_t *)c::E::ADDRESS = 1;
    *(volatile uint8_t *)ADDRESS = 1;
    *(volatile uint8_t *)D::ADDRESS = 1;
}
"""
    expected = [(2, 0x38), (4, 0x39), (7, 0x38), (8, 0x39), (9, 0x3A), (10, 0x3B)]
    assert uses(text, CPP) == expected


def test_a_lone_constant_is_found_by_any_way_to_it() -> None:
    text = """\
namespace board { constexpr int OUT = 0x38; }
namespace b = board;
using namespace board;
void f() { *(volatile uint8_t *)OUT = 1;
    *(volatile uint8_t *)b::OUT = 1;
    *(volatile uint8_t *)::board::OUT = 1; }
"""
    assert uses(text, CPP) == [(4, 0x38), (5, 0x38), (6, 0x38)]


def test_a_constant_of_another_file_and_one_of_two_others() -> None:
    text = "void f(void) { *(volatile char *)A = 1; }\n"
    one, two = "enum { A = 0x38 };\n", "const int A = 0x39;\n"
    local = "void g(void) { enum { A = 0x3A }; }\n"
    assert [item.target.address for item in seen(text, one).accesses] == [0x38]
    assert [item.target.address for item in seen(text, one, two).accesses] == []
    assert [item.target.address for item in seen(text, local).accesses] == []
    assert [item.target.address for item in seen(two + text, one).accesses] == [0x39]


def test_conversions_of_declared_constants() -> None:
    """6.7.9: as by assignment, so that the declared type is what counts."""
    text = "const uint8_t A = 0x138; const int B = (uint8_t)~0; const long long C = ~0u;\n"
    assert [item[2] for item in found(text)] == [0x38, 0xFF, 0xFFFFFFFF]
    text = "uint16_t *const A = (uint8_t *)0x38;\n"
    (item,) = seen(HEAD + text).definitions
    assert isinstance(item.means, Pointer)
    assert item.means.to.bits == 16


# Places.


def test_places_of_declarations() -> None:
    text = "static volatile char *const A = (char *)0x38, *B; enum e { C, D = 0x39 };\n"
    text += "char E @ 0x3A;\n"
    places = {
        item.name: (shown(text, item.name_at), shown(text, item.body), shown(text, item.whole))
        for item in seen(text).definitions
    }
    assert places == {
        "A": ("A", "(char *)0x38", "static volatile char *const A = (char *)0x38, *B;"),
        "C": ("C", "C", "C"),
        "D": ("D", "0x39", "D = 0x39"),
        "E": ("E", "0x3A", "char E @ 0x3A;"),
    }


# ``volatile`` at the place that is told makes gcc take what is there for volatile.

POINTERS = [
    "#define R (*(uint8_t *)0x38)",
    "#define R (*((uint8_t *)(0x20 + 0x18)))",
    "#define R (*(const uint8_t *)0x38)",
    "#define R (((pair_t *)0x38)->a)",
    "#define P ((pair_t *)0x38)\n#define R (P->a)",
    "#define AT(x) (*(uint8_t *)(x))\n#define R AT(0x38)",
    "uint8_t *const P = (uint8_t *)0x38;\n#define R (*P)",
    "static uint8_t *P = (uint8_t *)0x38;\n#define R (*P)",
    "uint8_t *const P = (uint8_t *)0x38;\n#define R (P[2])",
    "pair_t *const P = (pair_t *)0x38;\n#define R (P->b)",
    "static pair_t *P = (pair_t *)0x38;\n#define R ((*P).b)",
]
CPP_POINTERS = [
    "#define R (*reinterpret_cast<uint8_t *>(0x38))",
    "static auto *const P = reinterpret_cast<uint8_t *>(0x38);\n#define R (*P)",
    "static auto &R = *(uint8_t *)0x38;",
]
NO_PLACE = [
    # it would make the pointer volatile, or not compile
    "typedef uint8_t *byte_p;\n#define R (*(byte_p)0x38)",
    "typedef uint8_t *byte_p;\nstatic byte_p P = (byte_p)0x38;\n#define R (*P)",
    "#define R (*(uint8_t **)0x38)",
    "uint8_t **const P = (uint8_t **)0x38;\n#define R (*P)",
]
PAIR = "#include <stdint.h>\ntypedef struct { uint8_t a, b; } pair_t;\n"
#: Holds where the object is volatile: what typeof gives of its address says so.
IS_VOLATILE = '_Static_assert(__builtin_types_compatible_p(__typeof__(&R), {0} *), "volatile");\n'


def qualified(text: str, language: str) -> str | None:
    """Return ``text`` with ``volatile`` where that of the name R, or its pointer, can be put."""
    items = seen(text, language=language).definitions
    places = {
        item.name: item.means.qualifier for item in items if not isinstance(item.means, Number)
    }
    place = places.get("R") or places.get("P")
    data = text.encode()
    return (
        None
        if place is None
        else (data[: place.start] + b"volatile " + data[place.start :]).decode()
    )


@pytest.mark.parametrize("text", POINTERS)
def test_volatile_at_the_place_that_is_told_counts_in_c(text: str, compile_c: Compile) -> None:
    made = qualified(PAIR + text + "\n", C)
    assert made is not None
    kind = "const volatile uint8_t" if "(const" in text else "volatile uint8_t"
    done = compile_c(made + IS_VOLATILE.replace("{0}", kind), "-w", std="gnu11", strict=False)
    assert done.returncode == 0, (made, done.stderr)
    again = [item.means for item in seen(made).definitions if item.name == "R"]
    assert [item.type.volatile for item in again if isinstance(item, Location)] == [True]


@pytest.mark.parametrize("text", [*POINTERS[:2], *POINTERS[3:], *CPP_POINTERS])
def test_volatile_at_the_place_that_is_told_counts_in_cpp(text: str, compile_c: Compile) -> None:
    made = qualified(PAIR + text + "\n", CPP)
    assert made is not None
    test = "#include <type_traits>\nstatic_assert(std::is_volatile<std::remove_reference<"
    test += 'decltype((R))>::type>::value, "");\n'
    done = compile_c(made + test, "-w", std="c++17", strict=False)
    assert done.returncode == 0, (made, done.stderr)


@pytest.mark.parametrize("text", NO_PLACE)
def test_where_no_volatile_can_be_put_no_place_is_told(text: str) -> None:
    assert qualified(PAIR + text + "\n", C) is None


def test_what_is_volatile_already() -> None:
    text = """\
volatile uint8_t *const A = (uint8_t *)0x38;
uint8_t *const B = (volatile uint8_t *)0x38;
volatile uint8_t &C = *(uint8_t *)0x38;
typedef volatile uint8_t reg_t;
reg_t *const D = (reg_t *)0x38;
struct pair { volatile uint8_t a; uint8_t b; };
volatile struct pair *const E = (struct pair *)0x38;
struct pair *const F = (struct pair *)0x38;
"""
    items = seen(HEAD + text, language=CPP).definitions
    volatile = {
        item.name: (item.means.to if isinstance(item.means, Pointer) else item.means.type).volatile
        for item in items
        if not isinstance(item.means, Number)
    }
    assert volatile == {
        "A": True,
        "B": False,
        "C": True,
        "D": True,
        "E": True,
        "E.a": True,
        "E.b": True,
        "F": False,
        "F.a": True,
        "F.b": False,
    }
