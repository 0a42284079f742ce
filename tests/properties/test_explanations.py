"""What a refused description is told: the right place, and what to write instead."""

from __future__ import annotations

from typing import NamedTuple

import pytest
from spelled import source

from regwright.model.finding import Place
from regwright.read.description import read_description

#: Stands before the character that the finding must point at.
MARK = "¦"
HEAD_JSON = '{\n "format": 1, "name": "a",\n "spaces": [{"name": "d", "size": "0x10"}],\n '
HEAD_XML = '<chip format="1" name="a">\n<space name="d" size="0x10"/>\n'


def problems(text: str, spelling: str) -> list[tuple[Place, str]]:
    reading = read_description(source(text, spelling))
    assert reading.chip is None
    assert {finding.rule for finding in reading.findings} == {"schema"}
    found = [(reading.source.place(finding), finding.message) for finding in reading.findings]
    return sorted(found)


def check(marked: str, spelling: str, *expected: str) -> None:
    """Assert that ``marked`` has one problem, at its mark, whose message has each text."""
    before, _, after = marked.partition(MARK)
    assert MARK not in after
    found = problems(before + after, spelling)
    assert len(found) == 1, found
    place, message = found[0]
    line = before.count("\n") + 1
    assert place == (f"chip.{spelling}", line, len(before.rpartition("\n")[2]) + 1), message
    for text in expected:
        assert text in message


class Case(NamedTuple):
    json: str
    xml: str
    expected: tuple[str, ...]


#: A wrong value of a register or field, the same in both spellings but for the quotes.
REGISTER = {
    "number without a base": ("offset", "24", "Was 0x24 or 0d24 meant?"),
    "number with a dollar sign": ("offset", "$1F", "Was 0x1F meant?"),
    "number with an h": ("offset", "1Fh", "Was 0x1F meant?"),
    "hexadecimal without a base": ("offset", "1F", "Was 0x1F meant?"),
    "upper-case base": ("offset", "0X1F", "Was 0x1F meant?"),
    "letter O for a zero": ("offset", "0x1O", "Was 0x10 meant?"),
    "letter l for a one": ("offset", "0xl0", "Was 0x10 meant?"),
    "binary of an assembler": ("offset", "%0101", "Was 0b0101 meant?"),
    "number with a space": ("offset", "0x1F ", "Was 0x1F meant?"),
    "binary with a b behind": ("reset", "0101b", "Was 0b0101 meant?"),
    "no number": ("offset", "later", "it must be a number that says its base: 0x1F"),
    "address without a base": ("address", "io:18 data:0x38", "Was io:0x18 data:0x38 meant?"),
    "address with a comma": ("address", "io:0x18, data:0x38", "Was io:0x18 data:0x38 meant?"),
    "address in upper case": ("address", "IO:0x18", "Was io:0x18 meant?"),
    "access in short": ("access", "RW", "Was read-write meant?"),
    "access in one word": ("access", "readonly", "Was read-only meant?"),
    "access in a wrong word": ("access", "sideways", "write-only"),
    "byte order in short": ("byteOrder", "BE", "Was big meant?"),
    "two lines in a title": ("title", "a{newline}b", "it must be text on one line"),
    "name too long": ("title", "y" * 201, "a text of 201 characters", "200 characters at most"),
    "condition without a value": ("when", "A.B", "as LINE_CTRL.DLAB = 1"),
    "truth in a wrong word": ("singleBit", "yes", "it must be true or false"),
    "empty text": ("flags", "", "it must be the one-bit fields"),
    "names with a comma": ("aliases", "LCR, UART_LCR", "Was LCR UART_LCR meant?"),
    "names with a space too many": ("aliases", " LCR  UART_LCR", "Was LCR UART_LCR meant?"),
    "names that C has not": ("aliases", "LCR, B.1", "it must be C identifiers separated by single"),
}


