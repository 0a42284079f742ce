"""Write and read trees in tests, apart from the program's own writers where those are too kind."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from regwright.format.shape import Shape, definition, shapes
from regwright.read.description import read_tree
from regwright.read.json_text import NotRead
from regwright.read.source import Source

Tree = dict[str, Any]
Path = list[str | int]

#: What stands for a number may be a JSON integer or a text; XML knows texts only.
NUMBERS = {"#/$defs/number", "#/$defs/reset", "#/$defs/address", "#/$defs/bits"}
LOCATION = 'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:noNamespaceSchemaLocation'
_LINE_ENDS = {"\r": "&#13;"}


def source(text: str, spelling: str) -> Source:
    return Source(f"chip.{spelling}", text.encode("utf-8"), spelling)


def is_accepted(text: str, spelling: str) -> bool:
    """Tell whether the program takes ``text`` for a description."""
    try:
        _, findings = read_tree(source(text, spelling))
    except NotRead:
        return False
    return not findings


def loose_xml(tree: Tree) -> str:
    """Spell any tree as XML, right or wrong: unlike the program's writer it leaves nothing out."""
    return "".join(_element("chip", tree, shapes()["chip"]))


def _element(tag: str, tree: Tree, shape: Shape | None) -> Iterator[str]:
    children = shape.by_property if shape else {}
    order = [*children, *(key for key in tree if key not in children)]
    attributes = [
        f" {LOCATION if key == '$schema' else key}={quoteattr(_text(value))}"
        for key, value in tree.items()
        if not isinstance(value, (dict, list)) and key not in children and key != "comment"
    ]
    yield f"<{tag}{''.join(attributes)}>"
    for key in order:
        if key not in tree:
            continue
        value = tree[key]
        child = children.get(key)
        inner = shapes().get(child.shape or "") if child else None
        element = child.element if child else key
        for item in value if isinstance(value, list) else [value]:
            if isinstance(item, dict):
                yield from _element(element, item, inner)
            elif child:
                yield f"<{element}>{escape(_text(item), _LINE_ENDS)}</{element}>"
    yield f"</{tag}>"


def _text(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def normal(tree: Any, name: str = "chip") -> Any:
    """Return ``tree`` with numbers as texts and without empty lists, which XML cannot tell."""
    properties = definition(f"#/$defs/{name}")["properties"]
    found: Tree = {}
    for key, value in tree.items():
        child = shapes()[name].by_property.get(key)
        if value == []:
            continue
        if child and child.shape and isinstance(value, list):
            found[key] = [normal(item, child.shape) for item in value]
        elif child and child.shape:
            found[key] = normal(value, child.shape)
        else:
            is_number = properties[key].get("$ref") in NUMBERS
            found[key] = str(value) if is_number else value
    return found


def objects_in(tree: Any, name: str | None = "chip", path: Path | None = None) -> Iterator[Any]:
    """Yield each object of ``tree`` with its kind (``None`` if it has none) and its path."""
    path = path or []
    yield tree, name, path
    children = shapes()[name].by_property if name else {}
    for key, value in tree.items():
        inner = children[key].shape if key in children else None
        for index, item in enumerate(value if isinstance(value, list) else [value]):
            if isinstance(item, dict):
                steps = [key, index] if isinstance(value, list) else [key]
                yield from objects_in(item, inner, [*path, *steps])


def as_json(tree: Any) -> str:
    return json.dumps(tree, ensure_ascii=False)
