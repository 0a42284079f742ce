"""The schema of mappings: what the format has, all of it, and what the shipped file says."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from conftest import ROOT
from regwright.format.shape import definition, shapes
from regwright.importing.mapped.mapping_file import OWN_KEYS, SOURCES
from regwright.importing.mapped.notations import NOTATIONS
from regwright.importing.mapped.schema import mapping_schema_text

TEXT = (ROOT / "schemas" / "mapping.schema.json").read_text(encoding="utf-8")
SCHEMA: Any = json.loads(TEXT)


def test_the_shipped_schema_is_what_the_program_makes() -> None:
    assert mapping_schema_text() == TEXT, "run python -m regwright.importing.mapped.schema"


def test_it_is_a_json_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("kind", shapes())
def test_every_property_of_the_format_can_be_mapped(kind: str) -> None:
    wanted = definition(kind)["properties"].keys() - {"$schema", "comment", "format"}
    assert SCHEMA["$defs"][kind]["properties"].keys() == wanted | set(OWN_KEYS)
    assert not wanted & set(OWN_KEYS), "a property of the format hides a key of mappings"


def test_the_words_of_rules_are_those_that_are_read() -> None:
    rule = SCHEMA["$defs"]["rule"]["properties"]
    assert set(SOURCES) <= rule.keys()
    assert SCHEMA["$defs"]["notation"]["enum"] == list(NOTATIONS)


def _described(part: Any, at: str) -> list[str]:
    """Return the properties in ``part`` that have no description."""
    if not isinstance(part, dict):
        return []
    missing = []
    for name, value in part.get("properties", {}).items():
        target = SCHEMA["$defs"][value["$ref"].rpartition("/")[2]] if "$ref" in value else {}
        if "description" not in {**target, **value}:
            missing.append(f"{at}.{name}")
        missing += _described(value, f"{at}.{name}")
    return missing


def test_every_property_is_described() -> None:
    missing = [item for name, part in SCHEMA["$defs"].items() for item in _described(part, name)]
    assert missing + _described(SCHEMA, "") == []
