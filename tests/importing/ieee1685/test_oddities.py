"""What real files do against the rules: it is imported as meant, and each oddity is reported."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from components import LATER, block, component, field, little, memory_map, parameters, register
from outlines import checked, held, outline

from regwright.importing.draft import Draft, Remark
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.importing.oddities import ODDITIES
from regwright.model.finding import ERROR, WARNING


def imported(data: bytes, wishes: Wishes | None = None) -> Draft:
    return held(import_ieee1685("little.xml", data, wishes or Wishes()))


def only(draft: Draft, rule: str, level: str = WARNING) -> Remark:
    """Return the one remark there is, which must be of ``rule``."""
    assert [remark.rule for remark in draft.remarks] == [rule], draft.remarks
    assert draft.remarks[0].level == level
    assert rule in ODDITIES
    return draft.remarks[0]


def registers(draft: Draft) -> list[str]:
    return [line for line in outline(draft) if not line.startswith(("chip", "space", "!"))]


def test_errors_elsewhere_do_not_matter() -> None:
    """What registers do not need may be as wrong as it likes."""
    data = component(
        memory_map(block(register())),
        before="<i:busInterfaces><i:nonsense/></i:busInterfaces><i:model>?</i:model>",
    )
    assert imported(data).remarks == []


@pytest.mark.parametrize(
    ("word", "means"),
    [
        ("RW", "read-write"),
        ("R/W", "read-write"),
        ("read_only", "read-only"),
        ("RO", "read-only"),
        ("Write-Only", "write-only"),
        ("rw1c", "read-write write oneToClear"),
        ("W1S", "read-write write oneToSet"),
        ("w0c", "read-write write zeroToClear"),
        ("RC", "read-only read clear"),
    ],
)
def test_words_for_access(word: str, means: str) -> None:
    content = field(content=f"<i:access>{word}</i:access>")
    draft = imported(little(register(content=content)))
    assert registers(draft)[1] == f"  F 0:0 {means}"
    assert word in only(draft, "access-word").message


def test_a_word_that_means_nothing() -> None:
    draft = imported(little(register(content="<i:access>sometimes</i:access>" + field())))
    assert registers(draft) == ["control:0x0 b_R 32 read-write", "  F 0:0"]
    assert "'sometimes'" in only(draft, "access-word").message


@pytest.mark.parametrize(
    ("name", "became"),
    [
        ("IRQ Vector", "IRQ_Vector"),
        ("0_out", "N0_out"),
        ("a.b-c", "a_b_c"),
        ("_hidden__", "hidden"),
        ("über", "uber"),
        ("two__lines", "two_lines"),
        ("", "FIELD"),
        ("x" * 90, "x" * 80),
    ],
)
def test_names_that_c_cannot_use(name: str, became: str) -> None:
    draft = imported(little(register(content=field(name))))
    assert registers(draft)[1] == f"  {became} 0:0"
    assert draft.tree is not None
    made = draft.tree["blocks"][0]["registers"][0]["fields"][0]
    assert made.get("title", "") == name
    assert became in only(draft, "name-mapped", WARNING if not name else "note").message


def test_names_that_are_taken() -> None:
    draft = imported(
        little(register("R", "0", content=field() + field("F", "1")) + register("R", "4"))
    )
    assert registers(draft) == [
        "control:0x0 b_R 32 read-write",
        "  F 0:0",
        "  F_2 1:1",
        "control:0x4 b_R_2 32 read-write",
    ]
    assert [remark.rule for remark in draft.remarks] == ["name-mapped", "name-mapped"]


def test_numbers_of_the_other_edition() -> None:
    data = little(register(offset="0x10", content=field(low="#3")) + register("S", "1k"))
    data = data.replace(b"<i:range>64", b"<i:range>4096")
    draft = imported(data)
    assert registers(draft)[0].startswith("control:0x10 ")
    assert registers(draft)[2].startswith("control:0x400 ")
    assert [remark.rule for remark in draft.remarks] == ["number-spelling"] * 3


def test_an_oddity_of_many_places_is_one_remark_with_their_lines() -> None:
    many = "\n".join(register(f"R{n}", f"0x{4 * n:x}") for n in range(16))
    remark = only(imported(little(many)), "number-spelling")
    assert remark.line == 4
    assert "16 places, on the lines 4, 5, 6" in remark.message
    assert "4 more" in remark.message


def test_bases_in_a_file_of_2009() -> None:
    data = little(register(offset="'h10", size="8 * 2"))
    data = data.replace(
        b"http://www.accellera.org/XMLSchema/IPXACT/1685-2014",
        b"http://www.spiritconsortium.org/XMLSchema/SPIRIT/1685-2009",
    )
    draft = imported(data)
    assert registers(draft) == ["control:0x10 b_R 16 read-write"]
    assert [remark.rule for remark in draft.remarks] == ["number-spelling"] * 2


def test_a_formula_of_2009_is_not_read() -> None:
    data = little(register()).replace(b"<i:size>32", b'<i:size i:dependency="8 * 4">32')
    data = data.replace(
        b"http://www.accellera.org/XMLSchema/IPXACT/1685-2014",
        b"http://www.spiritconsortium.org/XMLSchema/SPIRIT/1685-2009",
    )
    draft = imported(data)
    assert registers(draft) == ["control:0x0 b_R 32 read-write"]
    assert only(draft, "formula-not-read")


def test_a_leading_zero_is_decimal_in_2014() -> None:
    draft = imported(little(register(offset="010")))
    assert registers(draft) == ["control:0xa b_R 32 read-write"]
    assert draft.remarks == []


@pytest.mark.parametrize("unit", ["17", "32", "UNIT + 15"])
def test_addresses_of_other_units(unit: str) -> None:
    tail = f"<i:addressUnitBits>{unit}</i:addressUnitBits>"
    maps = memory_map(block(register("R", "0", "24") + register("S", "2", "17")), tail=tail)
    draft = imported(component(maps, after=parameters(UNIT="2")))
    assert registers(draft) == ["control:0x0 b_R 24 read-write", "control:0x2 b_S 17 read-write"]
    assert only(draft, "no-pointer", "note")


def test_a_field_past_the_end_of_its_register() -> None:
    content = field("IN", "0", "1") + field("CUT", "28", "8") + field("OUT", "32", "1")
    draft = imported(little(register(content=content)))
    assert registers(draft)[1:] == ["  IN 0:0", "  CUT 31:28"]
    assert [remark.rule for remark in draft.remarks] == ["field-past-the-end"] * 2


def test_a_field_of_no_bits() -> None:
    draft = imported(little(register(content=field(width="0"))))
    assert "no bits" in only(draft, "field-past-the-end").message


def test_a_reset_that_is_too_wide() -> None:
    reset = "<i:resets><i:reset><i:value>'h1F3</i:value></i:reset></i:resets>"
    draft = imported(little(register(content=field(width="4", content=reset))))
    assert registers(draft)[1] == "  F 3:0 reset 0x3"
    assert only(draft, "value-cut")


def test_a_value_that_is_too_wide() -> None:
    value = "<i:enumeratedValue><i:name>V</i:name><i:value>2</i:value></i:enumeratedValue>"
    content = field(content=f"<i:enumeratedValues>{value}</i:enumeratedValues>")
    draft = imported(little(register(content=content)))
    assert registers(draft)[1] == "  F 0:0"
    assert only(draft, "value-cut")


def test_registers_past_the_end_of_their_block() -> None:
    draft = imported(little(register(offset="62")))
    assert "reach to 0x42" in only(draft, "range-too-small").message
    assert draft.tree is not None
    assert "size" not in draft.tree["blocks"][0]


def test_an_array_of_none() -> None:
    draft = imported(little(register(head="<i:dim>0</i:dim>")))
    assert registers(draft) == ["control:0x0 b_R 32 read-write"]
    assert only(draft, "array-of-none")


@pytest.mark.parametrize(
    ("condition", "is_there"),
    [("1", True), ("0", False), ("N > 3", True), ("N == 3", False), ("~(N == 4)", False)],
)
def test_conditions(condition: str, *, is_there: bool) -> None:
    head = f"<i:isPresent>{condition}</i:isPresent>"
    draft = imported(little(register("A", "0") + register("B", "4", head=head), N="4"))
    assert len(registers(draft)) == 1 + is_there
    assert [remark.rule for remark in draft.remarks] == ["not-present"] * (not is_there)


def test_a_condition_that_is_not_clear() -> None:
    draft = imported(little(register(head="<i:isPresent>PORT</i:isPresent>")))
    assert registers(draft) == ["control:0x0 b_R 32 read-write"]
    assert "'PORT'" in only(draft, "number-unclear").message


def test_parameters_by_their_name() -> None:
    data = little(register(offset="a_name"), ID="8").replace(b"<i:name>ID<", b"<i:name>a_name<")
    draft = imported(data)
    assert registers(draft) == ["control:0x8 b_R 32 read-write"]
    assert "'a_name'" in only(draft, "number-spelling").message


def test_elements_that_nobody_knows() -> None:
    draft = imported(little(register(content="<i:colour>red</i:colour>" + field())))
    assert "<colour>" in only(draft, "foreign-element").message


def test_an_empty_policy() -> None:
    policies = "<i:accessPolicies><i:accessPolicy/></i:accessPolicies>"
    data = component(memory_map(block(register(content=policies + field()))), namespace=LATER)
    assert imported(data).remarks == []


def test_markup_in_a_description() -> None:
    text = "&lt;p&gt;One &amp;amp; two&lt;/p&gt;&lt;ul&gt;&lt;li&gt;a &lt; b&lt;/li&gt;&lt;/ul&gt;"
    head = f"<i:displayName>D</i:displayName><i:description>{text}</i:description>"
    draft = imported(little(register(head=head)))
    assert draft.tree is not None
    assert draft.tree["blocks"][0]["registers"][0]["notes"] == "One & two\na < b"


def test_a_description_that_is_too_long() -> None:
    draft = imported(little(register(head=f"<i:description>{'so ' * 2000}</i:description>")))
    assert only(draft, "text-shortened", "note")


def test_overlapping_registers_are_left_to_check() -> None:
    """A pair of which one is read and the other written is none of its business."""
    pair = register("IN", "0", content="<i:access>read-only</i:access>" + field())
    pair += register("OUT", "0", content="<i:access>write-only</i:access>" + field())
    assert checked(imported(little(pair))).has_errors is False
    twice = imported(little(register("A", "0") + register("B", "0")))
    assert {item.finding.rule for item in checked(twice).findings} == {"registers-overlap"}


def test_another_encoding() -> None:
    head = "<i:displayName>Füllstand</i:displayName>"
    data = little(register(head=head)).decode()
    for encoding, label in (("latin-1", "ISO-8859-1"), ("utf-16", "UTF-16"), ("utf-8", "utf8")):
        draft = imported(data.replace("UTF-8", label).encode(encoding))
        assert draft.tree is not None
        assert draft.tree["blocks"][0]["registers"][0]["title"] == "Füllstand"


def test_a_window_that_no_distance_describes() -> None:
    before = (
        "<i:busInterfaces><i:busInterface><i:name>m</i:name><i:master><i:addressSpaceRef "
        'addressSpaceRef="a"/></i:master></i:busInterface></i:busInterfaces><i:addressSpaces>'
        "<i:addressSpace><i:name>a</i:name><i:range>16</i:range></i:addressSpace>"
        "</i:addressSpaces>"
    )
    window = '<i:subspaceMap masterRef="m"><i:baseAddress>-4</i:baseAddress></i:subspaceMap>'
    draft = imported(component(memory_map(block(register()) + window), before=before))
    assert "no distance" in only(draft, "not-carried-over", "note").message
    window = window.replace('"m"', '"nobody"')
    draft = imported(component(memory_map(block(register()) + window), before=before))
    assert "'nobody'" in draft.remarks[0].message


def test_which_memory_map() -> None:
    two = memory_map(block(register("A")), "one") + memory_map(block(register("B")), "two")
    unsure = imported(component(two))
    assert unsure.tree is None
    message = only(unsure, "map-unclear", ERROR).message
    assert "one (line 4), two (line 4)" in message
    assert "--map" in message
    assert registers(imported(component(two), Wishes("two"))) == ["two:0x0 b_B 32 read-write"]
    for wrong in ("three", "two/none"):
        assert only(imported(component(two), Wishes(wrong)), "map-unclear", ERROR)


def test_schemas_only_report(tmp_path: Path) -> None:
    schema = (
        '<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="'
        'http://www.accellera.org/XMLSchema/IPXACT/1685-2014"><xs:element name="x"/></xs:schema>'
    )
    folder = tmp_path / "2014"
    folder.mkdir()
    (folder / "index.xsd").write_text(schema)
    for place in (tmp_path, folder):
        draft = imported(little(register()), Wishes(schema=place))
        assert only(draft, "schema-error", "note").line == 2
        assert registers(draft)
    (folder / "index.xsd").write_text(schema.replace("2014", "2022"))
    assert (
        "another edition"
        in only(
            imported(little(register()), Wishes(schema=folder)), "schema-not-used", "note"
        ).message
    )
    draft = imported(little(register()), Wishes(schema=tmp_path / "nowhere"))
    assert only(draft, "schema-not-used", "note")


STANDARDS = os.environ.get("REGWRIGHT_STANDARDS")


@pytest.mark.skipif(not STANDARDS, reason="REGWRIGHT_STANDARDS names no folder with the schemas")
def test_what_the_standards_own_schemas_find() -> None:
    """Outside source: the schemas of IEEE 1685-2014; a register there needs a field."""
    folder = Path(str(STANDARDS)) / "ieee1685"
    good = imported(little(register(content=field())), Wishes(schema=folder))
    assert good.remarks == []
    remark = only(imported(little(register()), Wishes(schema=folder)), "schema-error", "note")
    assert remark.line == 4
    assert "field" in remark.message


def test_a_component_without_a_name() -> None:
    data = little(register()).replace(b"<i:name>little</i:name>", b"")
    draft = import_ieee1685("parts/pump-2.xml", data, Wishes())
    assert held(draft).tree is not None
    assert draft.tree is not None
    assert draft.tree["name"] == "pump_2"


def test_a_component_called_like_a_device() -> None:
    draft = imported(little(register()).replace(b">little<", b">aux<"))
    assert draft.tree is not None
    assert (draft.tree["name"], draft.tree["title"]) == ("aux_chip", "aux")
