"""Random constant expressions of C, and what gcc says of constants.

Whether an expression is defined in C is decided node by node with ``regwright.code.integers``
while it is made; gcc, with its warnings as errors, is asked again for the whole.
"""

from __future__ import annotations

import random
import re
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from regwright.code.integers import (
    LP64,
    DataModel,
    Value,
    binary,
    convert,
    literal,
    named_type,
    promote,
    shift_fits,
    unary,
    usual,
)

Compile = Callable[..., "subprocess.CompletedProcess[str]"]

HEADERS = "#include <stdbool.h>\n#include <stddef.h>\n#include <stdint.h>\n#include <stdio.h>\n"
#: Warnings of ``-Wall`` that are about taste, not about the value.
TASTE = (
    "-Wno-parentheses",
    "-Wno-bool-operation",
    "-Wno-bool-compare",
    "-Wno-int-in-bool-context",
    "-Wno-logical-not-parentheses",
    "-Wno-sign-compare",
    "-Wno-tautological-compare",
    "-Wno-unused-value",
)
#: All operators with two operands by how tightly they bind (ISO C11 6.5.5 to 6.5.14).
LEVELS = (
    ("||",),
    ("&&",),
    ("|",),
    ("^",),
    ("&",),
    ("==", "!="),
    ("<", ">", "<=", ">="),
    ("<<", ">>"),
    ("+", "-"),
    ("*", "/", "%"),
)
BINDING = {op: level for level, ops in enumerate(LEVELS, 1) for op in ops}
#: Those whose result is more than 0 or 1.
OFTEN = [op for ops in (LEVELS[2:5] + LEVELS[7:]) for op in ops]
CONDITIONAL, PREFIX, PRIMARY = 0, len(LEVELS) + 1, len(LEVELS) + 2

CASTS = (
    "char",
    "signed char",
    "unsigned char",
    "short",
    "unsigned short int",
    "int",
    "unsigned",
    "unsigned int",
    "long",
    "long unsigned int",
    "long long",
    "unsigned long long",
    "_Bool",
    "bool",
    "int8_t",
    "uint8_t",
    "int16_t",
    "uint16_t",
    "int32_t",
    "uint32_t",
    "int64_t",
    "uint64_t",
    "uint_least8_t",
    "uint_least16_t",
    "size_t",
    "uintptr_t",
    "const unsigned char",
    "volatile uint32_t",
)
CHARACTERS = ("'a'", "'Z'", "'\\n'", "'\\0'", "'\\x41'", "'\\x80'", "'\\377'", "'\\''", "'\"'")
SUFFIXES = (*[""] * 6, *"uUlL", "ul", "UL", "lu", "LU", "uL", "ll", "LL", "ull", "ULL", "llu")


class Node(NamedTuple):
    """An expression, what it is, and how tightly its outermost operator binds."""

    text: str
    value: Value
    binding: int


def spelled(rng: random.Random, value: int) -> str:
    """Return a value as a literal of any base."""
    base = rng.choice(["d", "d", "x", "X", "o", "b"])
    digits = format(value, base)
    return {"d": "", "x": "0x", "X": "0X", "o": "0", "b": "0b"}[base] + digits