@pytest.mark.parametrize("case", REGISTER.values(), ids=REGISTER.keys())
def test_a_wrong_value_of_a_register(case: tuple[str, ...]) -> None:
    key, value, *expected = case
    in_json, in_xml = value.replace("{newline}", "\\n"), value.replace("{newline}", "&#10;")
    text = f'"registers": [\n{{"name": "é", "{key}": {MARK}"{in_json}"}}]}}'
    check(HEAD_JSON + text, "json", f"{key} is ", *expected)
    text = f'<register name="é"\n {key}="{MARK}{in_xml}"/></chip>'
    check(HEAD_XML + text, "xml", f"{key} is ", *expected)


BITS = {
    "dots": ("4..6", "Was 6:4 meant?"),
    "hyphen": ("6-4", "Was 6:4 meant?"),
    "brackets": ("[7:0]", "Was 7:0 meant?"),
    "space": ("7:4, 1", "Was 7:4,1 meant?"),
    "no bits": ("all", "a range with the higher bit first (6:4)"),
}


@pytest.mark.parametrize("case", BITS.values(), ids=BITS.keys())
def test_wrong_bits_of_a_field(case: tuple[str, str]) -> None:
    bits, expected = case
    text = (
        f'"registers": [{{"name": "R", "fields": [\n{{"name": "F", "bits": {MARK}"{bits}"}}]}}]}}'
    )
    check(HEAD_JSON + text, "json", expected)
    text = f'<register name="R">\n<field name="F" bits="{MARK}{bits}"/></register></chip>'
    check(HEAD_XML + text, "xml", expected)


INSTRUCTIONS = {
    "mnemonics with a comma": ("names", "ld.b, ld.w", "Was ld.b ld.w meant?"),
    "no mnemonic": ("names", "(ld)", "it must be mnemonics or names of functions"),
    "space in upper case": ("space", "D", "it must be a lower-case letter"),
    "access in a word of registers": ("access", "read-write", "one of ", "read", "modify"),
    "no kind": ("kind", "macro", "one of ", "instruction", "function"),
}


@pytest.mark.parametrize("case", INSTRUCTIONS.values(), ids=INSTRUCTIONS.keys())
def test_a_wrong_value_of_an_instruction(case: tuple[str, ...]) -> None:
    key, value, *expected = case
    right = {"names": "in", "space": "d", "access": "read"}
    rest = {name: text for name, text in right.items() if name != key}
    others = "".join(f', "{name}": "{text}"' for name, text in rest.items())
    text = f'"instructions": [\n{{"address": 1, "{key}": {MARK}"{value}"{others}}}]}}'
    check(HEAD_JSON + text, "json", f"{key} is ", *expected)
    others = "".join(f' {name}="{text}"' for name, text in rest.items())
    text = f'<instruction address="1"\n {key}="{MARK}{value}"{others}/></chip>'
    check(HEAD_XML + text, "xml", f"{key} is ", *expected)


