"""Expansion of macros against gcc's preprocessor and the examples of ISO C.

Sources: ISO/IEC 9899:2011 6.10.3; ``gcc -E`` for random macros, and for ``, ## __VA_ARGS__``.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator

import pytest
from code_reading import Macros, run_preprocessor, tokens

from regwright.code.directives import blanked
from regwright.code.expand import Expander
from regwright.code.pieces import LARGEST, Chunk, Spot, TooLarge
from regwright.code.scope import HEADER, HeaderMacro, Scope

# Against gcc: each case has its own names, so that one run does for all of them.


PLAIN = ["1", "0x2F", "a", "b1", "+", "-", "<<", '"s, ("', "','", "'('", "[", "]"]


class Case:
    """Random macros, and a text that uses them."""

    def __init__(self, rng: random.Random, number: int) -> None:
        self.rng = rng
        self.objects = [f"O{number}{letter}" for letter in "ABC"[: rng.randint(1, 3)]]
        self.calls = {
            f"F{number}A": ["x"],
            f"F{number}B": ["x", "y"],
            f"F{number}C": [],
            f"F{number}D": ["x", "..."],
            f"F{number}E": ["..."],
            f"F{number}F": ["x", "rest..."],
        }
        for name in rng.sample(list(self.calls), rng.randint(1, 5)):
            del self.calls[name]
        self.definitions = "".join(self.definition(name) for name in self.names())
        self.text = self.row([], depth=3, longest=6)

    def names(self) -> list[str]:
        return [*self.objects, *self.calls]

    def blank(self) -> str:
        return self.rng.choice(["", " ", "  ", " /* , ( */ ", " \\\n", " \\\n\t", " "])

    def definition(self, name: str) -> str:
        parameters = self.calls.get(name)
        head = name
        plain: list[str] = []
        if parameters is not None:
            head += "(" + f" {self.rng.choice(['', ' '])},".join(parameters) + ")"
            plain = [
                "__VA_ARGS__" if item == "..." else item.removesuffix("...") for item in parameters
            ]
        body = self.row(plain, depth=2, longest=5, is_call=parameters is not None)
        return f"#define {head} {self.blank()}{body}{self.rng.choice(['', ' // end', ' '])}\n"

    def row(self, words: list[str], depth: int, longest: int, is_call: bool = False) -> str:
        parts = [
            self.part(words, depth, is_call=is_call) for _ in range(self.rng.randint(1, longest))
        ]
        made = parts[0]
        for item in parts[1:]:
            pastes = (words or is_call) and self.rng.random() < 0.15
            made += (" ## " if pastes else self.blank() + " ") + item
        return made

    def part(self, words: list[str], depth: int, *, is_call: bool) -> str:
        rng = self.rng
        if is_call and words and rng.random() < 0.08:
            return f"#{self.rng.choice(['', ' '])}{rng.choice(words)}"
        kinds = ["word", "name", "plain", "plain"] + ["call", "group"] * (depth > 0)
        kind = rng.choice(kinds)
        if kind == "word" and words:
            return rng.choice(words)
        if kind == "call" and self.calls:
            return self.call(words, depth - 1)
        if kind == "group":
            return f"({self.row(words, depth - 1, 3)},{self.row(words, depth - 1, 2)})"
        if kind == "name":
            return rng.choice(self.names())
        return rng.choice(PLAIN)

    def call(self, words: list[str], depth: int) -> str:
        name = self.rng.choice(list(self.calls))
        number = len(self.calls[name])
        if "..." in "".join(self.calls[name]):
            number = self.rng.randint(number - 1 or 1, number + 2)
        arguments = [
            "" if self.rng.random() < 0.1 else self.row(words, depth, 3) for _ in range(number)
        ]
        gap = self.rng.choice(["", "", " ", " \\\n"])
        return f"{name}{gap}({f',{self.blank()}'.join(arguments)})"


def cases(seed: int, number: int) -> Iterator[Case]:
    rng = random.Random(seed)
    return (Case(rng, turn) for turn in range(number))


def blamed_lines(stderr: str) -> set[int]:
    """Return the lines that gcc finds an error in: pastes that give no token, lost arguments."""
    return {int(line) for line in re.findall(r"^<stdin>:(\d+):\d+: error", stderr, re.MULTILINE)}


def _spaceless(text: str) -> list[str]:
    """Return the tokens without the blanks in strings: ``#`` keeps the number of none for sure."""
    return ["".join(item.split()) for item in tokens(text)]


