"""What is known of a written value, bit by bit, held against all values that it may have.

Source: arithmetic itself. Each expression is worked out for registers and unknown values of 8 bits,
with Python's integers, which have the bits of C's in two's complement.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from functools import partial
from typing import NamedTuple

import pytest
from code_reading import evaluator, seen, tokens
from hypothesis import given
from hypothesis import strategies as st

from regwright.code.grammar import Shapes
from regwright.code.integers import LP64, convert, named_type
from regwright.code.pieces import Spot
from regwright.code.scope import Scope
from regwright.code.seen import Bits, CType, Location, Meaning, Number
from regwright.code.syntax import Node
from regwright.code.text import C
from regwright.code.written import (
    UNKNOWN,
    Known,
    Written,
    cast,
    combined,
    common,
    constant,
    flipped,
    inverse,
    roles,
    shifted,
    united,
    written,
)

MASK = (1 << 64) - 1
REGISTER = Location(0x38, CType(8, volatile=True))
OTHER = Location(0x39, CType(8, volatile=True))


# The laws of each operation, for all values that the bits allow.


class Possible(NamedTuple):
    """Bits of a value, the register's content and one of the values that they allow."""

    bits: Bits
    register: int
    value: int


@st.composite
def possible(draw: st.DrawFn, register: int | None = None) -> Possible:
    words = st.integers(0, MASK)
    before = draw(words) if register is None else register
    ones, zeros, kept, rest = (draw(words) for _ in range(4))
    zeros &= ~ones
    kept &= ~ones & ~zeros
    value = ones | (before & kept) | (rest & ~(ones | zeros | kept))
    return Possible(Bits(ones, zeros, kept), before, value)


def allows(bits: Bits, register: int, value: int) -> bool:
    """Tell whether a value may be, by what is known of its bits."""
    ones, zeros, kept = bits
    value &= MASK
    is_apart = ones & zeros == 0 and (ones | zeros) & kept == 0
    return is_apart and value & ones == ones and not value & zeros and not (value ^ register) & kept


@given(st.data())
def test_two_operands(data: st.DataObject) -> None:
    one = data.draw(possible())
    other = data.draw(possible(one.register))
    for make, operator, value in (
        (united, "|", one.value | other.value),
        (common, "&", one.value & other.value),
        (flipped, "^", one.value ^ other.value),
    ):
        made = make(one.bits, other.bits)
        assert allows(made, one.register, value)
        assert combined(operator, one.bits, other.bits) == made
    assert combined("+", one.bits, other.bits) == UNKNOWN


@given(possible(), st.integers(-70, 70))
def test_one_operand(one: Possible, count: int) -> None:
    assert allows(inverse(one.bits), one.register, ~one.value)
    value = one.value << count if count >= 0 else one.value >> -count
    assert allows(shifted(one.bits, count), one.register, value)


@given(
    possible(),
    st.sampled_from(["_Bool", "char", "uint8_t", "int16_t", "uint16_t", "int", "unsigned", "long",
                     "uint64_t"]),
)  # fmt: skip
def test_casts(one: Possible, name: str) -> None:
    to = named_type(name.split(), LP64)
    assert to is not None
    assert allows(cast(one.bits, to), one.register, convert(one.value, to))


@given(st.integers(-(1 << 63), MASK))
def test_constants_are_known_in_every_bit(value: int) -> None:
    ones, zeros, kept = constant(value)
    assert (ones, ones | zeros, ones & zeros, kept) == (value & MASK, MASK, 0, 0)


def test_every_bit_that_can_be_known_is() -> None:
    """By hand, for the bits 1, 0, as it was, and not known, of each operand."""
    # bits 12 to 15, 8 to 11, 4 to 7, 0 to 3: 1, 0, kept, unknown; and the same within each
    one = Bits(0xF000, 0x0F00, 0x00F0)
    other = Bits(0x8888, 0x4444, 0x2222)
    assert united(one, other) == Bits(0xF888, 0x0400, 0x0260)
    assert common(one, other) == Bits(0x8000, 0x4F44, 0x20A0)
    assert flipped(one, other) == Bits(0x4800, 0x8420, 0x0240)
    assert inverse(one) == Bits(0x0F00, 0xF000, 0)
    assert shifted(one, 4) == Bits(0xF0000, 0x0F00F, 0)
    assert shifted(one, -4) == Bits(0x0F00, 0x00F0, 0)


