"""How each thing that a description says is said in the elements of the standard."""

from __future__ import annotations

import pytest
from exported import (
    EDITIONS,
    OWN,
    Tree,
    back,
    chip,
    chip_with,
    every,
    exported,
    named,
    says,
    without_extensions,
)
from lxml import etree

from regwright.exporting.ieee1685 import export_ieee1685

POLICY = "fieldAccessPolicies/fieldAccessPolicy/"


def register(**more: object) -> Tree:
    return {"name": "R", "address": "0x10", **more}


def field_names(root: etree._Element) -> list[str]:
    return [item.findtext("{*}name") for item in every(root, "field")]


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_field_in_two_places_is_two_fields(edition: str) -> None:
    field = {"name": "CHANNEL", "bits": "6,2:0", "title": "input", "reset": "0xA"}
    root = exported(chip_with(register(fields=[field])), edition)
    assert field_names(root) == ["CHANNEL_3", "CHANNEL_2_0"]
    high, low = every(root, "field")
    assert [says(high, "bitOffset"), says(high, "bitWidth")] == ["6", "1"]
    assert [says(low, "bitOffset"), says(low, "bitWidth")] == ["0", "3"]
    assert [says(item, "resets/reset/value") for item in (high, low)] == ["'h1", "'h2"]
    assert low.find(f".//{OWN}piece").get("of") == "CHANNEL_3"


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_register_without_fields_gets_one(edition: str) -> None:
    root = exported(chip_with(register(width=16, reset="0xBEEF")), edition)
    (field,) = every(root, "field")
    assert [says(field, tag) for tag in ("name", "bitOffset", "bitWidth")] == ["VALUE", "0", "16"]
    assert says(field, "resets/reset/value") == "'hBEEF"
    assert field.find(f".//{OWN}synthesized") is not None


def test_a_reset_that_no_field_covers_is_said_nevertheless() -> None:
    field = {"name": "F", "bits": "1:0"}
    root = exported(chip_with(register(reset="0b0110_x001", fields=[field])))
    assert field_names(root) == ["F", "UNNAMED_3", "UNNAMED_6_5"]
    assert says(named(root, "field", "UNNAMED_6_5"), "resets/reset/value") == "'h3"
    assert says(named(root, "field", "UNNAMED_3"), "resets/reset/mask") == "'h0"


@pytest.mark.parametrize(("edition", "start"), [("2014", ""), ("2022", POLICY)])
def test_reserved_bits_say_what_to_write(edition: str, start: str) -> None:
    reserved = [{"bits": 0, "write": "0"}, {"bits": "3:2", "write": "1"}]
    reserved += [{"bits": "7:6", "write": "preserve", "title": "keep"}, {"bits": 5}]
    root = exported(chip_with(register(reserved=reserved)), edition)
    zero, one, same, open_ = every(root, "field")
    constraint = f"{start}writeValueConstraint/"
    assert [says(zero, constraint + tag) for tag in ("minimum", "maximum")] == ["'h0", "'h0"]
    assert [says(one, constraint + tag) for tag in ("minimum", "maximum")] == ["'h3", "'h3"]
    assert says(same, constraint + "writeAsRead") == "true"
    assert says(same, "displayName") == "keep"
    assert open_.find(".//{*}writeValueConstraint") is None
    wanted = {"2014": "true", "2022": "1"}[edition]
    assert [says(item, f"{start}reserved") for item in every(root, "field")] == [wanted] * 4


@pytest.mark.parametrize(("edition", "start"), [("2014", ""), ("2022", POLICY)])
def test_access_side_effects_and_values(edition: str, start: str) -> None:
    values = [{"name": "ON", "value": 1, "usage": "write", "title": "goes on"}]
    effects = {"access": "writeOnce", "modifiedWriteValue": "oneToClear", "readAction": "set"}
    field = {"name": "F", "bits": 3, "volatile": True, "values": values, **effects}
    root = exported(chip_with(register(access="write-only", fields=[field])), edition)
    item = named(root, "field", "F")
    assert {name: says(item, start + name) for name in effects} == effects
    assert says(item, "volatile") == "true"
    value = named(root, "enumeratedValue", "ON")
    assert (says(value, "value"), value.get("usage")) == ("'h1", "write")
    access = {"2014": "access", "2022": "accessPolicies/accessPolicy/access"}[edition]
    assert says(named(root, "register", "R"), access) == "write-only"


def test_what_reading_does_to_a_register_is_said_of_each_field() -> None:
    fields = [{"name": "A", "bits": 0}, {"name": "B", "bits": 1}]
    root = exported(chip_with(register(readAction="clear", fields=fields)))
    assert [says(item, POLICY + "readAction") for item in every(root, "field")] == ["clear"] * 2


def test_only_the_edition_of_2022_knows_no_access() -> None:
    tree = chip_with(register(access="no-access"))
    assert named(exported(tree, "2014"), "register", "R").find("{*}access") is None
    path = "accessPolicies/accessPolicy/access"
    assert says(named(exported(tree, "2022"), "register", "R"), path) == "no-access"


