"""A finding's place is the very character at which the thing stands, in either spelling."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any
from xml.sax.saxutils import escape, quoteattr

import pytest
from chips import STEADY, Tree, chips
from hypothesis import example, given, settings
from spelled import Path, objects_in, source

from regwright.format.shape import shapes
from regwright.model.finding import ERROR, Finding
from regwright.model.origin import from_steps
from regwright.read.source import Source
from regwright.write.spelling_json import to_json
from regwright.write.spelling_xml import to_xml


def text_at(text: Source, path: Path) -> str:
    """Return what stands at the place of ``path``, to the end of the text."""
    place = text.place(Finding("test", ERROR, "here", from_steps(path)))
    assert place.file == text.name
    # Only a line feed ends a line for an editor; the unusual ones of str.splitlines do not.
    lines = text.text.split("\n")
    return "\n".join([lines[place.line - 1][place.column - 1 :], *lines[place.line :]])


def in_json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def in_xml(value: Any) -> str:
    spelled = str(value).lower() if isinstance(value, bool) else str(value)
    return quoteattr(spelled)[1:]


def plain_values(tree: Tree) -> Iterator[tuple[Path, Any, str, bool]]:
    """Yield each plain value with its path, its XML element and whether XML has an attribute."""
    for item, name, path in objects_in(tree):
        shape = shapes()[str(name)]
        for key, value in item.items():
            if key in shape.attributes:
                yield [*path, key], value, key, True
            elif key in shape.by_property and shape.by_property[key].shape is None:
                yield [*path, key], value, shape.by_property[key].element, False


@settings(STEADY, max_examples=60)
@given(chips())
def test_plain_values(tree: Tree) -> None:
    as_json, as_xml = source(to_json(tree), "json"), source(to_xml(tree), "xml")
    for path, value, element, is_attribute in plain_values(tree):
        assert text_at(as_json, path).startswith(in_json(value))
        expected = in_xml(value) if is_attribute else f"<{element}>{escape(str(value))}"
        assert text_at(as_xml, path).startswith(expected)


@settings(STEADY, max_examples=60)
@given(chips())
def test_plain_values_in_a_text_on_one_line(tree: Tree) -> None:
    as_json = source(json.dumps(tree, separators=(",", ":")), "json")
    as_xml = source(re.sub(r"\n *<", "<", to_xml(tree)), "xml")
    for path, value, _, is_attribute in plain_values(tree):
        assert text_at(as_json, path).startswith(json.dumps(value))
        if is_attribute:
            assert text_at(as_xml, path).startswith(in_xml(value))


@settings(STEADY, max_examples=60)
@given(chips())
def test_objects(tree: Tree) -> None:
    as_json, as_xml = source(to_json(tree), "json"), source(to_xml(tree), "xml")
    for item, _, path in objects_in(tree):
        assert text_at(as_json, path).startswith("{")
        tag = re.match(r"<(\w+)", text_at(as_xml, path))
        assert tag is not None
        if path:
            around = shapes()[_kind_around(tree, path)].by_property
            assert tag[1] == around[next(s for s in reversed(path) if isinstance(s, str))].element
        if "name" in item:
            # The object's own name, not that of one before it.
            assert text_at(as_xml, [*path, "name"]).startswith(in_xml(item["name"]))


def _kind_around(tree: Tree, path: Path) -> str:
    around = path[:-2] if isinstance(path[-1], int) else path[:-1]
    return next(str(name) for _, name, steps in objects_in(tree) if steps == around)


@settings(STEADY, max_examples=100)
@given(chips())
def test_entries_of_a_row_of_flags(tree: Tree) -> None:
    texts = [(source(to_json(tree), "json"), in_json), (source(to_xml(tree), "xml"), in_xml)]
    for item, _, path in objects_in(tree):
        entries = item.get("flags", "").split()
        for index, entry in enumerate(entries):
            for text, spelled in texts:
                at = text_at(text, [*path, "flags", index])
                if text.spelling == "json":
                    assert at.startswith(spelled(entry)[1:-1])
                else:
                    # A quote in the row decides how the writer quotes and escapes all of it.
                    whole = spelled(item["flags"])
                    assert at.startswith(whole.split()[index].removesuffix(whole[-1]))


ROW_JSON = '{"format":1,"name":"é","registers":[{"name":"R","flags":"%s"}]}'
ROW_XML = '<chip format="1" name="é"><register name="R" flags="%s"/></chip>'


@pytest.mark.parametrize(
    ("spelling", "row", "index", "expected"),
    [
        ("json", "EN IE", 1, "IE"),
        ("json", "EN   IE -  -", 3, '-"}'),
        ("json", "EN\\u0020IE", 1, "IE"),
        ("json", "\\u0045N IE", 1, "IE"),
        ("json", "\\\\u0020 IE", 1, "IE"),
        ("json", 'A\\"B \\" C', 2, "C"),
        ("json", "EN IE", 2, "EN IE"),
        ("xml", "EN IE", 1, "IE"),
        ("xml", "EN   IE -  -", 3, '-"'),
        ("xml", "EN\n    IE", 1, "IE"),
        ("xml", "EN&#32;IE&#x20;X", 1, "IE"),
        ("xml", "EN&#032;IE&#x0020;X", 2, "X"),
        ("xml", "A&amp;B &lt; &gt;", 2, "&gt;"),
        ("xml", "EN IE", 2, "EN IE"),
    ],
)
def test_an_entry_of_a_row_however_it_is_spelled(
    spelling: str, row: str, index: int, expected: str
) -> None:
    text = source((ROW_JSON if spelling == "json" else ROW_XML) % row, spelling)
    assert text_at(text, ["registers", 0, "flags", index]).startswith(expected)


@pytest.mark.parametrize(
    ("spelling", "text"),
    [
        ("json", '{"title": "é𝄞\u2028", "name": "HERE"}'),
        ("json", '{"title": "a\\"b",\n\n "nam\\u0065" :\n  "HERE"}'),
        ("json", '{"name1": {"name": 1},\r\n"name": "HERE"}'),
        ("xml", '<chip title="é𝄞\u2028" name="HERE"/>'),
        ("xml", "<chip title='\u0085 name=\"X\"'\n\n  name = \t'HERE'/>"),
        ("xml", '<!-- <chip name="X"> é -->\r\n<chip\r\n title="&gt;>" name="HERE"/>'),
        ("xml", '\ufeff<?xml version="1.0"?><!-- é --><chip name="HERE"/>'),
    ],
)
def test_columns_count_characters(spelling: str, text: str) -> None:
    place = source(text, spelling).place(Finding("test", ERROR, "", (None, "name")))
    line = text.removeprefix("\ufeff").split("\n")[place.line - 1]
    assert line[place.column - 1 :].lstrip('"').startswith("HERE")


@pytest.mark.parametrize(
    ("spelling", "text", "expected"),
    [
        ("json", '{"registers": [{"name": "A"}, {"name": "B"}]}', '{"name": "B"}'),
        ("xml", '<chip><register name="A"/><x/><register name="B"/></chip>', '<register name="B"'),
    ],
)
def test_what_is_missing_is_placed_at_what_is_around_it(
    spelling: str, text: str, expected: str
) -> None:
    for rest in (["width"], ["fields", 3], ["halves", "low", "name"]):
        assert text_at(source(text, spelling), ["registers", 1, *rest]).startswith(expected)


@example({"format": 1, "name": "a", "spaces": [{"name": "d", "size": 1, "title": "d: d:"}]})
@settings(STEADY, max_examples=60)
@given(chips())
def test_a_word_within_a_value(tree: Tree) -> None:
    for text in (source(to_json(tree), "json"), source(to_xml(tree), "xml")):
        for path, value, _, is_attribute in plain_values(tree):
            words = (
                re.findall(r"[a-z0-9_]+:", str(value)) if path[-1] in ("address", "base") else []
            )
            for word in {str(word) for word in words if is_attribute}:
                finding = Finding("test", ERROR, "", from_steps(path), word)
                first = Finding("test", ERROR, "", from_steps(path))
                place, start = text.place(finding), text.place(first)
                assert place.line == start.line
                line = text.text.split("\n")[place.line - 1]
                assert line[place.column - 1 :].startswith(word)
                assert line.index(word, start.column - 1) == place.column - 1
