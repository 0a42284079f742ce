"""The worked example: two invented formats that say the same, and what they lead to."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest

from conftest import ROOT, Cli, Compile
from regwright.importing.draft import Draft
from regwright.importing.mapped.mapping import map_document
from regwright.importing.mapped.reading import import_mapped, shipped_mapping, shipped_mappings

HERE = Path(__file__).parent / "example"
TEMPLATES = ROOT / "templates"


def _shipped() -> Draft:
    file, text = TEMPLATES / "mapping_example.xml", TEMPLATES / "mapping_example.json"
    return map_document(file.name, file.read_bytes(), text.name, text.read_bytes())


def _other() -> Draft:
    file, text = HERE / "drip.json", HERE / "drip_mapping.json"
    return map_document(file.name, file.read_bytes(), text.name, text.read_bytes())


def test_two_formats_give_one_description() -> None:
    one, other = _shipped(), _other()
    assert one.tree is not None
    assert one.tree == other.tree


def test_the_example_has_what_its_document_says() -> None:
    tree: Any = _shipped().tree
    control, dose, seen = tree["blocks"][0]["registers"]
    assert control["reset"] == "0b1000xx01"
    assert [field["bits"] for field in control["fields"]] == ["7", "6:4", "1", "0"]
    assert control["reserved"] == [{"bits": "3:2"}]
    assert [item["name"] for item in control["fields"][1]["values"]] == ["STOPPED", "SLOW", "FAST"]
    assert control["fields"][2]["modifiedWriteValue"] == "oneToClear"
    assert dose["width"] == 16
    assert (seen["count"], seen["stride"], seen["access"]) == (4, "0x01", "read-only")
    second = tree["blocks"][1]
    assert second["base"] == "0x50"
    assert [item["name"] for item in second["registers"]] == ["CTRL", "DOSE", "SEEN"]
    assert second["registers"][1]["reset"] == "0x000A"
    assert second["registers"][2] == seen


def test_the_example_says_what_it_left_out() -> None:
    told = [(item.rule, item.line) for item in _shipped().remarks]
    assert told == [("name-mapped", 3), ("name-mapped", 19), ("not-carried-over", 33)]


def test_each_node_knows_its_line() -> None:
    lines = (TEMPLATES / "mapping_example.xml").read_text(encoding="utf-8").splitlines()
    draft = _shipped()
    blocks = [(None, "blocks", 0), (None, "blocks", 1)]
    for block, mark in zip(blocks, ("DRIP0", "DRIP1"), strict=True):
        line, _ = draft.places[block]
        assert f'mark="{mark}"' in lines[line - 1]
    line, _ = draft.places[((blocks[0], "registers", 0), "fields", 1)]
    assert 'mark="SPEED"' in lines[line - 1]


def test_places_in_json_have_columns() -> None:
    lines = (HERE / "drip.json").read_text(encoding="utf-8").splitlines()
    place = _other().places[(((None, "blocks", 0), "registers", 0), "fields", 1)]
    assert lines[place[0] - 1][place[1] - 1] == "{"
    assert '"SPEED"' in lines[place[0]]


@pytest.mark.parametrize("make", [_shipped, _other])
def test_the_result_checks_and_compiles(
    make: Any, cli: Cli, compile_c: Compile, tmp_path: Path
) -> None:
    (tmp_path / "drip.json").write_text(json.dumps(make().tree), encoding="utf-8")
    checked = cli("check", "drip.json", "--fail-on", "error")
    assert checked.returncode == 0, checked.stdout
    assert cli("emit", "drip.json", "--to", ".").returncode == 0
    source = (
        '#include "sorrel_21.h"\n'
        '_Static_assert(DRIP0_CTRL_SPEED_MASK == 0x70, "mask");\n'
        '_Static_assert(DRIP1_DOSE_DATA_ADDR == 0x52, "address");\n'
    )
    built = compile_c(source)
    assert built.returncode == 0, built.stderr


def test_shipped_mappings_are_found_by_name() -> None:
    assert shipped_mappings() == ["example", "list"]
    found = shipped_mapping("list")
    assert found is not None
    assert found[0] == "mapping_list.json"
    for name in ("nothing", "../mapping_list", "", "list.json"):
        assert shipped_mapping(name) is None


@pytest.mark.parametrize("name", ["example", "list"])
def test_shipped_mappings_are_what_their_schema_says(name: str) -> None:
    schema = json.loads((ROOT / "schemas" / "mapping.schema.json").read_bytes())
    found = shipped_mapping(name)
    assert found is not None
    jsonschema_rs.validator_for(schema).validate(json.loads(found[1]))


LIST = """[
 {"name": "CTRL", "address": "0x40", "access": "RW", "reset": "0x80", "fields": [
  {"name": "EN", "bits": 7},
  {"name": "MODE", "bits": "6:4", "values": [{"name": "FAST", "value": 5}]}]},
 {"name": "COUNT", "address": 66, "width": 16, "access": "r"}
]"""


def _listed(text: str, name: str = "valves.json") -> Draft:
    found = shipped_mapping("list")
    assert found is not None
    return map_document(name, text.encode(), *found)


def test_a_plain_list_of_registers() -> None:
    draft = _listed(LIST)
    tree: Any = draft.tree
    assert draft.remarks == []
    assert tree["name"] == "valves"
    assert [item["address"] for item in tree["registers"]] == ["0x40", "0x42"]
    assert tree["registers"][0]["fields"][1] == {
        "name": "MODE",
        "bits": "6:4",
        "values": [{"name": "FAST", "value": "0x05"}],
    }
    assert tree["registers"][1]["access"] == "read-only"


def test_a_list_within_an_object_has_the_names_of_chip_and_space() -> None:
    draft = _listed('{"name": "sorrel9", "space": "io", "size": 64, "registers": ' + LIST + "}")
    tree: Any = draft.tree
    assert draft.remarks == []
    assert tree["name"] == "sorrel9"
    assert tree["spaces"] == [{"name": "io", "size": "0x40"}]
    assert len(tree["registers"]) == 2


def test_the_whole_way_in_a_process_of_its_own() -> None:
    file, text = HERE / "drip.json", HERE / "drip_mapping.json"
    draft = import_mapped(file.name, file.read_bytes(), text.name, text.read_bytes())
    assert draft == _other()
