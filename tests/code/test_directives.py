"""Comments, macros and conditionals of texts, against gcc's preprocessor and by hand.

Sources: ISO/IEC 9899:2011 5.1.1.2 (phases of translation) and 6.10; ``gcc -E``.
"""

from __future__ import annotations

import random
import re
from collections.abc import Mapping
from itertools import count, product

import pytest
from code_reading import preprocessed, tokens
from hypothesis import example, given
from hypothesis import strategies as st

from regwright.code.directives import Arm, Directives, blanked, directives, negated


def comments(data: bytes) -> list[bytes]:
    return [data[start:end] for start, end in directives(data).comments]


# Comments.


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"a /* b */ c // d\ne", [b"/* b */", b"// d"]),
        (b'"/* no */" \'"\' /* yes */ "\\"// no"', [b"/* yes */"]),
        (b"'/*' // it's \" one\n'//'", [b"// it's \" one"]),
        (b"1'000 /* it's */ 2'0", [b"/* it's */"]),
        (b"// goes on \\\n here\nnot here", [b"// goes on \\\n here"]),
        (b"// goes on \\\r\n here\r\nnot here", [b"// goes on \\\r\n here\r"]),
        (b"/* a // b */ c /* d\n */", [b"/* a // b */", b"/* d\n */"]),
        (b"#define A 1 // a\n#define B /* b\n*/ 2 /* c */\n", [b"// a", b"/* b\n*/", b"/* c */"]),
        (b"a /* never ends\n# define A 1", [b"/* never ends\n# define A 1"]),
        (b"/*/ a */ b", [b"/*/ a */"]),
        (b'R"x( /* )" */ )x" /* yes */', [b"/* yes */"]),
        (b'u8R"(" // )" // yes', [b"// yes"]),
        # A string ends with its line at the latest, so that it hides nothing below.
        (b"\"open /*\n/* yes */ 'open /*\n/* yes */", [b"/* yes */", b"/* yes */"]),
    ],
)
def test_comments(data: bytes, expected: list[bytes]) -> None:
    assert comments(data) == expected


PARTS = [
    "a", "1", " 1'0", "/", "*", " \\\n ", "\n", " ", '"s"', '"\\"/*"', '"//"', "'\"'",
    "'\\''", "'/*'", "/* c */", "/* ' */", '/* " */', "/* // */", "/**/", "/***/", "/*/*/",
    "// d\n", "// ' \n", '// " \n', "// /* \n", "// e \\\n f\n",
]  # fmt: skip
DIRECTIVES = ["#define A ", "#if 0 // \n", "#endif\n", "#else"]


def test_comments_are_those_of_gcc() -> None:
    """What gcc leaves of random text without directives has the tokens that are in no comment."""
    rng = random.Random(3)
    text = ""
    for number in range(1000):
        row = ["\n"]
        for _ in range(rng.randint(1, 12)):
            part = rng.choice(PARTS)
            # what would grow together to something else, or to what is no token
            if row[-1][-1] + part[0] not in ("//", "/*", "**", "*/", "a'", "1'", "0'"):
                row.append(part)
        text += "".join(row) + f"\n@@{number}\n"
    by_gcc = tokens(preprocessed(text, "-std=c2x"))
    ours = tokens(blanked(text.encode()).decode())
    assert ours == by_gcc
    assert len(ours) > 5000


SOME = st.sampled_from(PARTS + DIRECTIVES) | st.text(max_size=3)


@given(st.lists(SOME, max_size=20).map("".join))
@example("#define A '/* \n*/")
def test_places_lie_in_the_text(text: str) -> None:
    data = text.encode()
    found = directives(data)
    last = 0
    for start, end in found.comments:
        assert last <= start < end <= len(data)
        assert data[start : start + 2] in (b"/*", b"//")
        last = end
    for macro in found.macros:
        name = macro.name.encode()
        assert macro.start < macro.name_start <= macro.body_start
        assert data[macro.name_start : macro.name_start + len(name)] == name
        assert macro.body_start + len(macro.body) <= macro.end <= len(data)
        source = blanked(data[macro.start : macro.end])
        assert source[macro.body_start - macro.start :].startswith(macro.body)
    assert found.changes == sorted(found.changes)
    assert len(blanked(data)) == len(data)


# Macros.


def test_macros_by_hand() -> None:
    data = (
        b"\t# define  OUT_B \\\n  (* /* volatile */ p) // the port\n"
        b"#define F( a , b /* c */ , ... )a##b\n"
        b"#define /* d */ G() \n"
        b"#define \\\n H (x)\n"
        b'#define URL "http://x/*" /* e */\n'
        b"#define NOT_A-CALL (1)\n"
        b"/* #define A 1 */ // #define B 1\n"
        b'" \\\n#define C 1"\n'
        b"x #define D 1\n"
        b"#define 2 3\n#define\n"
        b"#define LAST 1"
    )
    found = directives(data).macros
    short = {item.name: (item.parameters, item.body.split()) for item in found}
    assert short == {
        "OUT_B": (None, [b"(*", b"p)"]),
        "F": (("a", "b", "..."), [b"a##b"]),
        "G": ((), []),
        "H": (None, [b"(x)"]),
        "URL": (None, [b'"http://x/*"']),
        "NOT_A": (None, [b"-CALL", b"(1)"]),
        "LAST": (None, [b"1"]),
    }
    first, last = found[0], found[-1]
    assert data[first.start : first.end].startswith(b"# define")
    assert data[first.start : first.end].endswith(b"// the port")
    assert data[first.body_start : first.body_start + 2] == b"(*"
    assert (last.body_start, last.end) == (len(data) - 1, len(data))


