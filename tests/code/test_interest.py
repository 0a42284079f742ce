"""Which expressions are looked at: none is passed over that would have done something."""

from __future__ import annotations

from collections.abc import Iterable, Set
from pathlib import Path

import pytest
from code_reading import seen

from regwright.code.interest import Telling
from regwright.code.reach import Reach, Span
from regwright.code.scope import HeaderMacro, Scope
from regwright.code.seen import Seen
from regwright.code.text import CPP, C, language_of
from regwright.code.uses import File
from regwright.code.words import IDENTIFIER

CASES = Path(__file__).resolve().parent.parent / "cases" / "audit"
SOURCES = [path for path in sorted(CASES.rglob("*")) if language_of(path.name) in (C, CPP)]
HEADER = {
    "MEM": HeaderMacro(("a",), b"(*(volatile uint8_t *)(a))"),
    "OUT": HeaderMacro(None, b"MEM(0x38)"),
    "LAMP": HeaderMacro(None, b"0x04"),
}


def done(text: str, language: str = C) -> tuple[list[str], list[int]]:
    """Return through which names ``text`` reaches addresses, and by how much it shifts."""
    found = seen(f"void f(int value) {{ {text} }}", header=HEADER, language=language)
    return [item.name for item in found.accesses], [item.by for item in found.shifts]


@pytest.mark.parametrize(
    "text",
    [
        "OUT = 1;",
        "int a = OUT;",
        "(*(volatile uint8_t *)0x38) = 1;",
        "(*(volatile uint8_t *\n)0x38) = 1;",
        "(*(uint8_t volatile * const)0x38) = 1;",
        "(*(uint8_t * restrict)0x38) = 1;",
        "uint8_t *p = (uint8_t *)0x38; *p = 1;",
        "uint8_t *const p = &OUT, *const q = p; q[0] = 1;",
        "\n#define PORT OUT\nPORT = 1;",
        "\n#define JOINED(x) O##x\nJOINED(UT) = 1;",
        "\n#define JOINED(x) O##x\n#define ALSO(x) JOINED(x)\nALSO(UT) = 1;",
        "\n#define OU(x) OU##x\nOU(T) = 1;",
        "\n#define AS(type, at) ((type)at)\n*AS(uint8_t *, 0x38) = 1;",
        "\n#define POINTER(type) type *\n*(POINTER(uint8_t))0x38 = 1;",
        "\n#define LIST(at) ((struct list *)(at))\nstruct list { uint8_t a; };\nLIST(0x38)->a = 1;",
        "\n#define STAR *\n(*(volatile uint8_t STAR)0x38) = 1;",
        "typedef volatile uint8_t *at_t; *(at_t)0x38 = 1;",
        "\n#if HOST\n#define MEM(a) fake[a]\n#define ON 2\n#else\n#define ON 1\n#endif\n"
        "uint8_t *const p = &OUT;\n*p = ON;",
    ],
)
def test_what_reaches_an_address_is_looked_at(text: str) -> None:
    assert done(text)[0]


@pytest.mark.parametrize(
    ("text", "by"), [("OUT = 1 << 31;", 31), ("\n#define BIT(n) (1 << (n))\nBIT(40);", 40)]
)
def test_a_shift_in_it_is_seen(text: str, by: int) -> None:
    assert by in done(text)[1]


def test_a_shift_that_is_spelt_out_counts_beside_the_chip_alone() -> None:
    """What else leads to a look at an expression makes no difference."""
    pointer = "uint8_t *const p = (uint8_t *)0x38;"
    assert done(f"{pointer} int a = p != 0 ? 1 << 31 : 0;")[1] == []
    assert done(f"{pointer} *p = 1 << 31;")[1] == [31]


def test_a_cast_with_a_word_of_the_sources_is_looked_at() -> None:
    assert done("\n#define FAR\n*(volatile uint8_t * FAR)0x38 = 1;")[0] == [""]


def test_a_local_constant_counts_in_its_function() -> None:
    """The parameter of another function that has the same name is another thing."""
    pointer = "uint8_t *const at = (uint8_t *)0x38;"
    both = f"{pointer} *at = 1; }} void g(uint8_t *at) {{ *at = 2;"
    assert len(done(both)[0]) == 1


def test_words_alone_do_not_tell() -> None:
    for text in ("value = value * 3;", "int OUTER = value * LAMP + 1;", "f(value & 0x38);"):
        assert done(text) == ([], [])


class Everything(Telling):
    """Takes every word for one that tells."""

    def __init__(
        self, files: Iterable[File], scope: Scope, calls: Set[str], meaning: Reach
    ) -> None:
        known = list(files)
        super().__init__(known, scope, calls, meaning)
        self.names = Reach(word for file in known for word in IDENTIFIER.findall(file.source.data))

    def tells(self, text: bytes, _: Span) -> bool:
        return bool(text)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_what_is_passed_over_does_nothing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Read a source as it is read, and with a look at every expression."""

    def read() -> Seen:
        text = path.read_bytes()
        return seen(text, header=HEADER, language=language_of(path.name) or C)

    usual = read()
    monkeypatch.setattr("regwright.code.sources.Telling", Everything)
    every = read()
    assert usual.accesses == every.accesses
    assert usual.instructions == every.instructions
    assert set(usual.shifts) <= set(every.shifts)
