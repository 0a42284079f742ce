"""What is wrong with a mapping or a document, and where that is said."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from mapping_texts import errors, first_register, mapped, mapping, of_registers, said

from regwright.importing.draft import Draft, Remark
from regwright.importing.mapped.findings import TOLD
from regwright.importing.mapped.mapping import map_document
from regwright.importing.oddities import ODDITIES

XML = "<c>\n <reg n='A' a='1'><f n='F' b='0'/></reg>\n <reg n='B' a='2'/>\n</c>"


def _by_text(text: str, document: str = XML) -> Draft:
    return map_document("chip.xml", document.encode(), "map.json", text.encode())


def _the_error(draft: Draft) -> Remark:
    assert draft.tree is None
    [found] = [item for item in draft.remarks if item.level == "error"]
    assert found.rule in ODDITIES
    return found


@pytest.mark.parametrize(
    ("text", "message", "place"),
    [
        ("", "the file is empty; a mapping was expected", (1, 1)),
        ("{", "no JSON: ", (1, 2)),
        ('{"format": 1,\n "format": 1}', "stands twice", (2, 2)),
        ("[]", "it must be an object|a list", (1, 1)),
        ('{"format": 2, "reads": "xml", "chip": {}}', "format is 2; it must be 1", (1, 12)),
        ('{"format": 1, "reads": "yaml", "chip": {}}', "reads is 'yaml'; it must be", (1, 24)),
        ('{"format": 1, "reads": "xml"}', "the property 'chip' is missing: where the chip", (1, 1)),
        (
            '{"format": 1, "reads": "xml", "chip": {"titel": "@t"}}',
            "'titel' is unknown here .*; did you mean 'title'?",
            (1, 40),
        ),
        (
            '{"format": 1, "reads": "xml", "chip": {"title": 7}}',
            "title is 7; it must be a path, or an object that says where a value is",
            (1, 49),
        ),
        (
            '{"format": 1, "reads": "xml", "chip": {"title": {"number": "hex", "path": "@t"}}}',
            "number is 'hex'; it must be one of \"auto\", \"decimal\"",
            (1, 60),
        ),
        (
            '{"format": 1, "reads": "xml", "chip": {"registers": {"skip": {"pth": "@t"}}}}',
            "'pth' is unknown here .*did you mean 'path'",
            (1, 63),
        ),
    ],
)  # fmt: skip
def test_what_the_schema_refuses(text: str, message: str, place: tuple[int, int]) -> None:
    found = _the_error(_by_text(text))
    assert (found.rule, found.file) == ("mapping-not-valid", "map.json")
    assert re.search(message.replace("?", r"\?"), found.message), found.message
    assert (found.line, found.column) == place


@pytest.mark.parametrize(
    ("rule", "message"),
    [
        ({"title": {}}, "one of path, value, first, key, file is wanted here, and there is none"),
        ({"title": {"path": "@a", "value": "x"}}, "and there is path and value"),
        ({"title": {"path": "@a", "low": "@b"}}, "low has a place only where bits are given"),
        ({"title": {"path": "@a", "defined": "@b"}}, "defined has a place only where a"),
        ({"title": {"path": "@a", "space": "io"}}, "space has a place only where an address is"),
        ({"fields": {"at": "f", "bits": {"high": "@b"}}}, "high alone gives no bits; give low too"),
        ({"fields": {"at": "f", "bits": {"path": "@b", "low": "@b"}}}, "there is path and low"),
        ({"title": {"path": "@a", "pattern": "("}}, "this is no regular expression"),
        ({"title": {"path": "@a", "pattern": "a"}}, "a pattern has one group, ( … )"),
        ({"title": {"path": "@a", "pattern": "(a)(b)"}}, "and this has 2"),
        ({"title": {"path": "@a", "pattern": "(a+)+"}}, "+ after a group may take for ever"),
        ({"title": {"path": "@a", "pattern": "(a*)(?:b*)*"}}, "* after a group may take for ever"),
        ({"title": {"path": "@a", "pattern": "(?=a)(a)"}}, "'(?=' is not taken here"),
        ({"title": {"path": "@a", "pattern": r"(a)\1"}}, "is not taken here"),
        ({"title": {"path": "@a", "pattern": "(a*a*a*a*a*)"}}, "has too many ways to match"),
        ({"title": {"path": "@a", "pattern": "(" + "|a" * 30 + ")"}}, "has too many ways"),
        ({"use": "nothing"}, "'nothing' is nothing that is shared for register; known is nothing"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_in_a_rule(rule: Any, message: str) -> None:
    found = _the_error(mapped(XML, of_registers(rule)))
    assert (found.rule, found.file) == ("mapping-not-valid", "map.json")
    assert message in found.message


def test_shared_rules_that_use_themselves() -> None:
    shared = {"register": {"a": {"use": "b"}, "b": {"use": "a"}}}
    found = _the_error(mapped(XML, of_registers({"use": "a"}), shared=shared))
    assert "uses itself" in found.message


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("@a[", "'@a[' is no XPath 1.0: invalid expression"),
        ("x:a", "a prefix is not declared; add it to namespaces"),
        ("lower-case(@a)", "there is no such function in XPath 1.0"),
        ("document('/etc/passwd')", "there is no such function in XPath 1.0"),
        ("re:test(@a, 'x')", "a prefix is not declared"),
        ("$a", "there are no variables here"),
        ("string(@a", "is no XPath 1.0"),
    ],
)
def test_paths_that_are_no_xpath(path: str, message: str) -> None:
    draft = mapped(XML, of_registers({"title": path}))
    found = _the_error(draft)
    assert (found.rule, found.file) == ("path-not-valid", "map.json")
    assert message in found.message
    lines = mapping(of_registers({"title": path})).decode().splitlines()
    assert lines[found.line - 1][found.column - 1 :].startswith(json.dumps(path))


def test_exslt_functions_are_not_there() -> None:
    namespaces = {"re": "http://exslt.org/regular-expressions", "str": "http://exslt.org/strings"}
    for path in ("re:test(@a, 'x')", "str:tokenize(@a)"):
        draft = mapped(XML, of_registers({"title": path}), namespaces=namespaces)
        assert "there is no such function" in _the_error(draft).message


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("a", "is no JSONPath of RFC 9535"),
        ("$.", "is no JSONPath of RFC 9535"),
        ("$[?(@.a = 1)]", "is no JSONPath of RFC 9535"),
        ("$.a | $.b", "is no JSONPath of RFC 9535"),
        ("$[?nothing(@.a)]", "is no JSONPath of RFC 9535"),
        ("$[01]", "is no JSONPath of RFC 9535"),
    ],
)
def test_paths_that_are_no_jsonpath(path: str, message: str) -> None:
    chip = {"registers": {"at": "$.r[*]", "name": path, "address": {"value": 1}}}
    found = _the_error(mapped('{"r": [{"a": 1}]}', chip, "json"))
    assert (found.rule, found.file) == ("path-not-valid", "map.json")
    assert message in found.message


@pytest.mark.parametrize(
    ("at", "kind"),
    [("reg/@n", "an attribute"), ("reg/text()", "a text"), ("count(reg)", "a number"),
     ("string(reg)", "a text"), ("reg = 1", "a truth value")],
)  # fmt: skip
def test_what_is_no_node(at: str, kind: str) -> None:
    text = "<c><reg n='A'>text</reg></c>"
    found = _the_error(mapped(text, of_registers({"at": at})))
    assert (found.rule, found.file) == ("path-of-wrong-kind", "map.json")
    assert kind in found.message
    assert "elements are wanted here" in found.message


def test_what_has_no_value_in_json() -> None:
    chip = {"registers": {"at": "$.r[*]", "name": "$.n", "address": {"value": 1}}}
    for value, kind in (("[1]", "a list"), ("{}", "an object")):
        found = _the_error(mapped(f'{{"r": [{{"n": {value}}}]}}', chip, "json"))
        assert (found.rule, found.file) == ("path-of-wrong-kind", "map.json")
        assert f"selects {kind}, and a text or number is wanted" in found.message


def test_paths_that_select_nothing_at_all() -> None:
    rule = {"title": "@nowhere", "notes": "@a", "fields": {"at": "g", "name": "@n", "bits": "@b"}}
    draft = mapped(XML, of_registers(rule))
    idle = [item for item in draft.remarks if item.rule == "path-without-result"]
    assert [item.message.partition(" ")[0] for item in idle] == ["@nowhere", "g"]
    assert {(item.level, item.file) for item in idle} == {("warning", "map.json")}
    lines = mapping(of_registers(rule)).decode().splitlines()
    assert "@nowhere" in lines[idle[0].line - 1]


@pytest.mark.parametrize(
    "rule",
    [
        {"title": {"path": "@nowhere", "optional": True}},
        {"title": {"path": "@nowhere", "default": "x"}},
        {"at": ["reg", "cell"]},
    ],
)
def test_paths_that_may_select_nothing(rule: Any) -> None:
    rules = [name for name, _ in said(mapped(XML, of_registers(rule)))]
    assert "path-without-result" not in rules


def test_alike_mistakes_are_told_a_few_times() -> None:
    text = "<c>" + "<reg n='A' a='zz'/>\n" * 100 + "</c>"
    found = errors(mapped(text, of_registers({"address": "@a"})))
    assert len(found) == TOLD + 1
    assert found[-1][1].startswith("90 more like those before it")


def test_what_the_format_refuses_is_said_at_the_document_with_the_rule() -> None:
    draft = mapped("<c>\n<reg n='A'>\n<f n='F'/></reg></c>", of_registers({"fields": {"at": "f"}}))
    found = [item for item in draft.remarks if item.level == "error"]
    assert [(item.line, item.file) for item in found] == [(3, ""), (3, "")]
    assert "the property 'name' is missing" in found[0].message
    assert "(by the rules at map.json:" in found[0].message


@pytest.mark.parametrize(
    ("document", "message", "line"),
    [
        ("", "the file is empty", 1),
        ("<c>\n<reg></c>", "no XML: ", 2),
        ("{}", "no XML: ", 1),
        ("<!DOCTYPE c [<!ENTITY e 'x'>]><c>&e;</c>", "declares entities", 1),
    ],
)
def test_documents_that_are_no_xml(document: str, message: str, line: int) -> None:
    found = _the_error(mapped(document, of_registers({})))
    assert (found.rule, found.file, found.line) == ("not-readable", "", line)
    assert message in found.message


@pytest.mark.parametrize(
    ("document", "message", "place"),
    [
        ("", "the file is empty", (1, 1)),
        ('{"a":\n 1 2}', "no JSON: ", (2, 4)),
        ("<c/>", "no JSON: ", (1, 1)),
        ('{"a": 1,\n "a": 2}', "the name 'a' stands twice", (2, 2)),
        ('{"a":\n ["\\ud800"]}', "half of a surrogate pair", (2, 3)),
        ("[" * 100 + "]" * 100, "nested more than 64 deep", (1, 1)),
        ("[" * 100_000 + "]" * 100_000, "nested more than 64 deep", (1, 1)),
        ("[" + "1" * 5000 + "]", "more digits than any chip needs", (1, 1)),
    ],
)
def test_documents_that_are_no_json(document: str, message: str, place: tuple[int, int]) -> None:
    chip = {"registers": {"at": "$.r[*]", "name": "$.n"}}
    found = _the_error(mapped(document, chip, "json"))
    assert (found.rule, found.file) == ("not-readable", "")
    assert message in found.message
    assert (found.line, found.column) == place


def test_bytes_that_are_no_utf_8() -> None:
    draft = map_document("c.json", b'{"a":\n"\xff"}', "map.json", mapping({}, "json"))
    found = _the_error(draft)
    assert (found.line, "0xFF is no UTF-8" in found.message) == (2, True)


def test_other_encodings_of_xml_are_read() -> None:
    text = "<?xml version='1.0' encoding='{}'?><c><reg n='A' t='é'/></c>"
    for encoding in ("iso-8859-1", "utf-16", "utf-8"):
        data = text.format(encoding).encode(encoding)
        draft = map_document("c.xml", data, "map.json", mapping(of_registers({"title": "@t"})))
        assert first_register(draft)["title"] == "é"


def test_every_remark_has_a_name_with_a_meaning() -> None:
    names = {
        "mapping-not-valid", "path-not-valid", "path-without-result", "path-of-wrong-kind",
        "path-of-several", "lookup-without-result", "value-not-readable", "derived-in-a-circle",
        "derived-from-nothing", "too-much", "took-too-long", "not-readable", "name-mapped",
        "text-shortened", "not-carried-over",
    }  # fmt: skip
    assert names <= ODDITIES.keys()
