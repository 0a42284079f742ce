"""Documents and mappings made to take long, blow up, or reach out: an answer comes quickly."""

from __future__ import annotations

import json
import time
from pathlib import Path
from typing import Any

import pytest
from mapping_texts import errors, mapped, mapping, of_registers

from regwright.importing.mapped import finish, gather, process
from regwright.importing.mapped.mapping import map_document
from regwright.importing.mapped.pattern import LONGEST_TEXT, group_in, why_not
from regwright.importing.mapped.reading import import_mapped

MANY = "<c>" + "<reg n='A'><f/></reg>" * 3000 + "</c>"


def _in_time(document: str, chip: dict[str, Any], reads: str = "xml") -> list[tuple[str, str]]:
    """Return the errors of a mapping that may take one second."""
    start = time.monotonic()
    draft = import_mapped("c", document.encode(), "m.json", mapping(chip, reads), seconds=1)
    assert time.monotonic() - start < 20
    return errors(draft)


@pytest.mark.parametrize(
    "path",
    [
        "//*[count(//*[count(//*[count(//*) > 1]) > 1]) > 1]",
        "*[*[../../*[*[../../*[*]]]]][count(//*[//*[//* = //*]]) = 0]",
    ],
)
def test_an_xpath_that_takes_for_ever(path: str) -> None:
    [(rule, message)] = _in_time(MANY, of_registers({"at": path}))
    assert rule == "took-too-long"
    assert "takes longer than 1 s for this document" in message


def test_a_jsonpath_that_takes_for_ever() -> None:
    path = "$..[?count($..[?count($..[?count($..*) > 1]) > 1]) > 1]"
    document = json.dumps([{"a": [index]} for index in range(2000)])
    chip = {"registers": {"at": path, "name": "$.n"}}
    [(rule, _)] = _in_time(document, chip, "json")
    assert rule == "took-too-long"


def test_a_pattern_in_jsonpath_that_takes_for_ever() -> None:
    chip = {"registers": {"at": "$[?match(@.a, '(a|aa)+b')]", "name": "$.a"}}
    [(rule, _)] = _in_time(json.dumps([{"a": "a" * 60}]), chip, "json")
    assert rule == "took-too-long"


def test_a_process_that_fails_is_no_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONHASHSEED", "nonsense")
    with pytest.raises(RuntimeError, match="PYTHONHASHSEED"):
        import_mapped("c", b"<c/>", "m.json", mapping({}))


def test_too_little_memory_is_an_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("REGWRIGHT_MAPPING_MEMORY", str(200 << 20))
    document = "[" + ",".join(["[]"] * 3_000_000) + "]"
    draft = import_mapped("c", document.encode(), "m.json", mapping({}, "json"))
    [(rule, message)] = errors(draft)
    assert rule == "took-too-long"
    assert "more memory" in message


