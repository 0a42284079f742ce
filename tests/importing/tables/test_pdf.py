"""Tables read from PDF by coordinates. The PDFs are printed by fpdf2, a library of its own."""

from __future__ import annotations

import json
import re
import sys
import zlib
from importlib.util import find_spec

import pytest
from pdf_printer import Box, Rows, as_bytes, page, plain, ruled, words

from regwright.importing.tables import pdf, pdf_sheet
from regwright.importing.tables.cells import Grid, Unreadable
from regwright.importing.tables.pdf import grid, read_pdf
from regwright.importing.tables.pdf_worker import answer

BITS = [f"Bit {bit}" for bit in range(7, -1, -1)]
HEADER = ["Address", "Name", *BITS, "Page"]
SUMMARY: Rows = [
    HEADER,
    ["0x04 (0x24)", "STATUS", "CARRY", "ZERO", "MINUS", "WRAP", "TRACE", "-", "LOCK", "IRQ", "13"],
    ["0x0D (0x2D)", "OUT_A", Box("PINS[7:0]", 8), "31"],
    ["0x10 (0x30)", "OUT_B", "LED", "", "VENT_CL", "VENT_OP", Box("PULLS[3:0]", 4), "32"],
    ["(0x9B)", "ADC_CTRL", Box("CLOCK[2:0]", 3), "DONE", "IRQ", "AUTO", "START", "ENABLE", "54"],
    ["0x11 (0x31)", "Reserved", *[""] * 9],
]
WIDTHS = [70, 80, *[50] * 8, 40]
FIELDS: Rows = [
    ["Bits", "Name", "Access", "Reset", "Description"],
    ["7:5", "CLOCK", "R/W", "0", "Divides the clock of the\nconverter, as below"],
    ["4", "DONE", "R/W1C", "0", "A result is ready"],
    ["3:0", "-", "R", "0", "Reserved"],
]
FIELD_WIDTHS = [40, 80, 50, 50, 250]


def read(data: bytes) -> list[Grid]:
    """Read without the process around it, through JSON as it does."""
    found = json.loads(json.dumps(answer(data)))
    assert "problem" not in found, found
    return [grid(item) for item in found["grids"]]


def flat(rows: Rows) -> list[list[str]]:
    """Return what each column of each row says."""
    found = []
    for row in rows:
        boxes = [item if isinstance(item, Box) else Box(item) for item in row]
        found.append([" ".join(box.text.split()) for box in boxes for _ in range(box.span)])
    return found


def texts(found: Grid) -> list[list[str]]:
    return [row.texts for row in found.rows]


@pytest.mark.parametrize("draw", [ruled, plain])
def test_summary_with_merged_and_empty_cells(draw: object) -> None:
    document = page()
    words(document, 40, 20, "Sorrel 40 data sheet")
    words(document, 40, 48, "Register summary")
    draw(document, SUMMARY, WIDTHS, 66)  # type: ignore[operator]
    words(document, 40, 400, "What follows is running text, it belongs to no table.")
    (found,) = read_pdf(as_bytes(document))
    assert texts(found) == flat(SUMMARY)
    assert [cell.span for cell in found.rows[2].cells] == [1, 1, 8, 1]
    assert [(row.page, row.number) for row in found.rows] == [(1, number) for number in range(1, 7)]
    assert "Register summary" in found.title.splitlines()


@pytest.mark.parametrize("angle", [90, -90, 180])
@pytest.mark.parametrize("draw", [ruled, plain])
def test_turned_pages(draw: object, angle: int) -> None:
    document = page("portrait")
    with document.rotation(angle, x=297, y=421):
        draw(document, SUMMARY, WIDTHS, 250, left=-100 if angle != 180 else 5)  # type: ignore[operator]
    (found,) = read(as_bytes(document))
    assert texts(found) == flat(SUMMARY)


