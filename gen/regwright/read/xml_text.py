"""Read the XML spelling into the same tree as the JSON spelling.

libxml2 parses, through lxml: no network, no entities, no document type at all.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any

from regwright.format.resources import folder
from regwright.format.shape import Shape, shapes
from regwright.read.json_text import NotRead, check_text, syntax_error
from regwright.read.source import Source

if TYPE_CHECKING:
    from lxml import etree

RULE = "xml-syntax"
SCHEMA_LOCATION = "{http://www.w3.org/2001/XMLSchema-instance}noNamespaceSchemaLocation"
_PROLOG = r"(?s)\ufeff?(?:\s+|<\?.*?\?>|<!--.*?-->)*"
_LONGEST_INTEGER = 18


def parse_xml(source: Source, *, keep_comments: bool = False) -> etree._Element:
    """Return the root element.

    Raises :class:`NotRead` for text that is empty, no UTF-8, has a document type or is not well
    formed.
    """
    from lxml import etree

    check_text(source, RULE)
    _refuse_doctype(source)
    parser = etree.XMLParser(
        resolve_entities=False,
        no_network=True,
        load_dtd=False,
        huge_tree=False,
        remove_comments=not keep_comments,
        remove_pis=True,
    )
    try:
        root = etree.fromstring(source.data, parser)
    except etree.XMLSyntaxError as problem:
        line, column = problem.position
        message = f"no XML: {str(problem.msg).partition(', line ')[0]}"
        raise NotRead([syntax_error(RULE, message, max(line, 1), max(column, 1))]) from None
    encoding = root.getroottree().docinfo.encoding or "utf-8"
    if encoding.lower() not in ("utf-8", "us-ascii", "ascii"):
        message = f"the encoding {encoding[:40]!r} is not read; save the file as UTF-8"
        raise NotRead([syntax_error(RULE, message, 1, 1)])
    return root


def _refuse_doctype(source: Source) -> None:
    """Refuse a document type before anything parses it; one can only stand in the prolog."""
    if b"<!DOCTYPE" not in source.data:
        return
    prolog = re.match(_PROLOG, source.text)
    end = prolog.end() if prolog else 0
    if source.text.startswith("<!DOCTYPE", end):
        message = "a document type (<!DOCTYPE …>) has no place in a description; remove it"
        raise NotRead([syntax_error(RULE, message, *source.line_and_column(end))])


@cache
def xml_schema() -> etree.XMLSchema:
    """Return the compiled XSD."""
    from lxml import etree

    return etree.XMLSchema(etree.parse(str(folder("schemas") / "chip.xsd")))


def tree_of(element: etree._Element, shape: Shape, lost: list[int] | None = None) -> dict[str, Any]:
    """Return ``element`` as the JSON spelling would have it.

    Lenient, so that a refused document can be explained: what the shape does not know is kept
    under the name it has, and what is no integer stays text. A comment belongs to the element
    that follows it; the lines of those that no object follows are added to ``lost``.
    """
    tree = _attributes(element, shape)
    comments: list[etree._Element] = []
    for child in element:
        if not isinstance(child.tag, str):
            comments.append(child)
            continue
        value = _add_child(tree, child, shape, lost)
        if comments and isinstance(value, dict):
            rest = dict(value)
            value.clear()
            value.update({"comment": comment_text(comments)}, **rest)
            comments = []
    if comments and lost is not None:
        lost += [comment.sourceline or 1 for comment in comments]
    return tree


def _attributes(element: etree._Element, shape: Shape) -> dict[str, Any]:
    tree: dict[str, Any] = dict(element.attrib)
    if shape.integers:
        for name in tree.keys() & shape.integers:
            digits = tree[name].strip()
            if digits.isascii() and digits.isdigit() and len(digits) <= _LONGEST_INTEGER:
                tree[name] = int(digits)
    if shape.booleans:
        for name in tree.keys() & shape.booleans:
            tree[name] = {"true": True, "false": False}.get(tree[name], tree[name])
    if SCHEMA_LOCATION in tree:
        location = tree.pop(SCHEMA_LOCATION)
        tree["$schema"] = re.sub(r"\.xsd$", ".schema.json", location)
    return tree


def comment_text(comments: list[etree._Element]) -> str:
    """Return XML comments as one line, as the property ``comment`` has it."""
    text = " ".join((comment.text or "").strip(" \t\r\n") for comment in comments)
    return re.sub(r"[ \t]*[\t\r\n]\s*", " ", text).strip(" ")


def _add_child(
    tree: dict[str, Any], element: etree._Element, shape: Shape, lost: list[int] | None
) -> Any:
    known = shape.children.get(str(element.tag))
    if known is None:
        tree.setdefault(str(element.tag), {})
        return None
    value: Any
    if known.shape is None:
        value = element.text or ""
    else:
        value = tree_of(element, shapes()[known.shape], lost)
    if known.many:
        tree.setdefault(known.property, []).append(value)
    else:
        tree[known.property] = value
    return value


def read_xml(source: Source) -> tuple[Any, list[str]]:
    """Return the document as the JSON spelling would have it, and what the XSD holds against it.

    Raises :class:`NotRead` as :func:`parse_xml` does.
    """
    root = parse_xml(source)
    schema = xml_schema()
    valid = schema.validate(root)
    complaints = [] if valid else [f"{entry.line}:{entry.message}" for entry in schema.error_log]
    if root.tag != "chip":
        return {}, complaints
    return tree_of(root, shapes()["chip"]), complaints


def read_xml_with_comments(source: Source) -> tuple[Any, list[int]]:
    """Return a valid document with its comments, and the lines of those it has no place for."""
    root = parse_xml(source, keep_comments=True)
    lost: list[int] = []
    tree = tree_of(root, shapes()["chip"], lost)
    before = [item for item in root.itersiblings(preceding=True) if not isinstance(item.tag, str)]
    if before:
        tree = {"comment": comment_text(before[::-1]), **tree}
    lost += [item.sourceline or 1 for item in root.itersiblings() if not isinstance(item.tag, str)]
    return tree, lost
