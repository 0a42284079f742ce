"""What expressions come to under each choice of arms, against gcc with every choice of flags.

Source: ``gcc -E`` with all combinations of ``-D``.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from itertools import product

import pytest
from code_reading import Macros, preprocessed, seen, tokens
from test_directives import FLAGS, condition, is_true

from regwright.code.worlds import Outcome


def values(rng: random.Random, name: str, most: int) -> str:
    """Return lines that define ``name`` in any case, and no more than ``most`` choices of it."""
    made = once = f"#undef {name}\n#define {name} {rng.randrange(100)}\n"
    while most > 1:
        arms = rng.choice([2, 3] if most > 2 else [2])
        inner = most // arms if rng.random() < 0.5 else 1
        made += f"#{condition(rng)}\n{values(rng, name, inner)}"
        if arms == 3:
            made += f"#elif {rng.choice(['FA', 'FB && !FC'])}\n{values(rng, name, inner)}"
        made += rng.choice(["", f"#else\n{values(rng, name, inner)}"]) + "#endif\n"
        most //= arms * inner
        if rng.random() < 0.2:
            return made + once
    return made


def outcomes(macros: Macros, start: int, end: int) -> list[Outcome[str]]:
    arms = macros.found.arms_at(start)
    return list(macros.worlds.outcomes(arms, lambda: macros.expanded(start, end)))


def case(rng: random.Random) -> str:
    """Return definitions of two names, and a use of them within a conditional or none."""
    use = "@@(X + X + Y)@@\n"
    kind = condition(rng)
    head, tail = rng.choice(
        [("", ""), (f"#{kind}\n", "#endif\n"), (f"#{kind}\n#else\n", "#endif\n")]
    )
    most = rng.choice([1, 2, 4, 8])
    return values(rng, "X", most) + values(rng, "Y", 8 // most) + head + use + tail


def places(text: str) -> Iterator[tuple[int, int]]:
    return (match.span(1) for match in re.finditer("@@(.*)@@", text))


def test_outcomes_are_those_of_gcc_with_all_flags() -> None:
    """For each choice of flags: the first outcome whose conditions hold is what gcc makes of it."""
    rng = random.Random(6)
    compared = branched = 0
    texts = [case(rng) for _ in range(150)]
    by_gcc: dict[tuple[bool, ...], list[str]] = {}
    for flags in product((False, True), repeat=3):
        options = [f"-D{name}" for name, value in zip(FLAGS, flags, strict=True) if value]
        whole = "".join(f"{text}##\n" for text in texts)
        by_gcc[flags] = preprocessed(whole, *options).split("##")
    for number, text in enumerate(texts):
        macros = Macros(text)
        ((start, end),) = places(text)
        found = outcomes(macros, start, end)
        branched += len(found) > 1
        assert len(found) <= 8
        for flags, parts in by_gcc.items():
            named = dict(zip(FLAGS, flags, strict=True))
            printed = re.search("@@(.*)@@", parts[number])
            if printed is None:
                continue
            hold = [item for item in found if all(is_true(each, named) for each in item.branch)]
            assert hold, (text, named, found)
            assert tokens(hold[0].result) == tokens(printed[1]), (text, named, found)
            compared += 1
    assert branched > 60
    assert compared > 600


@pytest.mark.parametrize(
    ("definitions", "expected"),
    [
        ("#define X 1\n", [((), "1")]),
        ("#define X 1\n#define X 2\n", [((), "2")]),
        ("#ifdef A\n#define X 1\n#endif\n", [((), "1")]),
        (
            "#ifdef A\n#define X 1\n#else\n#define X 2\n#endif\n",
            [(("defined(A)",), "1"), (("!defined(A)",), "2")],
        ),
        (
            "#define X 1\n#if A > 2\n#undef X\n#define X 2\n#endif\n",
            [(("A > 2",), "2"), (("!(A > 2)",), "1")],
        ),
        (
            "#if A\n#define X 1\n#elif B\n#define X 2\n#else\n#define X 3\n#endif\n",
            [(("A",), "1"), (("B",), "2"), (("!(A) && !(B)",), "3")],
        ),
        # what is the same in two arms is one definition and no choice
        ("#if A\n#define X 1\n#endif\n#define X 2\n", [((), "2")]),
        (
            "#if A\n#if B\n#define X 1\n#else\n#define X 2\n#endif\n#else\n#define X 3\n#endif\n",
            [(("A", "B"), "1"), (("A", "!(B)"), "2"), (("!(A)",), "3")],
        ),
        # two conditionals with the same condition are one choice
        (
            "#ifdef A\n#define X Y\n#else\n#define X 3\n#endif\n"
            "#ifdef A\n#define Y 1\n#else\n#define Y 2\n#endif\n",
            [(("defined(A)",), "1"), (("!defined(A)",), "3")],
        ),
        (
            "#ifndef A\n#define X Y\n#else\n#define X Y + 3\n#endif\n"
            "#ifdef A\n#define Y 1\n#else\n#define Y 2\n#endif\n",
            [(("!defined(A)",), "2"), (("defined(A)",), "1 + 3")],
        ),
    ],
)
def test_outcomes_by_hand(definitions: str, expected: list[Outcome[str]]) -> None:
    text = definitions + "X"
    macros = Macros(text)
    assert outcomes(macros, len(definitions), len(text)) == expected


def test_code_in_an_arm_sees_the_definitions_of_that_arm() -> None:
    arms = "#ifdef A\n#define X {}\n{}#else\n#define X {}\n{}#endif\n"
    text = arms.format(1, "@@X@@\n", 2, "@@X@@\n") + arms.format(3, "@@X@@\n", 4, "@@X@@\n")
    macros = Macros(text)
    assert [outcomes(macros, *place) for place in places(text)] == [
        [(("defined(A)",), "1")],
        [(("!defined(A)",), "2")],
        [(("defined(A)",), "3")],
        [(("!defined(A)",), "4")],
    ]


def test_what_stands_before_a_use_counts() -> None:
    text = "@@X@@\n#define X 1\n@@X@@\n#undef X\n#define X 2\n@@X@@\n"
    macros = Macros(text)
    found = [outcomes(macros, *place)[0].result for place in places(text)]
    # before all definitions it is what the text leaves behind: it may be included
    assert found == ["2", "1", "2"]


def test_no_more_than_eight_choices_and_all_arms_of_the_first_flags() -> None:
    text = "".join(f"#if A{n}\n#define X{n} 1\n#else\n#define X{n} 0\n#endif\n" for n in range(10))
    use = "+".join(f"X{n}" for n in range(10))
    macros = Macros(text + use)
    found = outcomes(macros, len(text), len(text + use))
    assert [item.branch for item in found] == [
        tuple(f"A{n}" if chosen else f"!(A{n})" for n, chosen in enumerate(choice))
        for choice in product((True, False), repeat=3)
    ]


def test_constants_depend_on_arms_as_macros_do() -> None:
    text = """
#ifdef OLD
enum { LED = 1 };
const int BASE = 0x18;
#else
enum { LED = 2 };
const int BASE = 0x38;
#endif
#define MASK (1 << LED)
#define OUT (*(volatile unsigned char *)BASE)
"""
    found = [
        (item.name, item.branch, getattr(item.means, "value", getattr(item.means, "address", None)))
        for item in seen(text).definitions
        if item.form == "macro"
    ]
    assert found == [
        ("MASK", ("defined(OLD)",), 2),
        ("MASK", ("!defined(OLD)",), 4),
        ("OUT", ("defined(OLD)",), 0x18),
        ("OUT", ("!defined(OLD)",), 0x38),
    ]


def test_files_are_one_program() -> None:
    """A file's own definition counts before those of others; others' conditions are told."""
    header = "#ifdef OLD\n#define OUT 0x18\n#else\n#define OUT 0x38\n#endif\n#define LED 1\n"
    source = "#define LED 2\n#define BOTH (OUT + LED)\n"
    found = [
        (item.branch, item.means.value)  # type: ignore[union-attr]
        for item in seen(source, header).definitions
        if item.name == "BOTH"
    ]
    assert found == [(("defined(OLD)",), 0x1A), (("!defined(OLD)",), 0x3A)]
