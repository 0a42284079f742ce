"""The lists of words that no macro may be called, against the compiler.

Source: GCC, which must refuse ``int WORD = 0;`` where WORD is a keyword; and the counts of ISO C:
32 in C89, 37 in C99, 44 in C11; in C23 54, and five more spellings of some of these (ISO/IEC
9899:2024, 6.4.1); ISO C++17: 73 and 11 alternative representations.
"""

from __future__ import annotations

import re
import subprocess

import pytest
from outside_tools import macros_of

from regwright.rules import keywords as lists

DIALECTS = {
    "c89": lists.C89,
    "c99": lists.C99,
    "c11": lists.C11,
    "c2x": lists.C23,
    "c++17": lists.CPP17,
    "gnu11": lists.C11 | lists.GNU,
}
PLAIN = {"value", "main_loop", "PORT", "near", "far", "interrupt", "sfr", "_Decimal", "override"}
WORDS = sorted(lists.C23 | lists.CPP17 | lists.GNU | PLAIN)

LATER_C = {word for word in lists.C11 - lists.C89 if word[0] == "_"}
DECIMAL = {"_Decimal32", "_Decimal64", "_Decimal128"}
#: Words that GCC refuses though the dialect's standard has them not, and why.
REFUSED_ANYWAY = {
    "c89": {"names of later editions, which ISO C89 reserves for the compiler": LATER_C | DECIMAL},
    "c99": {"names of later editions, which ISO C99 reserves": (LATER_C - lists.C99) | DECIMAL},
    "c11": {"decimal numbers of ISO TR 24732": DECIMAL},
    "c2x": {},
    "c++17": {"C's complex numbers, a GNU extension": {"_Complex"}},
    "gnu11": {
        "decimal numbers of ISO TR 24732": DECIMAL,
        "GNU C had it before C23": {"typeof"},
    },
}
#: Words of C23 that GCC 12 takes as names: it was out before the standard was.
BEFORE_GCC_13 = {"alignas", "alignof", "bool", "constexpr", "false", "nullptr", "static_assert"} | {
    "thread_local",
    "true",
    "typeof",
    "typeof_unqual",
    "_BitInt",
}


def compiler_version() -> int:
    process = subprocess.run(["gcc", "-dumpversion"], capture_output=True, text=True, check=True)
    return int(process.stdout.split(".")[0])


def refused(dialect: str) -> set[str]:
    """Return the words that cannot name a variable, from one run of the compiler.

    Every second line is a declaration that is right: an error in one of these would mean that
    the compiler was still confused by the line before.
    """
    lines = [f"int {word} = 0;\nextern int right{i};" for i, word in enumerate(WORDS)]
    is_cpp = "++" in dialect
    process = subprocess.run(
        [
            "g++" if is_cpp else "gcc",
            f"-std={dialect}",
            "-pedantic-errors",
            "-fsyntax-only",
            "-fmax-errors=0",
            *("-x", "c++" if is_cpp else "c", "-"),
        ],
        input="\n".join(lines) + "\n",
        capture_output=True,
        text=True,
        check=False,
    )
    wrong = {int(n) for n in re.findall(r"^<stdin>:(\d+):\d+: error", process.stderr, re.MULTILINE)}
    assert all(line % 2 for line in wrong)
    return {WORDS[line // 2] for line in wrong}


@pytest.mark.parametrize("dialect", list(DIALECTS))
def test_the_compiler_refuses_exactly_the_words_listed(dialect):
    expected = set(DIALECTS[dialect])
    for words in REFUSED_ANYWAY[dialect].values():
        assert not words & DIALECTS[dialect]
        expected |= words
    if dialect == "c2x" and compiler_version() < 13:
        assert expected >= BEFORE_GCC_13
        expected -= BEFORE_GCC_13
    assert refused(dialect) == expected


def test_counts_are_those_of_the_standards():
    assert [len(words) for words in (lists.C89, lists.C99, lists.C11)] == [32, 37, 44]
    # C23 has 54, and keeps the older spellings of five of them
    older = {"_Alignas", "_Alignof", "_Bool", "_Static_assert", "_Thread_local"}
    assert older < lists.C23
    assert len(lists.C23 - older) == 54
    assert {word.lower().lstrip("_") for word in older} < lists.C23
    alternative = {"and", "and_eq", "bitand", "bitor", "compl", "not", "not_eq", "or", "or_eq"}
    alternative |= {"xor", "xor_eq"}
    assert alternative < lists.CPP17
    assert len(lists.CPP17 - alternative) == 73


def test_every_word_is_named_with_its_first_edition():
    assert lists.keyword_of("register") == "C89 and C++"
    assert lists.keyword_of("restrict") == "C99"
    assert lists.keyword_of("nullptr") == "C23 and C++"
    assert lists.keyword_of("xor") == "C++"
    assert lists.keyword_of("asm") == "C++"
    assert all(lists.keyword_of(word) for word in WORDS if word not in PLAIN)
    assert not any(lists.keyword_of(word) for word in PLAIN)


@pytest.mark.parametrize("name", ["defined", "__has_include"])
def test_the_preprocessor_keeps_its_own_words(name):
    process = subprocess.run(
        ["gcc", "-E", "-Werror", "-"],
        input=f"#define {name} 1\n",
        capture_output=True,
        text=True,
        check=False,
    )
    assert process.returncode != 0
    assert lists.keyword_of(name)


def test_names_that_stdint_defines_are_reserved(tmp_path):
    found = macros_of("#include <stdint.h>", "-x", "c", "-std=c2x", folder=tmp_path)
    macros = {name.partition("(")[0] for name in found if name[0] != "_"}
    assert {"UINT8_MAX", "INT64_C", "SIZE_MAX", "WINT_MIN"} <= macros
    assert all(lists.reserved_because(name) for name in macros)
    process = subprocess.run(
        ["gcc", "-E", "-P", "-std=c2x", "-x", "c", "-"],
        input="#include <stdint.h>\n",
        capture_output=True,
        text=True,
        check=True,
    )
    types = set(re.findall(r"\b(u?int\w*_t);", process.stdout))
    assert {"uint8_t", "int_fast16_t", "uintptr_t"} <= types
    assert all(lists.reserved_because(name) for name in types)
    for plain in ("INT0_C", "UINT_CTRL", "INT8", "SIZE_MAXIMUM", "WCHAR", "int8_tx", "INT8_MASK"):
        assert not lists.reserved_because(plain)