def test_page_that_the_viewer_turns() -> None:
    """A page of which the file says that it is to be shown turned (ISO 32000-1, /Rotate)."""
    document = page()
    with document.rotation(90, x=421, y=297):
        plain(document, FIELDS, FIELD_WIDTHS, 66, left=200)
    data = as_bytes(document)
    turned = data.replace(b"/Type /Page\n", b"/Type /Page /Rotate 90\n")
    assert turned != data
    for shown in (data, turned):  # the table of objects is off now, too: that is mended
        (found,) = read(shown)
        assert texts(found) == flat(FIELDS)


@pytest.mark.parametrize("pitch", [14, 9])
@pytest.mark.parametrize("draw", [ruled, plain])
def test_wrapped_cells_are_joined(draw: object, pitch: int) -> None:
    document = page("portrait")
    how = {"height": 20} if draw is ruled else {"pitch": pitch}
    draw(document, FIELDS, FIELD_WIDTHS, 66, **how)  # type: ignore[operator]
    (found,) = read(as_bytes(document))
    assert texts(found) == flat(FIELDS)
    assert found.rows[1].cells[4].raw == "Divides the clock of the\nconverter, as below"


@pytest.mark.parametrize("draw", [ruled, plain])
def test_table_over_pages_with_the_header_repeated(draw: object) -> None:
    document = page()
    for number, part in enumerate([SUMMARY[1:3], SUMMARY[3:4], SUMMARY[4:]], start=1):
        if number > 1:
            document.add_page()
        words(document, 40, 20, "Sorrel 40 data sheet")
        words(document, 700, 20, "Rev B")
        draw(document, [HEADER, *part], WIDTHS, 66)  # type: ignore[operator]
        words(document, 400, 570, f"{number} of 3")
    (found,) = read(as_bytes(document))
    expected = [HEADER, *SUMMARY[1:3], HEADER, *SUMMARY[3:4], HEADER, *SUMMARY[4:]]
    assert texts(found) == flat(expected)
    assert [row.page for row in found.rows] == [1, 1, 1, 2, 2, 3, 3, 3]
    assert found.title == ""


def test_plain_table_goes_on_without_a_header_and_with_fewer_columns() -> None:
    document = page()
    plain(document, SUMMARY[:4], WIDTHS, 66)
    document.add_page()
    plain(document, SUMMARY[5:], WIDTHS, 66)
    (found,) = read(as_bytes(document))
    assert texts(found) == flat([*SUMMARY[:4], *SUMMARY[5:]])


def test_another_table_with_its_own_title_is_not_the_rest_of_the_last() -> None:
    document = page("portrait")
    words(document, 40, 100, "CTRL (0x10)")
    ruled(document, FIELDS, FIELD_WIDTHS, 110)
    document.add_page()
    words(document, 40, 130, "STATUS (0x11)")
    ruled(document, FIELDS, FIELD_WIDTHS, 140)
    document.add_page()
    words(document, 40, 130, "STATUS (0x11), continued")
    ruled(document, FIELDS, FIELD_WIDTHS, 140)
    first, second = read(as_bytes(document))
    assert (first.title, second.title) == ("CTRL (0x10)", "STATUS (0x11)")
    assert len(second.rows) == 2 * len(first.rows)


def test_several_tables_on_a_page_drawn_and_not() -> None:
    document = page("portrait")
    words(document, 40, 50, "CTRL")
    end = ruled(document, FIELDS, FIELD_WIDTHS, 66, height=20)
    words(document, 40, end + 40, "STATUS")
    end = plain(document, FIELDS, FIELD_WIDTHS, end + 60)
    ruled(document, FIELDS[:2], FIELD_WIDTHS, end + 40, height=20)
    grids = read(as_bytes(document))
    assert [item.title for item in grids] == ["CTRL", "STATUS", ""]
    assert [texts(item) for item in grids] == [flat(FIELDS), flat(FIELDS), flat(FIELDS[:2])]
    assert [item.rows[0].number for item in grids] == [1, 5, 9]


