"""The tricky cases of real tables, one by one."""

from __future__ import annotations

from typing import Any

import pytest
from table_lines import fields, imported, registers

from regwright.importing.draft import Draft
from regwright.importing.tables.reading import Wishes, import_table

BITS = ",".join(f"Bit {bit}" for bit in range(7, -1, -1))


def table(*rows: str, head: str = f"Address,Name,{BITS}", **wishes: Any) -> Draft:
    """Import a table of values separated by commas."""
    text = "\n".join([head, *rows])
    return import_table("table.csv", text.encode(), Wishes("demo", **wishes))


def tree(draft: Draft) -> dict[str, Any]:
    assert draft.tree is not None, draft.remarks
    return draft.tree


def reviews(draft: Draft) -> list[str]:
    """Return what is marked in the description itself."""
    return [node["review"] for node in registers(tree(draft)).values() if "review" in node]


def told(draft: Draft, rule: str) -> str:
    return " | ".join(remark.message for remark in draft.remarks if remark.rule == rule)


def test_parentheses_that_mean_data() -> None:
    draft = table("0x01 (0x21),A", "0x02 (0x22),B", "(0x70),C")
    assert [item["address"] for item in tree(draft)["registers"]] == [
        "io:0x01 data:0x21",
        "io:0x02 data:0x22",
        "data:0x70",
    ]
    assert tree(draft)["windows"][0]["offset"] == "0x20"
    assert "in 2 of 2 rows" in told(draft, "addresses-inferred")


def test_parentheses_that_mean_io() -> None:
    draft = table("0x21 (0x01),A", "0x22 (0x02),B", "0x70,C")
    assert registers(tree(draft))["A"]["address"] == "io:0x01 data:0x21"
    assert registers(tree(draft))["C"]["address"] == "data:0x70"


def test_one_row_decides_nothing() -> None:
    draft = table("0x01 (0x21),A", "0x40,B")
    assert registers(tree(draft))["A"]["address"] == "outside:0x01 parentheses:0x21"
    assert "windows" not in tree(draft)
    assert "which is the data address" in told(draft, "needs-review")
    assert reviews(draft)


def test_rows_that_disagree_decide_nothing() -> None:
    draft = table("0x01 (0x21),A", "0x02 (0x32),B", "0x03 (0x43),C")
    assert "windows" not in tree(draft)


@pytest.mark.parametrize(
    ("wishes", "address"),
    [
        ({"parentheses": "data"}, "io:0x01 data:0x21"),
        ({"parentheses": "io"}, "io:0x21 data:0x01"),
        ({"window_offset": 0x20}, "io:0x01 data:0x21"),
    ],
)
def test_what_the_user_says_decides(wishes: dict[str, Any], address: str) -> None:
    draft = table("0x01 (0x21),A", **wishes)
    assert registers(tree(draft))["A"]["address"] == address


def test_an_outlier_is_kept_and_told() -> None:
    draft = table("0x01 (0x21),A", "0x02 (0x22),B", "0x03 (0x33),C", "0x04 (0x24),D")
    assert registers(tree(draft))["C"]["address"] == "io:0x03 data:0x33"
    assert "0x30 apart" in registers(tree(draft))["C"]["review"]
    assert "in 3 of 4 rows" in told(draft, "addresses-inferred")


@pytest.mark.parametrize("dash", list("-\u2010\u2011\u2012\u2013\u2014\u2015\u2212"))
def test_every_dash_means_nothing(dash: str) -> None:
    draft = table(f"0x10,A,ON,{dash},{dash},{dash},{dash},{dash},{dash},{dash}", f"0x11,{dash}")
    assert fields(registers(tree(draft))["A"]) == {"ON": "7"}
    assert [item["bits"] for item in registers(tree(draft))["A"]["reserved"]] == ["6:0"]
    assert list(registers(tree(draft))) == ["A"]


@pytest.mark.parametrize("name", ["Reserved", "reserved", "\u2013", "", "N/A", "Res.", "Unused"])
def test_a_row_without_a_register(name: str) -> None:
    draft = table("0x10,A", f"0x70\u20130x77,{name}", "0x78,B")
    assert list(registers(tree(draft))) == ["A", "B"]
    region = tree(draft)["spaces"][0]["regions"][0]
    assert (region["first"], region["last"], region["kind"]) == ("0x70", "0x77", "reserved")
    assert "0x70\u20130x77" in told(draft, "not-carried-over")


