"""Exporting any description to IEEE 1685 and importing it again loses nothing.

"Any" is every tree that the schema accepts. That it is valid by the standard's own schema as well
needs REGWRIGHT_STANDARDS.
"""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from chips import STEADY, Tree, chips
from hypothesis import given, settings
from lxml import etree
from shaped_chips import shaped_chips
from spelled import objects_in

from regwright.exporting.ieee1685 import export_ieee1685
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.model.chip import without_places
from regwright.read.build import build_chip

EDITIONS = ["2014", "2022"]


@cache
def schema(edition: str) -> etree.XMLSchema | None:
    folder = os.environ.get("REGWRIGHT_STANDARDS")
    if folder is None:
        return None
    return etree.XMLSchema(etree.parse(str(Path(folder) / "ieee1685" / edition / "index.xsd")))


def comments(tree: Tree) -> list[tuple[Any, str]]:
    return [(path, item["comment"]) for item, _, path in objects_in(tree) if "comment" in item]


def assert_law(tree: Tree, edition: str) -> None:
    text = export_ieee1685(tree, edition)
    valid = schema(edition)
    if valid is not None:
        assert valid.validate(etree.fromstring(text.encode("utf-8"))), valid.error_log
    draft = import_ieee1685("component.xml", text.encode("utf-8"), Wishes())
    assert draft.remarks == []
    assert draft.tree is not None
    assert without_places(build_chip(draft.tree)) == without_places(build_chip(tree))
    assert sorted(map(str, comments(draft.tree))) == sorted(map(str, comments(tree)))


@pytest.mark.parametrize("edition", EDITIONS)
@settings(STEADY, max_examples=40)
@given(chips())
def test_any_description_comes_back(edition: str, tree: Tree) -> None:
    assert_law(tree, edition)


@pytest.mark.parametrize("edition", EDITIONS)
@settings(STEADY, max_examples=40)
@given(shaped_chips())
def test_a_description_that_makes_sense_comes_back(edition: str, tree: Tree) -> None:
    assert_law(tree, edition)
