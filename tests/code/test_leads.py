"""With which name begins what may be a constant: nothing if that is nothing.

Source of what C makes of each: ISO C11 6.5, precedence and casts.
"""

from __future__ import annotations

import pytest

from regwright.code.leads import lead_of, leads_of


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("at", "at"),
        ("at->next[3] + 1", "at"),
        ("first(3, 4) ? 1 : 2", "first"),
        ('"text"', ""),
        ("(uint8_t *)at", "at"),
        ("(uint16_t)at + 1", "at"),
        ("((struct list *)at)->first", "at"),
        ("(uint32_t)(at - base)", "at"),
        ("(at)->next", "at"),
        ("((at)->next + 3) * 2", "at"),
        ("(at != none) ? at + 1 : at", "at"),
        ("(at * 3) + 1", "at"),
        ("(at * other.part)", "at"),
        ("(mix(at) ^ mix(other)) - 1", "mix"),
        ("(check(at), (uint8_t *)at->next)", "at"),
        ("62 - at", "at"),
        ("1u << at", "at"),
        ("((size_t)1) << at", "at"),
        ("(1 << at) - 1", "at"),
        ("-at", "at"),
        ("!at + 1", "at"),
        ("*at", "at"),
        ("&at[2]", "at"),
    ],
)
def test_a_value_is_nothing_with_its_first_name(value: str, expected: str) -> None:
    assert lead_of(value.encode()) == expected


@pytest.mark.parametrize(
    "value",
    [
        "3",
        "",
        "'a' + at",
        "1 || at",
        "(uint8_t *)0x38",
        "(uint8_t)0x38",
        "(uint8_t)(0x38)",
        "(at)(0x38)",
        "(at) + 3",
        "(at) * 3",
        "(uint8_t * const FAR)0x38",
        "(uint8_t * FAR)(0x38)",
        "(BOX<3> *)(0x38)",
        "(BOX<uint8_t> &)(0x38)",
        "(TYPE(uint8_t))(0x38)",
        "(uint8_t (*)[3])0x38",
        "reinterpret_cast<uint8_t *>(at)",
        "sizeof at",
        "at, 3",
        "{ at }",
        "(struct pair){ at }",
        "at::AT",
        "größe",
        "at" + " + at" * 600,
    ],
)
def test_a_value_that_may_be_something(value: str) -> None:
    assert lead_of(value.encode()) is None


@pytest.mark.parametrize("body", ["at + 3", "at & 0x7F", "at ? 1 : 2", "at || 5", "at = 3"])
def test_a_macro_has_to_be_one_operand(body: str) -> None:
    """What follows a macro may bind to the last of its operands alone."""
    assert lead_of(body.encode(), is_macro=True) is None
    assert lead_of(b"(%s)" % body.encode(), is_macro=True) == "at"


@pytest.mark.parametrize(
    ("body", "expected"),
    [("at", "at"), ("at->next", "at"), ("f(at)", "f"), ("((struct list *)at)->next[2]", "at")],
)
def test_an_operand(body: str, expected: str) -> None:
    assert lead_of(body.encode(), is_macro=True) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("at + 3", set()),
        ("(uint8_t *)at", {"at"}),
        ("(uint8_t * FAR)at", {"at"}),
        ("1 << at", {"at"}),
        ("1 << (at + 3)", {"at"}),
        ("at << 12", {"at"}),
        ("8 << 10", set()),
        ("1u << 14", set()),
        ("(a * b) + 3", set()),
        ("*(uint8_t *)at = level << 2", {"at", "level"}),
    ],
)
def test_what_must_mean_nothing(text: str, expected: set[str]) -> None:
    found = leads_of(text.encode())
    assert found is not None
    assert {name.decode() for name in found} == expected


@pytest.mark.parametrize(
    "text",
    [
        "*(uint8_t *)0x38 = 1",
        "(uint8_t * FAR)0x38",
        "(uint8_t * FAR)'a'",
        "(uint8_t * FAR)(0x38)",
        "(uint8_t *)(1 + 2)",
        "1 << 15",
        "2 << 14",
        "0x10 << 2",
        "-1 << 2",
        "2 * 3 << 13",
        "1 << 2 + 12",
        "1 << 2 << 13",
        "1 << 16",
        "(at) << 3",
        "a##b",
        "GLUED(a ## b)",
    ],
)
def test_what_may_do_something_whatever_it_means(text: str) -> None:
    assert leads_of(text.encode()) is None