# Whole expressions, of which each is worked out for all values of 8 bits.

CASTS = ["uint8_t", "int8_t", "uint16_t", "int", "unsigned", "_Bool"]


def expression(rng: random.Random, depth: int) -> str:
    """Return an expression of the register R, another one S, a variable x, and constants."""
    if depth == 0:
        return rng.choice(
            ["R", "R", "x", "S", str(rng.randrange(256)), hex(rng.randrange(256)), "1"]
        )
    kind = rng.choice(["two", "two", "two", "one", "cast", "choice", "shift", "other"])
    one, other = expression(rng, depth - 1), expression(rng, rng.randrange(depth))
    made = {
        "two": f"({one} {rng.choice('|&^')} {other})",
        "one": f"~{one}" if one[0] != "~" else f"~({one})",
        "cast": f"({rng.choice(CASTS)})({one})",
        "choice": f"({rng.choice('xRS')} ? {one} : {other})",
        "shift": f"({one} {rng.choice(['<<', '>>'])} {rng.randrange(9)})",
        "other": f"({one} {rng.choice('+-*')} {other})",
    }
    return made[kind]


def computed(text: str, values: Mapping[str, int]) -> int:
    """Return what an expression comes to, with integers that have no end."""
    joined = " ".join(tokens(text))
    for name in CASTS:  # a cast and the parentheses behind it are a call
        joined = joined.replace(f"( {name} ) (", f"to_{name} (")
    while "?" in joined:
        joined = python_choice(joined)
    calls = {f"to_{name}": partial(converted, name) for name in CASTS}
    return int(eval(joined, {**calls, **values}))


def converted(name: str, value: int) -> int:
    to = named_type([name], LP64)
    assert to is not None
    return convert(value, to)


def python_choice(text: str) -> str:
    """Turn the first innermost ``( a ? b : c )`` into Python's form."""
    parts = text.split()
    mark = len(parts) - 1 - parts[::-1].index("?")  # the last one has no other within its ends
    start = mark
    depth = 0
    while True:
        start -= 1
        depth += (parts[start] == ")") - (parts[start] == "(")
        if depth < 0:
            break
    end, colon, depth = mark, 0, 0
    while True:
        end += 1
        depth += (parts[end] == "(") - (parts[end] == ")")
        if parts[end] == ":" and depth == 0:
            colon = end
        if depth < 0:
            break
    test, yes, no = parts[start + 1 : mark], parts[mark + 1 : colon], parts[colon + 1 : end]
    made = ["(", *yes, "if", *test, "else", *no, ")"]
    return " ".join([*parts[:start], *made, *parts[end + 1 :]])


def known_of(text: str) -> Written:
    """Return what is known of an expression that is written to R."""
    scope = Scope({}, 1 << 40)
    reader = evaluator(scope, LP64)
    spot = Spot(0, (), 0)
    made = reader.expanded(text.encode(), spot, 0)
    assert made is not None, text

    def value(node: Node) -> Meaning | None:
        while node.kind == "group":
            node = node.kids[0]
        places = {"R": REGISTER, "S": OTHER}
        return places.get(node.text) or reader.value(made, node, spot)

    return written(made.node, REGISTER, Known(value, reader.integer_of))