def test_registers_in_a_row() -> None:
    row = register(count=4, stride=4)
    item = named(exported(chip_with(row), "2022"), "register", "R")
    assert [says(item, f"array/{tag}") for tag in ("dim", "stride")] == ["4", "'h4"]
    # the edition of 2014 has no stride: a register file of that size holds the register
    outer = named(exported(chip_with(row), "2014"), "registerFile", "R")
    assert [says(outer, tag) for tag in ("dim", "range")] == ["4", "'h4"]
    assert says(outer, "addressOffset") == "'h10"
    assert says(outer, "register/addressOffset") == "'h0"
    close = named(exported(chip_with(register(count=4)), "2014"), "register", "R")
    assert says(close, "dim") == "4"


BLOCKS: list[Tree] = [
    {
        "name": "UART",
        "size": "0x10",
        "instances": [
            {"name": "UART0", "base": "0x20", "title": "console"},
            {"name": "UART1", "base": "0x40"},
        ],
        "registers": [{"name": "DATA", "offset": 2}],
        "blocks": [
            {
                **{"name": "FIFO", "offset": 8, "count": 2, "stride": 2},
                "registers": [{"name": "LEVEL", "offset": 1}],
            }
        ],
    },
    {"name": "GROUP", "registers": [{"name": "APART", "address": "0x60"}]},
]


@pytest.mark.parametrize("edition", EDITIONS)
def test_blocks_in_several_places_and_in_each_other(edition: str) -> None:
    tree = chip_with(blocks=BLOCKS)
    root = exported(tree, edition)
    blocks = every(root, "addressBlock")
    assert [says(item, "name") for item in blocks] == ["UART0", "UART1", "GROUP"]
    assert [says(item, "baseAddress") for item in blocks] == ["'h20", "'h40", "'h60"]
    assert [says(item, "range") for item in blocks] == ["'h10", "'h10", "'h1"]
    assert says(blocks[0], "displayName") == "console"
    for item in blocks[:2]:
        assert says(item, "register/addressOffset") == "'h2"
        assert says(item, "registerFile/addressOffset") == "'h8"
        assert says(item, "registerFile/register/name") == "LEVEL"
    assert chip(back(tree, edition)) == chip(tree)


def test_a_register_stands_in_one_map_only() -> None:
    spaces = [{"name": "data", "size": "0x100"}, {"name": "io", "size": "0x40"}]
    both = {"name": "BOTH", "address": "io:0x02 data:0x22"}
    tree = chip_with(both, {"name": "IO", "address": "io:0x03"}, spaces=spaces)
    root = exported(tree)
    found = {
        says(item, "name"): [says(each, "name") for each in every(item, "register")]
        for item in every(root, "memoryMap")
    }
    assert found == {"data": ["BOTH"], "io": ["IO"]}
    extension = named(root, "register", "BOTH").find(f"{{*}}vendorExtensions/{OWN}register")
    assert dict(extension.attrib) == {"address": "io:0x02 data"}


def test_registers_on_both_sides_of_a_block_are_in_two_address_blocks() -> None:
    registers = [{"name": name, "address": at} for name, at in (("A", "0x1"), ("B", "0x40"))]
    root = exported(chip_with(*registers, blocks=[{"name": "MIDDLE", "base": "0x20"}]))
    found = [(says(item, "name"), says(item, "range")) for item in every(root, "addressBlock")]
    assert found == [("REGISTERS", "'h1"), ("REGISTERS_2", "'h1"), ("MIDDLE", "'h1")]


def test_names_are_mapped_and_kept() -> None:
    fields = [{"name": "IRQ Vector", "bits": 0}, {"name": "0_out", "bits": 1}]
    tree = chip_with(register(fields=fields), {"name": "R", "address": "0x11"})
    root = exported(tree)
    assert field_names(root)[:2] == ["IRQ_Vector", "N0_out"]
    assert [says(item, "name") for item in every(root, "register")] == ["R", "R_2"]
    assert chip(back(tree)) == chip(tree)


def test_what_has_no_place_is_kept_whole() -> None:
    block = {"name": "LOST", "registers": [{"name": "R", "offset": 4}]}
    root = exported(chip_with({"name": "NOWHERE"}, blocks=[block]))
    kept = root.findall(f"{{*}}vendorExtensions/{OWN}kept")
    assert [item[0].get("name") for item in kept] == ["NOWHERE", "LOST"]
    assert not every(without_extensions(root), "register")


HOSTILE = "</ipxact:name><!-- ]]> & \" ' \u0085\u2028 <?x ?> &lt; \U0010fffd"


@pytest.mark.parametrize("edition", EDITIONS)
def test_texts_cannot_break_out(edition: str) -> None:
    value = {"name": HOSTILE, "value": 0, "title": HOSTILE}
    field = {"name": HOSTILE, "bits": 0, "notes": f"{HOSTILE}\n{HOSTILE}", "values": [value]}
    tree = chip_with(register(title=HOSTILE, printed=HOSTILE, fields=[field]), title=HOSTILE)
    root = exported(tree, edition)
    assert says(named(root, "register", "R"), "displayName") == HOSTILE
    assert not [item for item in root.iter() if not isinstance(item.tag, str)]
    assert chip(back(tree, edition)) == chip(tree)


def test_what_xml_forbids_is_not_written() -> None:
    """The schema lets no such text through; a caller may still have one."""
    text = export_ieee1685(chip_with(register(title="a\x00b\ud800c\ufffe")), "2022")
    assert "a\ufffdb\ufffdc\ufffd" in text
    etree.fromstring(text.encode("utf-8"))
