"""The forms of tables: encodings, separators, merged cells, and one table in every form."""

from __future__ import annotations

import csv
import io
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from table_lines import fields, registers

from regwright.importing.tables.cells import Unreadable
from regwright.importing.tables.csv_form import read_csv
from regwright.importing.tables.html_form import read_html
from regwright.importing.tables.notation import bit_range, number
from regwright.importing.tables.reading import Wishes, form_of, import_table, read_grids

#: The same examples on each run, however slow the machine.
STEADY = settings(
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)
TEXT = "Address;Name;Reset\r\n0x10;\u00dcBER;0x5A\r\n"


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]
)
def test_encodings(encoding: str) -> None:
    draft = import_table("t.csv", TEXT.encode(encoding), Wishes("demo"))
    assert draft.tree is not None
    node = draft.tree["registers"][0]
    assert (node["name"], node["title"], node["reset"]) == ("UBER", "\u00dcBER", "0x5A")


@pytest.mark.parametrize("separator", list(",;\t|"))
def test_separators(separator: str) -> None:
    text = f"Address{separator}Name\n0x10{separator}A\n"
    assert [cell.text for cell in read_csv(text)[0].rows[1].cells] == ["0x10", "A"]


def test_a_separator_that_the_file_names() -> None:
    rows = read_csv("sep=;\na,b;c\n")[0].rows
    assert [cell.text for cell in rows[0].cells] == ["a,b", "c"]
    assert (rows[0].number, rows[0].line) == (2, 2)


def test_quoted_newlines_keep_the_lines_of_the_file() -> None:
    rows = read_csv('a,"b\n\nc"\nd,e\n')[0].rows
    assert [(row.number, row.line) for row in rows] == [(1, 1), (2, 4)]
    assert rows[0].cells[1].raw == "b\n\nc"


def test_a_missing_quote_does_not_swallow_the_file() -> None:
    text = 'Address,Name\n0x10,"A\n' + "".join(f"0x{index:X},B\n" for index in range(17, 120))
    rows = read_csv(text)[0].rows
    assert any(row.doubt for row in rows)


def test_spreadsheet_formulas_are_their_text() -> None:
    assert read_csv('="0x10","=""A"""\n')[0].rows[0].cells[0].text == "0x10"


def test_merged_cells_of_html() -> None:
    text = "<table><tr><td rowspan=2 colspan=2>a<td>b<tr><td>c</table>"
    rows = read_html(text)[0].rows
    assert [(cell.text, cell.column, cell.span) for cell in rows[0].cells] == [
        ("a", 0, 2),
        ("b", 2, 1),
    ]
    assert [(cell.text, cell.continued) for cell in rows[1].cells] == [("a", True), ("c", False)]


@pytest.mark.parametrize("span", ["0", "-1", "x", "", "1e9"])
def test_spans_that_are_none(span: str) -> None:
    rows = read_html(f'<table><tr><td colspan="{span}">a<td>b</table>')[0].rows
    assert [cell.column for cell in rows[0].cells] == [0, 1]


def test_text_above_a_table_is_its_title() -> None:
    grids = read_html(
        "<h1>One</h1><table><caption>First</caption><tr><td>a</table><p>Two</p>"
        "<script>no</script><table><tr><td>b</table>"
    )
    assert [grid.title for grid in grids] == ["One\nFirst", "Two"]


@pytest.mark.parametrize(
    ("name", "data", "form"),
    [
        ("a.csv", b"", "csv"),
        ("a.TSV", b"", "tsv"),
        ("a.htm", b"", "html"),
        ("a.pdf", b"", "pdf"),
        ("a.csv", b"%PDF-1.7", "pdf"),
        ("a", b"<html><table>", "html"),
        ("a", b"a;b;c\nd;e;f\n", "csv"),
        ("a", b"Bits Name Access\n7 A R\n", "text"),
        ("a.txt", b"a;b;c\n", "text"),
    ],
)
def test_forms_are_told_by_name_or_content(name: str, data: bytes, form: str) -> None:
    assert form_of(name, data) == form


def test_bytes_that_are_no_text() -> None:
    with pytest.raises(Unreadable, match="zero bytes"):
        read_grids("a.csv", b"\x00\x01\x02\x03\x04")


