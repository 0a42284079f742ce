"""Rows that tempt a reader to guess: each is read right, or marked for a person."""

from __future__ import annotations

from typing import Any

import pytest
from table_lines import fields, registers

from regwright.importing.draft import Draft
from regwright.importing.tables.layouts.widths import misfit
from regwright.importing.tables.pages import page_number
from regwright.importing.tables.reading import Wishes, import_table
from regwright.model.finding import NOTE, WARNING

HEAD = "Address,Name,Bit 7,Bit 6,Bit 5,Bit 4,Bit 3,Bit 2,Bit 1,Bit 0,Page\n"
BIT_CELLS = "".join(f"<th>{bit}</th>" for bit in range(7, -1, -1))
WIDE_CELLS = "".join(f"<th>{bit}</th>" for bit in range(31, -1, -1))


def drafted(text: str, name: str = "demo.csv", **wishes: Any) -> Draft:
    return import_table(name, text.encode(), Wishes("demo", **wishes))


def found(text: str, name: str = "demo.csv") -> dict[str, dict[str, Any]]:
    tree = drafted(text, name).tree
    assert tree is not None
    return registers(tree)


def told(draft: Draft, level: str = WARNING) -> str:
    return "\n".join(item.message for item in draft.remarks if item.level == level)


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("0x40,FAN,A,B,-,-,-,C,D,12\n", "7 cells for 8 bit columns"),
        ("0x40,FAN,A,B,-,-,-,-,-,C,D,12\n", "9 cells for 8 bit columns"),
        ("0x40,FAN,A,B\n", "2 cells for 8 bit columns"),
    ],
)
def test_a_row_with_a_wrong_number_of_cells_has_no_fields(row: str, reason: str) -> None:
    fan = found(HEAD + row + "0x41,LAMP,A,B,-,-,-,-,C,D,13\n")["FAN"]
    assert "fields" not in fan
    assert "page" not in fan
    assert "| A | B" in fan["printed"]
    assert reason in fan["review"]


@pytest.mark.parametrize(
    "row",
    [
        "0x40,FAN,A,B,-,-,-,-,C,D\n",  # only the page is missing
        "0x40,FAN,A,B,-,-,-,-,C,D,12,,\n",  # blank cells of a spreadsheet
    ],
)
def test_a_row_that_lacks_nothing_of_its_bits_is_read(row: str) -> None:
    fan = found(HEAD + row)["FAN"]
    assert fields(fan) == {"A": "7", "B": "6", "C": "1", "D": "0"}
    assert "review" not in fan


def test_merged_cells_that_do_not_add_up_are_marked() -> None:
    rows = [
        '<tr><td>0x40</td><td>FAN</td><td colspan="2">W[1:0]</td><td>B</td><td>-</td><td>-</td>'
        "<td>C</td><td>D</td></tr>",
        '<tr><td>0x41</td><td>LAMP</td><td colspan="2">W[1:0]</td><td>B</td><td>-</td><td>-</td>'
        "<td>-</td><td>C</td><td>D</td></tr>",
    ]
    table = f"<table><tr><th>Address</th><th>Name</th>{BIT_CELLS}</tr>{''.join(rows)}</table>"
    both = found(table, "demo.html")
    assert "fields" not in both["FAN"]
    assert "7 cells for 8 bit columns" in both["FAN"]["review"]
    assert fields(both["LAMP"]) == {"W": "7:6", "B": "5", "C": "1", "D": "0"}
    assert "review" not in both["LAMP"]


def test_a_matrix_row_with_a_cell_too_many_is_marked() -> None:
    text = ",0,1,2,3,4,5,6,7\n0x40,A0,A1,A2,A3,A4,A5,A6,A7,A8\n0x48,B0,B1,,,,,,\n"
    both = found(text)
    assert "9 cells for 8 columns" in both["A3"]["review"]
    assert "review" not in both["B1"]


def test_columns_of_two_digits_hold_names_and_values_after_reset() -> None:
    text = ",0/8,1/9,2/A,3/B,4/C,5/D,6/E,7/F,\nF8H,,FAN 00000001,,,,,,,FFH\n"
    text += "80H,LAMP 11111111,,,,,,,DOOR 00xx0000,87H\n"
    both = found(text)
    assert (both["FAN"]["address"], both["FAN"]["reset"]) == ("0xF9", "0x01")
    assert both["LAMP"]["address"] == "0x80"
    assert (both["DOOR"]["address"], both["DOOR"]["reset"]) == ("0x87", "0b00xx0000")
    assert all("review" not in item for item in both.values())


def test_a_row_named_reset_value_belongs_to_the_register_above() -> None:
    names = '<td rowspan="2">0x04</td><td>FLOW</td><td colspan="28">Res.</td><td colspan="4">N</td>'
    resets = '<td>Reset value</td><td colspan="28"></td><td>1</td><td>0</td><td>x</td><td>1</td>'
    head = f"<tr><th>Offset</th><th>Register</th>{WIDE_CELLS}</tr>"
    table = f"<table>{head}<tr>{names}</tr><tr>{resets}</tr></table>"
    only = found(table, "demo.html")
    assert list(only) == ["FLOW"]
    assert only["FLOW"]["reset"] == "0b" + "x" * 28 + "10x1"
    assert fields(only["FLOW"]) == {"N": "3:0"}