SHAPES = {
    "operand 0": Case(
        '"instructions": [{"names": "in", "space": "d", "access": "read", "address": ¦0}]}',
        '<instruction names="in" space="d" access="read" address="¦0"/></chip>',
        ("address is 0; it must be the number of an operand, counted from 1, 1 to 16",),
    ),
    "misspelt property": Case(
        '"registers": [{"name": "R",\n ¦"adress": "0x1"}]}',
        '<register name="R"\n ¦adress="0x1"/></chip>',
        ("'adress' is unknown here (a register); did you mean 'address'?",),
    ),
    "property in another case": Case(
        '"registers": [{"name": "R", ¦"ADDRESS": "0x1"}]}',
        '<register name="R" ¦ADDRESS="0x1"/></chip>',
        ("did you mean 'address'?",),
    ),
    "unknown property": Case(
        '"registers": [{"name": "R", ¦"zzz": "0x1"}]}',
        '<register name="R" ¦zzz="0x1"/></chip>',
        ("'zzz' is unknown here (a register); known are ", "address, offset"),
    ),
    "missing name": Case(
        '"registers": [{"name": "Q"},\n ¦{"address": "0x1"}]}',
        '<register name="Q"/>\n ¦<register address="0x1"/></chip>',
        (" 'name' is missing: the register's name",),
    ),
    "page 0": Case(
        '"registers": [{"name": "R", "page": ¦0}]}',
        '<register name="R" page="¦0"/></chip>',
        ("page is 0; it must be a page of the document, 1 to 99999",),
    ),
    "width 128": Case(
        '"registers": [{"name": "R", "width": ¦128}]}',
        '<register name="R" width="¦128"/></chip>',
        ("width is 128; it must be a width in bits, 1 to 64",),
    ),
    "missing half": Case(
        '"registers": [{"name": "R", "halves":\n ¦{"low": {"name": "L"}}}]}',
        '<register name="R">\n ¦<halves><low name="L"/></halves></register></chip>',
        ("high", "is missing: the high half"),
    ),
    "misspelt child": Case(
        '"registers": [{"name": "R", ¦"feilds": []}]}',
        '<register name="R">¦<feild/></register></chip>',
        ("feild", "did you mean ", "field"),
    ),
    "unknown child": Case(
        '¦"quirks": []}',
        "¦<quirk/></chip>",
        ("quirk", "is unknown", "known are", "document"),
    ),
    "child that belongs elsewhere": Case(
        '¦"values": [{"name": "V", "value": 0}]}',
        '¦<value name="V" value="0"/></chip>',
        ("value", "is unknown"),
    ),
}


@pytest.mark.parametrize("case", SHAPES.values(), ids=SHAPES.keys())
def test_a_wrong_shape(case: Case) -> None:
    check(HEAD_JSON + case.json, "json", *case.expected)
    check(HEAD_XML + case.xml, "xml", *case.expected)


ONLY_JSON = {
    "number for a text": (
        '"title": ¦5}',
        "title is 5; it must be text",
        'Was "5" meant, in quotes',
    ),
    "text for a number": ('"width": ¦"8"}', "width is '8'", "Write it without quotes"),
    "text for a truth": (
        '"registers": [{"name": "R", "singleBit": ¦"true"}]}',
        "true or false. Write it without quotes",
    ),
    "number for a word": (
        '"registers": [{"name": "R", "reserved": [{"bits": 1, "write": ¦0}]}]}',
        'one of "0", "1", "preserve". Write it in quotes',
    ),
    "number without a base": (
        '"registers": [{"name": "R", "offset": ¦24}]}',
        "offset is 24; ",
        "Was 0x24 or 0d24 meant?",
    ),
    "hertz without a unit": (
        '"clock": {"sources": [{"name": "s", "kind": "internal", "frequency": ¦12000000}]}}',
        "frequency is 12000000; it must be a frequency with its unit",
        "Was 12 MHz meant?",
    ),
    "object for a list": ('"blocks": ¦{"name": "B"}}', "blocks is an object; it must be a list"),
    "text for an object": ('"document": ¦"a book"}', "it must be an object: a datasheet"),
    "text in a list": (
        '"blocks": [{"name": "B"}, ¦"C"]}',
        "entry 2 of blocks is 'C'; it must be an object: a group of registers",
    ),
    "null": ('"title": ¦null}', "title is null; it must be text on one line"),
    "element for a property": ('¦"register": []}', "did you mean 'registers'?"),
    "misspelt comment": ('¦"coment": "x"}', "did you mean 'comment'?"),
    "another format": ('"document": {"title": "t", "date": ¦"May"}}', "a date as 2026, 2026-03"),
}


@pytest.mark.parametrize("case", ONLY_JSON.values(), ids=ONLY_JSON.keys())
def test_what_only_json_can_get_wrong(case: tuple[str, ...]) -> None:
    check(HEAD_JSON + case[0], "json", *case[1:])