def test_random_expressions() -> None:
    rng = random.Random(7)
    known = 0
    for turn in range(1500):
        text = expression(rng, 1 + turn % 4)
        bits, reads = known_of(text)
        assert reads == ("R" in tokens(text)), text
        for _ in range(12):
            values = {name: rng.choice([0, 0xFF, rng.randrange(256)]) for name in "RSx"}
            value = computed(text, values)
            # of a register of 8 bits only those are written
            shown = Bits(*(item & 0xFF for item in bits))
            assert allows(shown, values["R"], value & 0xFF), (text, values)
        known += (bits.ones | bits.zeros | bits.kept) & 0xFF != 0
    assert known > 500


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("0x05", Bits(0x05, 0xFA, 0)),
        ("R", Bits(0, 0, 0xFF)),
        ("S", Bits(0, 0, 0)),
        ("R | 0x05", Bits(0x05, 0, 0xFA)),
        ("R & ~0x05", Bits(0, 0x05, 0xFA)),
        ("(R & ~0x07) | 0x02", Bits(0x02, 0x05, 0xF8)),
        ("(R & ~0x07) | (x & 0x07)", Bits(0, 0, 0xF8)),
        ("R ^ 0x05", Bits(0, 0, 0xFA)),
        ("R ^ R", Bits(0, 0xFF, 0)),
        ("x << 4", Bits(0, 0x0F, 0)),
        ("1 << x", Bits(0, 0, 0)),
        ("(x & 0x0F) << 2", Bits(0, 0xC3, 0)),
        ("x & 0x0F", Bits(0, 0xF0, 0)),
        ("x ? 0x05 : 0x04", Bits(0x04, 0xFA, 0)),
        ("(uint8_t)(R | 0x05)", Bits(0x05, 0, 0xFA)),
        ("(_Bool)(R & 0x04)", Bits(0, 0xFE, 0)),
        ("(_Bool)(R | 0x04)", Bits(0x01, 0xFE, 0)),
        ("!(R & 0x04)", Bits(0, 0, 0)),
        ("R + 1", Bits(0, 0, 0)),
        ("f(R)", Bits(0, 0, 0)),
        ("(x, 0x05)", Bits(0x05, 0xFA, 0)),
    ],
)
def test_by_hand(text: str, expected: Bits) -> None:
    bits, reads = known_of(text)
    assert Bits(*(item & 0xFF for item in bits)) == expected
    assert reads == ("R" in tokens(text))


def test_a_narrow_cast_leaves_nothing_above() -> None:
    """6.3.1.3: to unsigned by cutting; a signed one is extended by its sign, which is not known."""
    bits, _ = known_of("(uint8_t)(R | 0x105)")
    assert Bits(*(item & 0xFFFF for item in bits)) == Bits(0x05, 0xFF00, 0xFA)
    bits, _ = known_of("(int8_t)(R | 0x105)")
    assert Bits(*(item & 0xFFFF for item in bits)) == Bits(0x05, 0, 0xFA)
    bits, _ = known_of("(int8_t)(R | 0x180)")
    assert Bits(*(item & 0xFFFF for item in bits)) == Bits(0xFF80, 0, 0x7F)


# The names in a value, and what each does.


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A", {"A": "operand"}),
        ("A | B", {"A": "operand", "B": "operand"}),
        ("(A & ~B) ^ C", {"A": "operand", "B": "operand", "C": "operand"}),
        ("A + B", {"A": "operand", "B": "operand"}),
        ("1 << A", {"A": "count"}),
        ("A << B | C", {"A": "other", "B": "count", "C": "operand"}),
        ("A >> B", {"A": "other", "B": "other"}),
        ("A * B - C", {"A": "other", "B": "other", "C": "other"}),
        ("A ? B : C", {"A": "other", "B": "operand", "C": "operand"}),
        ("(unsigned char)(A)", {"A": "operand"}),
        ("(unsigned char *)A", {"A": "other"}),
        ("f(A, B)", {"A": "other", "B": "other"}),
        ("!A", {"A": "other"}),
        ("-A", {"A": "other"}),
        ("A[B]", {"A": "other", "B": "other"}),
        ("(A, B)", {"A": "operand", "B": "operand"}),
    ],
)
def test_roles_of_names(text: str, expected: dict[str, str]) -> None:
    parsed = Shapes(C).parse(text.encode())
    assert parsed is not None
    assert {item.name.text: item.role for item in roles(parsed.node)} == expected


def test_parts_of_an_access_stand_where_the_source_has_them() -> None:
    text = (
        "#define OUT (*(volatile unsigned char *)0x38)\n#define LED 1\n#define FAN (1 << 2)\n"
        "void f(void) { OUT = (OUT & ~FAN) | 1 << LED | other; }\n"
    )
    (access,) = seen(text).accesses
    found = [(part.name, part.role, part.means and part.means.value) for part in access.parts]
    assert found == [
        ("OUT", "operand", None),
        ("FAN", "operand", 4),
        ("LED", "count", 1),
        ("other", "operand", None),
    ]
    for part in access.parts:
        assert text[part.at.start : part.at.end] == part.name
    assert isinstance(access.parts[1].means, Number)
