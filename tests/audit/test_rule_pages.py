"""Every rule about code has its page, under the headings that all rules have."""

from __future__ import annotations

import re

import pytest

from regwright.audit.all import AUDIT_RULES
from regwright.model.finding import LEVELS
from regwright.rules.all import RULES
from regwright.rules.catalogue import Rule

HEADINGS = [
    "## What it catches",
    "## Why it matters",
    "## Example",
    "## Instead",
    "## When to silence it",
]


@pytest.mark.parametrize("rule", AUDIT_RULES, ids=lambda rule: rule.name)
def test_a_rule_has_its_page(rule: Rule) -> None:
    page = rule.documentation
    assert [line.strip() for line in page.splitlines() if "## " in line] == HEADINGS
    summary, *bodies = re.split(r"## .*", page)
    assert re.fullmatch(r"[A-Z][^\n]*\.", summary.strip())
    assert all(body.strip() for body in bodies)


@pytest.mark.parametrize("rule", AUDIT_RULES, ids=lambda rule: rule.name)
def test_the_example_is_code(rule: Rule) -> None:
    example = rule.documentation.split("## Example")[1].split("## Instead")[0]
    assert re.search(r"`[^`]+`", example)


def test_no_name_is_there_twice() -> None:
    # rules about code and about descriptions are silenced and switched off by name alike
    names = [rule.name for rule in (*AUDIT_RULES, *RULES)]
    assert len(set(names)) == len(names)
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name) for rule in AUDIT_RULES)
    assert {rule.level for rule in AUDIT_RULES} <= set(LEVELS)


def test_the_rule_on_whole_files_runs_first() -> None:
    # what it explains the others leave out
    assert AUDIT_RULES[0].name == "file-off-by-a-constant"