DEFINITION_PARTS = ["a", "b1", "0x1F", " 1'0", "(", ")", ",", "+", "#a", '"s // t"', "'/*'", " ",
                    "/* c */", " \\\n", "/* d\n e */", " /* \\\n */ ", "\t"]  # fmt: skip


NO_MACROS = ["// #define M0 no\n", "/*\n#define M0 no\n*/\n", '"\\\n#define M0"\n']


def test_macros_are_those_of_gcc() -> None:
    """Names, parameters and bodies, as ``gcc -E -dM`` prints them at the end."""
    rng = random.Random(4)
    text = ""
    for number in range(600):
        parts = [rng.choice(DEFINITION_PARTS) for _ in range(rng.randint(0, 8))]
        gap = rng.choice([" ", "\t", " /* x */ ", " \\\n", "/* y\n */"])
        start = rng.choice(["#", " #", "\t# ", "#\t"])
        call = rng.choice(["", "", "()", "(a)", "( a ,b )", "(a, ...)", "(a/* , */, \\\n b)"])
        end = rng.choice(["", " // e", " // f \\\n g", "/* h */"])
        name = f"M{number}{call}"
        text += f"{start}define{gap}{name} {''.join(parts)}{end}\n"
        if rng.random() < 0.2:
            text += rng.choice(NO_MACROS)
    printed = preprocessed(text, "-dM", "-std=c2x", "-w")
    by_gcc = {}
    for line in printed.splitlines():
        made = re.fullmatch(r"#define (\w+)(\([^()]*\))? ?(.*)", line)
        assert made is not None, line
        if made[1].startswith("M"):
            by_gcc[made[1]] = ((made[2] or "").replace(" ", ""), tokens(made[3]))
    ours = {}
    for macro in directives(text.encode()).macros:
        head = "" if macro.parameters is None else f"({','.join(macro.parameters)})"
        ours[macro.name] = (head, tokens(macro.body.decode()))
    assert len(by_gcc) > 500
    # gcc refuses "#a" in what has no such parameter.
    assert {name: ours.get(name) for name in by_gcc} == by_gcc


# Conditionals, with every combination of three flags.

FLAGS = ("FA", "FB", "FC")


def is_true(condition: str, flags: Mapping[str, bool]) -> bool:
    """Evaluate a condition as it is shown; a flag that is defined is 1, one that is not is 0."""
    text = re.sub(r"defined\s*\(?\s*(\w+)\s*\)?", lambda made: str(flags[made[1]]), condition)
    text = re.sub(r"F[ABC]", lambda made: str(int(flags[made[0]])), text)
    text = text.replace("&&", " and ").replace("||", " or ")
    return bool(eval(re.sub(r"!(?!=)", " not ", text)))


def is_chosen(found: Directives, arm: Arm, flags: Mapping[str, bool]) -> bool:
    """Tell whether an arm is compiled: its condition holds, and none before it does."""
    arms = [Arm(arm.group, number) for number in range(arm.number + 1)]
    hold = [is_true(found.conditions[item], flags) for item in arms]
    return hold[-1] and not any(hold[:-1])


def condition(rng: random.Random) -> str:
    one, other = rng.sample(FLAGS, 2)
    return rng.choice(
        [
            f"if {one}",
            f"if !{one}",
            f"ifdef {one}",
            f"ifndef {one} // c",
            f"if defined {one} || defined ({other}) /* d */",
            f"if defined({one}) \\\n && !defined({other})",
            f"if !defined({one}) || {other}",
            f"if {one} == 1",
            f"if ({one} || !{other}) && 1",
        ]
    )


def conditional(rng: random.Random, depth: int) -> str:
    """Return nested conditionals with marked places and macros in all of their arms."""
    made = place(rng)
    if depth:
        made += f"#{condition(rng)}\n{conditional(rng, depth - 1)}"
        for _ in range(rng.choice([0, 0, 1, 2, 4])):
            text = condition(rng)
            if text.startswith("if "):
                made += f"#el{text}\n{conditional(rng, depth - 1)}"
        if rng.random() < 0.6:
            made += f"#else // e\n{conditional(rng, depth - 1)}"
        made += f"#endif\n{place(rng)}"
    return made


NUMBERS = count(1)


def place(rng: random.Random) -> str:
    number = next(NUMBERS)
    return rng.choice([f"P{number}_\n", f"#define P{number}_ 1\nP{number}_X\n"])


