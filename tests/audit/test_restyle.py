"""Another number in the style of a literal.

What a literal means is told by :mod:`regwright.code.integers`, which the compiler is held against
in ``tests/outside``; its forms are those of ISO C11 6.4.4.1 and of C++ (lex.icon).
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from regwright.audit.restyle import restyled
from regwright.code.integers import IP16, LP64, literal

PREFIXES = {"0x": 16, "0X": 16, "0b": 2, "0B": 2, "0": 8, "": 10}
#: Suffixes of C and C++; a decimal number without one of ``u`` must fit a signed type.
SUFFIXES = ["", "u", "U", "l", "UL", "ull", "LLU", "z"]
DIGITS = "0123456789abcdef"


@st.composite
def literals(draw: st.DrawFn) -> str:
    """Literals of C and C++ of every base, with separators."""
    prefix = draw(st.sampled_from(list(PREFIXES)))
    base = PREFIXES[prefix]
    digits = draw(st.text(DIGITS[:base], min_size=1, max_size=10))
    if base == 10:
        digits = digits.lstrip("0") or "7"
    if draw(st.booleans()):
        digits = digits.upper()
    marks = draw(st.lists(st.integers(1, 9), max_size=3, unique=True))
    for place in sorted((place for place in marks if place < len(digits)), reverse=True):
        digits = f"{digits[:place]}'{digits[place:]}"
    return prefix + digits + draw(st.sampled_from(SUFFIXES))


def style(text: str) -> tuple[str, str]:
    """Return the prefix and the suffix of a literal, read without the code under test."""
    prefix = re.match(r"0[xXbB]|0(?=[0-7'])|", text)
    suffix = re.search(r"[uUlLzZ]*$", text)
    assert prefix is not None
    assert suffix is not None
    return prefix[0], suffix[0]


@given(literals(), st.integers(0, (1 << 31) - 1))
def test_the_value_is_the_new_one_and_the_style_is_kept(text: str, value: int) -> None:
    assert literal(text, LP64) is not None
    made = restyled(text, value)
    assert made is not None
    found = literal(made, LP64)
    assert found is not None
    assert found[0] == value
    if value:  # decimal 0 looks like an octal number
        assert style(made) == style(text)


@given(literals())
def test_the_same_number_stays_the_same_text(text: str) -> None:
    found = literal(text, LP64)
    assert found is not None
    mixed = text != text.lower() and text != text.upper()
    made = restyled(text, found[0])
    assert made is not None
    assert (made.lower() if mixed else made) == (text.lower() if mixed else text)


@given(st.text("0123456789abxXBuUlLz'. ", max_size=8))
def test_only_integer_literals_are_written_anew(text: str) -> None:
    # which types a suffix allows is not looked at: it stays as it is
    plain = re.sub(r"[uUlLzZ]*$", "", text)
    is_literal = literal(plain, IP16) is not None and not plain.startswith("'")
    assert (restyled(text, 1) is not None) == is_literal


@pytest.mark.parametrize(
    ("text", "value", "made"),
    [
        ("0x18", 0x38, "0x38"),
        ("0X18U", 0x38, "0X38U"),
        ("0x1a", 0x3F, "0x3f"),
        ("0x1B", 0x3F, "0x3F"),
        ("0x18", 0x3F, "0x3F"),
        ("0x0018", 0x38, "0x0038"),
        ("0x18", 0x120, "0x120"),
        ("24", 56, "56"),
        ("104u", 56, "56u"),
        ("030", 0o70, "070"),
        ("0030ul", 0o70, "0070ul"),
        ("0b00011000", 0x38, "0b00111000"),
        ("0b0001'1000", 0x38, "0b0011'1000"),
        ("0x12'34", 0x5678, "0x56'78"),
        ("1'000", 1234567, "1'234'567"),
        ("1'000", 7, "7"),
        ("0", 0x20, "0x20"),
        ("0", 0, "0"),
        ("0x38", 0, "0x00"),
    ],
)
def test_examples_worked_out_by_hand(text: str, value: int, made: str) -> None:
    assert restyled(text, value) == made


@pytest.mark.parametrize("text", ["'a'", "BASE", "0x", "1e5", "089", "0b12", "1.0", "", "0x18 "])
def test_no_integer_literal_of_c(text: str) -> None:
    assert restyled(text, 0x38) is None


@pytest.mark.parametrize("value", [-1, 1 << 64])
def test_no_value_that_a_type_holds(value: int) -> None:
    assert restyled("0x18", value) is None
