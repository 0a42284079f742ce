"""Boxes and lists of fields that say something in an unusual place, one by one."""

from __future__ import annotations

from typing import Any

import pytest
from table_lines import fields, registers

from regwright.importing.draft import Draft
from regwright.importing.tables.reading import Wishes, import_table

LIST = "Bits,Name,Access,Reset,Description"
BOX = "Bit,7,6,5,4,3,2,1,0"


def imported(text: str, name: str = "table.csv") -> Draft:
    draft = import_table(name, text.encode(), Wishes("demo"))
    assert draft.tree is not None, draft.remarks
    return draft


def only(draft: Draft) -> dict[str, Any]:
    """Return the one register of a draft."""
    found = list(registers(draft.tree or {}).values())
    assert len(found) == 1
    return found[0]


def values(field: dict[str, Any]) -> dict[str, str]:
    return {item["name"]: item["value"] for item in field.get("values", [])}


def told(draft: Draft, rule: str) -> str:
    return " | ".join(remark.message for remark in draft.remarks if remark.rule == rule)


def test_both_addresses_of_a_heading_are_kept() -> None:
    text = f'CTRL - Control\n"I/O address 0x20, memory address 0x40"\n{LIST}\n7,EN,R/W,0,Enable\n'
    assert only(imported(text))["address"] == "io:0x20 data:0x40"


def test_a_single_io_address_is_in_the_io_space() -> None:
    draft = imported(f"CTRL - Control\nI/O address: 0x20\n{LIST}\n7,EN,R/W,0,Enable\n")
    assert draft.tree is not None
    assert [space["name"] for space in draft.tree["spaces"]] == ["io"]


def test_two_addresses_without_a_word_are_marked() -> None:
    draft = imported(f'"CTRL - Control (0x40, 0x60)"\n{LIST}\n7,EN,R/W,0,Enable\n')
    assert only(draft)["address"] == "outside:0x40 parentheses:0x60"
    assert "which is the I/O address" in only(draft)["review"]


def test_a_row_of_registers_has_its_stride() -> None:
    text = f"CTRLn - Control\nAddress offset: 0x04 + 0x10 * n (n = 1..3)\n{LIST}\n7,EN,R/W,0,On\n"
    node = only(imported(text))
    found = [node[key] for key in ("name", "offset", "count", "stride", "firstIndex")]
    assert found == ["CTRL", "0x14", 3, "0x10", 1]


def test_a_block_at_several_places_has_instances() -> None:
    text = '"Base addresses: 0x4000 (ABCA), 0x4400 (ABCB)"\nOffset,Name,7,6,5,4,3,2,1,0\n'
    draft = imported(f"{text}0x00,CRA,A,B,-,-,-,-,C,D\n")
    assert draft.tree is not None
    (block,) = draft.tree["blocks"]
    assert "base" not in block
    assert block["instances"] == [
        {"name": "ABCA", "base": "0x4000"},
        {"name": "ABCB", "base": "0x4400"},
    ]


def test_a_reset_above_a_box_is_held_against_its_bits() -> None:
    box = f"{BOX}\n,A,B,C,D,E,F,G,H\nReset,0,0,0,1,1,0,0,1\n"
    assert "0x19" in only(imported(f"Name: CTRLA\nOffset: 0x04\nReset: 0x10\n{box}"))["review"]
    assert "review" not in only(imported(f"Name: CTRLA\nOffset: 0x04\nReset: 0x19\n{box}"))


def test_an_address_above_a_box_is_held_against_its_side() -> None:
    box = f"{BOX},\n0x34,A,B,C,D,E,F,G,H,CTRL\n"
    assert "another one" in only(imported(f"CTRL (0x33)\n{box}"))["review"]
    assert "review" not in only(imported(f"CTRL (0x34)\n{box}"))


