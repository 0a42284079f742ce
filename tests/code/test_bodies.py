"""Where bodies of functions are found in a text, and which of them count for nothing."""

from __future__ import annotations

import pytest

from regwright.code.bodies import bodies, without
from regwright.code.grammar import parse
from regwright.code.plain import plain
from regwright.code.text import CPP, C
from regwright.code.words import words_in

FILLED = "count = count + 1; more(count);"


def found(text: str) -> list[str]:
    """Return the bodies in ``text``."""
    data = text.encode()
    return [data[body.start : body.end].decode() for body in bodies(data)]


@pytest.mark.parametrize(
    "inside",
    [
        FILLED,
        f"if (a) {{ {FILLED} }} else {{ for (;;) {{ {FILLED} }} }}",
        f'say("}} \\" {{ // /*"); {FILLED}',
        f"use('{{', '\\''); {FILLED}",
        f"/* }} */ {FILLED} // {{ it's\n",
    ],
)
@pytest.mark.parametrize(
    "head",
    [
        "void f(int a)",
        "struct s *f(struct s *a)\n",
        "/* struct s = { */ int f(void) ",
        "__attribute__((noinline)) static int f(void)",
        "#define X struct { \\\n = {\nint f(void)",
    ],
)
def test_a_body_is_found(head: str, inside: str) -> None:
    assert found(f"int a;\n{head}{{{inside}}}\nint b;\n") == [inside]


@pytest.mark.parametrize(
    "text",
    [
        "struct __attribute__((packed)) s { uint8_t a; uint16_t b; uint8_t c; };",
        "struct /* a; b */ ALIGNED(2) s { uint8_t a; uint16_t b; uint8_t c; };",
        "__attribute__((aligned(2))) struct ALIGNED(2) { uint8_t a; uint16_t b; } s;",
        "int a = (sizeof(int)) { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 };",
        f"void f(void) {{ {FILLED}",
        f"/* void f(void) {{ {FILLED} }} */",
        f'char *s = "void f(void) {{ {FILLED} }}";',
        f"#define F void f(void) {{ {FILLED} }}",
        f'char *s = R"(void f(void) {{ {FILLED} }})";',
        "void f(void) {" * 20 + FILLED,
    ],
)
def test_nothing_else_is_one(text: str) -> None:
    assert found(text) == []


def test_a_body_with_a_directive_gives_its_parts() -> None:
    text = f"void f(int a) {{\n#if X\nif (a) {{ {FILLED} }}\n#endif\n}}\n"
    assert found(text) == [f" {FILLED} "]


def test_a_text_without_bodies_is_as_long_and_as_right() -> None:
    data = f"int a;\nvoid f(void) {{ {FILLED} }}\nint g(void) {{ {FILLED} }}\nint b;\n".encode()
    left = without(data, bodies(data))
    assert len(left) == len(data)
    assert b"count" not in left
    assert left.endswith(b"\nint b;\n")
    root = parse(left, C).root
    assert not root.has_error
    kinds = [node.type for node in root.named_children]
    assert kinds == ["declaration", "function_definition", "function_definition", "declaration"]


def leads(text: str, language: str = C) -> set[str] | None:
    """Return the names that must mean nothing for a body to count for nothing."""
    data = text.encode()
    made = plain(data, frozenset(words_in(data)), language)
    return None if made is None else {name.decode() for name in made.leads}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (FILLED, set()),
        ("const uint8_t *next = table + (i & 3);", {"table"}),
        ("const uint8_t *next = &table[2], last;", None),
        ('const char *name = "= 3";', set()),
        ("const int a = first(3, 4) + 2;", {"first"}),
        ("uint8_t *p = (uint8_t *)start + 1;", {"start"}),
        ("x = *(uint16_t *)(at + 2);", {"at"}),
        ("send((void *)block, sizeof(uint8_t *));", {"block"}),
        ("x = *(uint16_t *)at << 3;", {"at"}),
    ],
)
def test_what_counts_for_nothing_while_a_name_means_nothing(
    text: str, expected: set[str] | None
) -> None:
    assert leads(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "const uint8_t a = 3;",
        "uint8_t const a /* = b; */ = 3;",
        "const uint8_t a = b, c = 3;",
        "const uint8_t a = sizeof b;",
        "const uint8_t a ALIGNED(2) = 3;",
        "uint8_t a, *b = 0x38;",
        "*(uint8_t *)0x38 = 1;",
        "*(uint8_t *)'a' = 1;",
        "*(uint8_t *)((at) + 2) = 1;",
        "*(uint8_t *)(uint16_t)0x38 = 1;",
        "*(uint8_t *)at = 1 << 9;",
        "*(uint8_t *)(uint8_t (*)[3])0x38 = 1;",
        "*(uint8_t *)(uint8_t * const *)0x38 = 1;",
        "*(uint8_t *)" + "(uint8_t *)" * 9 + "at = 1;",
        "const uint8_t a" + " + a" * 600 + " = b;",
        "uint8_t i = (n) * 2, *p = 0;",
        "TRACE(*ctx)\nuint8_t *p = 0;",
        "uint8_t [[maybe_unused]] *p = 0;",
        "TYPE(uint8_t) *p = 0;",
        "*(uint8_t *)größe = 3;",
        "*(uint8_t *)a$b = 3;",
        "*(uint8_t *)(n + 0, 0x38) = 3;",
        "*(uint8_t *)at = (1 || n) << 9;",
        "enum { A, B };",
        "struct s { int a; } b;",
        'asm volatile ("nop");',
        "typedef uint8_t *at_t;",
        "uint8_t a __attribute__((address(0x38)));",
        "uint8_t a @ 0x38;",
    ],
)
def test_what_counts_whatever_its_names_mean(text: str) -> None:
    assert leads(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "uint8_t &a = *at;",
        "const uint8_t a(3);",
        "uint8_t *a{nullptr};",
        "auto a = 3;",
        "*reinterpret_cast<uint8_t *>(at) = 1;",
        "*(uint8_t *)board::AT = 1;",
        "*(uint8_t *)::AT = 1;",
    ],
)
def test_what_counts_in_cpp(text: str) -> None:
    assert leads(text, CPP) is None
