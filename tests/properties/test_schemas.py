"""The schemas themselves: valid, closed, documented, and the XSD made from the JSON Schema."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from lxml import etree

from regwright.format.shape import schema
from regwright.format.xsd import make_xsd
from regwright.read.description import read_tree
from regwright.read.source import Source
from regwright.read.xml_text import read_xml_with_comments
from regwright.write.spelling_json import to_json
from regwright.write.spelling_xml import to_xml

ROOT = Path(__file__).resolve().parents[2]
XS = "{http://www.w3.org/2001/XMLSchema}"
FILES = sorted((ROOT / "descriptions").glob("*.*"))


def xsd() -> Any:
    return etree.parse(str(ROOT / "schemas" / "chip.xsd"))


def objects() -> dict[str, Any]:
    return {k: v for k, v in schema()["$defs"].items() if v.get("type") == "object"}


def test_the_xsd_is_the_one_made_from_the_json_schema() -> None:
    assert (ROOT / "schemas" / "chip.xsd").read_text(encoding="utf-8") == make_xsd()


def test_the_json_schema_is_valid() -> None:
    assert schema()["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(schema())


def test_the_xsd_is_valid() -> None:
    etree.XMLSchema(xsd())


def test_every_object_is_closed() -> None:
    assert len(objects()) == 36
    for name, spec in objects().items():
        assert spec["additionalProperties"] is False, name
        assert set(spec["required"]) <= set(spec["properties"]), name


def test_every_definition_and_property_is_documented() -> None:
    assert schema()["description"]
    for name, spec in schema()["$defs"].items():
        assert len(spec.get("description", "")) > 5, name
        for key, value in spec.get("properties", {}).items():
            assert len(value.get("description", "")) > 5, (name, key)


def test_every_type_element_and_attribute_of_the_xsd_is_documented() -> None:
    declared = [
        node
        for node in xsd().getroot().iter(f"{XS}element", f"{XS}attribute", f"{XS}complexType")
        if not (node.get("name") == "chip" and node.tag == f"{XS}element")
    ]
    declared += xsd().getroot().findall(f"{XS}simpleType")
    assert len(declared) > 140
    for node in declared:
        text = node.findtext(f"{XS}annotation/{XS}documentation")
        assert text, node.get("name")


def test_every_reference_leads_to_a_definition_and_every_definition_is_used() -> None:
    used = {schema()["$ref"]}
    for spec in objects().values():
        for value in spec["properties"].values():
            used |= {value["$ref"]} if "$ref" in value else {value.get("items", {}).get("$ref")}
    assert used - {None} == {f"#/$defs/{name}" for name in schema()["$defs"]}


def test_patterns_are_anchored_and_quick_to_compile() -> None:
    for name, spec in schema()["$defs"].items():
        pattern = spec.get("pattern")
        if pattern is not None:
            assert pattern[0] == "^", name
            assert pattern[-1] == "$", name
            assert "{1," not in pattern, name


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_shipped_descriptions_are_valid_in_both_spellings(path: Path) -> None:
    text = Source(path.name, path.read_bytes(), path.suffix[1:])
    tree = read_xml_with_comments(text)[0] if path.suffix == ".xml" else read_tree(text)[0]
    for spelling, spelled in (("json", to_json(tree)), ("xml", to_xml(tree))):
        _, findings = read_tree(Source(path.name, spelled.encode(), spelling))
        assert findings == []
    assert etree.XMLSchema(xsd()).validate(etree.fromstring(to_xml(tree).encode()))
    Draft202012Validator(schema()).validate(tree)
