"""Read the XML spelling into the same tree as the JSON spelling.

libxml2 parses, through lxml: no network, no entities, no document type at all.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any

from regwright.format.resources import folder
from regwright.format.shape import Child, Shape, shapes
from regwright.read.hardened import NotWellFormed, doctype_at, parse
from regwright.read.json_text import NotRead, check_text, syntax_error
from regwright.read.source import Source

if TYPE_CHECKING:
    from lxml import etree

RULE = "xml-syntax"
SCHEMA_LOCATION = "{http://www.w3.org/2001/XMLSchema-instance}noNamespaceSchemaLocation"
_LOCATION = r"[!-~]{1,200}"
_USUAL = b'<?xml version="1.0" encoding="UTF-8"?>'
_ENCODING = rb"""(?:\xef\xbb\xbf)?<\?xml\s[^>]*?\bencoding\s*=\s*["']([^"'>]*)["']"""
_READ = ("utf-8", "us-ascii", "ascii")

#: The beginnings of what libxml2 says that is no advice, and what to say instead.
_IN_OTHER_WORDS = {
    "Excessive depth": "elements are nested more than 255 deep; no description is, flatten it",
    "Resource limit exceeded": "a text here is longer than 10,000,000 characters; shorten it",
    "Extra content": "the description ends before this; remove what follows it",
}


def parse_xml(source: Source, *, keep_comments: bool = False) -> etree._Element:
    """Return the root element.

    Raises :class:`NotRead` for text that is empty, no UTF-8, has a document type or is not well
    formed.
    """
    check_text(source, RULE)
    _refuse_encoding(source)
    _refuse_doctype(source)
    try:
        return parse(source.data, _IN_OTHER_WORDS, encoding="utf-8", keep_comments=keep_comments)
    except NotWellFormed as problem:
        message, place = problem.message, (problem.line, problem.column)
        raise NotRead([syntax_error(RULE, message, *place)]) from None


def _refuse_encoding(source: Source) -> None:
    """Refuse a declared encoding in which these bytes would mean another text."""
    if source.data.startswith(_USUAL):
        return
    declared = re.match(_ENCODING, source.data)
    if declared is None:
        return
    encoding = declared[1].decode("utf-8")
    if encoding.lower() not in _READ:
        message = (
            f"the encoding {encoding[:40]!r} is not read; save the file as UTF-8 and declare that"
        )
        place = source.line_and_column(len(source.data[: declared.start(1)].decode("utf-8")))
        raise NotRead([syntax_error(RULE, message, *place)])


def _refuse_doctype(source: Source) -> None:
    """Refuse a document type before anything parses it; one can only stand in the prolog."""
    end = doctype_at(source.data)
    if end is not None:
        message = "a document type (<!DOCTYPE …>) has no place in a description; remove it"
        place = source.line_and_column(len(source.data[:end].decode("utf-8")))
        raise NotRead([syntax_error(RULE, message, *place)])


@cache
def xml_schema() -> etree.XMLSchema:
    """Return the compiled XSD; its documentation, half of the text, is for editors alone."""
    from lxml import etree

    text = (folder("schemas") / "chip.xsd").read_bytes()
    bare = re.sub(rb"<xs:annotation>.*?</xs:annotation>", b"", text, flags=re.DOTALL)
    return etree.XMLSchema(etree.fromstring(bare))


def tree_of(element: etree._Element, shape: Shape, lost: list[int] | None = None) -> dict[str, Any]:
    """Return ``element``, which the XSD has accepted, as the JSON spelling would have it.

    A comment belongs to the element that follows it; the lines of those that no object follows,
    or that the property ``comment`` cannot hold, are added to ``lost``.
    """
    tree = _attributes(element, shape)
    comments: list[etree._Element] = []
    for child in element:
        if not isinstance(child.tag, str):
            comments.append(child)
            continue
        known = shape.children[child.tag]
        value = _child_value(child, known, lost)
        if comments and known.shape is not None:
            value = _with_comment(value, comments, lost)
            comments = []
        if known.many:
            tree.setdefault(known.property, []).append(value)
        else:
            tree[known.property] = value
    if comments and lost is not None:
        lost += [comment.sourceline or 1 for comment in comments]
    return tree


def _attributes(element: etree._Element, shape: Shape) -> dict[str, Any]:
    tree: dict[str, Any] = dict(element.attrib)
    if shape.integers:
        for name in tree.keys() & shape.integers:
            tree[name] = int(tree[name])
    if shape.booleans:
        for name in tree.keys() & shape.booleans:
            tree[name] = tree[name] == "true"
    if SCHEMA_LOCATION in tree:
        location = re.sub(r"\.xsd$", ".schema.json", tree.pop(SCHEMA_LOCATION))
        tree = {"$schema": location, **tree}
    return tree


def _child_value(element: etree._Element, known: Child, lost: list[int] | None) -> Any:
    if known.shape is not None:
        return tree_of(element, shapes()[known.shape], lost)
    if lost is not None:
        lost += [inner.sourceline or 1 for inner in element]
    return (element.text or "") + "".join(inner.tail or "" for inner in element)


def _with_comment(
    value: dict[str, Any], comments: list[etree._Element], lost: list[int] | None
) -> dict[str, Any]:
    """Return ``value`` with ``comments`` as one line in its property ``comment``."""
    text = " ".join((comment.text or "").strip(" \t\r\n") for comment in comments)
    text = re.sub(r"[ \t]*[\t\r\n]\s*", " ", text).strip(" ")
    if text and "\x7f" not in text:
        return {"comment": text, **value}
    if lost is not None:
        lost += [comment.sourceline or 1 for comment in comments]
    return value


def foreign_attributes(root: etree._Element, data: bytes) -> list[tuple[int, str]]:
    """Return the line and name of each attribute that only a schema processor knows.

    The XSD lets them pass everywhere. A description has one of them, on its outermost element:
    where an editor finds the schema.
    """
    if b"XMLSchema-instance" not in data:
        return []
    found = []
    declared, used = data.count(b"XMLSchema-instance"), data.count(b"xsi:")
    only_root = SCHEMA_LOCATION in root.attrib and declared == used == 1
    for element in [root] if only_root else root.iter("*"):
        for name, value in element.attrib.items():
            if not name.startswith("{"):
                continue
            is_location = element is root and name == SCHEMA_LOCATION
            if not (is_location and re.fullmatch(_LOCATION, value)):
                found.append((element.sourceline or 1, name.rpartition("}")[2]))
    return found


def read_xml_with_comments(source: Source) -> tuple[Any, list[int]]:
    """Return a valid document with its comments, and the lines of those it has no place for."""
    root = parse_xml(source, keep_comments=True)
    lost: list[int] = []
    tree = tree_of(root, shapes()["chip"], lost)
    before = [item for item in root.itersiblings(preceding=True) if not isinstance(item.tag, str)]
    if before:
        tree = _with_comment(tree, before[::-1], lost)
    lost += [item.sourceline or 1 for item in root.itersiblings() if not isinstance(item.tag, str)]
    return tree, lost
