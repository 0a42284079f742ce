"""Constants through macros, as the reader of sources has them, against gcc.

Source: gcc for this host, which has LP64, both for the values and for what its preprocessor makes
of macros. The expressions are random, and all of them are defined in C.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path

from c_expressions import HEADERS, Compile, expressions, values_by_gcc

from regwright.code.evaluate import Evaluator
from regwright.code.expand import Spot
from regwright.code.grammar import Shapes
from regwright.code.integers import LP64
from regwright.code.scope import Scope
from regwright.code.seen import Meaning, Number
from regwright.code.sources import read_sources
from regwright.code.text import C, CodeText
from regwright.code.vocabulary import Vocabulary

#: Preprocessing tokens of the expressions: character constants, names and numbers, operators.
TOKEN = re.compile(r"'(?:\\.|[^'\\])*'|\w+|<<|>>|<=|>=|==|!=|&&|\|\||.")
NUMBER = re.compile(r"(0[xX][0-9a-fA-F]{2,}|[1-9][0-9]+)\w*")


def value_of(means: Meaning | None) -> int | None:
    return means.value if isinstance(means, Number) else None


def differences(texts: list[str], ours: list[int | None], gcc: list[int]) -> list[str]:
    return [
        f"{text}: {own}, not {right}"
        for text, own, right in zip(texts, ours, gcc, strict=True)
        if own != right
    ]


def test_thousand_expressions(tmp_path: Path, compile_c: Compile) -> None:
    texts = expressions(20260, 1000)
    evaluator = Evaluator(Scope({}, 1 << 40), LP64, {0: Shapes(C)})
    ours = [value_of(evaluator.meaning(text.encode(), Spot(0, (), 0), 0)) for text in texts]
    assert differences(texts, ours, values_by_gcc(texts, tmp_path, compile_c)) == []


class Wrapper:
    """Cuts an expression into macros that make the same tokens of it again, in several layers.

    A cut need not be an operand: bodies have no parentheses of their own, start and end anywhere,
    and may hold one half of a pair. So operators bind across them as ISO C11 6.10.3 has it.
    """

    def __init__(self, seed: int) -> None:
        self.rng = random.Random(seed)
        self.lines: list[str] = []
        self.count = 0

    def wrapped(self, text: str) -> str:
        """Return a name that stands for ``text``; its macros are in ``lines``."""
        tokens = [token for token in TOKEN.findall(text) if not token.isspace()]
        for _ in range(self.rng.randint(2, 6)):
            self.cut(tokens, self.rng.choice([self.object_like, self.function_like, self.pasted]))
        self.count += 1
        name = f"WHOLE{self.count}"
        self.lines.append(f"#define {name} {' '.join(tokens)}")
        return name

    def cut(self, tokens: list[str], kind: Callable[[list[str]], list[str]]) -> None:
        first = self.rng.randrange(len(tokens))
        last = self.rng.randint(first + 1, len(tokens))
        self.count += 1
        tokens[first:last] = kind(tokens[first:last])

    def object_like(self, tokens: list[str]) -> list[str]:
        self.lines.append(f"#define PART{self.count} {' '.join(tokens)}")
        return [f"PART{self.count}"]

    def function_like(self, tokens: list[str]) -> list[str]:
        """Make a part of the tokens an argument: one in which parentheses match."""
        spans = [
            (first, last)
            for first in range(len(tokens))
            for last in range(first + 1, min(first + 12, len(tokens)) + 1)
            if is_balanced(tokens[first:last])
        ]
        if not spans:
            return self.object_like(tokens)
        first, last = self.rng.choice(spans)
        body = [*tokens[:first], "x", *tokens[last:]]
        self.lines.append(f"#define CALL{self.count}(x) {' '.join(body)}")
        return [f"CALL{self.count}({' '.join(tokens[first:last])})"]

    def pasted(self, tokens: list[str]) -> list[str]:
        """Put a number together of two halves with ``##``."""
        places = [at for at, token in enumerate(tokens) if NUMBER.fullmatch(token)]
        if not places:
            return self.object_like(tokens)
        at = self.rng.choice(places)
        number = tokens[at]
        half = self.rng.randint(3 if number[:2] in ("0x", "0X") else 1, len(number) - 1)
        self.lines.append(f"#define JOIN{self.count}(a, b) a ## b")
        joined = f"JOIN{self.count}({number[:half]}, {number[half:]})"
        return [*tokens[:at], joined, *tokens[at + 1 :]]


def is_balanced(tokens: list[str]) -> bool:
    depth = 0
    for token in tokens:
        depth += token.count("(") - token.count(")") if not token.startswith("'") else 0
        if depth < 0:
            return False
    return depth == 0


def test_nested_macros(tmp_path: Path, compile_c: Compile) -> None:
    texts = expressions(20261, 300)
    wrapper = Wrapper(7)
    names = [wrapper.wrapped(text) for text in texts]
    assert len(wrapper.lines) > 4 * len(names)
    macros = "\n".join(wrapper.lines) + "\n"
    source = CodeText("macros.h", macros.encode(), C)
    seen = read_sources([source], Vocabulary({}, lambda _: False), LP64)
    values = {item.name: value_of(item.means) for item in seen.definitions}
    gcc = values_by_gcc(names, tmp_path, compile_c, headers=HEADERS + macros)
    assert gcc == values_by_gcc(texts, tmp_path, compile_c)
    assert differences(texts, [values.get(name) for name in names], gcc) == []


def test_operators_bind_across_macros(tmp_path: Path, compile_c: Compile) -> None:
    # By hand: what a missing pair of parentheses changes, with the value that C gives.
    macros = """\
#define SUM 1 + 2
#define NEGATIVE - 1
#define SHIFTED 1 << 4
#define TWICE(x) x * 2
#define OPEN (
#define CLOSE )
#define SELF SELF + 1
#define FIRST SECOND
#define SECOND 0x20
#define ADD(a, b) a + b
#define EMPTY
#define PASS(x) x
#define CAT(a, b) a ## b
#define PORT_B 0x18
"""
    texts = {
        "SUM * 3": 7,
        "2 - NEGATIVE": 3,
        "SHIFTED + 1": 32,
        "TWICE(SUM)": 5,
        "TWICE(1 + 2) * 2": 9,
        "OPEN 1 + 2 CLOSE * 3": 9,
        "FIRST + 0x18": 0x38,
        "ADD(ADD(1, 2), ADD(3, 4)) * 2": 14,
        "EMPTY 5 EMPTY + PASS(EMPTY 6)": 11,
        "CAT(PORT_, B) + 1": 0x19,
        "CAT(0x, 3) + CAT(1, 2u)": 15,
        "PASS((TWICE(1)))": 2,
    }
    evaluator = Evaluator(Scope({}, 1 << 40), LP64, {0: Shapes(C)})
    lines = macros + "".join(f"#define RESULT{at} {text}\n" for at, text in enumerate(texts))
    seen = read_sources(
        [CodeText("macros.h", lines.encode(), C)], Vocabulary({}, lambda _: False), LP64
    )
    values = {item.name: value_of(item.means) for item in seen.definitions}
    ours = [values.get(f"RESULT{at}") for at in range(len(texts))]
    gcc = values_by_gcc(list(texts), tmp_path, compile_c, headers=HEADERS + macros)
    assert gcc == list(texts.values())
    assert differences(list(texts), ours, gcc) == []
    assert evaluator.meaning(b"SELF", Spot(0, (), 0), 0) is None
