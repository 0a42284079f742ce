"""Each rule against its case files: what it must find, on which line, and what it must not."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.rules.all import RULES

CASES = Path(__file__).parent / "cases"
FILES = sorted(path for path in CASES.rglob("*.*") if path.suffix in (".xml", ".json"))
HEADINGS = [
    "## What it catches",
    "## Why it matters",
    "## Example",
    "## Instead",
    "## When to silence it",
]


def _name(path: Path) -> str:
    return path.relative_to(CASES).as_posix()


@pytest.mark.parametrize("path", FILES, ids=_name)
def test_case_finds_what_it_says(path: Path) -> None:
    data = path.read_bytes()
    checked = check(Source(path.name, data, spelling_of(path.name, data)))
    found = {(item.place.line, item.finding.rule) for item in checked.findings}
    expected = {
        (number, rule)
        for number, line in enumerate(data.decode("utf-8").splitlines(), 1)
        for rule in re.findall(r"finds ([a-z-]+)", line)
    }
    assert found == expected, [str(item) for item in checked.findings]
    assert path.name.startswith("bad") == bool(expected)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_rule_is_documented_and_has_cases(rule) -> None:  # type: ignore[no-untyped-def]
    assert [line.strip() for line in rule.documentation.splitlines() if "## " in line] == HEADINGS
    bodies = re.split(r"## .*", rule.documentation)
    assert all(body.strip() for body in bodies)
    folder = CASES / rule.name
    assert list(folder.glob("bad*")), f"{rule.name} has no failing case file"
    assert list(folder.glob("good*")), f"{rule.name} has no passing case file"


def test_names_are_unique_and_plain() -> None:
    names = [rule.name for rule in RULES]
    assert len(set(names)) == len(names)
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", name) for name in names)


def test_no_case_is_left_over() -> None:
    known = {rule.name for rule in RULES}
    folders = {path.name for path in CASES.iterdir() if path.is_dir()}
    assert folders - {"audit"} == known  # snippets of code: tests/audit looks at them