def test_grid_of_32_bits() -> None:
    rows: Rows = [
        [str(bit) for bit in range(31, 15, -1)],
        [Box("RESERVED", 12), Box("MODE[3:0]", 4)],
        [Box("r", 12), *["rw"] * 4],
        [str(bit) for bit in range(15, -1, -1)],
        [Box("COUNT[15:0]", 16)],
        ["rw"] * 16,
    ]
    document = page()
    ruled(document, rows, [40] * 16, 66)
    (found,) = read(as_bytes(document))
    assert texts(found) == flat(rows)


def test_address_beside_a_box_and_cells_merged_downwards() -> None:
    box: Rows = [
        ["Bit", *[str(bit) for bit in range(7, -1, -1)]],
        ["", "EN", "IE", "-", "-", "MODE1", "MODE0", "ERR", "DONE"],
        ["Read/Write", *["R/W"] * 8],
    ]
    document = page()
    ruled(document, box, [60, *[45] * 8], 200, left=100)
    words(document, 50, 225, "0x2B")
    words(document, 540, 225, "CTRL")
    ruled(document, [[Box("A", 1, 2), "7:4", "x"], ["3:0", "y"]], [60] * 3, 350)
    beside, merged = read(as_bytes(document))
    assert [row.texts[0] for row in beside.rows] == ["", "0x2B", ""]
    assert [row.texts[-1] for row in beside.rows] == ["", "CTRL", ""]
    assert [row.texts[1:-1] for row in beside.rows] == flat(box)
    assert [(row.texts, row.cells[0].continued) for row in merged.rows] == [
        (["A", "7:4", "x"], False),
        (["A", "3:0", "y"], True),
    ]


def test_rules_between_the_rows_part_them() -> None:
    document = page("portrait")
    for x, y, text in [
        (40, 60, "Bits"), (90, 60, "Name"), (200, 60, "Description"),
        (200, 80, "A cell of three lines"), (200, 90, "whose name stands beside"),
        (200, 100, "its middle"),
        (40, 90, "7"), (90, 90, "READY"),
        (40, 120, "6"), (90, 120, "BUSY"), (200, 120, "One line"),
    ]:  # fmt: skip
        words(document, x, y, text)
    for y in (50, 68, 106, 126):
        document.line(36, y, 400, y)
    (found,) = read(as_bytes(document))
    assert texts(found)[1:] == [
        ["7", "READY", "A cell of three lines whose name stands beside its middle"],
        ["6", "BUSY", "One line"],
    ]


def test_raised_marks_overprint_and_text_across_the_page() -> None:
    document = page("portrait")
    rows: Rows = [["Address", "Name", "Reset"], ["0x10", "CTRL", "0x00"], ["0x11", "BUSY", "0x01"]]
    ruled(document, rows, [80, 80, 80], 66)
    document.set_font_size(4)
    words(document, 36 + 80 + 49.5, 66 + 16 + 6, "(1)")
    document.set_font_size(7)
    plain(document, [["0x11", "BUSY", "0x01"]], [80, 80, 80], 66 + 43)
    with document.rotation(45, x=100, y=100):
        document.set_font_size(60)
        words(document, 20, 120, "DRAFT")
    (found,) = read(as_bytes(document))
    assert found.rows[1].texts == ["0x10", "CTRL⁽¹⁾", "0x00"]
    assert "DRAFT" not in str(texts(found))


@pytest.mark.parametrize(
    ("data", "words_of_it"),
    [
        (b"Address,Name\n", "no PDF"),
        (b"", "no PDF"),
        (b"%PDF-1.4\n" + b"rubbish" * 100, "broken"),
        (b"%PDF-1.4\nstartxref\n99999999\n%%EOF", "broken"),
    ],
)
def test_what_is_no_pdf_is_refused(data: bytes, words_of_it: str) -> None:
    with pytest.raises(Unreadable, match=words_of_it):
        read_pdf(data)


