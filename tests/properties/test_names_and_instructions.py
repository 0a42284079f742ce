"""What the model holds of other names, of instructions and of the width of int."""

from __future__ import annotations

import pytest
from spelled import source

from regwright.model.chip import Chip, Instruction, int_bits
from regwright.read.description import read_description

AS_XML = """<chip format="1" name="a" intWidth="32">
 <space name="io" size="0x40"/>
 <instruction names="bset bit.clear" space="io" access="modify" address="1" bit="2"/>
 <instruction names="outb" kind="function" space="io" access="write" address="16" value="1"/>
 <register name="W" aliases="WIDE" address="0x00" width="16">
  <halves><low name="L" aliases="WL W_LOW"/><high name="H" aliases="WH"/></halves>
  <field name="F" bits="15:8" aliases="FIELD W_FIELD">
   <value name="ON" value="1" aliases="_ON"/>
   <value name="OFF" value="0"/>
  </field>
  <field name="G" bits="7:0"/>
 </register>
 <block name="B" aliases="GROUP GRP" base="0x10">
  <register name="R" offset="0x0"/>
 </block>
</chip>
"""
AS_JSON = """{"format": 1, "name": "a", "intWidth": 32, "spaces": [{"name": "io", "size": "0x40"}],
"instructions": [
 {"names": "bset bit.clear", "space": "io", "access": "modify", "address": 1, "bit": 2},
 {"names": "outb", "kind": "function", "space": "io", "access": "write", "address": 16, "value": 1}
],
"registers": [{"name": "W", "aliases": "WIDE", "address": "0x00", "width": 16,
 "halves": {"low": {"name": "L", "aliases": "WL W_LOW"}, "high": {"name": "H", "aliases": "WH"}},
 "fields": [
  {"name": "F", "bits": "15:8", "aliases": "FIELD W_FIELD", "values": [
   {"name": "ON", "value": 1, "aliases": "_ON"}, {"name": "OFF", "value": 0}]},
  {"name": "G", "bits": "7:0"}]}],
"blocks": [{"name": "B", "aliases": "GROUP GRP", "base": "0x10",
 "registers": [{"name": "R", "offset": "0x0"}]}]}
"""
TEXTS = {"xml": AS_XML, "json": AS_JSON}


def read(text: str, spelling: str) -> Chip:
    reading = read_description(source(text, spelling))
    assert reading.findings == []
    assert reading.chip is not None
    return reading.chip


@pytest.mark.parametrize("spelling", TEXTS)
def test_aliases(spelling: str) -> None:
    chip = read(TEXTS[spelling], spelling)
    (wide,) = chip.registers
    assert wide.aliases == ("WIDE",)
    assert wide.halves is not None
    assert wide.halves.low.aliases == ("WL", "W_LOW")
    assert wide.halves.high.aliases == ("WH",)
    first, second = wide.fields
    assert (first.aliases, second.aliases) == (("FIELD", "W_FIELD"), ())
    assert [value.aliases for value in first.values] == [("_ON",), ()]
    (block,) = chip.blocks
    assert block.aliases == ("GROUP", "GRP")
    assert block.registers[0].aliases == ()


@pytest.mark.parametrize("spelling", TEXTS)
def test_instructions(spelling: str) -> None:
    chip = read(TEXTS[spelling], spelling)
    one = Instruction(
        names=("bset", "bit.clear"),
        space="io",
        access="modify",
        address=1,
        kind="instruction",
        bit=2,
        value=None,
        origin=(None, "instructions", 0),
    )
    other = Instruction(
        names=("outb",),
        space="io",
        access="write",
        address=16,
        kind="function",
        bit=None,
        value=1,
        origin=(None, "instructions", 1),
    )
    assert chip.instructions == (one, other)


@pytest.mark.parametrize("spelling", TEXTS)
def test_the_width_of_int_is_that_of_the_description(spelling: str) -> None:
    chip = read(TEXTS[spelling], spelling)
    assert (chip.int_width, int_bits(chip)) == (32, 32)


@pytest.mark.parametrize(
    ("attributes", "bits"),
    [
        # common practice, no source: int is 32 bits on a machine of 32 bits, else 16
        ("", 16),
        ('width="16"', 16),
        ('width="24"', 16),
        ('width="32"', 32),
        ('width="64"', 32),
        ('width="8" intWidth="32"', 32),
        ('width="32" intWidth="16"', 16),
    ],
)
def test_the_width_of_int_follows_from_that_of_the_registers(attributes: str, bits: int) -> None:
    text = f'<chip format="1" name="a" {attributes}><space name="d" size="1"/></chip>'
    assert int_bits(read(text, "xml")) == bits


@pytest.mark.parametrize(
    ("key", "written", "repair"),
    [
        ("aliases", "LCR, UART_LCR", "LCR UART_LCR"),
        ("aliases", "LCR;UART_LCR ", "LCR UART_LCR"),
        ("aliases", "LCR B.1", None),
        ("names", "ld.b  ld.w", "ld.b ld.w"),
        ("names", "ld 1", None),
    ],
)
def test_names_that_are_parted_in_another_way_are_repaired(
    key: str, written: str, repair: str | None
) -> None:
    head = '<chip format="1" name="a"><space name="d" size="0x9"/>'
    owner = {
        "aliases": f'<register name="R" address="0x1" aliases="{written}"/>',
        "names": f'<instruction names="{written}" space="d" access="read" address="1"/>',
    }[key]
    reading = read_description(source(f"{head}{owner}</chip>", "xml"))
    assert [finding.repair for finding in reading.findings] == [repair]
