"""``regwright rules``: the list, and the page of each rule."""

from __future__ import annotations

import pytest

from conftest import Cli
from regwright.rules.all import RULES


def test_list_has_every_rule_on_a_line_that_fits(cli: Cli) -> None:
    done = cli("rules", env={"COLUMNS": "80"})
    lines = done.stdout.splitlines()
    assert done.returncode == 0
    assert [line.split()[:2] for line in lines[:-1]] == [[r.name, r.level] for r in RULES]
    assert lines[-1].startswith(f"{len(RULES)} rules")
    assert max(map(len, lines)) <= 80


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
