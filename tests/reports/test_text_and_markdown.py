"""The text is the command's own output; Markdown from outside stays text."""

from __future__ import annotations

import re

from report_runs import TEXTS, TITLE, run_of

from regwright.cli.terminal import count
from regwright.model.words import visible
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.reports import Run, render_report


def test_the_text_is_what_the_command_prints() -> None:
    located = []
    for name, text in TEXTS.items():
        data = text.encode("utf-8")
        located += check(Source(name, data, spelling_of(name, data))).findings
    lines = [visible(str(item)) for item in located]
    assert render_report("text", run_of()).splitlines() == [*lines, count(located, len(TEXTS))]


def test_no_findings_are_counted_as_the_command_counts_them() -> None:
    assert render_report("text", Run([])) == f"{count([], 0)}\n"
    assert render_report("text", run_of("chips/clean.xml")) == f"{count([], 1)}\n"


def test_markdown_has_a_table_for_each_description_with_findings() -> None:
    run = run_of()
    text = render_report("markdown", run)
    assert text.count("| Place | Level |") == sum(bool(item.findings) for item in run.results)
    rows = [line for line in text.splitlines() if re.match(r"\| \d+:\d+ ", line)]
    assert len(rows) == len(run.findings)
    for row in rows:
        assert len(re.findall(r"(?<!\\)\|", row)) == 6, row
    assert "- `chips/gone.xml`: cannot be read: No such file or directory" in text


def test_markdown_from_outside_stays_text() -> None:
    """Against CommonMark 0.31.2, 2.4: a backslash before punctuation makes it plain."""
    text = render_report("markdown", run_of())
    outside_code = re.sub(r"`[^`\n]*`", "", text.replace("\\`", ""))
    assert not re.search(r"(?<!\\)<", outside_code)
    assert not re.search(r"(?<!\\)\]\(", outside_code)
    assert TITLE not in text
    assert all(line.startswith(("#", "**", "|", "`", "-")) for line in text.splitlines() if line)