QUANTITIES = {
    "no space in hertz": ("frequency", "12MHz", "Was 12 MHz meant?"),
    "hertz in small letters": ("frequency", "32.768 khz", "Was 32.768 kHz meant?"),
    "hertz as a text": ("frequency", "32768", "Was 32768 Hz meant?"),
    "no space in parts": ("tolerance", "10%", "Was 10 % meant?"),
    "millions in capitals": ("tolerance", "50PPM", "Was 50 ppm meant?"),
}
NO_QUANTITIES = {
    "a few of something": ("frequency", "12"),
    "not whole": ("frequency", "1000.5"),
    "millihertz or megahertz": ("frequency", "12mhz"),
    "no unit of parts": ("tolerance", "10"),
    "another unit": ("tolerance", "10 V"),
    "other digits": ("frequency", "٣MHz"),
}


def _source(name: str, value: str) -> tuple[str, str]:
    """Return a clock's source with this property, in JSON and in XML."""
    json = f'"clock": {{"sources": [{{"name": "s", "kind": "internal", "{name}": ¦"{value}"}}]}}}}'
    xml = f'<clock><source name="s" kind="internal" {name}="¦{value}"/></clock></chip>'
    return json, xml


@pytest.mark.parametrize("case", QUANTITIES.values(), ids=QUANTITIES.keys())
def test_a_quantity_spelled_in_another_way(case: tuple[str, str, str]) -> None:
    json, xml = _source(*case[:2])
    check(HEAD_JSON + json, "json", case[2])
    check(HEAD_XML + xml, "xml", case[2])


def test_a_voltage_without_a_space() -> None:
    source = '"sources": [{"name": "s", "kind": "internal", "frequency": "8 MHz"}]'
    check(
        f'{HEAD_JSON}"clock": {{"lowestSupply": ¦"3.3V", {source}}}}}', "json", "Was 3.3 V meant?"
    )
    megavolts = f'{HEAD_JSON}"clock": {{"lowestSupply": "3.3MV", {source}}}}}'
    assert all("meant" not in message for _, message in problems(megavolts, "json"))


@pytest.mark.parametrize("case", NO_QUANTITIES.values(), ids=NO_QUANTITIES.keys())
def test_no_quantity_is_guessed(case: tuple[str, str]) -> None:
    json, _ = _source(*case)
    (_, message) = problems(HEAD_JSON + json.replace(MARK, ""), "json")[0]
    assert "meant" not in message


ONLY_XML = {
    "element out of order": (
        '¦<document title="t"/></chip>',
        "<document> stands too late in <chip>; move it before <space>",
        "document, notes, space, window, instruction, memory",
    ),
    "text": ("\n  ¦Registers of é:\n  </chip>", "no text belongs in <chip>", "put it in <notes>"),
    "text in an element without notes": (
        '<window from="d" into="d" offset="0" first="0" last="0">¦x<singleBit first="0" last="0"/>'
        "y</window></chip>",
        "no text belongs in <window>; remove it",
    ),
    "property for an element": ("¦<registers/></chip>", "write each as <register>"),
    "attribute as an element": (
        '<register name="R">¦<page>3</page></register></chip>',
        "'page' is no element; write it as an attribute: <register page=\"…\">",
    ),
    "element as an attribute": (
        '<register name="R" ¦notes="x"/></chip>',
        "'notes' is no attribute; write a <notes> within <register>",
    ),
    "elements as an attribute": (
        '<register name="R" ¦fields="x"><field name="F" bits="1"/></register></chip>',
        "'fields' is no attribute; write <field> elements within <register>",
    ),
    "comment as an attribute": (
        '<register name="R" ¦comment="x"/></chip>',
        "a comment stands before its element, as <!-- … -->",
    ),
    "element twice": (
        '<register name="R"><notes>a</notes>¦<notes>b</notes></register></chip>',
        "<notes> stands in <register> twice; keep one of them",
    ),
    "element in text": (
        '<register name="R"><notes>a ¦<b>bold</b> c</notes></register></chip>',
        "<b> has no place in <notes>, which holds text only",
    ),
    "attribute of text": (
        '<register name="R"><notes ¦lang="en">a</notes></register></chip>',
        "<notes> has no attributes; remove 'lang'",
    ),
    "element where there is none": (
        '<register name="R"><reserved bits="1">¦<b/></reserved></register></chip>',
        "<b> is unknown in <reserved>, which has attributes only",
    ),
    "leading zero": ('<register name="R" width="¦08"/></chip>', "width is '08'", "Was 8 meant?"),
}


