"""The page of a comparison: complete, drawn right, and nothing of its texts taken for markup."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import lxml.html
import pytest
from compare_runs import EVIL, EVIL_NAME, SCRIPT, examples, hostile, pumps

from regwright.compare.changes import Change
from regwright.model.words import visible
from regwright.reports.compare_forms import FORMS
from regwright.reports.compared import Compared

RUNS: dict[str, Callable[[], Compared]] = {"sorrels": examples, "pumps": pumps, "hostile": hostile}


@pytest.fixture(params=RUNS)
def run(request: pytest.FixtureRequest) -> Compared:
    return RUNS[request.param]()


def page(run: Compared) -> Any:
    return lxml.html.document_fromstring(FORMS["html"](run))


def one_line(text: str) -> str:
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


def test_the_page_needs_nothing_else(run: Compared) -> None:
    root = page(run)
    for tag in ("script", "link", "img", "iframe", "object", "embed", "base", "form", "video"):
        assert not root.findall(f".//{tag}"), tag
    for element in root.iter():
        for name, value in element.attrib.items():
            assert not name.startswith("on"), name
            assert name not in ("src", "srcset", "data", "action", "style"), name
            assert name != "href" or value.startswith("#"), value
    text = FORMS["html"](run)
    assert "url(" not in text
    assert "@import" not in text
    policy = root.find('.//meta[@http-equiv="Content-Security-Policy"]').get("content")
    assert policy == "default-src 'none'; style-src 'unsafe-inline'"


def test_the_page_takes_no_text_for_markup() -> None:
    text = FORMS["html"](hostile())
    assert "<script" not in text
    root = page(hostile())
    for text in (EVIL, EVIL_NAME):
        assert one_line(visible(text)) in one_line(root.text_content())
    assert SCRIPT in root.text_content()
    assert not [
        c for c in root.text_content() if not c.isprintable() and c not in "\n\N{NO-BREAK SPACE}"
    ]


def test_links_lead_somewhere(run: Compared) -> None:
    root = page(run)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(set(ids)) == len(ids)
    links = [link.get("href") for link in root.iter("a") if link.get("href")]
    assert links
    assert all(link.removeprefix("#") in ids for link in links)


def test_the_page_names_every_register(run: Compared) -> None:
    text = one_line(page(run).text_content())
    for chip in (run.comparison.a, run.comparison.b):
        for placed in chip.registers:
            if not placed.half:
                assert visible(placed.name) in text


def in_words(change: Change) -> bool:
    """Whether a change is a sentence of the page; a move of an address stands in a table."""
    return not (change.kind == "address" and change.before and change.after)


def test_the_page_has_each_change() -> None:
    run = examples()
    entries = {
        one_line(entry.find("h3").text_content()).split()[0]: entry
        for entry in page(run).iter("article")
    }
    for section in (*run.outline.both, *run.outline.only_b):
        for pair, own in zip(section.pairs, section.own, strict=True):
            one = pair.a or pair.b
            assert one is not None
            entry = entries.get(one.whole or one.name)
            if entry is None:  # the same register of another instance
                assert one.name.startswith("UART1_")
                assert one.name in one_line(entries[one.name.replace("1", "0")].text_content())
                continue
            text = one_line(entry.text_content())
            for item in own:
                if in_words(item):
                    assert one_line(run.words.sentence(item)) in text
                else:
                    table = [one_line(cell.text_content()) for cell in entry.xpath(".//table//td")]
                    assert item.before in table
                    assert f"{item.after} moved" in table
    text = one_line(page(run).text_content())
    for item in (*run.outline.chip, *run.outline.documentation):
        name = run.words.name(item)
        assert f"{name} {one_line(run.words.sentence(item))}" in text


def row_of(table: Any, body: str) -> list[tuple[int, str, str]]:
    """Return the cells of one chip in a drawing: how many bits, what is in it, and its class."""
    cells = table.xpath(f'./tbody[@class="{body}"]//td')
    return [
        (
            int(cell.get("colspan")),
            " ".join(one_line(part.text_content()) for part in cell),
            cell.get("class"),
        )
        for cell in cells
    ]


def drawing(run: Compared, name: str) -> list[Any]:
    root = page(run)
    entry = next(
        e for e in root.iter("article") if one_line(e.find("h3").text_content()).startswith(name)
    )
    return list(entry.xpath('.//div[contains(@class, "map")]/table'))


def test_moved_bits_are_drawn() -> None:
    """OUT_B, from the two descriptions: the vent motor and the lamp stand at other pins."""
    (table,) = drawing(examples(), "OUT_B")
    assert row_of(table, "of-a") == [
        (2, "write 0", "reserved"),
        (3, "PULLS → bits 2:0 → 4 bits", "field moved"),
        (1, "LED → bit 7", "field moved"),
        (1, "VENT_CLOSE → bit 5", "field moved"),
        (1, "VENT_OPEN → bit 4", "field moved"),
    ]
    assert [span for span, _, _ in row_of(table, "of-b")] == [1, 1, 1, 1, 4]
    ways = [path.get("d") for path in table.xpath('.//*[@class="way"]')]
    # a bit is 20 wide, bit 7 is the first: PULLS 5:3 to 2:0, LED 2 to 7, CLOSE 1 to 5, OPEN 0 to 4
    assert ways == ["M70 0L130 24", "M110 0L10 24", "M130 0L50 24", "M150 0L70 24"]


def test_pieces_of_a_field_are_drawn_where_they_stand() -> None:
    """WATCHDOG.PERIOD gets a fourth bit, which stands apart; the others stay."""
    (table,) = drawing(examples(), "WATCHDOG")
    assert row_of(table, "of-b") == [
        (3, "PERIOD[2:0] ← 3 bits", "field changed"),
        (1, "IRQ only here", "field only"),
        (1, "FLAG other effect", "field changed"),
        (1, "PERIOD[3] only here", "field only"),
        (1, "ENABLE other reset", "field changed"),
        (1, "UNLOCK", "field"),
    ]
    assert not table.xpath('.//*[@class="way"]')


def test_every_row_of_a_drawing_has_eight_bits(run: Compared) -> None:
    tables = page(run).xpath('//div[contains(@class, "map")]/table')
    assert tables
    for table in tables:
        for row in table.iter("tr"):
            spans = [int(cell.get("colspan", 1)) for cell in row if cell.tag in ("td", "th")]
            assert sum(spans) == 8


def test_a_wider_register_has_bits_that_the_other_has_not() -> None:
    high, low = drawing(examples(), "STACK")
    assert row_of(high, "of-a") == [(8, "no such bits", "void")]
    assert row_of(high, "of-b")[0] == (5, "write 0", "reserved")
    assert row_of(low, "of-b") == [(8, "VALUE[7:0] only here", "field only")]


def test_what_is_the_same_is_folded() -> None:
    root = page(pumps())
    folded = root.get_element_by_id("same")
    assert folded.tag == "details"
    assert one_line(folded.find("summary").text_content()) == "1 register that is the same in both"
    assert "SAME" in folded.text_content()


def luminance(colour: str) -> float:
    """Return the relative luminance, as WCAG 2.2 defines it."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("theme", [0, 1])
def test_text_stands_out_from_what_is_behind_it(theme: int) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1; contrast as it defines it."""
    style = page(pumps()).find(".//style").text
    blocks = re.findall(r":root \{(.*?)\}", style, re.DOTALL)
    names = dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", blocks[theme]))
    behind = {
        "ink": ("paper", "sheet", "code", "cell", "tint"),
        "quiet": ("paper", "sheet"),
        "accent": ("paper", "sheet", "tint"),
        "gone": ("sheet", "paper"),
        "new": ("sheet", "paper"),
        "changed": ("sheet", "cell"),
    }
    for text, grounds in behind.items():
        for ground in grounds:
            assert contrast(names[text], names[ground]) >= 4.5, (text, ground)
