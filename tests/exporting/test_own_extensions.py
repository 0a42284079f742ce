"""An exported file that somebody has changed: what the standard's elements say counts."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from random import Random
from typing import Any

import pytest
from exported import OWN, Tree, chip_with, exported, imported, named, root_of, text_of
from lxml import etree

from regwright.exporting.ieee1685 import export_ieee1685
from regwright.importing.draft import Draft
from regwright.importing.ieee1685.own_extensions import read_own
from regwright.read.build import build_chip

TREE = chip_with(
    {
        **{"name": "FIRST", "address": "0x10", "page": 4, "when": "A.B = 1"},
        "fields": [{"name": "LOW", "bits": "3:0", "page": 5}, {"name": "ODD", "bits": "7,5"}],
    },
    {"name": "SECOND", "address": "0x11", "flags": "A - B - - - - -", "page": 6},
    blocks=[
        {
            "name": "UART",
            "instances": [{"name": "U0", "base": "0x20"}, {"name": "U1", "base": "0x30"}],
            "registers": [{"name": "DATA", "offset": 0, "page": 7}],
        }
    ],
    windows=[{"from": "data", "first": 0, "last": 9, "into": "data", "offset": 0}],
)
Change = Callable[[etree._Element], Any]


def tag(root: etree._Element, name: str) -> str:
    return f"{{{etree.QName(root).namespace}}}{name}"


def add(parent: etree._Element, name: str, text: str = "", at: int | None = None) -> None:
    child = etree.Element(tag(parent, name))
    child.text = text
    parent.insert(len(parent) if at is None else at, child)


def put(root: etree._Element, path: str, text: str) -> None:
    """Change the text of the first element at ``path``."""
    found = root.find(path)
    assert found is not None
    found.text = text


def read(change: Change, edition: str = "2014") -> Draft:
    root = exported(TREE, edition)
    change(root)
    return imported(text_of(root))


def registers(draft: Draft) -> dict[str, Tree]:
    assert draft.tree is not None
    return {item["name"]: item for item in draft.tree["registers"]}


def test_a_register_that_was_moved_stands_there() -> None:
    draft = read(lambda root: put(named(root, "register", "FIRST"), "{*}addressOffset", "'h32"))
    first = registers(draft)["FIRST"]
    assert (first["address"], first["page"]) == ("data:0x42", 4)
    assert draft.remarks == []


def test_a_register_that_was_added_is_read() -> None:
    def change(root: etree._Element) -> None:
        register = root_of(etree.tostring(named(root, "register", "SECOND"), encoding="unicode"))
        register.remove(register.find("{*}vendorExtensions"))
        put(register, "{*}name", "THIRD")
        put(register, "{*}addressOffset", "0x2")
        put(register, "{*}size", "2 * 8")
        block = named(root, "addressBlock", "REGISTERS")
        block.insert(len(block) - 1, register)

    found = registers(read(change))
    assert list(found) == ["FIRST", "SECOND", "THIRD"]
    assert (found["THIRD"]["address"], found["THIRD"]["width"]) == ("data:0x12", 16)
    assert [item["name"] for item in found["THIRD"]["fields"]] == ["A", "B"]
    assert found["SECOND"]["flags"].split() == TREE["registers"][1]["flags"].split()


def test_a_register_that_was_removed_is_gone() -> None:
    def change(root: etree._Element) -> None:
        register = named(root, "register", "FIRST")
        register.getparent().remove(register)

    draft = read(change)
    assert list(registers(draft)) == ["SECOND"]
    assert draft.remarks == []


def test_a_field_that_was_changed_is_so() -> None:
    def change(root: etree._Element) -> None:
        field = named(root, "field", "LOW")
        put(field, "{*}name", "LOWER")
        put(field, "{*}bitWidth", "2")

    fields = registers(read(change))["FIRST"]["fields"]
    assert fields[0] == {"name": "LOWER", "bits": "1:0", "page": 5}


def test_a_flag_that_was_widened_is_a_field() -> None:
    draft = read(lambda root: put(named(root, "field", "B"), "{*}bitWidth", "2"))
    second = registers(draft)["SECOND"]
    assert "flags" not in second
    assert [item["bits"] for item in second["fields"]] == ["7", "6:5"]


def test_what_others_add_is_reported_as_lost() -> None:
    def change(root: etree._Element) -> None:
        extensions = named(root, "register", "FIRST").find("{*}vendorExtensions")
        etree.SubElement(extensions, "{urn:somebody}note").text = "seen"
        add(named(root, "field", "LOW"), "testable", "true", -1)

    draft = read(change)
    assert registers(draft)["FIRST"]["when"] == "A.B = 1"
    messages = [item.message for item in draft.remarks]
    assert [("note" in text, "FIRST" in text) for text in messages[-1:]] == [(True, True)]
    assert any("testable" in text and "LOW" in text for text in messages)
    assert {item.rule for item in draft.remarks} == {"not-carried-over"}


def _bank(root: etree._Element) -> None:
    memory_map = named(root, "memoryMap", "data")
    add(memory_map, "bank", at=1)


def _differing_copies(root: etree._Element) -> None:
    put(named(root, "addressBlock", "U1"), ".//{*}size", "16")


def _extension(root: etree._Element, name: str) -> etree._Element:
    return next(item for item in root.iter(OWN + name))


def _two_blocks_of_a_name(root: etree._Element) -> None:
    block = _extension(root, "block")
    first = named(root, "addressBlock", "REGISTERS").find(".//{*}frame")
    first.getparent().replace(first, root_of(etree.tostring(block, encoding="unicode")))


NOT_OURS: dict[str, Change] = {
    "bank": _bank,
    "isPresent": lambda root: add(named(root, "register", "FIRST"), "isPresent", "1", 1),
    "differ": _differing_copies,
    "no number": lambda root: put(named(root, "register", "FIRST"), "{*}size", "WIDTH"),
    "several blocks": _two_blocks_of_a_name,
    "makes no description": lambda root: _extension(root, "register").set("page", "four"),
    "no size": lambda root: _extension(root, "space").getparent().remove(_extension(root, "space")),
    "in itself": lambda root: _extension(root, "block").set("within", "block1"),
    "stands nowhere": lambda root: _extension(root, "frame").set("within", "block9"),
}


@pytest.mark.parametrize("reason", NOT_OURS)
def test_a_file_that_is_no_longer_ours_is_read_like_any_other(reason: str) -> None:
    root = exported(TREE, "2014")
    NOT_OURS[reason](root)
    draft = Draft()
    assert not read_own(root_of(text_of(root).decode()), draft)
    assert draft.tree is None
    (remark,) = draft.remarks
    assert remark.rule == "not-carried-over"
    assert "extensions of regwright" in remark.message
    whole = imported(text_of(root))
    assert whole.remarks[0] == remark


@pytest.mark.parametrize("text", ["<a/>", '<a xmlns="urn:other"><b/></a>'])
def test_a_file_of_others_is_none_of_ours(text: str) -> None:
    draft = Draft()
    assert not read_own(root_of(text), draft)
    assert draft.remarks == []


def test_the_lines_of_what_was_read_are_known() -> None:
    text = export_ieee1685(TREE, "2022")
    lines = text.splitlines()
    draft = imported(text.encode())
    for origin, name in (
        ((None, "registers", 1), "SECOND"),
        (((None, "registers", 0), "fields", 1), "ODD_1"),
        ((None, "blocks", 0), "U0"),
    ):
        line, _ = draft.places[origin]
        assert f"<ipxact:name>{name}<" in lines[line]


JUNK = [
    "",
    "x",
    "-1",
    "'hFFFFFFFFFFFFFFFFFFFFFFFFFFFF",
    "9" * 400,
    "block1",
    "8 6",
    "0",
    "\u00e9 b",
]


@pytest.mark.parametrize("seed", range(6))
def test_whatever_is_changed_ends_in_a_description_or_a_remark(seed: int) -> None:
    random = Random(seed)
    whole = exported(TREE, ["2014", "2022"][seed % 2])
    for _ in range(60):
        root = deepcopy(whole)
        for _ in range(random.randint(1, 3)):
            _spoil(random.choice(list(root.iter())[1:]), random)
        draft = Draft()
        if read_own(root, draft):
            assert draft.tree is not None
            build_chip(draft.tree)
        else:
            assert draft.tree is None
            assert len(draft.remarks) <= 1


def _spoil(element: etree._Element, random: Random) -> None:
    way = random.choice(["text", "attribute", "remove", "twice"])
    parent = element.getparent()
    if way == "text":
        element.text = random.choice(JUNK)
    elif way == "attribute":
        names = [*element.attrib, "at", "within", "of", "id", "summary", "implied", "inherits"]
        element.set(random.choice(names), random.choice(JUNK))
    elif parent is not None and way == "remove":
        parent.remove(element)
    elif parent is not None:
        parent.append(deepcopy(element))