def test_a_missing_digit_after_reset_is_marked() -> None:
    box = f"CTRL (0x33)\n{BOX}\n,A,B,C,D,E,F,-,H\nReset,0,0,0,1,1,0,,\n"
    assert only(imported(box))["review"] == "no value after reset is printed for its bits 0"


def test_words_for_a_value_after_reset_are_marked() -> None:
    box = f"CTRL (0x33)\n{BOX}\n,A,B,C,D,E,F,G,H\nReset,See bit description,,,,,,,\n"
    assert "'see bit description' could not be read" in only(imported(box))["review"]


def test_constant_bits_keep_their_value() -> None:
    node = only(imported(f"CTRL (0x33)\n{BOX}\n,A,B,C,(reserved),0,1,1,H\n"))
    assert list(fields(node)) == ["A", "B", "C", "H"]
    found = [(item["bits"], item.get("write")) for item in node["reserved"]]
    assert found == [("4", None), ("3", "0"), ("2:1", "1")]


def test_a_register_called_reserved_in_parentheses_is_none() -> None:
    draft = imported("Address,Name,7,6,5,4,3,2,1,0\n0x10,A,B,-,-,-,-,-,-,-\n0x11,(reserved)\n")
    assert list(registers(draft.tree or {})) == ["A"]


@pytest.mark.parametrize(
    ("below", "expected"),
    [
        ("00: internal\n01: external\n10: crystal\n11: none", [0, 1, 2, 3]),
        ("00 - internal\n01 - external\n10 - crystal", [0, 1, 2]),
        ("1: on\n0: off", [1, 0]),
        ("1 = on", [1]),
        ("Clock\n00: internal\n01: external", [0, 1]),
        ("00: internal\nOthers: reserved", [0]),
        ("8-bit counter", []),
        ("4 clocks: too many", []),
    ],
)
def test_the_first_value_needs_no_heading(below: str, expected: list[int]) -> None:
    field = only(imported(f'CTRL (0x40)\n{LIST}\n3:2,SRC,R/W,01,"{below}"\n'))["fields"][0]
    assert [int(value, 16) for value in values(field).values()] == expected
    assert field.get("title", "") == (
        "Clock" if below.startswith("Clock") else "" if expected else below
    )


def test_the_first_value_of_merged_rows() -> None:
    rows = "".join(f"<tr><td>{value:02b}: v{value}</td></tr>" for value in (1, 2, 3))
    merged = "".join(f"<td rowspan=4>{text}</td>" for text in ("7:6", "A", "R/W", "01"))
    head = "".join(f"<th>{text}</th>" for text in LIST.split(","))
    page = (
        f"<h3>CTRL (0x42)</h3><table><tr>{head}</tr><tr>{merged}<td>00: v0</td></tr>{rows}</table>"
    )
    field = only(imported(page, "table.html"))["fields"][0]
    assert values(field) == {"V0": "0x0", "V1": "0x1", "V2": "0x2", "V3": "0x3"}
    assert "title" not in field


def test_reserved_bits_that_say_what_to_write() -> None:
    node = only(imported(f"CTRL (0x40)\n{LIST}\n7,EN,R/W,0,On\n3,Reserved,-,0,Always write 1\n"))
    assert node["reserved"][0]["write"] == "1"


@pytest.mark.parametrize("word", ["W1C", "R/W1C", "RW1C"])
def test_w1c_can_be_read(word: str) -> None:
    node = only(imported(f"CTRL (0x40)\n{LIST}\n7,EN,R/W,0,On\n6,OVF,{word},0,Flag\n"))
    assert node["access"] == "read-write"
    assert node["fields"][1]["modifiedWriteValue"] == "oneToClear"


def test_footnotes_go_with_the_marks_of_fields() -> None:
    rows = "0x10,A,B(1),-,-,-,-,-,-,-\nNotes:\n1. Only on revision B.\n2. For all of them.\n"
    draft = imported(f"Address,Name,7,6,5,4,3,2,1,0\n{rows}")
    assert only(draft)["notes"] == "1. Only on revision B."
    assert "'2. For all of them.'" in told(draft, "not-carried-over")


