"""Integers for small targets, worked out by hand; for hosts see tests/outside."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from regwright.code.integers import (
    BOOL,
    ILP32,
    IP16,
    LP64,
    DataModel,
    Value,
    binary,
    convert,
    data_model,
    int_type,
    literal,
    named_type,
    promote,
    shift_fits,
    unary,
    usual,
)
from regwright.code.seen import IntType

CHAR, SHORT, INT, LONG, LONG_LONG = 1, 2, 3, 4, 5
U8 = IntType(8, signed=False, rank=CHAR)
INT16 = IntType(16, signed=True, rank=INT)
UINT16 = IntType(16, signed=False, rank=INT)
LONG32 = IntType(32, signed=True, rank=LONG)
ULONG32 = IntType(32, signed=False, rank=LONG)
LL64 = IntType(64, signed=True, rank=LONG_LONG)
ULL64 = IntType(64, signed=False, rank=LONG_LONG)

MODELS = st.sampled_from([IP16, ILP32, LP64])
OPERATORS = ["+", "-", "*", "/", "%", "&", "|", "^", "<<", ">>", "<", ">", "<=", ">="]
OPERATORS += ["==", "!=", "&&", "||"]
NAMES = ["_Bool", "char", "uint8_t", "short", "uint16_t", "int", "unsigned", "long",
         "unsigned long", "long long", "unsigned long long"]  # fmt: skip


def test_models() -> None:
    assert data_model(16) == IP16 == (16, 32, 64, 16)
    assert data_model(32) == ILP32 == (32, 32, 64, 32)
    with pytest.raises(ValueError, match="12 bits"):
        data_model(12)


# ISO C11 6.4.4.1, the table in paragraph 5, with an int of 16 and a long of 32 bits.
@pytest.mark.parametrize(
    ("text", "value", "type_"),
    [
        ("32767", 32767, INT16),
        ("32768", 32768, LONG32),
        ("0x7FFF", 0x7FFF, INT16),
        ("0x8000", 0x8000, UINT16),
        ("0b1000000000000000", 0x8000, UINT16),
        ("0100000", 0x8000, UINT16),
        ("0xFFFF", 0xFFFF, UINT16),
        ("0x10000", 0x10000, LONG32),
        ("65535u", 65535, UINT16),
        ("65536u", 65536, ULONG32),
        ("2147483647", 2**31 - 1, LONG32),
        ("2147483648", 2**31, LL64),
        ("0x80000000", 2**31, ULONG32),
        ("0x80000000l", 2**31, ULONG32),
        ("1ul", 1, ULONG32),
        ("1ull", 1, ULL64),
        ("0xFFFFFFFFFFFFFFFF", 2**64 - 1, ULL64),
        ("0", 0, INT16),
        ("'\\xFF'", -1, INT16),
        # ISO C++ lex.icon: z stands for the signed type as wide as size_t, then for size_t.
        ("0x8000z", 0x8000, UINT16),
        ("0x8000uz", 0x8000, UINT16),
    ],
)
def test_literals_with_an_int_of_16_bits(text: str, value: int, type_: IntType) -> None:
    assert literal(text, IP16) == (value, type_)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " 1",
        "1 ",
        "1\n",
        "-1",
        "0x",
        "08",
        "1.0",
        "1e3",
        "18446744073709551616u",
        "9223372036854775808",
        "9" * 100_000,
        "0x1" + "0" * 100_000,
        "\N{ARABIC-INDIC DIGIT ONE}",
        "L'a'",
        "'",
        "'a",
        "'\n'",
        "32768z",
        "0x10000uz",
    ],
)
def test_text_that_is_no_literal(text: str) -> None:
    assert literal(text, IP16) is None


def test_leading_zeros_do_not_count() -> None:
    assert literal("0x" + "0" * 100_000 + "1", ILP32) == (1, int_type(ILP32))
    assert literal("0" * 100_000 + "17", ILP32) == (0o17, int_type(ILP32))


@pytest.mark.parametrize(
    ("name", "type_"),
    [
        ("u8", U8),
        ("__u8", U8),
        ("unsigned", UINT16),
        ("size_t", UINT16),
        ("uintptr_t", UINT16),
        ("std::size_t", UINT16),
        ("::uint8_t", U8),
        ("uint32_t", ULONG32),
        ("__be32", ULONG32),
        ("s64", LL64),
        ("u64", ULL64),
        ("const volatile long", LONG32),
        ("__volatile__ __signed__ long", LONG32),
        ("bool", BOOL),
        ("le16", None),
        ("u24", None),
        ("uint_fast8_t", None),
        ("wchar_t", None),
        ("float", None),
        ("long double", None),
        ("unsigned size_t", None),
        ("u8 int", None),
        ("volatile", None),
        ("", None),
        ("pump", None),
    ],
)
def test_names_of_types(name: str, type_: IntType | None) -> None:
    assert named_type(name.split(), IP16) == type_


def test_promotion_with_an_int_of_16_bits() -> None:
    """6.3.1.1: an unsigned short as wide as int becomes unsigned; of bits 8 all fit int."""
    assert promote(IntType(16, signed=False, rank=SHORT), IP16) == UINT16
    assert promote(IntType(16, signed=True, rank=SHORT), IP16) == INT16
    assert promote(U8, IP16) == INT16
    assert promote(BOOL, IP16) == INT16
    assert promote(LONG32, IP16) == LONG32


def test_common_type_with_an_int_of_16_bits() -> None:
    """6.3.1.8: long holds all of unsigned int here, but not where both have 32 bits."""
    assert usual(UINT16, LONG32, IP16) == LONG32
    unsigned, long = named_type(["unsigned"], ILP32), named_type(["long"], ILP32)
    assert unsigned is not None
    assert long is not None
    assert usual(unsigned, long, ILP32) == ULONG32


@pytest.mark.parametrize(
    ("a", "op", "b", "result"),
    [
        # 1 << 15 goes into the sign of an int of 16 bits: two's complement gives -32768.
        ((1, INT16), "<<", (15, INT16), (-32768, INT16)),
        ((3, INT16), "<<", (15, INT16), (-32768, INT16)),
        ((1, INT16), "<<", (16, INT16), None),
        ((1, INT16), "<<", (-1, INT16), None),
        ((-1, INT16), "<<", (1, INT16), None),
        ((1, U8), "<<", (7, U8), (128, INT16)),
        ((1, LONG32), "<<", (16, INT16), (65536, LONG32)),
        # The count does not widen what is shifted (6.5.7).
        ((1, INT16), "<<", (3, LL64), (8, INT16)),
        ((-8, INT16), ">>", (1, INT16), (-4, INT16)),
        ((32767, INT16), "+", (1, INT16), None),
        ((65535, UINT16), "+", (1, INT16), (0, UINT16)),
        ((0, UINT16), "-", (1, INT16), (65535, UINT16)),
        ((-1, INT16), "<", (1, UINT16), (0, INT16)),
        ((-32768, INT16), "/", (-1, INT16), None),
        ((-32768, INT16), "%", (-1, INT16), None),
        ((-7, INT16), "/", (2, INT16), (-3, INT16)),
        ((-7, INT16), "%", (2, INT16), (-1, INT16)),
        ((1, INT16), "%", (0, INT16), None),
        ((255, U8), "*", (255, U8), None),
        ((1, INT16), "&&", (0, LL64), (0, INT16)),
        ((0, INT16), "||", (5, LL64), (1, INT16)),
        ((1, INT16), "=", (1, INT16), None),
    ],
)
def test_operators_with_an_int_of_16_bits(
    a: Value, op: str, b: Value, result: Value | None
) -> None:
    assert binary(op, a, b, IP16) == result


def test_operators_before_an_operand_with_an_int_of_16_bits() -> None:
    assert unary("~", (0, U8), IP16) == (-1, INT16)
    assert unary("~", (0, UINT16), IP16) == (65535, UINT16)
    assert unary("-", (-32768, INT16), IP16) is None
    assert unary("-", (1, UINT16), IP16) == (65535, UINT16)
    assert unary("+", (200, U8), IP16) == (200, INT16)
    assert unary("!", (5, LL64), IP16) == (0, INT16)
    assert unary("&", (5, LL64), IP16) is None


@pytest.mark.parametrize(
    ("value", "type_", "count", "fits"),
    [
        (1, INT16, 14, True),
        (1, INT16, 15, False),
        (1, UINT16, 15, True),
        (3, UINT16, 15, False),
        (0, INT16, 15, True),
        (0, INT16, 16, False),
        (1, INT16, -1, False),
        (-1, INT16, 1, False),
        (1, LONG32, 15, True),
        (1, LONG32, 10**9, False),
    ],
)
def test_shifts_that_fit(value: int, type_: IntType, count: int, fits: bool) -> None:
    assert shift_fits(value, type_, count) is fits


@st.composite
def values(draw: st.DrawFn) -> tuple[Value, Value, DataModel]:
    model = draw(MODELS)
    made = []
    for _ in range(2):
        type_ = named_type(draw(st.sampled_from(NAMES)).split(), model)
        assert type_ is not None
        number = draw(st.integers(-(2**64), 2**64) | st.integers(-3, 70))
        made.append((convert(number, type_), type_))
    return made[0], made[1], model


@given(values(), st.sampled_from(OPERATORS))
def test_results_lie_within_their_types(case: tuple[Value, Value, DataModel], op: str) -> None:
    """And the mathematical result, where it does, is the result."""
    a, b, model = case
    result = binary(op, a, b, model)
    if result is None:
        assert op in ("+", "-", "*", "/", "%", "<<", ">>")
        return
    value, type_ = result
    assert convert(value, type_) == value
    assert type_.rank >= INT
    exact = {"+": a[0] + b[0], "-": a[0] - b[0], "*": a[0] * b[0]}.get(op)
    if exact is not None:
        assert (value - exact) % 2**type_.bits == 0


@given(st.text() | st.text("0123456789abcdefxXbBuUlLzZ'\\"))
@example("0'")
def test_any_text(text: str) -> None:
    found = literal(text, IP16)
    assert found is None or convert(*found) == found[0]
    named = named_type([text], IP16)
    assert named is None or named.bits in (8, 16, 32, 64)