@pytest.mark.parametrize("seed", [11, 12])
def test_random_macros_expand_as_gcc_expands_them(seed: int) -> None:
    made = list(cases(seed, 1200))
    source = ""
    spans = []
    for number, case in enumerate(made):
        first = source.count("\n") + 1
        source += case.definitions
        start = len(source)
        source += case.text
        spans.append((start, len(source), first, source.count("\n") + 1))
        source += f"\n@@{number}\n"
    by_gcc = run_preprocessor(source)
    blamed = blamed_lines(by_gcc.stderr)
    macros = Macros(source)
    compared = 0
    parts = re.split(r"@@\d+", by_gcc.stdout)[: len(made)]
    for part, case, (start, end, first, last) in zip(parts, made, spans, strict=True):
        if blamed.isdisjoint(range(first, last + 1)):
            try:
                expanded = macros.expanded(start, end)
            except TooLarge:
                continue
            assert _spaceless(expanded) == _spaceless(part), case.definitions + case.text
            compared += 1
    assert compared > 600


# Where each byte comes from.


def check_origins(macros: Macros, chunks: list[Chunk], start: int, end: int) -> None:
    source = blanked(macros.data)
    for chunk in chunks:
        if chunk.file != HEADER:
            assert source[chunk.start : chunk.start + len(chunk.text)] == chunk.text
        assert start <= chunk.site < max(end, start + 1)
        if chunk.stands:
            assert (chunk.file, chunk.site) == (0, chunk.start)
        elif chunk.text != b" ":  # what keeps two tokens apart
            word = re.match(rb"\w+", macros.data[chunk.site :])
            assert word is not None
            assert word[0].decode() in macros.scope.macros


def test_origins_of_random_expansions() -> None:
    """A byte that stands in a file is that byte; what a macro brought has the macro's name."""
    for case in cases(2, 400):
        macros = Macros(case.definitions + case.text)
        start, end = len(case.definitions), len(macros.data)
        try:
            chunks = macros.expander.expand(macros.data[start:end], Spot(0, (), start), start)
        except TooLarge:
            continue
        check_origins(macros, chunks, start, end)


def test_origins_by_hand() -> None:
    definitions = "#define BASE 0x20\n#define AT(x) (BASE + x)\n"
    text = "q = AT(0x18) + 1"
    macros = Macros(definitions + text)
    start = len(definitions)
    chunks = macros.expander.expand(text.encode(), Spot(0, (), start), start)
    name = start + text.index("AT")
    assert chunks == [
        Chunk(b"q = ", 0, start, start, stands=True),
        # "(" is byte 32 of the file, "0x20" byte 13, " + " byte 37.
        Chunk(b"(", 0, 32, name),
        Chunk(b"0x20", 0, 13, name),
        Chunk(b" + ", 0, 37, name),
        Chunk(b"0x18", 0, start + text.index("0x18"), start + text.index("0x18"), stands=True),
        Chunk(b")", 0, 41, name),
        Chunk(b" + 1", 0, start + text.index(" + 1"), start + text.index(" + 1"), stands=True),
    ]


def test_tokens_of_the_header_stand_in_no_file() -> None:
    header = {
        "OUT": HeaderMacro(None, b"MEMORY(0x38)"),
        "MEMORY": HeaderMacro(("a",), b"(memory[a])"),
    }
    macros = Macros("x = OUT;", header)
    chunks = macros.expander.expand(b"x = OUT;", Spot(0, (), 0), 0)
    assert [chunk.text for chunk in chunks] == [b"x = ", b"(memory[0x38])", b";"]
    assert [chunk.file for chunk in chunks] == [0, HEADER, 0]
    assert [chunk.site for chunk in chunks] == [0, 4, 7]