def test_a_blank_row_and_a_repeated_header() -> None:
    head = f"Address,Name,{BITS}"
    draft = table(
        "0x10,A,a7,a6,a5,a4,a3,a2,a1,a0", ",,,,,,,,,", head, "0x11,B,b7,b6,b5,b4,b3,b2,b1,b0"
    )
    assert list(registers(tree(draft))) == ["A", "B"]


def test_a_repeated_header_in_the_other_order() -> None:
    ascending = "Address,Name," + ",".join(f"Bit {bit}" for bit in range(8))
    draft = table("0x10,A,HIGH,,,,,,,LOW", ascending, "0x11,B,LOW,,,,,,,HIGH")
    expected = {"HIGH": "7", "LOW": "0"}
    assert fields(registers(tree(draft))["A"]) == expected
    assert fields(registers(tree(draft))["B"]) == expected


@pytest.mark.parametrize("mark", ["(1)", " (1)", "¹", "⁽¹⁾", "*", "†", "(1)(2)", "(1,2)"])
def test_marks_of_footnotes_come_off(mark: str) -> None:
    draft = table(f'"0x10","A{mark}","ON{mark}",-,-,-,-,-,-,-')
    assert fields(registers(tree(draft))["A"]) == {"ON": "7"}
    assert mark.strip() in registers(tree(draft))["A"]["printed"]


def test_a_footnote_behind_an_address_is_no_second_address() -> None:
    draft = table("0x10 (1),A", "0x11 (1),B")
    assert registers(tree(draft))["A"]["address"] == "0x10"


def test_a_merged_cell_of_a_slice() -> None:
    draft = table("0x10,A,EN,MODE[3:0],,,,-,-,GO", "0x11,B,EN,M,M,M,M,-,-,GO")
    assert fields(registers(tree(draft))["A"])["MODE"] == "6:3"
    assert fields(registers(tree(draft))["B"])["M"] == "6:3"


def test_a_slice_whose_place_is_open() -> None:
    draft = table("0x10,A,EN,,,MODE[2:0],,,,GO")
    field = registers(tree(draft))["A"]["fields"][1]
    assert "not" in field["review"]


def test_digits_stuck_to_a_name() -> None:
    draft = table("0x10,A,FAN12:0,FAN12:0,FAN12:0,SPEED1:0,SPEED1:0,-,-,-")
    assert fields(registers(tree(draft))["A"]) == {"FAN1": "7:5", "SPEED": "4:3"}


def test_slices_in_two_registers() -> None:
    found = registers(tree(imported("summary_utf16.txt")))
    assert fields(found["DELAY"])["DELAY_9_8"] == "1:0"
    assert "DELAY_LOW" in found["DELAY"]["fields"][1]["title"]
    assert "where are the others" in found["SUM"]["fields"][0]["review"]


def test_halves_in_descending_order_and_names_that_only_look_like_halves() -> None:
    found = registers(tree(imported("summary_utf16.txt")))
    assert found["TIMER"]["byteOrder"] == "big"
    assert found["TIMER"]["halves"]["high"]["address"] == "0x10"
    assert {"PORTAL", "PORTAH"} <= found.keys()
    assert "halves" not in found["PORTAL"]
    assert "review" not in found["PORTAL"]


def test_names_alone_prove_no_halves() -> None:
    draft = table("0x10,TMR_L", "0x11,TMR_H")
    assert all("halves of one register" in text for text in reviews(draft))
    assert len(reviews(draft)) == 2


def test_one_address_for_reading_and_writing() -> None:
    found = registers(tree(imported("summary_same_address.csv")))
    assert "review" not in found["UART_IN"]
    assert found["RATE"]["when"] == "LINE.LATCH = 1"
    assert found["IRQ"]["when"] == "LINE.LATCH = 0"
    assert "same address" in found["TWO"]["review"]


