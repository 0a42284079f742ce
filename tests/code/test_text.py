"""Lines and columns of places in a source."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from regwright.code import text as module
from regwright.code.text import C, CodeText

_PIECES = st.sampled_from(
    [
        b"a",
        b"\n",
        b"\r\n",
        b"\r",
        "é".encode(),
        "\U0001d11e".encode(),
        b"\xff",
        b"\x80",
        b"\xe2\x82",
    ]
)


@settings(deadline=None, max_examples=300, derandomize=True)
@given(st.lists(_PIECES, max_size=40), st.booleans(), st.integers(1, 9))
def test_columns_count_characters_however_they_are_counted(
    pieces: list[bytes], marked: bool, stride: int
) -> None:
    """Held against Python's decoder, which puts one character for each part that is no UTF-8."""
    data = (b"\xef\xbb\xbf" if marked else b"") + b"".join(pieces)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "_STRIDE", stride)
        source = CodeText("a.c", data, C)
        for offset in range(3 if marked else 0, len(data) + 1):
            before = data[:offset].removeprefix(b"\xef\xbb\xbf" if marked else b"")
            last = before.rpartition(b"\n")[2]
            expected = before.count(b"\n") + 1, len(last.decode("utf-8", "replace")) + 1
            assert source.line_and_column(offset) == expected


def test_many_places_in_one_long_line_cost_little() -> None:
    """A line of 4 MB with 20,000 places: 40 GB, were each counted from the line's start."""
    data = "é".encode() * 2_000_000
    source = CodeText("a.c", data, C)
    start = time.perf_counter()
    columns = [source.line_and_column(offset)[1] for offset in range(0, len(data), 200)]
    assert time.perf_counter() - start < 5
    assert columns == list(range(1, 2_000_001, 100))