@pytest.mark.parametrize(
    ("own", "expected"),
    [
        ("#define MEMORY(a) own[a]\n", b"own[0x38]"),
        ("#define BASE 0x20\n", b"(memory[0x20])"),
        ("#if BOARD\n#define BASE 0x40\n#endif\n", b"(memory[0x40])"),
    ],
)
def test_macros_of_the_header_take_what_sources_define_again(own: str, expected: bytes) -> None:
    header = {
        "OUT": HeaderMacro(None, b"MEMORY(BASE)"),
        "BASE": HeaderMacro(None, b"0x38"),
        "MEMORY": HeaderMacro(("a",), b"(memory[a])"),
    }
    macros = Macros(f"{own}OUT", header)
    chunks = macros.expander.expand(b"OUT", Spot(0, (), len(own)), len(own))
    assert b"".join(chunk.text for chunk in chunks) == expected


# ISO C11 6.10.3.5, with the results that are printed there.

EXAMPLE_3 = """\
#define x 3
#define f(a) f(x * (a))
#undef x
#define x 2
#define g f
#define z z[0]
#define h g(~
#define m(a) a(w)
#define w 0,1
#define t(a) a
#define p() int
#define q(x) x
#define r(x,y) x ## y
#define str(x) # x
"""
EXAMPLE_4 = """\
#define str(s) # s
#define xstr(s) str(s)
#define debug(s, t) printf("x" # s "= %d, x" # t "= %s", \\
 x ## s, x ## t)
#define INCFILE(n) vers ## n
#define glue(a, b) a ## b
#define xglue(a, b) glue(a, b)
#define HIGHLOW "hello"
#define LOW LOW ", world"
"""
EXAMPLE_7 = """\
#define debug(...) fprintf(stderr, __VA_ARGS__)
#define showlist(...) puts(#__VA_ARGS__)
#define report(test, ...) ((test)?puts(#test):\\
 printf(__VA_ARGS__))
"""


@pytest.mark.parametrize(
    ("definitions", "text", "result"),
    [
        (
            EXAMPLE_3,
            "f(y+1) + f(f(z)) % t(t(g)(0) + t)(1);",
            "f(2 * (y+1)) + f(2 * (f(2 * (z[0])))) % f(2 * (0)) + t(1);",
        ),
        (
            EXAMPLE_3,
            "g(x+(3,4)-w) | h 5) & m\n(f)^m(m);",
            "f(2 * (2+(3,4)-0,1)) | f(2 * (~ 5)) & f(2 * (0,1))^m(0,1);",
        ),
        (
            EXAMPLE_3,
            "p() i[q()] = { q(1), r(2,3), r(4,), r(,5), r(,) };",
            "int i[] = { 1, 23, 4, 5, };",
        ),
        (
            EXAMPLE_3,
            "char c[2][6] = { str(hello), str() };",
            'char c[2][6] = { "hello", "" };',
        ),
        (EXAMPLE_4, "debug(1, 2);", 'printf("x" "1" "= %d, x" "2" "= %s", x1, x2);'),
        (
            EXAMPLE_4,
            r"""fputs(str(strncmp("abc\0d", "abc", '\4') // this goes away
== 0) str(: @\n), s);""",
            r"""fputs("strncmp(\"abc\\0d\", \"abc\", '\\4') == 0" ": @\n", s);""",
        ),
        (EXAMPLE_4, "xstr(INCFILE(2).h)", '"vers2.h"'),
        (EXAMPLE_4, "glue(HIGH, LOW);", '"hello";'),
        (EXAMPLE_4, "xglue(HIGH, LOW)", '"hello" ", world"'),
        (
            "#define t(x,y,z) x ## y ## z\n",
            "{ t(1,2,3), t(,4,5), t(6,,7), t(8,9,), t(10,,), t(,11,), t(,,12), t(,,) };",
            "{ 123, 45, 67, 89, 10, 11, 12, };",
        ),
        (EXAMPLE_7, 'debug("Flag");', 'fprintf(stderr, "Flag");'),
        (EXAMPLE_7, 'debug("X = %d\\n", x);', 'fprintf(stderr, "X = %d\\n", x);'),
        (
            EXAMPLE_7,
            "showlist(The first, second, and third items.);",
            'puts("The first, second, and third items.");',
        ),
        (
            EXAMPLE_7,
            'report(x>y, "x is %d but y is %d", x, y);',
            '((x>y)?puts("x>y"): printf("x is %d but y is %d", x, y));',
        ),
    ],
)
def test_examples_of_the_standard(definitions: str, text: str, result: str) -> None:
    source = definitions + text
    assert tokens(Macros(source).expanded(len(definitions), len(source))) == tokens(result)


