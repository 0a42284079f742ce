"""Spell parts of a description as elements of the vendor extensions, and read them back.

The spelling is that of a description in XML, in a namespace of its own. A comment, which there
stands before its element, is an attribute here: tools that pass extensions on drop comments.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any
from xml.etree import ElementTree

from regwright.format.shape import PREFIX, Shape, definition, shapes
from regwright.read.numbers import addresses, bit_ranges, number, reset

Tree = dict[str, Any]
#: An element of xml.etree or of lxml: what is used here is the same in both.
Element = Any

NAMESPACE = "urn:regwright:chip:1"
OWN = f"{{{NAMESPACE}}}"


def element_of(tag: str, tree: Tree, shape: Shape, *, members: bool = True) -> Element:
    """Return ``tree`` as an element; without ``members``, leave out registers and blocks."""
    element = ElementTree.Element(OWN + tag)
    for name in ("comment", *shape.attributes):
        if name in tree:
            element.set(name, text_of(tree[name]))
    for child in shape.children.values():
        if child.property not in tree or (not members and child.property in MEMBERS):
            continue
        value = tree[child.property]
        for item in value if child.many else [value]:
            if child.shape is None:
                ElementTree.SubElement(element, OWN + child.element).text = item
            else:
                element.append(element_of(child.element, item, shapes()[child.shape]))
    return element


#: What of a description stands in the standard's own elements, each with its own extension.
MEMBERS = frozenset({"registers", "blocks"})


def text_of(value: Any) -> str:
    """Return a plain value as an attribute holds it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def tree_of(element: Element, shape: Shape) -> Tree:
    """Return what ``element`` says; what the shape does not know is passed over."""
    tree: Tree = {}
    for name in ("comment", *shape.attributes):
        text = element.get(name)
        if text is not None:
            tree[name] = _plain_value(text, name, shape)
    for item in children(element):
        child = shape.children.get(item.tag.removeprefix(OWN)) if item.tag.startswith(OWN) else None
        if child is None:
            continue
        value = item.text or "" if child.shape is None else tree_of(item, shapes()[child.shape])
        if child.many:
            tree.setdefault(child.property, []).append(value)
        else:
            tree[child.property] = value
    return tree


def _plain_value(text: str, name: str, shape: Shape) -> Any:
    if name in shape.integers and re.fullmatch("[0-9]{1,9}", text):
        return int(text)
    if name in shape.booleans and text in ("true", "false"):
        return text == "true"
    return text


def children(element: Element) -> Iterator[Element]:
    """Yield the elements in ``element``, without comments and the like."""
    return (child for child in element if isinstance(child.tag, str))


#: How to compare what is spelled in several ways, by the definition in the schema.
_MEANING: dict[str, Callable[[Any], Any]] = {
    "number": number,
    "reset": reset,
    "bits": bit_ranges,
    "address": lambda text: addresses(text, ""),
    "flags": str.split,
}


def meaning(value: Any, name: str, kind: str) -> Any:
    """Return what the property ``name`` of an object of this kind means, however it is spelled."""
    specification = definition(PREFIX + kind)["properties"][name]
    if isinstance(value, list):
        inner = specification["items"]["$ref"].removeprefix(PREFIX)
        return [meanings(item, inner) for item in value]
    inner = specification.get("$ref", "").removeprefix(PREFIX)
    if isinstance(value, dict):
        return meanings(value, inner)
    read = _MEANING.get(inner)
    return read(value) if read else value


def meanings(tree: Tree, kind: str) -> Tree:
    """Return an object of this kind so that two that mean the same compare equal."""
    return {name: meaning(value, name, kind) for name, value in tree.items() if value != []}


def ordered(tree: Tree, kind: str) -> Tree:
    """Return ``tree`` with its properties in the schema's order."""
    return {name: tree[name] for name in definition(PREFIX + kind)["properties"] if name in tree}
