"""What is exported is valid by the standard's own schemas (source: REGWRIGHT_STANDARDS)."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from exported import DESCRIPTIONS, EDITIONS, chip_with, described, exported, root_of, schema

from regwright.exporting.ieee1685 import export_ieee1685


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("path", DESCRIPTIONS, ids=lambda path: path.stem)
def test_a_description_makes_a_valid_component(path: Path, edition: str) -> None:
    valid = schema(edition)
    assert valid.validate(exported(described(path), edition)), valid.error_log


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_space_without_registers_and_a_block_without_any_are_valid(edition: str) -> None:
    tree = chip_with(blocks=[{"name": "EMPTY", "base": "0x10"}])
    tree["spaces"] = [*tree["spaces"], {"name": "io", "size": "0x40"}]
    valid = schema(edition)
    assert valid.validate(exported(tree, edition)), valid.error_log


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("path", DESCRIPTIONS, ids=lambda path: path.stem)
def test_the_same_description_makes_the_same_bytes(path: Path, edition: str) -> None:
    text = export_ieee1685(described(path), edition)
    assert text == export_ieee1685(described(path), edition)
    assert not re.search(r"[0-9]{2}:[0-9]{2}:[0-9]{2}", text)
    assert max(map(len, text.splitlines())) < 1200


def test_the_identity_is_what_is_asked_for() -> None:
    root = root_of(export_ieee1685(chip_with(), "2014", "garden.example", "lamps", "2.1-b"))
    assert [item.text for item in root[:4]] == ["garden.example", "lamps", "trial", "2.1-b"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("2009",), "2014 or 2022"),
        (("2014", "a b"), "vendor"),
        (("2014", "9x"), "vendor"),
        (("2014", "a", ""), "library"),
        (("2014", "a", "b", "1 2"), "version"),
    ],
)
def test_what_the_standard_does_not_take_is_refused(words: tuple[str, ...], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        export_ieee1685(chip_with(), *words)
