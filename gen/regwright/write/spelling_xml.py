"""Write the tree that both spellings share as XML, laid out as a person would."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from regwright.format.shape import Shape, shapes

_LOCATION = 'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:noNamespaceSchemaLocation'
_WIDTH = 100


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def _attributes(tree: dict[str, Any], shape: Shape) -> list[str]:
    found = []
    for name, value in tree.items():
        if name == "$schema":
            location = re.sub(r"\.schema\.json$", ".xsd", value)
            found.append(f"{_LOCATION}={quoteattr(location)}")
        elif name in shape.attributes:
            found.append(f"{name}={quoteattr(_text(value))}")
    return found


def _open(tag: str, attributes: list[str], indent: str, end: str) -> str:
    """Return a start tag, its attributes broken over several lines when they are too long."""
    line = " ".join([f"{indent}<{tag}", *attributes])
    if len(line) + len(end) <= _WIDTH or len(attributes) < 2:
        return line + end
    lines = [f"{indent}<{tag} {attributes[0]}"]
    margin = indent + " " * (len(tag) + 2)
    for attribute in attributes[1:]:
        if len(lines[-1]) + 1 + len(attribute) <= _WIDTH:
            lines[-1] += " " + attribute
        else:
            lines.append(margin + attribute)
    return "\n".join(lines) + end


def _element(tag: str, tree: dict[str, Any], shape: Shape, indent: str) -> Iterator[str]:
    if "comment" in tree:
        yield f"{indent}<!-- {tree['comment']} -->\n"
    children = list(_children(tree, shape, indent + "  "))
    attributes = _attributes(tree, shape)
    if not children:
        yield _open(tag, attributes, indent, "/>") + "\n"
        return
    yield _open(tag, attributes, indent, ">") + "\n"
    yield from children
    yield f"{indent}</{tag}>\n"


def _children(tree: dict[str, Any], shape: Shape, indent: str) -> Iterator[str]:
    for child in shape.children.values():
        if child.property not in tree:
            continue
        value = tree[child.property]
        for item in value if child.many else [value]:
            if child.shape is None:
                yield f"{indent}<{child.element}>{escape(item)}</{child.element}>\n"
            else:
                yield from _element(child.element, item, shapes()[child.shape], indent)


def to_xml(tree: dict[str, Any]) -> str:
    """Return ``tree`` as XML text."""
    body = "".join(_element("chip", tree, shapes()["chip"], ""))
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{body}'
