"""``regwright rules``: the list, and the page of each rule."""

from __future__ import annotations

import pytest

from conftest import Cli
from regwright.audit.all import AUDIT_RULES
from regwright.reports.pages import pages
from regwright.rules.all import RULES
from regwright.rules.catalogue import Rule

HEADINGS = ["What it catches", "Why it matters", "Example", "Instead", "When to silence it"]


def test_list_has_every_rule_on_a_line_that_fits(cli: Cli) -> None:
    done = cli("rules", env={"COLUMNS": "80"})
    lines = done.stdout.splitlines()
    assert done.returncode == 0
    middle = len(RULES) + 1
    assert lines[0] == "For descriptions (regwright check):"
    assert [line.split()[:2] for line in lines[1:middle]] == [[r.name, r.level] for r in RULES]
    assert lines[middle] == "For sources (regwright audit):"
    assert [line.split()[:2] for line in lines[middle + 1 : -1]] == [
        [r.name, r.level] for r in AUDIT_RULES
    ]
    assert lines[-1].startswith(f"{len(RULES)} and {len(AUDIT_RULES)} rules; ")
    assert max(map(len, lines)) <= 80


def test_names_are_unique_over_both_kinds() -> None:
    names = [rule.name for rule in RULES + AUDIT_RULES]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("rule", AUDIT_RULES, ids=[rule.name for rule in AUDIT_RULES])
def test_a_rule_about_sources_has_its_page(cli: Cli, rule: Rule) -> None:
    found = next(item for item in pages("source") if item.rule == rule.name)
    assert [section.heading for section in found.sections] == HEADINGS
    assert all(section.paragraphs for section in found.sections)
    assert found.summary.endswith(".")
    done = cli("rules", rule.name, env={"COLUMNS": "80"})
    assert done.returncode == 0
    assert done.stdout.startswith(f"{rule.name} ({rule.level})\n\n  {found.summary[:30]}")
    assert max(map(len, done.stdout.splitlines())) <= 80


@pytest.mark.parametrize("columns", [40, 80, 200])
def test_page_is_set_for_the_terminal(cli: Cli, columns: int) -> None:
    done = cli("rules", "offset-not-added", env={"COLUMNS": str(columns)})
    assert done.returncode == 0
    assert done.stdout.startswith("offset-not-added (error)\n\n  The distance between two spaces")
    for heading in ("What it catches", "Why it matters", "Example", "Instead"):
        assert f"\n{heading}\n  " in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= min(columns, 88)


def test_unknown_rule(cli: Cli) -> None:
    done = cli("rules", "offset-not-aded")
    assert done.returncode == 2
    assert "did you mean offset-not-added?" in done.stderr
    assert "did you mean not-volatile?" in cli("rules", "not-volatil").stderr