class Maker:
    """Makes expressions that C defines, for one model."""

    def __init__(self, seed: int, model: DataModel = LP64) -> None:
        self.rng = random.Random(seed)
        self.model = model

    def leaf(self) -> Node:
        """Return a literal."""
        while True:
            text = self.rng.choice(CHARACTERS)
            if self.rng.random() < 0.95:
                bits = self.rng.choice([1, 3, 5, 8, 8, 16, 31, 32, 63, 64])
                number = self.rng.choice([self.rng.getrandbits(bits), (1 << bits) - 1])
                text = spelled(self.rng, number) + self.rng.choice(SUFFIXES)
            value = literal(text, self.model)
            if value is not None:
                return Node(text, value, PRIMARY)

    def node(self, depth: int) -> Node:
        """Return an expression that is at most ``depth`` operators deep."""
        if depth == 0 or self.rng.random() < 0.1:
            return self.leaf()
        made = None
        while made is None:
            kind = self.rng.choices(
                [self.two, self.one, self.cast, self.choice], weights=[12, 3, 3, 1]
            )[0]
            made = kind(depth - 1)
        return made

    def inside(self, node: Node, binding: int) -> str:
        """Return an operand's text, in parentheses where it needs them and often where not."""
        if node.binding < binding or self.rng.random() < 0.3:
            return f"({node.text})"
        return node.text

    def two(self, depth: int) -> Node | None:
        """Return an operator between two operands, unless the result is undefined."""
        op = self.rng.choice(OFTEN if self.rng.random() < 0.85 else list(BINDING))
        left, right = self.node(depth), self.node(depth)
        if op in ("<<", ">>") and self.rng.random() < 0.8:
            right = Node(str(self.rng.randrange(40)), (0, left.value[1]), PRIMARY)
            right = right._replace(value=literal(right.text, self.model) or right.value)
        if op == "<<":
            type_ = promote(left.value[1], self.model)
            if type_.signed and not shift_fits(left.value[0], type_, right.value[0]):
                return None
        value = binary(op, left.value, right.value, self.model)
        if value is None:
            return None
        binding = BINDING[op]
        text = f"{self.inside(left, binding)} {op} {self.inside(right, binding + 1)}"
        return Node(text, value, binding)

    def one(self, depth: int) -> Node | None:
        """Return an operator before an operand, unless the result is undefined."""
        op = self.rng.choice("+-~!")
        operand = self.node(depth)
        value = unary(op, operand.value, self.model)
        text = self.inside(operand, PREFIX)
        space = " " if text.startswith(op) else ""
        return value and Node(op + space + text, value, PREFIX)

    def cast(self, depth: int) -> Node:
        """Return a cast to some type."""
        name = self.rng.choice(CASTS)
        type_ = named_type(name.split(), self.model)
        assert type_ is not None
        operand = self.node(depth)
        text = f"({name}){self.inside(operand, PREFIX)}"
        return Node(text, (convert(operand.value[0], type_), type_), PREFIX)

    def choice(self, depth: int) -> Node:
        """Return a ``?:``; its type is the common one of both ends (6.5.15)."""
        test, yes, no = (self.node(depth) for _ in range(3))
        type_ = usual(yes.value[1], no.value[1], self.model)
        value = convert((yes if test.value[0] else no).value[0], type_)
        text = f"{self.inside(test, 1)} ? {yes.text} : {self.inside(no, CONDITIONAL)}"
        return Node(text, (value, type_), CONDITIONAL)


def nodes(seed: int, number: int, model: DataModel = LP64) -> list[Node]:
    """Return that many expressions, one to five operators deep, with what they are."""
    maker = Maker(seed, model)
    return [maker.node(1 + turn % 5) for turn in range(number)]


def expressions(seed: int, number: int) -> list[str]:
    """Return that many constant expressions that C defines, for a host with LP64."""
    return [node.text for node in nodes(seed, number)]


def values_by_gcc(
    texts: Sequence[str],
    tmp_path: Path,
    compile_c: Compile,
    *flags: str,
    std: str = "gnu11",
    headers: str = HEADERS,
) -> list[int]:
    """Return the values that gcc gives to constant expressions; it must accept all of them.

    ``compile_c`` is the fixture, ``tmp_path`` the folder it compiles in.
    """
    lines = "".join(f"    {{(unsigned long long)({text}), ({text}) < 0}},\n" for text in texts)
    source = (
        f"{headers}"
        "static const struct { unsigned long long value; int negative; } all[] = {\n"
        f"{lines}}};\n"
        "int main(void) {\n"
        "    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)\n"
        '        printf("%llu %d\\n", all[i].value, all[i].negative);\n'
        "    return 0;\n"
        "}\n"
    )
    options = ["-Wall", "-Werror", *TASTE, *flags]
    compiled = compile_c(source, *options, std=std, strict=False, link=True)
    assert compiled.returncode == 0, compiled.stderr
    output = subprocess.run([tmp_path / "program"], capture_output=True, text=True, check=True)
    pairs = [line.split() for line in output.stdout.splitlines()]
    return [int(value) - (int(negative) << 64) for value, negative in pairs]


def blamed(
    lines: Sequence[str], compile_c: Compile, *flags: str, std: str = "gnu11", headers: str = ""
) -> set[int]:
    """Return which of these lines, counted from 0, gcc has an error or a warning for."""
    source = headers + "#line 1000\n" + "".join(f"{line}\n" for line in lines)
    compiled = compile_c(source, "-fno-diagnostics-show-caret", *flags, std=std, strict=False)
    found = re.findall(r"^[^:\n]+:(\d+):\d+: (?:error|warning): ", compiled.stderr, re.MULTILINE)
    return {int(line) - 1000 for line in found}
