"""Files that mean harm: each ends soon, with a description or a reason."""

from __future__ import annotations

import time

import pytest

from regwright.importing.tables.reading import Wishes, import_table

HEAD = "Address,Name,Bit 7,Bit 6,Bit 5,Bit 4,Bit 3,Bit 2,Bit 1,Bit 0\n"
CELLS = "".join(f"<th>{bit}</th>" for bit in range(7, -1, -1))
TABLE = f"<table><tr><th>Address</th><th>Name</th>{CELLS}</tr>"
WORDS = "Address Name 7 6 5 4 3 2 1 0\n"
LIST = "Bits,Name,Access,Reset,Description\n"
#: Processor seconds, not those of a clock: other work on the machine does not count.
SECONDS = 6.0

CASES = {
    "million-cells.csv": HEAD + "0x10,A,a,b,c,d,e,f,g,h\n" * 100_000,
    "million-cells.html": TABLE + ("<tr>" + "<td>a" * 10) * 60_000,
    "million-words.txt": WORDS + "0x1 " + "A " * 1_000_000,
    "million-lines.txt": "0x1 A B\n" * 300_000,
    "million-columns.csv": HEAD + "0x1," + "a," * 1_000_000,
    "long-cell.csv": HEAD + "0x1," + "A" * 1_000_000 + ",a,b",
    "open-quote.csv": HEAD + '0x1,"' + "A\n" * 200_000,
    "colspan.html": TABLE
    + '<tr><td>0x1<td>A<td colspan="1000000000">X<td colspan="9'
    + "9" * 99
    + '">Y',
    "rowspan.html": TABLE + '<tr><td rowspan="999999999">0x1<td>A</tr>' + "<tr><td>b" * 2_000,
    "nested-tables.html": "<table><tr><td>" * 5_000,
    "nested-blocks.html": "<div>" * 50_000 + TABLE,
    "entities.html": '<!DOCTYPE html [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>'
    + TABLE
    + "<tr><td>&b;",
    "entity-file.html": '<!DOCTYPE html [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
    + TABLE
    + "<tr><td>0x1<td>&a;",
    "address.csv": HEAD
    + f"0x{1 << 200:x},A\n{1 << 200},B\n0x0-0xFFFFFFFFFFFFFFFF,C\n0x"
    + "F" * 16
    + ",D",
    "offset.csv": "Offset,Name,Bit Pos.,7,6,5,4,3,2,1,0\n0xFFFFFFFFFFFFFFFF,A,63:56,a\n,,999:0,b",
    "same-address.csv": HEAD + "".join(f"0x1,R{index},a\n" for index in range(800)),
    "same-name.csv": HEAD + "".join(f"0x{index:X},R,a\n" for index in range(800)),
    "slices.csv": HEAD + "".join(f"0x{index:X},R{index},N[9:8],,\n" for index in range(800)),
    "boxes.csv": "Bit,7,6,5,4,3,2,1,0\n,a,b,c,d,e,f,g,h\n" * 500,
    "values.csv": LIST
    + "31:0,F,R,0,d\n"
    + "".join(f",,,,{index}: V{index}\n" for index in range(3_000)),
    "fields.csv": LIST + "".join(f"{index % 64},F{index},R,0,d\n" for index in range(2_000)),
    "patterns.csv": HEAD
    + "0x1,"
    + "A_" * 1_900
    + "\n0x2,"
    + "(1)" * 1_300
    + "!\n0x3,"
    + "[1" * 1_900
    + "\n"
    + "-" * 3_900
    + "x,N",
    "titles.csv": "A_" * 1_900
    + "\n"
    + "a-" * 1_900
    + "\n"
    + "address " * 450
    + "\n"
    + LIST
    + "0,A,R,0,x",
    "names.csv": "A" * 3_900
    + "!\n"
    + LIST
    + "0,A,R,0,x\n1,"
    + "*" * 3_900
    + "x,R,0,x\n2,A"
    + "1" * 3_900
    + ":,R",
    "digits.csv": LIST + "7:0,A,R,0,x\n,,,," + "1" * 3_900 + ": ONE\n",
    "zeros.csv": "\0\1\2" * 100,
    "nothing.csv": "",
}


@pytest.mark.parametrize("name", CASES)
def test_a_hostile_file_ends_soon(name: str) -> None:
    start = time.process_time()
    draft = import_table(name, CASES[name].encode(), Wishes("demo"))
    assert time.process_time() - start < SECONDS
    assert draft.tree is not None or any(item.level == "error" for item in draft.remarks)


def test_no_file_is_fetched() -> None:
    draft = import_table("e.html", CASES["entity-file.html"].encode(), Wishes("demo"))
    assert "root:" not in str(draft)


@pytest.mark.parametrize("name", ["million-cells.html", "million-columns.csv"])
def test_too_much_is_refused_in_words(name: str) -> None:
    draft = import_table(name, CASES[name].encode(), Wishes("demo"))
    assert draft.tree is None
    assert "keep the table alone" in draft.remarks[0].message


def test_an_address_that_no_chip_has_is_marked() -> None:
    draft = import_table("a.csv", CASES["address.csv"].encode(), Wishes("demo"))
    assert draft.tree is not None
    nodes = {node["name"]: node for node in draft.tree["registers"]}
    assert "address" not in nodes["A"]
    assert "could not be read" in nodes["A"]["review"]
    assert nodes["D"]["address"] == "0xFFFFFFFFFFFFFFFF"