@pytest.mark.parametrize(
    "text", ["0x1F", "1Fh", "01Fh", "$1F", "1F", "0x1f", "H'1F'", "0X1F", "0b11111", "0x0000_001F"]
)
def test_notations_of_numbers(text: str) -> None:
    assert registers(tree(table(f"{text},A")))["A"]["address"] == "0x1F"


@pytest.mark.parametrize(("text", "address"), [("0xlO", "0x10"), ("OxOB", "0x0B"), ("IOh", "0x10")])
def test_letters_for_digits(text: str, address: str) -> None:
    draft = table(f"{text},A")
    assert registers(tree(draft))["A"]["address"] == address
    assert "letter where a digit belongs" in reviews(draft)[0]


@pytest.mark.parametrize("text", ["1000", "1.00E+03", "1E+03"])
def test_a_spreadsheet_took_it_for_a_number(text: str) -> None:
    draft = table("1E1,A", "1E2,B", f"{text},C", "1E4,D")
    assert registers(tree(draft))["C"]["address"] == "0x1E3"
    assert "spreadsheet" in registers(tree(draft))["C"]["review"]


def test_a_round_number_where_it_belongs() -> None:
    draft = table("FFE,A", "FFF,B", "1000,C", "1001,D")
    assert registers(tree(draft))["C"]["address"] == "0x1000"
    assert not reviews(draft)


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("R/W", {"access": "read-write"}),
        ("R", {"access": "read-only"}),
        ("W", {"access": "write-only"}),
        ("R/W1C", {"access": "read-write", "modifiedWriteValue": "oneToClear"}),
        ("rc_w1", {"access": "read-write", "modifiedWriteValue": "oneToClear"}),
        ("W1S", {"access": "read-write", "modifiedWriteValue": "oneToSet"}),
        ("R/W0C", {"access": "read-write", "modifiedWriteValue": "zeroToClear"}),
        ("RW1T", {"access": "read-write", "modifiedWriteValue": "oneToToggle"}),
        ("rc_r", {"access": "read-only", "readAction": "clear"}),
    ],
)
def test_words_for_access(word: str, expected: dict[str, str]) -> None:
    draft = table(
        f"7,FLAG,{word},0,A flag",
        "6,OTHER,R/W,0,Another",
        head="Bits,Name,Access,Reset,Description",
    )
    register = next(iter(registers(tree(draft)).values()))
    node = register["fields"][0]
    found = {key: node[key] for key in ("modifiedWriteValue", "readAction") if key in node}
    found["access"] = node.get("access") or register["access"]
    assert found == expected


@pytest.mark.parametrize("word", ["R/C", "RWX", "?"])
def test_words_for_access_that_need_a_look(word: str) -> None:
    draft = table(f"7,FLAG,{word},0,A flag", head="Bits,Name,Access,Reset,Description")
    assert "review" in next(iter(registers(tree(draft)).values()))["fields"][0]


@pytest.mark.parametrize(
    ("text", "reset"),
    [
        ("0x1F", "0x1F"),
        ("1Fh", "0x1F"),
        ("0001 1111", "0x1F"),
        ("0b000x_1111", "0b000x1111"),
        ("0xX0", "0bxxxx0000"),
        ("X", "0bxxxxxxxx"),
        ("\u2013", None),
        ("N/A", None),
        ("", None),
    ],
)
def test_values_after_reset(text: str, reset: str | None) -> None:
    draft = table(f"0x10,A,{text}", head="Address,Name,Reset value")
    assert registers(tree(draft))["A"].get("reset") == reset
    assert not reviews(draft)


def test_a_value_after_reset_that_is_none() -> None:
    draft = table("0x10,A,soon", head="Address,Name,Reset value")
    assert "reset" not in registers(tree(draft))["A"]
    assert "'soon'" in reviews(draft)[0]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ('"VENT_\nOPEN"', "VENT_OPEN"),
        ('"VENT\n_OPEN"', "VENT_OPEN"),
        ('"CON-\nTROL"', "CONTROL"),
        ("CON\u00adTROL", "CONTROL"),
        ('"CON\u00ad\nTROL"', "CONTROL"),
        ("\ufeffCTRL", "CTRL"),
        ("CT\u200bRL", "CTRL"),
        ("\u00a0CTRL\u00a0", "CTRL"),
        ("Con\ufb01g", "Config"),
    ],
)
def test_accidents_of_typesetting(text: str, name: str) -> None:
    draft = table(f"0x10,{text},a,b,c,d,e,f,g,h", "0x11,B")
    assert list(registers(tree(draft))) == [name, "B"]
    assert not reviews(draft)


