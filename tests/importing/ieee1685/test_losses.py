"""Nothing vanishes silently: each element and attribute that the schemas allow has an effect."""

from __future__ import annotations

import copy
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from lxml import etree
from outlines import FIXTURES, held
from schema_words import KINDS, Schemas

from regwright.importing.draft import Draft
from regwright.importing.ieee1685.losses import LOST, LOST_ATTRIBUTES, LOST_OF_COMPONENT, USED
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685

STANDARDS = os.environ.get("REGWRIGHT_STANDARDS")
needs_schemas = pytest.mark.skipif(
    not STANDARDS, reason="REGWRIGHT_STANDARDS names no folder with the schemas"
)
EDITIONS = ("2009", "2014", "2022")
LIBRARY = FIXTURES / "2022" / "library"
#: Attributes that say nothing of registers: identifiers for tools, texts for dialogues.
_FOR_TOOLS = {"id", "xml:id", "prompt", "priority"}
_USED_ATTRIBUTES = {
    "state",
    "bankAlignment",
    "masterRef",
    "initiatorRef",
    "segmentRef",
    "usage",
    "resetTypeRef",
}
#: Kinds as the elements are called that stand for them.
_CALLED = {
    **{f"{kind}Definition": kind for kind in KINDS},
    "enumerationDefinition": "enumeratedValues",
}


def _schemas(edition: str) -> Schemas:
    return Schemas(Path(str(STANDARDS)) / "ieee1685" / edition)


@needs_schemas
@pytest.mark.parametrize("edition", EDITIONS)
def test_each_child_is_used_or_lost(edition: str) -> None:
    schemas = _schemas(edition)
    for kind in KINDS:
        children, attributes = schemas.allowed(kind)
        assert children or (edition, kind) in _NOT_THERE, kind
        assert children - USED[kind] - LOST.keys() == set(), kind
        assert attributes - _FOR_TOOLS - _USED_ATTRIBUTES - LOST_ATTRIBUTES.keys() == set(), kind


_NOT_THERE = {
    ("2009", "fieldAccessPolicy"),
    ("2009", "accessPolicy"),
    ("2009", "array"),
    ("2014", "fieldAccessPolicy"),
    ("2014", "accessPolicy"),
    ("2014", "array"),
}


@needs_schemas
def test_no_name_is_made_up() -> None:
    """What is used or lost is allowed by an edition, or by 1.4, of which there is no schema."""
    every = {
        kind: set().union(*(_schemas(edition).allowed(kind)[0] for edition in EDITIONS))
        for kind in KINDS
    }
    older = {("field", "values"), ("enumeratedValues", "value")}
    extra = {(kind, name) for kind, names in USED.items() for name in names - every[kind]}
    assert {item for item in extra if item not in older and item[1] not in _ANYWHERE} == set()


#: Names that some kinds share with others which do have them; harmless where they cannot be.
_ANYWHERE = {
    "name",
    "displayName",
    "shortDescription",
    "description",
    "isPresent",
    "parameters",
    "vendorExtensions",
    "dim",
    "addressUnitBits",
}


def _words(draft: Draft) -> tuple[object, list[tuple[str, str, str]]]:
    return draft.tree, sorted((item.rule, item.level, item.message) for item in draft.remarks)


def _fixtures() -> list[Path]:
    return sorted(FIXTURES.glob("20*/*.xml"))


def _import(root: etree._Element, path: Path) -> Draft:
    wanted = "control/at_boot" if path.stem in ("rest", "own_definitions") else "control"
    wishes = Wishes(wanted, (LIBRARY,))
    return held(import_ieee1685(path.name, etree.tostring(root), wishes))


def _kind(element: etree._Element) -> str:
    name = etree.QName(element).localname
    return _CALLED.get(name, name)


def _without(path: Path, proven: set[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Yield the kind and child of each removal that changes what is imported.

    What is among ``proven`` is not tried again.
    """
    root = etree.parse(path).getroot()
    before = _words(_import(root, path))
    for element in root.iter("*"):
        kind = _kind(element)
        if kind not in USED:
            continue
        for index, child in enumerate(element):
            name = etree.QName(child).localname
            if (kind, name) in proven:
                continue
            element.remove(child)
            if _words(_import(root, path)) != before:
                yield kind, name
            element.insert(index, child)
        for attribute, value in element.attrib.items():
            name = f"@{etree.QName(attribute).localname}"
            if (kind, name) in proven:
                continue
            del element.attrib[attribute]
            if _words(_import(root, path)) != before:
                yield kind, name
            element.set(attribute, value)


@needs_schemas
def test_each_child_has_an_effect() -> None:
    """Whatever is removed from a fixture changes the description or the remarks.

    Where a value is that which counts anyway, another fixture has one that is not.
    """
    proven: set[tuple[str, str]] = set()
    for path in _fixtures():
        proven.update(_without(path, proven))
    wanted: set[tuple[str, str]] = set()
    for edition in EDITIONS:
        for kind in KINDS:
            children, attributes = _schemas(edition).allowed(kind)
            wanted |= {(kind, child) for child in children}
            wanted |= {(kind, f"@{name}") for name in attributes - _FOR_TOOLS}
    assert wanted - proven == set()


def test_what_the_component_says_of_registers_is_reported() -> None:
    path = FIXTURES / "2009" / "spaces.xml"
    root = etree.parse(path).getroot()
    for name in LOST_OF_COMPONENT:
        for child in root.findall(f"{{*}}{name}"):
            root.remove(child)
        etree.SubElement(root, f"{root.tag[: root.tag.index('}') + 1]}{name}")
    messages = [remark.message for remark in _import(copy.deepcopy(root), path).remarks]
    assert set(LOST_OF_COMPONENT.values()) <= set(messages)