# The hash of example 4's hash_hash, 6.10.3.3.
def test_two_hashes_that_come_from_a_macro_paste_nothing() -> None:
    definitions = "#define hash_hash # ## #\n#define mkstr(a) # a\n#define in_between(a) mkstr(a)\n"
    definitions += "#define join(c, d) in_between(c hash_hash d)\n"
    source = definitions + "join(x, y)"
    assert Macros(source).expanded(len(definitions), len(source)) == '"x ## y"'


# By hand: tokens must not grow together.
@pytest.mark.parametrize(
    ("definitions", "text", "result"),
    [
        ("#define NEG -1\n", "5 -NEG", "5 - -1"),
        ("#define P +1\n", "x+P", "x+ +1"),
        ("#define AT *p\n", "a/AT", "a/ *p"),
        ("#define S /q\n", "a/S b", "a/ /q b"),
        ("#define ONE 1\n#define F(x) x\n", "F(1)2 F(ONE)ONE", "1 2 1 1"),
        ("#define E =\n", "a=E b", "a= = b"),
        ("#define D .5\n", "1 D", "1 .5"),
        ("#define M(a) -a\n", "-M(-1)", "- - -1"),
    ],
)
def test_tokens_stay_apart(definitions: str, text: str, result: str) -> None:
    source = definitions + text
    assert Macros(source).expanded(len(definitions), len(source)).split() == result.split()


def test_comments_in_a_call_count_as_blanks() -> None:
    source = "#define F(a, b) b-a\n"
    text = "F(1 /* , ) */, 2 // (\n)"
    macros = Macros(source + text)
    assert macros.expanded(len(source), len(source + text)).split() == ["2-1"]


def test_a_name_without_its_call_stays() -> None:
    source = "#define F(a) (a)\n#define G(a, b) a\n"
    text = "F + F(1 + G(1) + G(1, 2, 3) + G"
    macros = Macros(source + text)
    assert macros.expanded(len(source), len(source + text)) == text


@pytest.mark.parametrize(
    "source",
    [
        # each of these would grow without bounds, or to a size that nobody means
        "".join(f"#define A{n} A{n + 1} A{n + 1}\n" for n in range(30)) + "#define A30 1\n",
        "#define A0 " + "x " * LARGEST + "\n",
        "".join(f"#define A{n} (A{n + 1})\n" for n in range(100)),
        "#define F(x) " + "x " * 2000 + "\n#define A0 F(" + "y " * 2000 + ")\n",
        "#define F(x) x\n#define A0 " + "F(" * 100 + ")" * 100 + "\n",
    ],
)
def test_what_is_too_large_is_left(source: str) -> None:
    macros = Macros(source + "A0")
    with pytest.raises(TooLarge):
        macros.expanded(len(source), len(source) + 2)


def test_work_has_an_end() -> None:
    scope = Scope({"A": HeaderMacro(None, b"1 + 1")}, 1000)
    expander = Expander(scope)

    def expansions() -> int:
        for number in range(1000):
            try:
                expander.expand(b"A + A", Spot(0, (), 0), 0)
            except TooLarge:
                return number
        return 1000

    # What is read and what it becomes counts, more than 10 and fewer than 100 bytes each time.
    assert 10 <= expansions() < 100
    assert expansions() == 0