@pytest.mark.parametrize("case", ONLY_XML.values(), ids=ONLY_XML.keys())
def test_what_only_xml_can_get_wrong(case: tuple[str, ...]) -> None:
    check(HEAD_XML + case[0], "xml", *case[1:])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('<!-- é -->¦<device format="1"/>', "outermost element is <device>; it must be <chip>"),
        ('<chip ¦xmlns="urn:x" format="1" name="a"><space name="d" size="1"/></chip>', "xmlns"),
        (
            '<chip format="¦2" name="a"><space name="d" size="1"/></chip>',
            "format is 2; it must be 1",
        ),
        ('<chip format="¦01" name="a"><space name="d" size="1"/></chip>', "format is '01'"),
        (
            '<chip format="1" name="a" intWidth="¦8"><space name="d" size="1"/></chip>',
            "intWidth is 8; it must be one of 16, 32",
        ),
        (
            '<chip format="1" name="a" intWidth="¦ 16"><space name="d" size="1"/></chip>',
            "intWidth is ' 16'",
        ),
        ('¦<chip format="1" name="a"/>', "the element <space> is missing: the address spaces"),
        (
            '<chip format="1" name="a"><space name="d" size="1" ¦\u2071="x"/></chip>',
            "characters that no name of the format has",
        ),
    ],
)
def test_a_wrong_outermost_element(text: str, expected: str) -> None:
    check(text, "xml", expected)


@pytest.mark.parametrize("text", ["[]", "1", "null", '"chip"', "true"])
def test_a_json_document_that_is_no_object(text: str) -> None:
    check(MARK + text, "json", "it must be an object: a chip")


MANY_JSON = """{
 "format": 2,
 "name": "",
 "spaces": [{"name": "D", "size": "10"}],
 "blocks": [
  {"title": "t"},
  {"name": "B", "registers": [
   {"name": "R", "fields": [
    {"nmae": "F",
     "bits": "7-4"}]}]}]
}
"""
MANY_XML = """<chip format="2"
  name="">
 <window/>
 <space name="D"
   size="10"/>
 stray
 <block title="t"/>
 <block name="B">
  <register name="R">
   <field bits="7-4"
     nmae="F"/>
   <value/>
  </register>
 </block>
 <blok/>
</chip>
"""


def test_all_problems_of_a_json_file_are_told_at_once() -> None:
    lines = [place.line for place, _ in problems(MANY_JSON, "json")]
    assert lines == [2, 3, 4, 4, 6, 9, 9, 10]


def test_all_problems_of_an_xml_file_are_told_at_once() -> None:
    lines = [place.line for place, _ in problems(MANY_XML, "xml")]
    # Five attributes are missing in line 3; the name of the field is both missing and misspelt.
    assert lines == [1, 2, *[3] * 5, 4, 4, 5, 6, 7, 10, 10, 11, 12, 15]


def test_a_text_that_is_wrong_in_two_ways_is_told_once() -> None:
    check(HEAD_JSON + f'"family": {MARK}"{"y" * 250}\\n"}}', "json", "200 characters at most")


@pytest.mark.parametrize("spelling", ["json", "xml"])
def test_a_file_with_thousands_of_problems_is_told_the_first_thousand(spelling: str) -> None:
    many = 3000
    names = [f"x{number}" for number in range(many)]
    if spelling == "json":
        text = HEAD_JSON + ", ".join(f'"{name}": 1' for name in names) + "}"
    else:
        text = HEAD_XML + "".join(f"<{name}/>" for name in names) + "</chip>"
    assert len(problems(text, spelling)) == 1000
