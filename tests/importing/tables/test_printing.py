"""Printing a description again, and reading that back: both must agree on what the layout shows."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from chips import STEADY
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_printer import Box, as_bytes, plain, ruled
from pdf_printer import page as pdf_page

from regwright.importing.merge_meaning import single_bits
from regwright.importing.tables import pdf
from regwright.importing.tables.pdf_worker import answer
from regwright.importing.tables.printing import echo, tables
from regwright.importing.tables.reading import Wishes, import_table
from regwright.importing.tables.recognise import LAYOUTS
from regwright.read.build import build_chip
from regwright.read.description import deciding_validator
from regwright.resolve.chip import resolve

Tree = dict[str, Any]
FIXTURES = Path(__file__).parent / "fixtures"
SORREL40 = Path(__file__).resolve().parents[3] / "descriptions" / "sorrel40.json"
FORMS = ("csv", "tsv", "text", "html")
LAYOUT_OF = {"list": "summary", "grid32": "grid"}
#: What an import says of itself, not of the chip.
OF_THE_IMPORT = {"printed", "review", "comment", "document"}


def imported(text: str | bytes, form: str, layout: str | None = None) -> Tree:
    data = text.encode() if isinstance(text, str) else text
    draft = import_table(f"echo.{form}", data, Wishes("sorrel", form, layout))
    assert draft.tree is not None, (draft.remarks, text)
    return draft.tree


def facts(node: Any) -> Any:
    """Return a tree without what an import says of itself."""
    if isinstance(node, dict):
        found = {key: facts(value) for key, value in node.items() if key not in OF_THE_IMPORT}
        if "fields" in found:  # bits may be printed from either end; a field stands on no page
            fields = [{**field, "page": None} for field in found["fields"]]
            found["fields"] = sorted(fields, key=str)
        return found
    return [facts(item) for item in node] if isinstance(node, list) else node


# The row "General purpose" of one fixture is no register and no reserved address: it is not
# carried over, and so the echo cannot have it; the space is the smaller for it.
LOST = {"matrix_banks_plain.csv"}
#: Not compared: fields called b7 to b0 look like a header where text has no other columns; and
#: repeated names say that they are aliases in columns of banks alone, which one space has not.
UNLIKE = {("summary_scanned.csv", "text")} | {("matrix_banks.html", form) for form in FORMS}


def layout_of(path: Path) -> str:
    stem = path.name.partition("_")[0].partition(".")[0]
    return LAYOUT_OF.get(stem, stem)


def fixtures() -> list[Path]:
    return sorted(path for path in FIXTURES.iterdir() if layout_of(path) in LAYOUTS)


@pytest.mark.parametrize("path", fixtures(), ids=lambda path: path.name)
def test_echo_of_an_import_is_imported_as_the_same(path: Path) -> None:
    draft = import_table(path.name, path.read_bytes(), Wishes("sorrel"))
    assert draft.tree is not None
    layout = layout_of(path)
    expected = facts(draft.tree)
    for form in FORMS:
        if (path.name, form) in UNLIKE:
            continue
        back = facts(imported(echo(draft.tree, layout, form), form))
        if path.name in LOST:
            for tree in (expected, back):
                tree["spaces"] = [{**space, "size": ""} for space in tree["spaces"]]
        assert back == expected, form


def bytes_of(tree: Tree) -> dict[str, Any]:
    """Return each byte of each register by its name, independently of how tables are printed.

    That is its addresses by space, its page, and for each bit the field and the field's bit.
    """
    found: dict[str, Any] = {}
    for placed in resolve(build_chip(tree)).registers:
        if placed.half:
            continue
        register, facts_ = placed.register, placed.facts
        held = {}
        for field in facts_.fields:
            for piece in field.layout.pieces:
                for step in range(piece.width):
                    at = (field.field.name, piece.field_bit + step)
                    held[piece.register_bit + step] = at
        prefix = placed.name.removesuffix(register.name)
        halves = register.halves
        names = [prefix + halves.low.name, prefix + halves.high.name] if halves else None
        names = names or [f"{placed.name}_L", f"{placed.name}_H"]
        for byte in range(facts_.width // 8):
            name = placed.name if facts_.width == 8 else names[byte]
            addresses = {item.space: item.value + byte for item in placed.addresses}
            bits = {bit - 8 * byte: held[bit] for bit in held if bit // 8 == byte}
            found[name] = (addresses, register.page, bits)
    return found


@pytest.fixture(scope="module")
def sorrel40() -> Tree:
    tree: Tree = json.loads(SORREL40.read_text(encoding="utf-8"))
    return tree


@pytest.mark.parametrize("form", FORMS)
def test_summary_of_sorrel40_read_back_is_the_description(sorrel40: Tree, form: str) -> None:
    back = imported(echo(sorrel40, "summary", form), form, "summary")
    assert bytes_of(back) == bytes_of(sorrel40)


@pytest.mark.parametrize("draw", [ruled, plain])
def test_summary_of_sorrel40_read_back_from_pdf(
    sorrel40: Tree, draw: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = summary_pdf(sorrel40, draw)
    monkeypatch.setattr(pdf, "_answer", lambda data: json.loads(json.dumps(answer(data))))
    back = imported(data, "pdf", "summary")
    assert bytes_of(back) == bytes_of(sorrel40)


def summary_pdf(tree: Tree, draw: Any) -> bytes:
    """Print the summary over pages, its header again on each, titles left out for room."""
    (printed,) = tables(without_titles(tree), "summary")
    header, *rows = [[Box(box.text, box.span) for box in row] for row in printed.rows]
    document = pdf_page(size=6)
    widths = [62, 82, *[62] * 8, 40, 55, 30][: len(header)]
    for start in range(0, len(rows), 20):
        if start:
            document.add_page()
        document.text(40, 20, "Sorrel 40 data sheet")
        draw(document, [header, *rows[start : start + 20]], widths, 60)
        document.text(400, 580, f"{start // 20 + 301}")
    return as_bytes(document)


def without_titles(tree: Tree) -> Tree:
    found = dict(tree)
    for key in ("registers", "blocks"):
        if key in found:
            inner = [without_titles(item) for item in found[key]]
            found[key] = [{k: v for k, v in item.items() if k != "title"} for item in inner]
    return found


NAMES = st.sampled_from(["PUMP", "VALVE", "LAMP", "FAN", "MIST", "HEAT", "DOSE", "FLOW"])


@st.composite
def registers(draw: st.DrawFn, width: int) -> Tree:
    """Return a register whose every bit is of a field or reserved."""
    fields, reserved = [], []
    high = width - 1
    while high >= 0:
        size = min(draw(st.integers(1, 6)), high + 1)
        low = high - size + 1
        bits = f"{high}" if high == low else f"{high}:{low}"
        if draw(st.integers(0, 3)) or not (fields or low):
            fields.append(
                {
                    "name": f"{draw(NAMES)}_{'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[len(fields)]}X",
                    "bits": bits,
                }
            )
        elif reserved and single_bits(reserved[-1]["bits"])[-1] == high + 1:
            top = reserved.pop()["bits"].partition(":")[0]
            reserved.append({"bits": f"{top}:{low}"})
        else:
            reserved.append({"bits": bits})
        high = low - 1
    found: Tree = {"fields": fields[:64]}
    if reserved:
        found["reserved"] = reserved
    return found


@st.composite
def descriptions(draw: st.DrawFn) -> Tree:
    """Return descriptions that every layout with bits can show in full."""
    width = draw(st.sampled_from([8, 8, 32]))
    found = []
    for number in range(draw(st.integers(2, 5))):
        register = draw(registers(width))
        address = f"0x{(16 + number) * width // 8:02X}"
        name = f"{draw(NAMES)}{number}_CTRL"
        found.append({"name": name, "address": address, **register})
    tree: Tree = {"format": 1, "name": "sorrel", "spaces": [{"name": "data", "size": "0x0100"}]}
    if width != 8:
        tree["width"] = width
    return {**tree, "registers": found}


def bare(tree: Tree) -> list[Tree]:
    """Return the registers with what the generated descriptions have, in one spelling.

    A table has a new row at each byte, so that reserved bits end there.
    """
    found = []
    for register in tree["registers"]:
        one = {key: register[key] for key in ("name", "address")}
        fields = {field["name"]: set(single_bits(field["bits"])) for field in register["fields"]}
        bits = [single_bits(item["bits"]) for item in register.get("reserved", ())]
        found.append({**one, "fields": fields, "reserved": {bit for part in bits for bit in part}})
    return found


@pytest.mark.parametrize("layout", ["summary", "offsets", "box", "fields", "grid"])
@settings(STEADY, max_examples=12)
@given(tree=descriptions(), form=st.sampled_from(FORMS))
def test_echo_of_a_generated_description(layout: str, tree: Tree, form: str) -> None:
    assert deciding_validator().is_valid(tree)
    text = echo(tree, layout, form)
    assert bare(imported(text, form, layout)) == bare(tree), text


@settings(STEADY, max_examples=20)
@given(tree=descriptions(), form=st.sampled_from(["csv", "html", "text"]))
def test_map_of_a_generated_description_has_each_register_at_its_address(
    tree: Tree, form: str
) -> None:
    eight = {key: value for key, value in tree.items() if key != "width"}
    eight["registers"] = [
        {key: register[key] for key in ("name", "address")} for register in tree["registers"]
    ]
    back = imported(echo(eight, "matrix", form), form, "matrix")
    assert [(item["name"], int(item["address"], 16)) for item in back["registers"]] == [
        (item["name"], int(item["address"], 16)) for item in eight["registers"]
    ]


def test_text_columns_stand_beneath_each_other(sorrel40: Tree) -> None:
    lines = echo(sorrel40, "summary", "text").splitlines()
    for word, title in (("CPU_STATUS", "Name"), ("CARRY", "Bit 7"), ("IRQ", "Bit 0")):
        assert lines[1].index(word) == lines[0].index(title)


def test_html_escapes_what_a_description_holds() -> None:
    tree = {
        "format": 1,
        "name": "sorrel",
        "spaces": [{"name": "data", "size": "0x10"}],
        "registers": [{"name": "A", "address": "0x1", "title": "<script>&</script>"}],
    }
    text = echo(tree, "summary", "html")
    assert "<script>" not in text
    assert "&lt;script&gt;&amp;&lt;/script&gt;" in text


def test_row_of_registers_is_one_row_with_a_range() -> None:
    tree = {
        "format": 1,
        "name": "sorrel",
        "spaces": [{"name": "data", "size": "0x100"}],
        "registers": [{"name": "SLOT", "address": "0x70", "count": 8}],
    }
    (table,) = tables(tree, "summary")
    assert [box.text for box in table.rows[1]] == ["0x70-0x77", "SLOT"]
