"""The page: all there, nothing from elsewhere, nothing of the text taken for markup."""

from __future__ import annotations

import re
from typing import Any

import lxml.html
from report_runs import SCRIPT, TEXTS, TITLE, run_of

from regwright.model.words import visible
from regwright.reports import Run, render_report


def page(run: Run) -> Any:
    return lxml.html.document_fromstring(render_report("html", run))


def test_the_page_needs_nothing_else() -> None:
    text = render_report("html", run_of())
    root = page(run_of())
    for tag in ("script", "link", "img", "iframe", "object", "embed", "base", "form", "video"):
        assert not root.findall(f".//{tag}"), tag
    assert len(root.findall(".//style")) == 1
    for element in root.iter():
        for name, value in element.attrib.items():
            assert not name.startswith("on"), name
            if name in ("src", "href", "srcset", "data", "action", "style"):
                assert name == "href", name
                assert value.startswith("#"), value
    assert "url(" not in text
    assert "@import" not in text
    policy = root.find('.//meta[@http-equiv="Content-Security-Policy"]').get("content")
    assert policy.startswith("default-src 'none'")


def test_text_is_never_markup() -> None:
    root = page(run_of())
    assert TITLE in root.text_content()
    assert SCRIPT in root.text_content()
    assert "<script" not in render_report("html", run_of())


def test_every_finding_is_there_with_its_line_and_its_mark() -> None:
    run = run_of()
    root = page(run)
    entries = root.findall('.//ol[@class="findings"]/li')
    assert len(entries) == len(run.findings)
    for entry, item in zip(entries, run.findings, strict=True):
        assert item.level in entry.get("class").split()
        assert entry.find('.//p[@class="message"]').text_content() == visible(item.message)
        place = f"{item.start_line}:{item.start_column}"
        assert entry.find('.//span[@class="place"]').text == place
        code = entry.find('.//div[@class="source"]/code')
        assert code.text_content() == "".join(item.excerpt)
        assert code.find("mark").text_content() == item.excerpt.marked
        assert (entry.find('.//p[@class="repair"]') is None) == (item.repair is None)


def test_links_lead_to_descriptions_and_to_explanations() -> None:
    run = run_of()
    root = page(run)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(set(ids)) == len(ids)
    for link in root.iter("a"):
        assert link.get("href").removeprefix("#") in ids
    explained = {item.get("id") for item in root.findall(".//details/div")}
    assert explained == {item.rule for item in run.findings}
    assert all("Why it matters" in item.text_content() for item in root.findall(".//details"))


def test_the_summary_counts_and_judges() -> None:
    run = run_of()
    root = page(run)
    figures = {
        cell.find("dt").text: int(cell.find("dd").text) for cell in root.find(".//dl").iter("div")
    }
    assert figures["descriptions"] == len(TEXTS)
    assert figures["errors"] == sum(item.level == "error" for item in run.findings)
    failing = sum(map(run.fails, run.findings))
    verdict = f"The check fails: {failing} findings must be corrected and 1 file could not be read."
    assert root.find(".//h1").text == verdict
    assert "chips/gone.xml" in root.text_content()
    clean = page(run_of("chips/clean.xml"))
    assert clean.find(".//h1").text == "The check passes: no findings."
    assert clean.find(".//h1").get("class") == "passed"


def test_the_page_is_made_for_light_and_dark_and_for_narrow_screens() -> None:
    text = render_report("html", Run([]))
    assert "prefers-color-scheme: dark" in text
    assert 'name="viewport"' in text
    style = re.sub(r"max-width|min-width", "", text)
    assert not re.search(r"\bwidth:\s*\d{3,}px", style)


def test_no_tag_is_left_open() -> None:
    """Holds the page against lxml's parser of HTML: it would say what it had to repair."""
    parser = lxml.html.HTMLParser(recover=True)
    lxml.html.document_fromstring(render_report("html", run_of()).encode("utf-8"), parser=parser)
    known = ("Tag section", "Tag header", "Tag main", "Tag mark", "Tag details", "Tag summary")
    others = [
        item.message
        for item in parser.error_log
        if not item.message.startswith((*known, "Tag footer"))
    ]
    assert not others
