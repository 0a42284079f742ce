"""What holds for every report, and the values they are made of."""

from __future__ import annotations

import pickle
import re
import subprocess
import sys
from pathlib import Path

import pytest
from report_runs import GONE, OFFSET, ROOT, TEXTS, checked, run_of, xml

from conftest import PACKAGES
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.reports import REPORTS, Run, render_report, result_of, unread

CASES = sorted((ROOT / "tests" / "cases").rglob("bad*.*"))


@pytest.mark.parametrize("name", REPORTS)
def test_every_report_is_utf8_ends_with_a_newline_and_is_the_same_again(name: str) -> None:
    text = render_report(name, run_of())
    assert text == render_report(name, run_of())
    assert text.encode("utf-8").endswith(b"\n")
    assert "\x1b" not in text


@pytest.mark.parametrize("name", REPORTS)
def test_an_empty_run_and_a_clean_one_make_reports(name: str) -> None:
    assert render_report(name, Run([]))
    assert render_report(name, run_of("chips/clean.xml"))


@pytest.mark.parametrize("name", REPORTS)
def test_no_report_names_this_machine_or_this_day(name: str) -> None:
    text = render_report(name, run_of())
    assert str(ROOT) not in text
    assert not re.search(r"20\d\d-\d\d-\d\d", text)


def test_the_lazy_imports_stay_away_until_they_are_needed() -> None:
    code = (
        "import sys, regwright.reports\n"
        "heavy = {'jinja2', 'lxml', 'click', 'regwright.reports.as_html', 'hashlib'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={"PYTHONPATH": PACKAGES},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout == "[]\n"


def test_results_come_through_a_pipe_and_stay_light() -> None:
    for result in run_of().results:
        data = pickle.dumps(result)
        assert pickle.loads(data) == result
        assert len(data) < 1000 + 1500 * len(result.findings)
    assert pickle.loads(pickle.dumps(GONE)) == GONE


def test_the_name_is_cut_off_the_reason() -> None:
    assert GONE.reason == "cannot be read: No such file or directory"
    assert unread("a.xml", "a.xml: is no plain file").reason == "is no plain file"
    assert unread("a.xml", "too large").reason == "too large"


@pytest.mark.parametrize("path", CASES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_places_lie_in_the_file_and_excerpts_are_its_text(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    lines = text.split("\n")
    for item in checked(path.name, text).findings:
        start, end = (item.start_line, item.start_column), (item.end_line, item.end_column)
        assert start <= end
        assert end[1] <= len(lines[end[0] - 1]) + 1
        shown = "".join(item.excerpt).replace("…", "")
        assert shown in lines[start[0] - 1]
        assert lines[start[0] - 1][start[1] - 1 :].startswith(item.excerpt.marked.rstrip("…"))


def test_a_marked_text_is_what_the_finding_speaks_of() -> None:
    item = checked("a.xml", xml(OFFSET)).findings[0]
    assert item.excerpt == ('<register name="OUT_A" address="io:0x18 ', "data:0x18", '"/>')
    assert item.repair == "data:0x38"


def test_of_an_element_the_name_is_marked_and_of_a_json_text_the_quotes_too() -> None:
    item = checked("a.xml", TEXTS["chips/unknown.xml"]).findings[0]
    assert item.excerpt.marked == "<regsiter"
    text = '{ "format": 1, "name": "1x", "spaces": [{ "name": "data", "size": "0x10" }] }'
    marks = [item.excerpt.marked for item in checked("a.json", text).findings]
    assert '"1x"' in marks


def test_long_lines_are_cut() -> None:
    filler = " " * 5000
    item = checked("a.xml", xml(f"{filler}{OFFSET}{filler}")).findings[0]
    assert item.excerpt.before.startswith("…")
    assert item.excerpt.after.endswith("…")
    assert len("".join(item.excerpt)) < 400


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\n",
        b"\xff",
        b"\xef\xbb\xbf{}",
        b"\xef\xbb\xbf<chip/>",
        b"<chip>\r\n<",
        b"[" * 200,
        b'{"a":\0}',
        b'{"format": 1',
        b"<chip " + b"a" * 70_000,
    ],
    ids=repr,
)
def test_broken_text_has_places_in_reports_too(data: bytes) -> None:
    for name in ("a.xml", "a.json", "a"):
        result = result_of(check(Source(name, data, spelling_of(name, data))))
        assert result.chip is None
        assert result.findings
        for item in result.findings:
            start = (item.start_line, item.start_column)
            assert (1, 1) <= start <= (item.end_line, item.end_column)
        for report in REPORTS:
            assert render_report(report, Run([result])).encode("utf-8")
