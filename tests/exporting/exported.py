"""Descriptions and what is exported of them, in tests."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

from regwright.exporting.ieee1685 import export_ieee1685
from regwright.importing.draft import Draft
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.model.chip import Chip, without_places
from regwright.read.build import build_chip
from regwright.read.description import read_tree
from regwright.read.source import Source
from regwright.read.xml_text import read_xml_with_comments

Tree = dict[str, Any]

EDITIONS = ["2014", "2022"]
DESCRIPTIONS = sorted(
    path
    for path in (Path(__file__).resolve().parents[2] / "descriptions").iterdir()
    if path.suffix in (".json", ".xml")
)
OWN = "{urn:regwright:chip:1}"
CHIP: Tree = {"format": 1, "name": "trial", "spaces": [{"name": "data", "size": "0x100"}]}


def described(path: Path) -> Tree:
    """Return the tree of a description, with its comments."""
    source = Source(path.name, path.read_bytes(), path.suffix[1:])
    return read_xml_with_comments(source)[0] if path.suffix == ".xml" else read_tree(source)[0]


def schema(edition: str) -> etree.XMLSchema:
    """Return the standard's own schema, or skip the test."""
    folder = Path(os.environ.get("REGWRIGHT_STANDARDS", "")) / "ieee1685" / edition
    if "REGWRIGHT_STANDARDS" not in os.environ or not folder.is_dir():
        pytest.skip("REGWRIGHT_STANDARDS names no folder with the schemas of IEEE 1685")
    return etree.XMLSchema(etree.parse(str(folder / "index.xsd")))


def chip_with(*registers: Tree, **more: Any) -> Tree:
    """Return a description of these registers in a space of 256 bytes."""
    return {**CHIP, "registers": list(registers), **more}


def root_of(text: str) -> etree._Element:
    return etree.fromstring(text.encode("utf-8"))


def exported(tree: Tree, edition: str = "2022") -> etree._Element:
    """Return the component of a description."""
    return root_of(export_ieee1685(tree, edition))


def text_of(root: etree._Element) -> bytes:
    text: bytes = etree.tostring(root, encoding="utf-8")
    return text


def imported(data: bytes | etree._Element, wanted: str | None = None) -> Draft:
    """Return the draft of a component, of the memory map that is wanted."""
    text = data if isinstance(data, bytes) else text_of(data)
    return import_ieee1685("component.xml", text, Wishes(map=wanted))


def back(tree: Tree, edition: str = "2022") -> Tree:
    """Return what the import of the export says; nothing may be remarked."""
    draft = imported(export_ieee1685(tree, edition).encode("utf-8"))
    assert draft.remarks == []
    assert draft.tree is not None
    return draft.tree


def chip(tree: Tree) -> Chip:
    """Return the model of a tree, however it is spelled."""
    return without_places(build_chip(tree))


def every(element: etree._Element, tag: str) -> list[etree._Element]:
    """Return the elements of the standard of this kind within ``element``."""
    return list(element.iter(f"{{{etree.QName(element).namespace}}}{tag}"))


def named(root: etree._Element, tag: str, name: str) -> etree._Element:
    """Return the element of the standard that is called ``name``."""
    found = [item for item in every(root, tag) if item.findtext("{*}name") == name]
    assert len(found) == 1, f"{len(found)} {tag} called {name}"
    return found[0]


def says(element: etree._Element, path: str) -> str | None:
    """Return the text at ``path``, in any namespace."""
    text: str | None = element.findtext("/".join(f"{{*}}{step}" for step in path.split("/")))
    return text


def without_extensions(root: etree._Element) -> etree._Element:
    """Return a component as a tool passes it on that drops vendor extensions."""
    for item in list(root.iter("{*}vendorExtensions")):
        item.getparent().remove(item)
    return root
