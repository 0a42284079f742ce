"""Which names a macro may make by pasting. Source: ISO C11 6.10.3.3; GNU C for the comma."""

from __future__ import annotations

import pytest

from regwright.code.directives import directives
from regwright.code.pasting import unpasted


def prefixes(line: str) -> tuple[bytes, ...] | None:
    """Return what the names begin with that the macro in ``line`` may paste together."""
    (macro,) = directives(f"#define {line}\n".encode()).macros
    return unpasted(macro).prefixes


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("ERROR(name) fail(ERROR_##name)", (b"ERROR_",)),
        ("FUNCTION(a, b) read_##a##_##b(), write_ ## a()", (b"read_", b"write_")),
        ("LOG(text, ...) log(text, ##__VA_ARGS__)", ()),
        ("LOG(text, arguments...) log(text , ## arguments)", ()),
        ('SHOWN(x) log(#x " # " # x)', ()),
    ],
)
def test_names_begin_with_what_the_macro_says(line: str, expected: tuple[bytes, ...]) -> None:
    assert prefixes(line) == expected


@pytest.mark.parametrize(
    "line",
    ["JOINED(a, b) a##b", "TYPE(name) name##_t", "ALL(...) __VA_ARGS__##x", "BROKEN(x) ( ## x"],
)
def test_any_name_may_come_of_it(line: str) -> None:
    assert prefixes(line) is None
