"""The validator that decides and the one that explains are of one mind, and neither crashes."""

from __future__ import annotations

from typing import Any

import pytest
from chips import STEADY
from hypothesis import given, settings
from mutations import anything, nested, ruined
from spelled import as_json, loose_xml, source

from regwright.read.description import deciding_validator, read_description
from regwright.read.explain import explain, explaining_validator


@settings(STEADY, max_examples=500)
@given(ruined())
def test_both_validators_agree_and_a_refusal_is_explained(tree: Any) -> None:
    accepted = deciding_validator().is_valid(tree)
    assert accepted == explaining_validator().is_valid(tree)
    findings = explain(tree, source(as_json(tree), "json"))
    assert accepted == (findings == [])


@settings(STEADY, max_examples=100)
@given(anything())
def test_arbitrary_documents_are_refused_with_a_message(tree: Any) -> None:
    reading = read_description(source(as_json(tree), "json"))
    assert reading.chip is None
    assert all(finding.message and finding.level == "error" for finding in reading.findings)
    assert reading.findings


@pytest.mark.parametrize("text", ["A\n", "\nA", "A\n\n", "A\r", "A\u2028", "A\x00", "A" * 10**6])
@pytest.mark.parametrize("key", ["name", "prefix", "compilerMacro", "kind", "$schema", "comment"])
def test_both_validators_agree_on_odd_texts(key: str, text: str) -> None:
    tree = {**nested(0, {"name": "B"}), key: text}
    accepted = deciding_validator().is_valid(tree)
    assert accepted == explaining_validator().is_valid(tree)
    assert accepted == (key == "comment" and text in ("A\u2028", "A" * 10**6))


@pytest.mark.parametrize("depth", [1, 7, 8, 9, 50, 100, 200])
@pytest.mark.parametrize("wrong", [False, True])
@pytest.mark.parametrize("spelling", ["json", "xml"])
def test_nesting_ends_in_a_finding(depth: int, wrong: bool, spelling: str) -> None:
    tree = nested(depth, {"name": "B", "pgae": 1} if wrong else {"name": "B"})
    text = as_json(tree) if spelling == "json" else loose_xml(tree)
    reading = read_description(source(text, spelling))
    is_right = depth < 8 and not wrong
    assert (reading.chip is not None) == is_right
    assert (reading.findings == []) == is_right
    for finding in reading.findings:
        assert reading.source.place(finding).line == 1
