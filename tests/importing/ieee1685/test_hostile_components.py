"""Files made to hurt: each is refused clearly, and quickly."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from components import (
    LATER,
    block,
    component,
    field,
    little,
    memory_map,
    parameters,
    register,
)
from outlines import held

from regwright.importing.draft import Draft
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.model.finding import ERROR


@pytest.fixture(autouse=True)
def quickly() -> Iterator[None]:
    start = time.process_time()
    yield
    assert time.process_time() - start < 4


def imported(data: bytes, wishes: Wishes | None = None) -> Draft:
    return held(import_ieee1685("little.xml", data, wishes or Wishes()))


def errors(draft: Draft) -> list[str]:
    return [remark.message for remark in draft.remarks if remark.level == ERROR]


def refused(data: bytes, *words: str, wishes: Wishes | None = None) -> None:
    """Check that there is an error with each of ``words``."""
    found = errors(imported(data, wishes))
    assert found
    for word in words:
        assert any(word in message for message in found), (word, found)


def test_entity_bomb() -> None:
    entities = "".join(
        f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' if n else '<!ENTITY e0 "ha">' for n in range(10)
    )
    data = b"<!DOCTYPE x [" + entities.encode() + b"]><x>&e9;</x>"
    refused(data, "document type")


def test_external_entity(tmp_path: Path) -> None:
    secret = tmp_path / "secret"
    secret.write_text("not for you")
    data = f'<!DOCTYPE x [<!ENTITY e SYSTEM "{secret.as_uri()}">]><x>&e;</x>'
    refused(data.encode(), "document type")
    refused(data.encode("utf-16"), "document type")


@pytest.mark.parametrize("encoding", ["utf-7", "cp037", "utf-32"])
def test_document_type_in_an_encoding_without_ascii(encoding: str) -> None:
    head = f'<?xml version="1.0" encoding="{encoding}"?>'
    data = head.encode() + "<!DOCTYPE x [<!ENTITY e 'a'>]><x>&e;</x>".encode(encoding)
    refused(data, "not read")


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"", "no XML"),
        (b"\x00\x01\x02", "zero bytes"),
        (b"\xff\xfe<", "UTF-16"),
        (b"<a>", "no XML"),
        (b"<a/>", "no namespace"),
        (b'<a xmlns="urn:x"/>', "not that of IEEE 1685"),
        (b"<" + b"a" * 1000, "no XML"),
    ],
)
def test_no_component(data: bytes, word: str) -> None:
    refused(data, word)


@pytest.mark.parametrize("year", ["1.0", "1.1", "1.2"])
def test_editions_that_are_too_old(year: str) -> None:
    namespace = f"http://www.spiritconsortium.org/XMLSchema/SPIRIT/{year}"
    refused(component("", namespace=namespace), year, "too far", "convert")


def test_other_documents() -> None:
    refused(component("", root="design"), "<design>", "not a component")
    refused(component(""), "no memory map")


def test_elements_nested_too_deeply() -> None:
    data = component("<i:a>" * 300 + "</i:a>" * 300)
    refused(data, "255 deep")


def test_register_files_nested_as_deeply_as_xml_goes() -> None:
    head = "<i:registerFile><i:name>f</i:name><i:addressOffset>0</i:addressOffset>"
    deep = (head + "<i:range>4</i:range>") * 240 + register() + "</i:registerFile>" * 240
    refused(little(deep), "64 deep")


def test_register_files_beyond_what_descriptions_nest_are_dissolved() -> None:
    head = "<i:registerFile><i:name>f</i:name><i:dim>2</i:dim><i:addressOffset>4</i:addressOffset>"
    deep = (head + "<i:range>1024</i:range>") * 10 + register() + "</i:registerFile>" * 10
    draft = imported(component(memory_map(block(deep, "65536"))))
    assert errors(draft) == []
    assert [remark.rule for remark in draft.remarks].count("block-dissolved") == 1


@pytest.mark.parametrize("offset", ["2**2**99", "9**9999", "'hFFFF_FFFF_FFFF_FFFF_F", "-4", "1e30"])
def test_numbers_that_are_no_address(offset: str) -> None:
    refused(little(register(offset=offset)), "'R'", "cannot be placed")


def test_a_million_operators() -> None:
    refused(little(register(offset="+".join(["1"] * 1_000_000))), "longer than 10000")


def test_parentheses_without_end() -> None:
    refused(little(register(offset="(" * 9000)), "64 deep")


def test_digits_without_end() -> None:
    refused(little(register(offset="9" * 1_000_000)), "'R'")


def test_parameters_in_a_circle() -> None:
    data = little(register(offset="A"), A="B + 1", B="C * 2", C="A")
    refused(data, "circle: A → B → C → A")


def test_parameters_that_refer_to_themselves_twice() -> None:
    """Each refers to the next one twice: without a memory that would be 2 ** 45 steps."""
    values = {f"P{n}": f"P{n + 1} + P{n + 1}" for n in range(45)}
    refused(little(register(offset="P0"), **values, P45="2 ** 30"), "'R'")


def test_a_long_chain_of_parameters() -> None:
    values = {f"P{n}": f"P{n + 1}" for n in range(5000)}
    refused(little(register(offset="P0"), **values, P5000="0"), "50 steps")


@pytest.mark.parametrize("size", ["10**9", "99999999999999999999999"])
def test_arrays_without_end(size: str) -> None:
    refused(little(register(head=f"<i:dim>{size}</i:dim>")), "'R'")
    file = "<i:registerFile><i:name>f</i:name><i:dim>{}</i:dim><i:addressOffset>0</i:addressOffset>"
    refused(little(file.format(size) + "<i:range>4</i:range></i:registerFile>"), "'f'")


def test_arrays_of_many_dimensions() -> None:
    dimensions = "<i:dim>2</i:dim>" * 1000
    refused(little(register(head=dimensions)), "more than 4096")


def test_arrays_within_arrays() -> None:
    head = "<i:registerFile><i:name>f</i:name><i:dim>99</i:dim><i:addressOffset>0</i:addressOffset>"
    nested = (head + "<i:range>4</i:range>") * 5 + register() + "</i:registerFile>" * 5
    draft = imported(little(nested))
    assert draft.tree is None
    assert "more than 65536 registers" in errors(draft)[0]


def test_fields_without_end() -> None:
    """An array of a thousand million fields, and more fields than bits."""
    many = field(width="1").replace(
        "<i:bitOffset>", "<i:array><i:dim>10**9</i:dim></i:array><i:bitOffset>"
    )
    data = component(memory_map(block(register(content=many))), namespace=LATER)
    refused(data, "field 'F'", "more than 4096")
    fields = "".join(field(f"F{n}", "0") for n in range(5000))
    refused(little(register(content=fields)), "more than 64 fields")


def test_values_without_end() -> None:
    values = "".join(
        f"<i:enumeratedValue><i:name>V{n}</i:name><i:value>{n}</i:value></i:enumeratedValue>"
        for n in range(5000)
    )
    content = f"<i:enumeratedValues>{values}</i:enumeratedValues>"
    refused(little(register(content=field(width="32", content=content))), "1024 named values")


def test_a_register_of_a_million_bits() -> None:
    refused(little(register(size="1000000")), "not 1 to 4096")


def test_many_fields_that_are_aliases_of_nothing() -> None:
    alias = '<i:aliasOf><i:registerRef registerRef="X"/><i:fieldRef fieldRef="F"/></i:aliasOf>'
    fields = (
        f"<i:field><i:name>F{n}</i:name><i:bitOffset>0</i:bitOffset>{alias}</i:field>"
        for n in range(20)
    )
    content = "".join(fields)
    registers = "".join(register(f"R{n}", str(4 * n), content=content) for n in range(500))
    data = component(memory_map(block(registers, "4000")), namespace=LATER)
    refused(data, "alias of 'X.F', which is not found")


def test_a_description_of_a_megabyte() -> None:
    text = "<b>" * 100_000 + "&amp;" * 100_000
    escaped = text.replace("<", "&lt;")
    draft = imported(little(register(head=f"<i:description>{escaped}</i:description>")))
    assert "text-shortened" in {remark.rule for remark in draft.remarks} or draft.tree


def _types(definitions: str, external: str, name: str = "types") -> bytes:
    return (
        f'<i:typeDefinitions xmlns:i="{LATER}"><i:vendor>v</i:vendor><i:library>l</i:library>'
        f"<i:name>{name}</i:name><i:version>1</i:version>{external}{definitions}"
        "</i:typeDefinitions>"
    ).encode()


def _external(name: str = "types", library: str = "l", label: str = "t") -> str:
    return (
        f"<i:externalTypeDefinitions><i:name>{label}</i:name><i:typeDefinitionsRef "
        f'vendor="v" library="{library}" name="{name}" version="1"/></i:externalTypeDefinitions>'
    )


def _uses(external: str) -> bytes:
    file = (
        "<i:registerFile><i:name>f</i:name><i:addressOffset>0</i:addressOffset>"
        '<i:registerFileDefinitionRef typeDefinitions="t">a</i:registerFileDefinitionRef>'
        "</i:registerFile>"
    )
    return component(
        memory_map(block(file)),
        before=f"<i:typeDefinitions>{external}</i:typeDefinitions>",
        namespace=LATER,
    )


def _definition(name: str, *to: str) -> str:
    files = "".join(
        f"<i:registerFile><i:name>f{n}</i:name><i:addressOffset>0</i:addressOffset>"
        f'<i:registerFileDefinitionRef typeDefinitions="t">{target}</i:registerFileDefinitionRef>'
        "</i:registerFile>"
        for n, target in enumerate(to)
    )
    return (
        f"<i:registerFileDefinition><i:name>{name}</i:name><i:range>4</i:range>"
        f"{files or register(content=field())}</i:registerFileDefinition>"
    )


def _folder(tmp_path: Path, *definitions: str) -> Wishes:
    group = f"<i:registerFileDefinitions>{''.join(definitions)}</i:registerFileDefinitions>"
    (tmp_path / "types.xml").write_bytes(_types(group, _external()))
    return Wishes(search=(tmp_path,))


def test_definitions_in_a_circle(tmp_path: Path) -> None:
    wishes = _folder(tmp_path, _definition("a", "b"), _definition("b", "a"))
    refused(_uses(_external()), "'a' (registerFileDefinition) refers to itself", wishes=wishes)


def test_definitions_that_double_each_time(tmp_path: Path) -> None:
    steps = [_definition("a" if n == 0 else f"d{n}", f"d{n + 1}", f"d{n + 1}") for n in range(30)]
    wishes = _folder(tmp_path, *steps, _definition("d30"))
    refused(_uses(_external()), "more than", wishes=wishes)


def test_a_long_chain_of_definitions(tmp_path: Path) -> None:
    steps = [_definition("a" if n == 0 else f"d{n}", f"d{n + 1}") for n in range(100)]
    wishes = _folder(tmp_path, *steps, _definition("d100"))
    refused(_uses(_external()), "32 steps", wishes=wishes)


@pytest.mark.parametrize("name", ["../outside", "../outside.xml", "/etc/passwd", "..\\outside"])
def test_an_identifier_is_no_path(tmp_path: Path, name: str) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    group = f"<i:registerFileDefinitions>{_definition('a')}</i:registerFileDefinitions>"
    (tmp_path / "outside.xml").write_bytes(_types(group, "", "outside"))
    wishes = Wishes(search=(inside,))
    refused(_uses(_external(name)), "is not found", "is in no file", wishes=wishes)
    refused(_uses(_external("types", library=name)), "is not found", wishes=wishes)


def test_broken_files_in_the_search_path_do_not_matter(tmp_path: Path) -> None:
    wishes = _folder(tmp_path, _definition("a"))
    (tmp_path / "a-bomb.xml").write_bytes(b"<!DOCTYPE x [<!ENTITY e 'x'>]><x>&e;</x>")
    (tmp_path / "a-broken.xml").write_bytes(b"<x><y></x>")
    (tmp_path / "a-folder.xml").mkdir()
    (tmp_path / "a-loop.xml").symlink_to(tmp_path / "a-loop.xml")
    assert errors(imported(_uses(_external()), wishes)) == []


def test_a_document_with_a_bomb_behind_its_identifier(tmp_path: Path) -> None:
    data = _types("", "").replace(b"</i:typeDefinitions>", b"<i:x>&e;</i:x></i:typeDefinitions>")
    (tmp_path / "types.xml").write_bytes(data)
    refused(_uses(_external()), "types.xml cannot be read", wishes=Wishes(search=(tmp_path,)))


def test_more_than_65_536_lines_are_counted() -> None:
    data = little("\n" * 70_000 + register(offset="NOBODY"))
    lines = {remark.line for remark in imported(data).remarks if remark.level == ERROR}
    assert min(lines) > 70_000


def test_parameters_are_read_once() -> None:
    """A thousand registers whose offsets are sums of parameters."""
    values = {f"P{n}": str(4 * n) for n in range(1000)}
    registers = "".join(register(f"R{n}", f"P{n} + 0") for n in range(1000))
    data = component(memory_map(block(registers, "4000")), after=parameters(**values))
    assert errors(imported(data)) == []


def test_thousands_of_things_with_one_name() -> None:
    registers = "".join(register("R", str(4 * n)) for n in range(9000))
    fields = "".join(field("F", "0") for _ in range(60))
    data = component(memory_map(block(registers + register("S", "0", content=fields), "36000")))
    draft = imported(data)
    assert draft.tree is not None
    names = {item["name"] for item in draft.tree["blocks"][0]["registers"]}
    assert len(names) == 9001


def test_thousands_of_subspace_maps() -> None:
    segments = "".join(
        f"<i:segment><i:name>s{n}</i:name><i:addressOffset>{n}</i:addressOffset>"
        "<i:range>1</i:range></i:segment>"
        for n in range(3000)
    )
    maps = "".join(
        f'<i:subspaceMap masterRef="m" segmentRef="s2999"><i:name>t{n}</i:name>'
        f"<i:baseAddress>{n + 4000}</i:baseAddress></i:subspaceMap>"
        for n in range(3000)
    )
    before = (
        "<i:busInterfaces><i:busInterface><i:name>m</i:name><i:master><i:addressSpaceRef "
        'addressSpaceRef="a"/></i:master></i:busInterface></i:busInterfaces>'
        f"<i:addressSpaces><i:addressSpace><i:name>a</i:name><i:range>4000</i:range>"
        f"<i:width>8</i:width><i:segments>{segments}</i:segments></i:addressSpace>"
        "</i:addressSpaces>"
    )
    draft = imported(component(memory_map(maps), before=before))
    assert draft.tree is not None
    assert len(draft.tree["windows"]) == 16
