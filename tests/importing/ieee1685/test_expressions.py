"""Constant expressions and numbers, as IEEE 1800-2017 and the schemas' documentation have them."""

from __future__ import annotations

import contextlib
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from regwright.importing.ieee1685.expressions import evaluate
from regwright.importing.ieee1685.literals import (
    HASH,
    OCTAL,
    PREFIX,
    SCALE,
    BadNumber,
    Value,
    plain,
)

PARAMETERS = {"A": Value(3), "B": Value(2), "uuid_1-a.b": Value(64), "MODE": Value("wide")}


def value(text: str) -> int | float | str:
    return found(text).of


def found(text: str, odd: set[str] | None = None) -> Value:
    return evaluate(text, PARAMETERS.get, PARAMETERS.__contains__, set() if odd is None else odd)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # 5.7.1, integer literal constants
        ("659", 659),
        ("'h 837FF", 0x837FF),
        ("'o7460", 0o7460),
        ("4'b1001", 9),
        ("5 'D 3", 3),
        ("27_195_000", 27195000),
        ("16'b0011_0101_0001_1111", 0x351F),
        ("32 'h 12ab_f001", 0x12ABF001),
        ("8'hFFF", 0xFF),  # too large a value is cut to its size
        ("4'sb1111", -1),
        ("'1", -1),  # as many ones as there is room for
        ("'0", 0),
        # 5.7.2, real literal constants
        ("1.30", 1.3),
        ("2e3", 2000.0),
        ("236.123_763e-12", 236.123763e-12),
        # 11.3.2, table 11-2: precedence, and grouping from the left
        ("2 ** 3 ** 2", 64),
        ("2 + 3 * 4", 14),
        ("10 - 4 - 3", 3),
        ("1 << 2 + 1", 8),
        ("1 | 6 & 3", 3),
        ("6 ^ 3 & 1", 7),
        ("1 == 1 & 0", 0),  # == before &
        ("1 < 2 == 1", 1),
        ("0 || 1 && 0", 0),
        ("-2 ** 2", 4),  # the sign belongs to the 2
        ("1 ? 2 : 0 ? 3 : 4", 2),
        ("0 ? 2 : 0 ? 3 : 4", 4),
        # 11.4.3, arithmetic: division towards zero, the remainder has the sign of the first
        ("-7 / 2", -3),
        ("-7 % 3", -1),
        ("7 % -3", 1),
        ("7.0 / 2", 3.5),
        ("2 ** -1", 0),
        ("(-1) ** -3", -1),
        # 11.4.4 to 11.4.10
        ("3 >= 3", 1),
        ("4'b1010 === 4'b1010", 1),
        ("!5", 0),
        ("~4'b0101", 10),
        ("~1'b1", 0),
        ("4'b1100 ~^ 4'b1010", 9),
        ("&4'hF", 1),
        ("~|4'h0", 1),
        ("^3'b110", 0),
        ("1 <<< 4", 16),
        ("-8 >>> 1", -4),
        # 11.4.12, concatenation and repetition; 11.5.1, bits of a number
        ("{4'hA, 4'h5}", 0xA5),
        ("{2{4'b10}}", 0x22),
        ("{3{1'b1}}", 7),
        ("A[1]", 1),
        ("uuid_1-a.b[7:4]", 4),
        # 20.8, functions
        ("$clog2(0)", 0),
        ("$clog2(1)", 0),
        ("$clog2(1024)", 10),
        ("$clog2(1025)", 11),
        ("$pow(2, 10)", 1024.0),
        ("$sqrt(16)", 4.0),
        ("$floor(2.7)", 2.0),
        ("$countones(8'hF1)", 5),
        ("$onehot(4)", 1),
        ("$signed(4'hF)", -1),
        # parameters, whose names may have more in them than identifiers of SystemVerilog
        ("4 * (A / B)", 4),
        ("A-B", 1),
        ("uuid_1-a.b - A", 61),
        ('MODE == "wide"', 1),
        ('MODE != "wide" || A', 1),
        ("true && !false", 1),
        # numbers of the 2009 edition, which files of the others have too
        ("0x1F + #F", 46),
        ("4K", 4096),
        ("2M - 1", (2 << 20) - 1),
        ("1G", 1 << 30),
        ("1T", 1 << 40),
    ],
)
def test_value(text: str, expected: float) -> None:
    assert value(text) == expected


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "is missing at its end"),
        ("1 +", "is missing at its end"),
        ("1 2", "is too much"),
        ("(1", "')' is missing"),
        ("1 ? 2", "':' is missing"),
        ("4'b12", "base 2"),
        ("5000'h1", "1 to 4096"),
        ("NOBODY", "no parameter is called 'NOBODY'"),
        ("$time(1)", "is not known"),
        ("$clog2(1, 2)", "another number of arguments"),
        ("1 / 0", "division by zero"),
        ("1 % 0", "division by zero"),
        ("{A, 1'b1}", "how wide it is"),
        ("1'bx + 1", "x or z"),
        ('"a" + 1', "where a number must"),
        ("1 @ 2", "is not read"),
        # bounds
        ("9 ** 9999", "4096 bits"),
        ("1 << 5000", "4096 bits"),
        ("{9999{1'b1}}", "9999 times"),
        ("{99{64'h1}}", "4096 bits"),
        ("1" * 5000, "digits"),
        ("1" * 4000, "bits"),
        ("1.5e300 * 1e300 + $rtoi(1e999)", "no number that can be held"),
        ("(" * 70 + "1" + ")" * 70, "64 deep"),
        ("+".join(["1"] * 9000), "longer than 10000"),
    ],
)
def test_no_value(text: str, why: str) -> None:
    start = time.process_time()
    with pytest.raises(BadNumber) as problem:
        found(text)
    assert why in str(problem.value)
    assert time.process_time() - start < 1


