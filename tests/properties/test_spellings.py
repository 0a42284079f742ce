"""JSON and XML spell the same description: converting either way loses nothing."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from chips import STEADY, Tree, chips
from hypothesis import given, settings
from spelled import as_json, normal, source

from regwright.model.chip import Chip, without_places
from regwright.read.description import read_description, read_tree
from regwright.read.source import Source
from regwright.read.xml_text import read_xml_with_comments
from regwright.write.spelling_json import to_json
from regwright.write.spelling_xml import to_xml

Cli = Callable[..., "subprocess.CompletedProcess[str]"]

DESCRIPTIONS = Path(__file__).resolve().parents[2] / "descriptions"
FILES = sorted(path.name for path in DESCRIPTIONS.iterdir() if path.suffix in (".json", ".xml"))


def model(text: Source) -> Chip:
    reading = read_description(text)
    assert reading.findings == []
    assert reading.chip is not None
    return without_places(reading.chip)


def tree_of(text: Source) -> Tree:
    """Return the tree of a text with its comments."""
    if text.spelling == "xml":
        tree, lost = read_xml_with_comments(text)
        assert lost == []
    else:
        tree, findings = read_tree(text)
        assert findings == []
    return tree


@settings(STEADY, max_examples=120)
@given(chips())
def test_json_to_xml_and_back(tree: Tree) -> None:
    before = source(as_json(tree), "json")
    between = source(to_xml(tree), "xml")
    after = source(to_json(tree_of(between)), "json")
    assert normal(tree_of(after)) == normal(tree)
    assert model(before) == model(between) == model(after)


@settings(STEADY, max_examples=120)
@given(chips())
def test_xml_to_json_and_back(tree: Tree) -> None:
    before = source(to_xml(tree), "xml")
    between = source(to_json(tree_of(before)), "json")
    after = source(to_xml(tree_of(between)), "xml")
    assert normal(tree_of(after)) == normal(tree)
    assert tree_of(after) == tree_of(between)
    assert model(before) == model(between)


@settings(STEADY, max_examples=60)
@given(chips())
def test_the_json_writer_keeps_the_tree(tree: Tree) -> None:
    text = source(to_json(tree), "json")
    assert read_tree(text) == (tree, [])
    assert [list(tree)] == [list(read_tree(text)[0])], "the order of the properties"


def convert(cli: Cli, before: Path, after: Path) -> None:
    result = cli("convert", before, after)
    assert (result.returncode, result.stdout, result.stderr) == (0, "", "")


def other(path: Path, folder: Path) -> Path:
    return folder / path.with_suffix(".xml" if path.suffix == ".json" else ".json").name


@pytest.mark.parametrize("name", FILES)
def test_convert_there_and_back(cli: Cli, tmp_path: Path, name: str) -> None:
    first = DESCRIPTIONS / name
    second = other(first, tmp_path)
    third = other(second, tmp_path)
    convert(cli, first, second)
    convert(cli, second, third)
    texts = [Source(p.name, p.read_bytes(), p.suffix[1:]) for p in (first, second, third)]
    trees = [normal(tree_of(text)) for text in texts]
    assert trees[0] == trees[1] == trees[2]
    models = [model(text) for text in texts]
    assert models[0] == models[1] == models[2]


COMMENTED = """<?xml version="1.0" encoding="UTF-8"?>
<!-- of the chip: - a & b <c> -->
<chip format="1" name="a">
  <!-- of the document -->
  <document title="t"/>
  <!-- of the space -->
  <space name="d" size="0x100">
    <!-- of the region -->
    <region name="R" kind="ram" first="0x00" last="0x0F"/>
  </space>
  <!-- of the window -->
  <window from="d" first="0x00" last="0x0F" into="d" offset="0x20">
    <!-- of the span -->
    <singleBit first="0x00" last="0x07"/>
  </window>
  <!-- of the instruction -->
  <instruction names="in" space="d" access="read" address="1"/>
  <!-- of the register, é𝄞 -->
  <register name="W" address="0x10" width="16">
    <!-- of the halves -->
    <halves>
      <!-- of the low half -->
      <low name="WL"/>
      <!-- of the high half -->
      <high name="WH"/>
    </halves>
    <!-- of the field -->
    <field name="F" bits="1:0">
      <!-- of the value -->
      <value name="V" value="0"/>
    </field>
    <!-- of the reserved bits -->
    <reserved bits="7:2"/>
  </register>
  <!-- of the block -->
  <block name="B">
    <!-- of the instance -->
    <instance name="B0" base="0x40"/>
  </block>
</chip>
"""


def test_convert_keeps_the_comments_of_every_kind_of_object(cli: Cli, tmp_path: Path) -> None:
    first, second, third = (tmp_path / name for name in ("a.xml", "a.json", "b.xml"))
    first.write_text(COMMENTED, encoding="utf-8")
    convert(cli, first, second)
    convert(cli, second, third)
    assert second.read_text(encoding="utf-8").count('"comment": "of the ') == 16
    assert third.read_text(encoding="utf-8") == COMMENTED


def test_convert_joins_the_lines_of_a_comment(cli: Cli, tmp_path: Path) -> None:
    first, second = tmp_path / "a.xml", tmp_path / "a.json"
    first.write_text(
        '<chip format="1" name="a">\n<!-- one\n     two --><!--three-->\n'
        '<space name="d" size="0x10"/></chip>'
    )
    convert(cli, first, second)
    assert '"comment": "one two three"' in second.read_text()
    model(Source("a.json", second.read_bytes(), "json"))


def test_convert_says_which_comment_it_leaves_out(cli: Cli, tmp_path: Path) -> None:
    first = tmp_path / "a.xml"
    first.write_text(
        '<chip format="1" name="a">\n<space name="d" size="1"/>\n<!-- end -->\n</chip>'
    )
    result = cli("convert", first, tmp_path / "a.json")
    assert result.returncode == 0
    assert result.stderr.startswith(f"{first}:3:1: note: ")