@pytest.mark.parametrize(
    "pattern",
    ["(a*)a*a*", "([a-z]+)[a-z]+[a-z]*", "(.*).*.*", r"(\w+)\s*\w*", "(a?a?a?a?a?a?a?a?a?a?b)",
     "((?:a|a)(?:a|a)(?:a|a)(?:a|a)(?:a|a)(?:a|a)(?:a|a)(?:a|a)c)".replace("((", "((?:", 0),
     "(.{0,99}).{0,99}.{0,99}x"],
)  # fmt: skip
def test_patterns_that_are_taken_are_quick(pattern: str) -> None:
    assert why_not(pattern) == ""
    for text in ("a" * LONGEST_TEXT, "a" * (LONGEST_TEXT - 1) + "!", "ab" * (LONGEST_TEXT // 2)):
        start = time.monotonic()
        group_in(pattern, text)
        assert time.monotonic() - start < 0.5


def test_a_text_that_is_too_long_matches_nothing() -> None:
    assert group_in("(a*)", "a" * LONGEST_TEXT) == "a" * LONGEST_TEXT
    assert group_in("(a*)", "a" * (LONGEST_TEXT + 1)) is None


def test_nothing_outside_the_document_is_read(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("hidden", encoding="utf-8")
    for document in (
        f"<!DOCTYPE c [<!ENTITY e SYSTEM '{secret.as_uri()}'>]><c><reg n='A'><t>&e;</t></reg></c>",
        f"<!DOCTYPE c SYSTEM '{secret.as_uri()}'><c><reg n='A'><t>&e;</t></reg></c>",
        "<c xmlns:x='http://www.w3.org/2001/XInclude'><reg n='A'><t>"
        f"<x:include parse='text' href='{secret.as_uri()}'/></t></reg></c>",
    ):
        draft = mapped(document, of_registers({"title": "t"}))
        assert "hidden" not in str(draft.tree) + str(draft.remarks)


def test_entities_that_blow_up() -> None:
    levels = "".join(f"<!ENTITY e{n} '{f'&e{n - 1};' * 10}'>" for n in range(1, 12))
    for use in ("<reg n='&e11;'/>", "<reg n='A'><t>&e11;</t></reg>"):
        document = f"<!DOCTYPE c [<!ENTITY e0 'xxxxxxxxxx'>{levels}]><c>{use}</c>"
        [(rule, _)] = errors(mapped(document, of_registers({"title": "t"})))
        assert rule == "not-readable"


def test_a_document_type_without_entities_is_no_harm() -> None:
    document = "<!DOCTYPE c SYSTEM 'vendor.dtd'><c><reg n='A'/></c>"
    assert mapped(document, of_registers({})).tree is not None


def test_elements_that_are_nested_too_deeply() -> None:
    document = "<c>" * 100_000 + "</c>" * 100_000
    [(rule, message)] = errors(mapped(document, of_registers({})))
    assert (rule, "255 deep" in message) == ("not-readable", True)


def test_nodes_that_select_themselves() -> None:
    shared = {"block": {"b": {"at": ".", "name": {"value": "B"}, "blocks": {"use": "b"}}}}
    draft = mapped("<c/>", {"blocks": {"use": "b"}}, shared=shared)
    [(rule, message)] = errors(draft)
    assert (rule, "do they select themselves" in message) == ("too-much", True)


def test_more_nodes_than_any_chip_has(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(gather, "MOST_NODES", 10_000)
    fields = {"at": "//f", "name": {"value": "F"}, "bits": {"value": 0}}
    text = "<c>" + "<reg n='A'><f/></reg>" * 200 + "</c>"
    [(rule, message)] = errors(mapped(text, of_registers({"fields": fields})))
    assert (rule, "no chip has so many" in message) == ("too-much", True)


def test_heirs_that_double_with_each_level(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(finish, "MOST_NODES", 10_000)
    blocks = "".join(
        f"<b n='B{n}'><i n='X' like='B{n - 1}'/><i n='Y' like='B{n - 1}'/></b>"
        for n in range(1, 40)
    )
    block: dict[str, Any] = {
        "at": ["b", "i"],
        "name": "@n",
        "offset": {"value": 0},
        "inherit": {"from": {"path": "@like", "optional": True}},
        "blocks": {"use": "b"},
    }
    chip = {"blocks": {"use": "b"}}
    draft = mapped(f"<c><b n='B0'/>{blocks}</c>", chip, shared={"block": {"b": block}})
    assert errors(draft)[0][0] == "too-much"


def test_more_data_than_is_read() -> None:
    draft = mapped("<c>" + " " * (64 << 20) + "</c>", {})
    [(rule, message)] = errors(draft)
    assert (rule, message) == ("not-readable", "the file is larger than 64 MB")


def test_paths_within_the_mapping_are_bounded() -> None:
    [(rule, message)] = errors(mapped("<c/>", of_registers({"title": "/" + "a/" * 300 + "a"})))
    assert rule == "mapping-not-valid"
    assert "a path, or an object" in message


def test_a_mapping_nested_too_deeply_or_of_any_bytes() -> None:
    for text in (b"[" * 50_000, b"\xff\xfe", b"\0", b"null", b'"x"', b"{}" * 2):
        draft = map_document("c.xml", b"<c/>", "m.json", text)
        [(rule, _), *_] = errors(draft)
        assert rule == "mapping-not-valid"
        assert {item.file for item in draft.remarks} == {"m.json"}


def test_the_process_has_a_limit_of_memory() -> None:
    assert process.MEMORY <= 4 << 30