def test_branches_are_those_that_gcc_compiles() -> None:
    rng = random.Random(5)
    text = "".join(conditional(rng, 3) for _ in range(60))
    data = text.encode()
    found = directives(data)
    places = [(match[0].decode(), match.start()) for match in re.finditer(rb"(?m)^P\d+_X?", data)]
    assert len(places) > 1000
    for values in product((False, True), repeat=3):
        flags = dict(zip(FLAGS, values, strict=True))
        options = [f"-D{name}" for name, value in flags.items() if value]
        compiled = set(preprocessed(text, *options).split())
        ours = {
            name
            for name, start in places
            if all(is_chosen(found, arm, flags) for arm in found.arms_at(start))
        }
        assert ours == compiled
        macros = {
            item.name
            for item in found.macros
            if all(is_chosen(found, arm, flags) for arm in item.arms)
        }
        by_gcc = re.findall(r"#define (P\d+_)", preprocessed(text, *options, "-dM"))
        assert macros == set(by_gcc)


@given(st.sampled_from(["defined(FA)", "!defined(FB)", "FA", "!(FA)", "!defined(FA) || FB",
                        "defined(FA) && FB", "!(FA) && !(FB)", "(FA)"]))  # fmt: skip
def test_a_negated_condition_is_the_other_one(text: str) -> None:
    for values in product((False, True), repeat=3):
        flags = dict(zip(FLAGS, values, strict=True))
        assert is_true(negated([text]), flags) is not is_true(text, flags)
        assert is_true(negated([text, "FC"]), flags) is not (is_true(text, flags) or flags["FC"])


def test_conditions_are_shown_plainly() -> None:
    data = b"#if  A  /* b */ > 2 \\\n  && C\n1\n#elifdef D\n2\n#elifndef E\n3\n#else\n4\n#endif\n5"
    found = directives(data)
    shown = [
        tuple(found.conditions[arm] for arm in found.arms_at(data.index(b"\n%d" % n) + 1))
        for n in range(1, 6)
    ]
    assert shown == [
        ("A > 2 && C",),
        ("defined(D)",),
        ("!defined(E)",),
        ("!(A > 2 && C) && !defined(D) && defined(E)",),
        (),
    ]
    assert found.elses == {1: 3}


# An include guard is around the whole file: nothing depends on it.


@pytest.mark.parametrize(
    ("data", "is_guard"),
    [
        (b"#ifndef A_H\n#define A_H\nX\n#endif\n", True),
        (b"/* c */ // d\n\n#ifndef A_H\n# define A_H 1\nX\n#endif // A_H\n/* e */\n", True),
        (b"\xef\xbb\xbf#if !defined(A_H)\n#define A_H\nX\n#endif", True),
        (b"#if !defined A_H\n#define A_H\n#if B\n#endif\nX\n#endif", True),
        (b"int i;\n#ifndef A_H\n#define A_H\nX\n#endif", False),
        (b"#ifndef A_H\n#define A_H\nX\n#endif\nint i;", False),
        (b"#ifndef A_H\n#define B_H\nX\n#endif", False),
        (b"#ifndef A_H\n#define A_H\nX\n#else\n#endif", False),
        (b"#ifdef A_H\n#define A_H\nX\n#endif", False),
        (b"#ifndef A_H\n#define A_H\nX\n", False),
        (b"#ifndef A_H\n#define A_H\nX\n#endif\n#ifdef B\n#endif", False),
    ],
)
def test_include_guards(data: bytes, is_guard: bool) -> None:
    found = directives(data)
    assert (found.arms_at(data.index(b"\nX") + 1) == ()) is is_guard
    assert (found.macros[0].arms == ()) is is_guard


def test_conditionals_without_ends_and_starts() -> None:
    found = directives(b"#endif\n#else\n#elif A\nX\n#if B\nY\n#else\n#else\n#endif\n#if C\nZ")
    assert found.arms_at(23) == ()
    assert [found.conditions[arm] for arm in found.arms_at(10**6)] == ["C"]
    assert len(found.unclosed) == 1


def test_nesting_without_end_costs_no_more_than_its_length() -> None:
    """Each place has the arms around it: without a bound, 5,000,000,000 of them."""
    depth = 100_000
    data = b"#if A\n" * depth + b"#else\n" + b"#endif\n" * depth + b"#define LAST 1\n"
    found = directives(data)
    assert found.macros[0].arms == ()
    assert 60 < max(map(len, found.arms)) < 1000


def test_numbers_of_groups_start_where_they_are_told() -> None:
    found = directives(b"#if A\n#endif\n#if B\n#else\n#endif", 1000)
    assert sorted(found.conditions) == [Arm(1001, 0), Arm(1002, 0), Arm(1002, 1)]


def test_includes() -> None:
    data = b'#include <a.h>\n # include /* x */ "b.h" // y\n#include A_H\n#include_next <c.h>\n'
    assert [item[2] for item in directives(data).includes] == ["<a.h>", '"b.h"', "A_H"]
