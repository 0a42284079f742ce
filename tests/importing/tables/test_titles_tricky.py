"""What stands above a table: numbers in groups, spaces told by a word, several of a kind."""

from __future__ import annotations

import pytest

from regwright.importing.tables.notation import number
from regwright.importing.tables.printed_address import PrintedAddress
from regwright.importing.tables.titles import Title, title_of
from regwright.importing.tables.words import reset


def values(address: PrintedAddress | None) -> tuple[int, ...]:
    """Return the first of each of the printed addresses."""
    spans = (address.outer, address.inner) if address else ()
    return tuple(span.first.value for span in spans if span)


@pytest.mark.parametrize(
    ("text", "expected", "spaces", "space"),
    [
        ("I/O address 0x20, memory address 0x40", (0x20, 0x40), ("io", "data"), ""),
        ("Memory address: 0x40; I/O address: 0x20", (0x20, 0x40), ("io", "data"), ""),
        ("CTRL (I/O 0x20, memory 0x40)", (0x20, 0x40), ("io", "data"), ""),
        ("CTRL 0x20 (I/O), 0x40 (RAM)", (0x20, 0x40), ("io", "data"), ""),
        ("I/O address 0x20 (0x40)", (0x20, 0x40), ("io", "data"), ""),
        ("I/O address: 0x20", (0x20,), ("", ""), "io"),
        ("Port address: 20h", (0x20,), ("", ""), "io"),
        ("SFR address: 98h", (0x98,), ("", ""), "data"),
        ("Address (I/O): 0x20", (0x20,), ("", ""), "io"),
        ("Address: 0x20", (0x20,), ("", ""), ""),
        ("CTRL - Control (0x40, 0x60)", (0x40, 0x60), ("", ""), ""),
        ("CTRL - Control 0x20 (0x40)", (0x20, 0x40), ("", ""), ""),
    ],
)
def test_a_word_says_the_space(
    text: str, expected: tuple[int, ...], spaces: tuple[str, str], space: str
) -> None:
    said = title_of(text)
    assert values(said.address) == expected
    assert said.address is not None
    assert (said.address.spaces, said.space, said.doubts) == (spaces, space, ())


@pytest.mark.parametrize(
    "text", ["Address: 0x20, address: 0x40", "CTRL (0x20, 0x40, 0x60)", "CTRL 0x99 (0x20, 0x40)"]
)
def test_addresses_that_cannot_be_told_apart_are_marked(text: str) -> None:
    assert title_of(text).doubts


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("Address: 0x4000 1004", 0x40001004),
        ("Address: 0x4000\u00a01004", 0x40001004),
        ("Address: 0x4000_1004", 0x40001004),
        ("Address: 0x4000'1004", 0x40001004),
        ("Address: 0x4000.1004", 0x40001004),
        ("Address: 4000 1004h", 0x40001004),
        ("CTRL - Control (address 0x4000 1004)", 0x40001004),
        ("Address: 0x40 added later", 0x40),
        ("Address: 0x40 2-bit", 0x40),
    ],
)
def test_groups_of_digits_are_one_number(text: str, value: int) -> None:
    assert values(title_of(text).address) == (value,)


@pytest.mark.parametrize(
    ("text", "width", "value"),
    [
        ("Reset value: 0x0000 0083", 32, 0x83),
        ("Reset value: 0b1000 0011", 8, 0x83),
        ("Reset value: 0b1000_0011", 8, 0x83),
        ("Reset value: 1000 0011", 8, 0x83),
        ("Reset value = 83h", 8, 0x83),
        ("Reset: $83", 8, 0x83),
    ],
)
def test_values_after_reset(text: str, width: int, value: int) -> None:
    said = title_of(text)
    found = reset(said.reset, width)
    assert found is not None
    assert (found.value, found.doubt, said.doubts) == (value, "", ())


def test_a_reset_that_holds_for_some_is_marked() -> None:
    said = title_of("Reset value: 0xA800 0000 (for port A)")
    assert said.reset == "0xA800 0000"
    assert "port A" in said.doubts[0]
    said = title_of("Reset value: 0x83 (power-on), 0x00 (others)")
    assert said.reset == "0x83"
    assert any("second value" in doubt and "0x00" in doubt for doubt in said.doubts)


def test_a_number_in_the_name_of_a_reset_is_no_reset() -> None:
    assert title_of("RST0 - Reset 0 control") == Title(
        "RST0", "Reset 0 control", text="RST0 - Reset 0 control"
    )


@pytest.mark.parametrize(
    "text", ["Base address 0x4800 0400", "Base address: 4800 0400h", "base = 0x4800.0400"]
)
def test_a_base(text: str) -> None:
    assert title_of(text).base == 0x48000400


def test_several_bases_are_instances_when_each_has_a_name() -> None:
    said = title_of("Base addresses: 0x40020000 (ABCA), 0x40020400 (ABCB)")
    assert said.instances == (("ABCA", 0x40020000), ("ABCB", 0x40020400))
    said = title_of("Base addresses: 0x40020000, 0x40020400")
    assert not said.instances
    assert "which is meant" in said.doubts[0]


def test_a_word_is_no_number() -> None:
    assert title_of("Base addresses are listed below").base is None
    assert title_of("CTRL - Address decoder").address is None


def test_a_base_is_told_by_an_address_and_an_offset() -> None:
    assert title_of("Offset: 0x04, address: 0x4000 1004").base == 0x40001000
    said = title_of("Base address 0x4000, offset 0x04, address 0x5004")
    assert "0x5004" in said.doubts[0]


def test_a_row_of_registers() -> None:
    said = title_of("CTRLn - Control\nAddress offset: 0x04 + 0x10 * n (n = 1..3)")
    assert (said.name, said.steps) == ("CTRL", (3, 0x10, 1, "n"))
    assert said.address is not None
    assert said.address.first.first.value == 0x14
    assert title_of("CTRL\nAddress offset: 0x04 + 0x10 * n").doubts


def test_the_name_in_parentheses_is_meant() -> None:
    said = title_of("ABC port mode register (ABCx_MODER) (x = A..C)")
    assert (said.name, said.title) == ("ABCx_MODER", "ABC port mode register")
    assert "x = A..C" in said.doubts[0]


def test_a_label_for_the_name() -> None:
    said = title_of("Name: CTRLA\nOffset: 0x00\nReset: 0x10\nProperty: -")
    assert (said.name, said.title, said.reset, said.is_offset) == ("CTRLA", "", "0x10", True)


@pytest.mark.parametrize(
    ("text", "value", "has_doubt"),
    [
        ("0x0000 0083", 0x83, False),
        ("0x1 0000", 0x10000, True),
        ("0x1 000", None, False),
        ("0b" + "1" * 64, (1 << 64) - 1, False),
        ("0b" + "1" * 65, None, False),
        ("0b" + " ".join(["0001"] * 16), 0x1111111111111111, False),
    ],
)
def test_numbers_in_groups(text: str, value: int | None, has_doubt: bool) -> None:
    found = number(text)
    assert (found.value if found else None) == value
    assert bool(found and found.doubt) == has_doubt


def test_a_long_line_is_read_in_bounded_time() -> None:
    for piece in ("0x0000 ", "address ", "(0x40 ", "base 0x1, ", "reset 0x0000 ", "n = 1, "):
        assert title_of(f"{piece * 4000}\n" * 6).text