def test_a_name_in_two_rows() -> None:
    draft = table("0x10,VERY_LONG_,,,,,,,,X", ",NAME,,,,,,,,", "0x11,B,,,,,,,,X")
    assert list(registers(tree(draft))) == ["VERY_LONG_NAME", "B"]
    assert "review" not in registers(tree(draft))["VERY_LONG_NAME"]
    doubtful = table("0x10,VERY,,,,,,,,X", ",LONG,,,,,,,,", "0x11,B,,,,,,,,X")
    assert "two rows" in registers(tree(doubtful))["VERYLONG"]["review"]


def test_collapsed_spaces_are_not_counted() -> None:
    found = registers(tree(imported("summary_collapsed.txt")))
    assert fields(found["CTRL_A"]) == {"EN": "7", "IE": "6", "MODE": "5:2", "ERR": "1", "DONE": "0"}
    assert "fields" not in found["FLAGS_A"]
    assert "'WET DRY'" in found["FLAGS_A"]["review"]
    assert found["FLAGS_A"]["page"] == 34


def test_a_row_of_words_that_happens_to_have_eight() -> None:
    text = (
        "Address Name 7 6 5 4 3 2 1 0\n0x10 A the speed of the pump in turns each\n0x11 B 1 0 - C\n"
    )
    draft = import_table("t.txt", text.encode(), Wishes("demo"))
    assert "fields" not in registers(tree(draft))["B"]
    assert reviews(draft)


def test_pages_and_rows_are_kept() -> None:
    found = registers(tree(imported("summary_spaced.txt")))
    assert found["LEAK"]["printed"].startswith("page 2, row 4: 0x12 (0x32) LEAK")
    assert found["LEAK"]["page"] == 60


def test_several_tables_of_one_register_become_one() -> None:
    found = registers(tree(imported("together.html")))
    pump = found["PUMP_CTRL"]
    assert pump["title"] == "Pump control"
    assert pump["reset"] == "0b0001000x"
    assert [value["name"] for value in pump["fields"][1]["values"]] == ["STOP", "SLOW", "FAST"]


def test_two_tables_that_disagree_are_marked() -> None:
    rows = [
        "0x10,CTRL,0x00",
        "CTRL - Control,,",
        "Bits,Name,Description",
        "7,EN,On",
        "CTRL - Control again; address 0x10 reset 0x55,,",
        "Bit,7,6,5,4,3,2,1,0",
        "Name,-,EN,-,-,-,-,-,-",
    ]
    draft = table(*rows, head="Address,Name,Reset")
    node = registers(tree(draft))["CTRL"]
    assert "'0x00' and as '0x55'" in node["review"]
    assert "bits 6:6" in node["fields"][0]["review"]


@pytest.mark.parametrize(
    ("layout", "rows", "names"),
    [
        ("summary", ["0x10,A,a,b,c,d,e,f,g,h,12", "0x11,B,a,b,c,d,e,f,g,h,13"], ["A", "B"]),
        ("offsets", ["0x0,A,7:0,a,b,c,d,e,f,g,h", ",,15:8,i,j,k,l,m,n,o,p"], ["A"]),
        ("fields", ["7,A,R,0,first", "6:0,B,R,0,second"], ["UNNAMED"]),
    ],
)
def test_a_named_layout_needs_no_header(layout: str, rows: list[str], names: list[str]) -> None:
    draft = import_table("t.csv", "\n".join(rows).encode(), Wishes("demo", layout=layout))
    assert list(registers(tree(draft))) == names


def test_a_named_layout_that_does_not_fit_is_refused() -> None:
    draft = table("0x10,A", layout="matrix")
    assert draft.tree is None
    assert "'matrix'" in told(draft, "not-readable")