VALUES = """Bit 7 \u2013 RUN Run in standby
Writing a one keeps it running.
Bits 5:3 \u2013 P[2:0] Prescaler
Value,Name,Description
0x0,DIV1,CLK
0x1,DIV2,CLK / 2
0x2 - 0x6,-,Reserved
Other,-,Reserved
Bit 0 \u2013 EN Enable
"""


@pytest.mark.parametrize("drawn", ["P2,P1,P0", "P[2:0],,"])
def test_values_below_a_box_are_those_of_its_fields(drawn: str) -> None:
    node = only(imported(f"CTRL (0x40)\n{BOX}\n,RUN,-,{drawn},-,-,EN\n{VALUES}"))
    assert fields(node) == {"RUN": "7", "P": "5:3", "EN": "0"}
    by_name = {item["name"]: item for item in node["fields"]}
    assert values(by_name["P"]) == {"DIV1": "0x0", "DIV2": "0x1"}
    assert by_name["RUN"]["title"] == "Run in standby Writing a one keeps it running."


def test_a_list_below_a_box_that_differs_is_marked() -> None:
    box = f"CTRL (0x40)\n{BOX}\n,RUN,-,-,-,-,-,-,EN\n"
    assert "the box differs" in only(imported(f"{box}Bits 5:3 \u2013 P[2:0] Prescaler\n"))["review"]
    node = only(imported(f"{box}Bit 0 \u2013 GO Enable\n"))
    assert "called 'GO'" in node["fields"][-1]["review"]
    node = only(imported(f"{box}Value,Name,Description\n0x0,DIV1,CLK\n"))
    assert "named values stand below it" in node["review"]


PROSE = """7.3.1 TIMER_CTRL - Timer control register
Address offset: 0x14
Reset value: 0x0000 0021
Bits 31:8 Reserved; must be kept at reset value.
Bits 7:5 MODE[2:0]: Mode selection
000: Off
001: One shot
Others: reserved
Bit 4 UIF: Update flag (rc_w0)
Bit 0 EN: Enable
0: disabled
1: enabled
7.3.2 TIMER_CNT - Timer counter
Address offset: 0x18
Bits 7:0 CNT[7:0]: The count
"""


@pytest.mark.parametrize("name", ["list.txt", "list.csv"])
def test_a_list_in_prose(name: str) -> None:
    found = registers(imported(PROSE, name).tree or {})
    assert list(found) == ["TIMER_CTRL", "TIMER_CNT"]
    node = found["TIMER_CTRL"]
    assert (node["offset"], node["reset"]) == ("0x14", "0x00000021")
    assert fields(node) == {"MODE": "7:5", "UIF": "4", "EN": "0"}
    assert [values(item) for item in node["fields"]] == [
        {"OFF": "0x0", "ONE_SHOT": "0x1"},
        {},
        {"DISABLED": "0x0", "ENABLED": "0x1"},
    ]
    assert node["fields"][1]["modifiedWriteValue"] == "zeroToClear"
    assert node["reserved"][0]["bits"] == "31:8"


def test_sentences_about_bits_are_no_list() -> None:
    text = "Bits 3 to 0 are shared.\nBit 4 is set by hardware.\nBit 5 may be read.\n"
    draft = import_table("prose.txt", text.encode(), Wishes("demo"))
    assert draft.tree is None


def test_a_name_of_hexadecimal_letters_is_a_name() -> None:
    rows = f"{LIST}\n7,EN,R/W,0,On\n"
    draft = imported(f"CTRL - Control (0x40)\n{rows}DAC - Converter\nAddress: 0x41\n{rows}")
    found = registers(draft.tree or {})
    assert list(found) == ["CTRL", "DAC"]
    assert "values" not in found["CTRL"]["fields"][0]
