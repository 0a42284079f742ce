"""The JUnit report against what pytest itself writes, and the rules of Ant's junitreport.

The Ant task junitreport (https://ant.apache.org/manual/Tasks/junitreport.html) defined the format:
suites with counts that add up, and tests with a name and a class, each with at most one outcome.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from lxml import etree
from report_runs import SCRIPT, TEXTS, run_of

from regwright.reports import Run, render_report, unread
from regwright.rules.all import RULES
from regwright.rules.settings import Settings

OUTCOMES = {"failure", "error", "skipped"}
TESTS = """
import pytest
def test_good(): print("out")
def test_bad(): assert False
@pytest.fixture
def broken(): raise ValueError
def test_error(broken): pass
@pytest.mark.skip(reason="why")
def test_skipped(): pass
"""
#: What Ant and the readers know besides: the kind of an outcome, and totals of all suites.
EXTRA = {
    "failure": {"type"},
    "error": {"type"},
    "testsuites": {"tests", "failures", "errors", "skipped", "time"},
}
#: What runs of pytest have and ours have not: they would differ from day to day.
OF_THE_DAY = {"timestamp", "hostname"}


def junit(run: Run) -> Any:
    return etree.fromstring(render_report("junit", run).encode("utf-8"))


def shape(root: Any) -> dict[str, tuple[set[str], set[str]]]:
    """Return for each element the attributes it has and the elements it holds."""
    found: dict[str, tuple[set[str], set[str]]] = {}
    for element in root.iter():
        attributes, inside = found.setdefault(element.tag, (set(), set()))
        attributes.update(element.attrib)
        inside.update(child.tag for child in element)
    return found


@pytest.fixture(scope="module")
def theirs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[set[str], set[str]]]:
    folder = tmp_path_factory.mktemp("pytest")
    (folder / "test_a.py").write_text(TESTS, encoding="utf-8")
    family = "junit_family=xunit1"  # the one with file and line
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:xdist", "-p", "no:cacheprovider"]
    command += ["-o", family, "-o", "junit_logging=system-out", "--junitxml", "r.xml", "test_a.py"]
    subprocess.run(command, cwd=folder, capture_output=True, check=False, timeout=60)
    return shape(etree.parse(str(folder / "r.xml")).getroot())


def test_the_report_is_built_as_pytest_builds_it(
    theirs: dict[str, tuple[set[str], set[str]]],
) -> None:
    ours = shape(junit(run_of(settings=Settings(levels={"misaligned": "off"}))))
    assert set(ours) == set(theirs)
    for tag, (attributes, inside) in ours.items():
        their_attributes, their_inside = theirs[tag]
        extra = EXTRA.get(tag, set())
        assert attributes <= their_attributes | extra, tag
        assert their_attributes - attributes <= OF_THE_DAY | {"type"}, tag
        assert inside <= their_inside, tag


@pytest.mark.parametrize("names", [(), *((name,) for name in TEXTS)], ids=repr)
def test_counts_add_up_and_a_test_has_one_outcome(names: tuple[str, ...]) -> None:
    root = junit(run_of(*names))
    for suite in (root, *root):
        cases = suite.findall(".//testcase")
        assert int(suite.get("tests")) == len(cases)
        for outcome in OUTCOMES:
            attribute = {"failure": "failures", "error": "errors"}.get(outcome, outcome)
            assert int(suite.get(attribute)) == len(suite.findall(f".//{outcome}"))
    for case in root.iter("testcase"):
        assert sum(child.tag in OUTCOMES for child in case) <= 1
        assert case.get("name")
        assert int(case.get("line")) >= 1
        assert case.get("classname").count(".") == 1
    for suite in root:
        identities = [(case.get("classname"), case.get("name")) for case in suite]
        assert len(set(identities)) == len(identities)


def test_each_failing_finding_is_a_failure_with_its_place() -> None:
    run = run_of()
    failures = [
        (case.get("file"), int(case.get("line")), case[0].get("message"))
        for case in junit(run).iter("testcase")
        if len(case) and case[0].tag == "failure"
    ]
    failing = [item for item in run.findings if run.fails(item)]
    assert sorted(message for _, _, message in failures) == sorted(i.message for i in failing)
    assert sorted(line for _, line, _ in failures) == sorted(item.start_line for item in failing)
    assert ("chips/mixed.xml", 5) in [(file, line) for file, line, _ in failures]


def test_notes_pass_and_are_shown() -> None:
    root = junit(run_of("chips/mixed.xml"))
    (case,) = [item for item in root.iter("testcase") if item.get("name") == "flag-cleared-by-or"]
    assert [child.tag for child in case] == ["system-out"]
    assert "chips/mixed.xml:8:" in case[0].text
    strict = junit(run_of("chips/mixed.xml", settings=Settings(fail_on="note")))
    (case,) = [item for item in strict.iter("testcase") if item.get("name") == "flag-cleared-by-or"]
    assert case[0].tag == "failure"


def test_a_clean_description_passes_every_rule_and_a_broken_one_none() -> None:
    clean = junit(run_of("chips/clean.xml"))
    assert [case.get("name") for case in clean.iter("testcase")] == [rule.name for rule in RULES]
    assert not list(clean.iter(*OUTCOMES))
    broken = junit(run_of("chips/broken.json"))
    assert [case.get("name") for case in broken.iter("testcase")] == ["json-syntax"]


def test_what_xml_cannot_hold_is_escaped() -> None:
    """XML 1.0, 2.2: no control characters but three, no surrogates, no U+FFFE."""
    run = Run([], unreadable=[unread("a\x00\x1b\ufffe\ud800.xml", "]]> <b>\x07</b>")])
    root = junit(run)
    assert root[0].get("name") == r"a\x00\x1b\ufffe\ud800.xml"
    assert root.find(".//error").get("message") == r"]]> <b>\x07</b>"
    messages = [item.get("message") for item in junit(run_of()).iter("failure")]
    assert any(SCRIPT in message for message in messages)


def test_the_file_is_the_one_that_was_named(tmp_path: Path) -> None:
    name = str(tmp_path / "a.b.xml")
    root = junit(Run([run_of("chips/clean.xml").results[0]._replace(file=name)]))
    assert root[0].get("name") == name
    assert root[0][0].get("classname").endswith("a_b_xml")
