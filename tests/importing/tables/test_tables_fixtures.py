"""Every fixture against what it prints, and what holds of every description that is imported."""

from __future__ import annotations

import json
from typing import Any

import pytest
from table_lines import FIXTURES, imported, lines

from regwright.importing.oddities import ODDITIES
from regwright.importing.tables.reading import LAYOUTS
from regwright.model.finding import ERROR
from regwright.model.origin import steps
from regwright.pipeline import check
from regwright.read.source import Source

NAMES = sorted(path.name for path in FIXTURES.iterdir())
WISHES: dict[str, dict[str, Any]] = {"headerless.csv": {"layout": "summary"}}
#: Tables that are wrong themselves, or leave open what a description must say.
FAULTY = {
    "box_register_only.csv": {"address-missing"},
    "summary_parentheses_io.csv": {"window-disagrees"},
    "summary_same_address.csv": {"registers-overlap"},
    "summary_scanned.csv": {"address-missing"},
}


@pytest.mark.parametrize("name", NAMES)
def test_a_fixture_says_what_it_prints(name: str) -> None:
    expected = FIXTURES.parent / "expected" / f"{name}.txt"
    found = lines(imported(name, **WISHES.get(name, {})))
    assert found == expected.read_text(encoding="utf-8").splitlines()


def test_there_are_fixtures_of_every_layout() -> None:
    starts = {"summary": "summary", "offsets": "offsets", "box": "box", "fields": "fields"}
    starts |= {"grid": "grid32", "matrix": "matrix"}
    assert len(NAMES) >= 25
    for layout in LAYOUTS:
        assert sum(name.startswith(starts[layout]) for name in NAMES) >= 3, layout


@pytest.mark.parametrize("name", NAMES)
def test_a_good_table_checks_without_an_error(name: str) -> None:
    draft = imported(name, **WISHES.get(name, {}))
    checked = check(Source("demo.json", json.dumps(draft.tree).encode(), "json"))
    assert checked.subject is not None, [str(item) for item in checked.findings]
    errors = {item.finding.rule for item in checked.findings if item.finding.level == ERROR}
    assert errors == FAULTY.get(name, set())


@pytest.mark.parametrize("name", NAMES)
def test_everything_keeps_its_raw_text_and_its_place(name: str) -> None:
    draft = imported(name, **WISHES.get(name, {}))
    line_count = (FIXTURES / name).read_bytes().count(b"\n") + 1
    places = {tuple(steps(origin)): place for origin, place in draft.places.items()}
    for path, node in _nodes(draft.tree or {}):
        if path[-2] in ("registers", "fields", "values"):
            assert "row " in node["printed"], path
            line, column = places[path]
            assert 1 <= line <= line_count
            assert column == 1


@pytest.mark.parametrize("name", NAMES)
def test_every_mark_for_review_is_a_remark_too(name: str) -> None:
    draft = imported(name, **WISHES.get(name, {}))
    told = " ".join(item.message for item in draft.remarks if item.rule == "needs-review")
    for path, node in _nodes(draft.tree or {}):
        for reason in node.get("review", "").split("; "):
            assert reason.rstrip("…") in told, path
    assert {item.rule for item in draft.remarks} <= ODDITIES.keys()


def _nodes(node: Any, path: tuple[str | int, ...] = ()) -> list[tuple[tuple[Any, ...], Any]]:
    """Return the objects in lists of a tree with their steps from the root."""
    found: list[tuple[tuple[Any, ...], Any]] = []
    if isinstance(node, dict):
        if path and isinstance(path[-1], int):
            found.append((path, node))
        for key, value in node.items():
            found += _nodes(value, (*path, key))
    elif isinstance(node, list):
        for index, value in enumerate(node):
            found += _nodes(value, (*path, index))
    return found
