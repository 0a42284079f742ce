"""The shape of the format, read off ``chip.schema.json``: one source for both spellings.

The JSON Schema says what objects there are; its own keywords ``x-element`` (the XML element that
spells a property) and ``x-xml`` (a property that XML spells in a way of its own) say the rest.
The XML reader, the XML writer and the XSD are all made from what this module returns.
"""

import json
from functools import cache
from typing import Any, NamedTuple

from regwright.format.resources import folder

PREFIX = "#/$defs/"


class Child(NamedTuple):
    """A property that XML spells as an element."""

    property: str
    element: str
    shape: str | None  # None: the element holds text
    many: bool


class Shape(NamedTuple):
    """One kind of object: its plain properties and its children, both in the schema's order."""

    name: str
    attributes: tuple[str, ...]
    integers: frozenset[str]
    booleans: frozenset[str]
    children: dict[str, Child]  # by element, in order
    by_property: dict[str, Child]


@cache
def schema() -> dict[str, Any]:
    """Return ``chip.schema.json`` as Python data."""
    text = (folder("schemas") / "chip.schema.json").read_text(encoding="utf-8")
    data: dict[str, Any] = json.loads(text)
    return data


def definition(reference: str) -> dict[str, Any]:
    """Return the definition that ``#/$defs/NAME`` points to."""
    found: dict[str, Any] = schema()["$defs"][reference.removeprefix(PREFIX)]
    return found


def value_schema(specification: dict[str, Any]) -> dict[str, Any]:
    """Return the schema of a property's value, its reference followed."""
    return definition(specification["$ref"]) if "$ref" in specification else specification


def is_integer(specification: dict[str, Any]) -> bool:
    """Tell whether a property is a JSON integer and nothing else."""
    value = value_schema(specification)
    numbers = [type(item) is int for item in value.get("enum", ())]
    return value.get("type") == "integer" or (bool(numbers) and all(numbers))


def _child(name: str, specification: dict[str, Any]) -> Child:
    many = specification.get("type") == "array"
    reference = specification["items"]["$ref"] if many else specification["$ref"]
    shape = reference.removeprefix(PREFIX)
    holds_text = definition(reference).get("type") != "object"
    return Child(name, specification["x-element"], None if holds_text else shape, many)


@cache
def shapes() -> dict[str, Shape]:
    """Return the shape of every kind of object, by its name in the schema."""
    found: dict[str, Shape] = {}
    for name, spec in schema()["$defs"].items():
        if spec.get("type") != "object":
            continue
        properties: dict[str, dict[str, Any]] = spec["properties"]
        children = [_child(key, value) for key, value in properties.items() if "x-element" in value]
        plain = {
            key: value
            for key, value in properties.items()
            if "x-element" not in value and "x-xml" not in value
        }
        found[name] = Shape(
            name,
            tuple(plain),
            frozenset(key for key, value in plain.items() if is_integer(value)),
            frozenset(key for key, value in plain.items() if value.get("type") == "boolean"),
            {child.element: child for child in children},
            {child.property: child for child in children},
        )
    return found
