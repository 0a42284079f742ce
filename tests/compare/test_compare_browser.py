"""The page of a comparison in a real browser: it fits a phone and a desk, and asks for nothing.

The browser is Chromium without a window. A page of the test's own holds ours in frames of either
width, measures it there, and writes what it saw into itself; ours has no scripts.
"""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from compare_runs import compared, example, examples, hostile, pumps

from regwright.model.words import visible
from regwright.reports.compare_forms import FORMS
from regwright.reports.compared import Compared

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="there is no chromium here")

FLAGS = [
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
    *("--enable-logging=stderr", "--force-device-scale-factor=1", "--window-size=1400,1000"),
]
#: The width of a small phone and of a desk, in CSS pixels.
WIDTHS = (360, 1280)

PROBE = """<!DOCTYPE html><meta charset="utf-8"><body>%s<script>
function box(element) {
  const found = element.getBoundingClientRect();
  return {left: found.left, right: found.right, top: found.top, bottom: found.bottom};
}
function cells(table, part) {
  return [...table.querySelectorAll(part + ' td')].map(
    cell => ({text: cell.querySelector('b')?.textContent ?? '', ...box(cell)}));
}
function seen(frame) {
  const page = frame.contentDocument;
  for (const folded of page.querySelectorAll('details')) folded.open = true;
  const edge = page.documentElement.clientWidth;
  const all = [...page.body.querySelectorAll('*')].filter(
    one => !one.closest('caption, .wide') && one.getClientRects().length);
  const texts = all.filter(one => [...one.childNodes].some(
    node => node.nodeType === 3 && node.data.trim()));
  const tables = [...page.querySelectorAll('.map table')].map(table => ({
    name: table.caption.textContent, a: cells(table, '.of-a'), b: cells(table, '.of-b'),
    ways: [...table.querySelectorAll('.way')].map(box)}));
  return {
    width: frame.width, edge, scroll: page.documentElement.scrollWidth,
    outside: all.filter(one => one.getBoundingClientRect().right > edge + 1)
      .map(one => one.outerHTML.slice(0, 200)),
    cut: texts.filter(one => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0)
      .map(one => one.outerHTML.slice(0, 200)),
    smallest: Math.min(...texts.map(
      one => parseFloat(page.defaultView.getComputedStyle(one).fontSize))),
    text: page.body.innerText, tables,
    beside: [...page.querySelectorAll('.drawn')].map(
      one => [box(one.children[0]), box(one.children[1])]),
    requests: page.defaultView.performance.getEntriesByType('resource').map(one => one.name),
    scripts: page.scripts.length,
  };
}
addEventListener('load', () => {
  const found = [...document.querySelectorAll('iframe')].map(seen);
  document.body.replaceChildren();
  document.body.textContent = JSON.stringify(found);
});
</script>"""


def large_registers() -> Compared:
    """Return two chips that have nothing in common, with registers of up to 64 bits."""
    return compared(example("uart16550.xml"), example("sorrel32.xml"))


RUNS: dict[str, Callable[[], Compared]] = {
    "sorrels": examples,
    "pumps": pumps,
    "hostile": hostile,
    "large": large_registers,
}


def browse(folder: Path, page: Path, *more: str) -> subprocess.CompletedProcess[str]:
    """Open ``page`` in a browser that has never been used."""
    assert CHROMIUM is not None
    profile = folder / "profile"
    return subprocess.run(
        [CHROMIUM, *FLAGS, f"--user-data-dir={profile}", *more, page.as_uri()],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], list[dict[str, Any]]]:
    """Return what the browser sees of a page, at each width."""

    @cache
    def look(name: str) -> list[dict[str, Any]]:
        folder = tmp_path_factory.mktemp(name)
        text = html.escape(FORMS["html"](RUNS[name]()))
        frames = "".join(
            f'<iframe width="{width}" height="900" srcdoc="{text}"></iframe>' for width in WIDTHS
        )
        (folder / "probe.html").write_text(PROBE % frames, encoding="utf-8")
        done = browse(folder, folder / "probe.html", "--dump-dom")
        console = [line for line in done.stderr.splitlines() if ":CONSOLE" in line]
        assert not console
        body = re.search(r"<body>(.*)</body>", done.stdout, re.DOTALL)
        assert body is not None, done.stdout[:500]
        found: list[dict[str, Any]] = json.loads(html.unescape(body[1]))
        return found

    return look