def test_columns_of_two_bits_with_a_range_in_each_row() -> None:
    pairs = ",".join(f"{bit + 16}/{bit}" for bit in range(15, -1, -1))
    upper, lower = ",".join(["-"] * 16), ",".join(["ON", *["-"] * 14, "GO"])
    text = f"Virtual Address,Register Name,Bit Range,{pairs},All Resets\n"
    text += f"0x0600,FLOW,31:16,{upper},0000\n,,15:0,{lower},8001\n"
    flow = found(text)["FLOW"]
    assert fields(flow) == {"ON": "15", "GO": "0"}
    assert flow["reset"] == "0x00008001"
    assert "byteOrder" not in flow


def test_a_high_byte_first_is_big_endian_and_marked_without_own_offsets() -> None:
    head = "Address,Name,Bit Pos.,7,6,5,4,3,2,1,0\n"
    both = found(
        head + "0x10,WIDE,15:8,W[15:8],,,,,,,\n,,7:0,W[7:0],,,,,,,\n"
        "0x12,NEXT,15:8,N[15:8],,,,,,,\n0x13,,7:0,N[7:0],,,,,,,\n"
        "0x14,LOW,7:0,L[7:0],,,,,,,\n,,15:8,L[15:8],,,,,,,\n"
    )
    assert [item.get("byteOrder") for item in both.values()] == ["big", "big", None]
    assert "byte order big" in both["WIDE"]["review"]
    assert "review" not in both["NEXT"]
    assert "review" not in both["LOW"]


def test_a_row_without_a_name_but_with_bits_is_not_reserved() -> None:
    draft = drafted(HEAD + "0x40,FAN,A,-,-,-,-,-,-,-,3\n0x44,,A,B,C,D,E,F,G,H,4\n")
    assert draft.tree is not None
    assert "regions" not in draft.tree["spaces"][0]
    assert "0x44" in told(draft)
    assert "B | C" in told(draft)


def test_a_number_alone_is_the_number_of_a_page() -> None:
    head = "Address Name Bit 7 Bit 6 Bit 5 Bit 4 Bit 3 Bit 2 Bit 1 Bit 0 Page\n"
    text = head + "0x34 FAN - - - - A B C D page 45\n205\n"
    draft = drafted(text + "0x31 LAM-\nPER - L6 L5 L4 L3 L2 L1 L0 page 27\n", "demo.txt")
    assert draft.tree is not None
    both = registers(draft.tree)
    assert (both["FAN"]["page"], both["LAMPER"]["page"]) == (45, 27)
    assert fields(both["FAN"]) == {"A": "3", "B": "2", "C": "1", "D": "0"}
    assert "broken over two lines" in both["LAMPER"]["review"]
    assert draft.tree["spaces"][0]["size"] == "0x0040"
    assert "205" in told(draft, NOTE)


@pytest.mark.parametrize(
    ("text", "page"),
    [("68, 70", 68), ("37,51", 37), ("page 45", 45), ("12-14", 12), ("p. 9", 9), ("D", None)],
)
def test_the_first_of_several_pages_counts(text: str, page: int | None) -> None:
    assert page_number(text) == page


def test_the_other_pages_are_told() -> None:
    draft = drafted(HEAD + '0x40,FAN,A,-,-,-,-,-,-,-,"68, 70"\n')
    assert draft.tree is not None
    assert registers(draft.tree)["FAN"]["page"] == 68
    assert "'68, 70'" in told(draft, NOTE)


@pytest.mark.parametrize(
    ("addresses", "expected", "is_marked"),
    [
        (("18", "19", "20", "86"), ("0x12", "0x13", "0x14", "0x56"), True),
        (("9", "10", "19", "20"), ("0x09", "0x0A", "0x13", "0x14"), False),
        (("10", "11", "12", "13"), ("0x10", "0x11", "0x12", "0x13"), True),
    ],
)
def test_a_base_is_decided_by_what_stands_in_the_table(
    addresses: tuple[str, ...], expected: tuple[str, ...], *, is_marked: bool
) -> None:
    rows = "".join(f"{at},R{at},A,-,-,-,-,-,-,-,1\n" for at in addresses)
    all_of = found(HEAD + rows)
    assert tuple(item["address"] for item in all_of.values()) == expected
    assert all(("review" in item) is is_marked for item in all_of.values())


def test_a_clean_table_has_nothing_to_review() -> None:
    draft = drafted(HEAD + "0x40,FAN,A,-,-,-,-,-,-,-,3\n")
    assert told(draft) == ""
    assert "write the real ones as 'size'" in told(draft, NOTE)


def test_a_cell_that_is_no_name_is_marked() -> None:
    fan = found(HEAD + "0x40,FAN,A,R/W1C,12,-,-,-,-,B,3\n")["FAN"]
    marked = {item["bits"] for item in fan["fields"] if "review" in item}
    assert marked == {"6", "5"}


def test_a_layout_that_does_not_fit_says_which_headers_it_wants() -> None:
    draft = drafted(HEAD + "0x40,FAN,A,-,-,-,-,-,-,-,3\n", layout="offsets")
    assert draft.tree is None
    assert "Bit Pos." in draft.remarks[0].message


def test_misfit_says_nothing_of_rows_without_a_header() -> None:
    from regwright.importing.tables.cells import Row, cell
    from regwright.importing.tables.headers import Header

    head = Header({"address": 0}, {}, {}, {}, Row((), 0))
    assert misfit(head, Row((cell("0x40", 0), cell("A", 5)), 1)) == ""