def test_unknown_bits_of_a_literal_are_kept() -> None:
    assert found("8'b10x1_zz00") == Value(0b1001_0000, 8, 0b0010_1100)
    assert found("'hx0").unknown == 0xF0


@pytest.mark.parametrize(
    ("text", "expected", "marks"),
    [
        ("0x1F", 31, {PREFIX}),
        ("#1f", 31, {HASH}),
        ("+12", 12, set()),
        ("-3", -3, set()),
        ("010", 8, {OCTAL}),
        ("07", 7, set()),  # the same either way
        ("08", 8, set()),  # no octal digits
        ("4k", 4096, {SCALE}),
        ("0x10M", 16 << 20, {PREFIX, SCALE}),
        ("0", 0, set()),
    ],
)
def test_plain_numbers(text: str, expected: int, marks: set[str]) -> None:
    """Source: the documentation of scaledInteger in simpleTypes of the 2009 schemas."""
    assert plain(text, octal=True) == (expected, marks)


_BINARY = ("+", "-", "*", "<<", "|", "^", "&")
_LEAVES = st.integers(0, 9).map(str)
_TREES = st.recursive(
    _LEAVES,
    lambda inner: st.tuples(inner, st.sampled_from(_BINARY), inner).map(
        lambda parts: (
            f"({parts[0]} {parts[1]} {parts[2]})"
            if parts[1] != "<<"
            else f"({parts[0]} << ({parts[2]} & 7))"
        )
    ),
    max_leaves=12,
)


@settings(max_examples=60, deadline=None, derandomize=True, database=None)
@given(_TREES)
def test_whole_numbers_are_those_of_python(text: str) -> None:
    """Outside source: Python's own integers, on operators that mean the same in both."""
    assert value(text) == eval(text)


@settings(max_examples=100, deadline=None, derandomize=True, database=None)
@given(st.text("0123456789abcxzAKMGT'h#$()[]{}+-*/%<>=!&|^~?:,._ \"", max_size=40))
def test_any_text_is_a_value_or_refused(text: str) -> None:
    with contextlib.suppress(BadNumber):
        found(text)