Seen = Callable[[str], list[dict[str, Any]]]


@pytest.mark.parametrize("name", RUNS)
def test_nothing_sticks_out(seen: Seen, name: str) -> None:
    for found in seen(name):
        assert found["scroll"] <= found["edge"], found["width"]
        assert found["outside"] == [], found["width"]
        assert found["cut"] == [], found["width"]


@pytest.mark.parametrize("name", RUNS)
def test_nothing_is_asked_for_and_nothing_runs(seen: Seen, name: str) -> None:
    for found in seen(name):
        assert found["requests"] == []
        assert found["scripts"] == 0


@pytest.mark.parametrize("name", RUNS)
def test_every_register_is_named_where_it_can_be_read(seen: Seen, name: str) -> None:
    for found in seen(name):
        text = found["text"]
        for chip in (RUNS[name]().comparison.a, RUNS[name]().comparison.b):
            for placed in chip.registers:
                assert placed.half or visible(placed.name) in text
        assert found["smallest"] >= 11


def middle(cell: dict[str, Any]) -> float:
    return float(cell["left"] + cell["right"]) / 2


@pytest.mark.parametrize("width", WIDTHS)
def test_lines_lead_from_where_a_field_was_to_where_it_is(seen: Seen, width: int) -> None:
    """OUT_B: the lamp moves from bit 2 to bit 7, PULLS from 5:3 to the low three of 3:0."""
    found = next(item for item in seen("sorrels") if int(item["width"]) == width)
    table = next(item for item in found["tables"] if item["name"].startswith("OUT_B,"))
    here = {cell["text"]: cell for cell in table["a"]}
    there = {cell["text"]: cell for cell in table["b"]}
    ways = table["ways"]
    assert len(ways) == 4
    for name, way in zip(("PULLS", "LED", "VENT_CLOSE", "VENT_OPEN"), ways, strict=True):
        assert way["top"] == pytest.approx(here[name]["bottom"], abs=2)
        assert way["bottom"] == pytest.approx(there[name]["top"], abs=2)
        if name == "PULLS":
            continue
        ends = sorted((middle(here[name]), middle(there[name])))
        assert [way["left"], way["right"]] == pytest.approx(ends, abs=2)
    bit = there["LED"]["right"] - there["LED"]["left"]
    assert ways[0]["right"] == pytest.approx(there["PULLS"]["right"] - 1.5 * bit, abs=2)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_bit_is_as_wide_as_any_other(seen: Seen, width: int) -> None:
    found = next(item for item in seen("sorrels") if int(item["width"]) == width)
    table = next(item for item in found["tables"] if item["name"].startswith("CPU_STATUS,"))
    widths = [cell["right"] - cell["left"] for cell in (*table["a"], *table["b"])]
    assert len(widths) == 16
    assert max(widths) - min(widths) <= 2


@pytest.mark.parametrize("width", WIDTHS)
def test_words_stand_below_a_map_on_a_phone_and_beside_it_on_a_desk(seen: Seen, width: int) -> None:
    found = next(item for item in seen("sorrels") if int(item["width"]) == width)
    assert len(found["beside"]) > 10
    for drawn, words in found["beside"]:
        if width == 360:
            assert words["top"] >= drawn["bottom"]
        else:
            assert words["left"] >= drawn["right"]


def test_pictures(tmp_path: Path) -> None:
    """A picture of the page, as wide as asked for: the header of PNG holds it (RFC 2083)."""
    page = tmp_path / "page.html"
    page.write_text(FORMS["html"](examples()), encoding="utf-8")
    sizes = []
    for width in (500, 1280):  # the narrowest window that Chromium makes, and a desk
        picture = tmp_path / f"{width}.png"
        browse(tmp_path, page, f"--window-size={width},2000", f"--screenshot={picture}")
        data = picture.read_bytes()
        assert data.startswith(b"\x89PNG\r\n\x1a\n")
        assert int.from_bytes(data[16:20], "big") == width
        sizes.append(len(data))
    assert min(sizes) > 20_000