class Printed(NamedTuple):
    """A register as it is printed in each form: the names of its bits from 7 to 0."""

    name: str
    address: int
    bits: tuple[str, ...]


NAMES = [f"R{letter}{index}" for letter in "ABC" for index in range(4)]


@st.composite
def tables(draw: st.DrawFn) -> list[Printed]:
    names = draw(st.lists(st.sampled_from(NAMES), min_size=2, max_size=6, unique=True))
    found = []
    for index, name in enumerate(names):
        flags = draw(st.lists(st.booleans(), min_size=8, max_size=8))
        bits = tuple(
            f"F{bit}X" if flag else "-" for bit, flag in zip("76543210", flags, strict=True)
        )
        found.append(Printed(name, 3 * index + 0x10, bits))
    return found


HEAD = ["Address", "Name", *[f"Bit {bit}" for bit in range(7, -1, -1)]]


def _cells(printed: Printed) -> list[str]:
    address = f"0x{printed.address:02X} (0x{printed.address + 0x20:02X})"
    return [address, printed.name, *printed.bits]


def as_csv(table: list[Printed]) -> bytes:
    out = io.StringIO()
    csv.writer(out).writerows([HEAD, *map(_cells, table)])
    return out.getvalue().encode()


def as_html(table: list[Printed]) -> bytes:
    rows = ["".join(f"<td>{cell}</td>" for cell in row) for row in [HEAD, *map(_cells, table)]]
    return ("<table>" + "".join(f"<tr>{row}</tr>" for row in rows) + "</table>").encode()


def as_spaced(table: list[Printed]) -> bytes:
    rows = [HEAD, *map(_cells, table)]
    return "\n".join("".join(cell.ljust(14) for cell in row) for row in rows).encode()


def as_collapsed(table: list[Printed]) -> bytes:
    return "\n".join(" ".join(row) for row in [HEAD, *map(_cells, table)]).encode()


@settings(STEADY, max_examples=25)
@given(tables())
def test_one_table_is_the_same_in_every_form(table: list[Printed]) -> None:
    expected: dict[str, Any] = {
        item.name: (
            f"io:0x{item.address:02X} data:0x{item.address + 0x20:02X}",
            {text: text[1] for text in item.bits if text != "-"},
        )
        for item in table
    }
    for name, data in (
        ("t.csv", as_csv(table)),
        ("t.html", as_html(table)),
        ("spaced.txt", as_spaced(table)),
        ("collapsed.txt", as_collapsed(table)),
    ):
        draft = import_table(name, data, Wishes("demo"))
        assert draft.tree is not None
        found = {
            key: (node["address"], fields(node)) for key, node in registers(draft.tree).items()
        }
        assert found == expected, name


@settings(STEADY, max_examples=60)
@given(st.integers(0, (1 << 64) - 1))
def test_a_number_is_the_same_in_every_notation(value: int) -> None:
    digits = f"{value:X}"
    for text in (f"0x{digits}", f"0x{digits.lower()}", f"${digits}", f"0{digits}h", f"H'{digits}'"):
        found = number(text)
        assert found is not None
        assert (found.value, found.doubt) == (value, "")


@settings(STEADY, max_examples=60)
@given(st.integers(0, 63), st.integers(0, 63))
def test_a_range_of_bits_is_the_same_in_every_notation(one: int, other: int) -> None:
    expected = (max(one, other), min(one, other))
    for text in (f"[{one}:{other}]", f"{one}-{other}", f"{one}..{other}", f"{one} \u2013 {other}"):
        assert bit_range(text) == expected


@settings(STEADY, max_examples=150)
@given(st.text("0x1F()[]:-,;|\n\t AaNBit7_<>/td\u2013\u00a0\ufeff\"'R", max_size=200))
def test_any_text_ends_in_a_draft(text: str) -> None:
    for name in ("t.csv", "t.txt", "t.html"):
        for head in ("", "Address,Name,Bits,Reset\n", "Bits Name Access\n", "Bit 7 6 5 4\n"):
            draft = import_table(name, (head + text).encode(), Wishes("demo"))
            assert draft.tree is not None or draft.remarks