def test_encrypted_pdf_is_refused() -> None:
    document = page()
    document.set_encryption(owner_password="owner", user_password="user")
    ruled(document, SUMMARY, WIDTHS, 66)
    with pytest.raises(Unreadable, match="is encrypted; save a copy without a password"):
        read_pdf(as_bytes(document))


def test_pdf_of_pictures_is_refused() -> None:
    problem = answer(as_bytes(page()))["problem"]
    assert problem == "holds no text, only pictures; read it with OCR first"


def test_missing_extra_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "find_spec", lambda _: None)
    assert find_spec("pdfplumber") is not None
    with pytest.raises(Unreadable, match=re.escape("pip install 'regwright[pdf]'")):
        read_pdf(b"%PDF-1.4\n")


def made_by_hand(content: bytes, *, deflated: bool, pages: int = 1) -> bytes:
    """Return a PDF with one stream of content, shown on every page."""
    kids = " ".join(f"{index} 0 R" for index in range(10, 10 + pages))
    how = b"/Filter /FlateDecode " if deflated else b""
    found = b"%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n"
    found += f"2 0 obj<</Type/Pages/Kids[{kids}]/Count {pages}>>endobj\n".encode()
    found += b"4 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>endobj\n"
    for index in range(10, 10 + pages):
        found += (
            f"{index} 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 800]/Contents 3 0 R"
            "/Resources<</Font<</F1 4 0 R>>>>>>endobj\n"
        ).encode()
    found += b"3 0 obj<<" + how + f"/Length {len(content)}>>stream\n".encode()
    found += content + b"\nendstream endobj\n"
    return found + b"trailer<</Root 1 0 R>>\n%%EOF\n"


def test_hand_made_pdf_without_a_table_of_objects_is_read() -> None:
    content = b"BT /F1 8 Tf 40 700 Td (Address) Tj 80 0 Td (Name) Tj 80 0 Td (Reset) Tj ET "
    content += b"BT /F1 8 Tf 40 686 Td (0x10) Tj 80 0 Td (CTRL) Tj 80 0 Td (0x00) Tj ET"
    (found,) = read(made_by_hand(zlib.compress(content), deflated=True))
    assert texts(found) == [["Address", "Name", "Reset"], ["0x10", "CTRL", "0x00"]]


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds the memory of a process")
def test_stream_that_unfolds_to_gigabytes_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "MOST_MEMORY", 200 << 20)
    packer = zlib.compressobj(9)
    pieces = [packer.compress(b" " * (1 << 24)) + packer.flush(zlib.Z_FULL_FLUSH) for _ in range(2)]
    bomb = pieces[0] + pieces[1] * 127 + packer.flush()
    assert len(bomb) < 3 << 20
    with pytest.raises(Unreadable, match="more memory than any data sheet"):
        read_pdf(made_by_hand(bomb, deflated=True))


@pytest.mark.parametrize(
    ("content", "words_of_it"),
    [
        (b"BT /F1 8 Tf (" + b"x" * 101 + b") Tj ET", "101 characters"),
        (b"0 0 m 9 9 l S " * 101, "more than 100 lines"),
    ],
)
def test_page_with_too_much_on_it_is_refused(
    content: bytes, words_of_it: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pdf_sheet, "MOST_CHARACTERS", 100)
    monkeypatch.setattr(pdf_sheet, "MOST_SEGMENTS", 100)
    assert words_of_it in answer(made_by_hand(content, deflated=False))["problem"]


def test_too_many_pages_are_refused() -> None:
    problem = answer(made_by_hand(b"", deflated=False, pages=400))["problem"]
    assert problem == "has 400 pages, and 200 at most are read; keep those with the tables"


def test_time_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "MOST_SECONDS", 0.01)
    with pytest.raises(Unreadable, match=r"not read within 0\.01 seconds"):
        read_pdf(as_bytes(page()))
