"""Make ``schemas/mapping.schema.json`` from the format of descriptions and the texts in here.

Run ``python -m regwright.importing.mapped.schema > schemas/mapping.schema.json`` after changing
either; a test fails when they have drifted apart.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from regwright.format.shape import Shape, shapes
from regwright.format.shape import schema as chip_schema
from regwright.importing.mapped.rule_schema import (
    PATH,
    RULE_REFERENCE,
    notation,
    rule,
    without_text,
)

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_ABOUT = (
    "Where things are in an XML or JSON document of any form, and how they are written there, so "
    "that regwright import mapped FILE --mapping THIS makes a description of it. It is JSON, "
    "whichever of the two the document is. Paths are XPath 1.0 without extension functions for "
    "XML, or JSONPath (RFC 9535) for JSON. A path is relative to the node in which its rule "
    "stands: in XPath the element is the context node, in JSONPath $ is the value itself. What "
    "no path reads, nor ignore names, is listed in the report of the import."
)


def _node(name: str, shape: Shape) -> dict[str, Any]:
    """Return what a mapping says of one kind of node: where it is, then all its properties."""
    body = chip_schema()["$defs"][name]
    properties = {key: {"$ref": f"#/$defs/{key}"} for key in _places()}
    for key, specification in body["properties"].items():
        if key in ("$schema", "comment", "format"):
            continue
        child = shape.by_property.get(key)
        words = specification["description"]
        if child is not None and child.shape is not None:
            properties[key] = {
                "description": f"{words} Several places are a list.",
                "$ref": f"#/$defs/{child.shape}",
            }
        else:
            reference = "addresses" if _is_address(specification) else "rule"
            properties[key] = {"description": words, "$ref": f"#/$defs/{reference}"}
    return {
        "description": f"an object that says where this is: {_lower(body['description'])}",
        "type": "object" if name == "chip" else ["object", "array"],
        "additionalProperties": False,
        **({} if name == "chip" else {"maxItems": 16, "items": {"$ref": f"#/$defs/{name}"}}),
        "properties": properties,
    }


def _is_address(specification: dict[str, Any]) -> bool:
    return bool(specification.get("$ref") == "#/$defs/address")


def _lower(words: str) -> str:
    return words[0].lower() + words[1:].rstrip(".")


def _places() -> dict[str, Any]:
    """Return what is said of nodes of any kind, by its name."""
    return {
        "at": {
            "description": "a path, or a list of paths, to these nodes from the node around them; "
            "left out, the node around them is meant itself",
            "type": ["string", "array"],
            "minLength": 1,
            "maxLength": 400,
            "minItems": 1,
            "maxItems": 16,
            "items": {"$ref": "#/$defs/path"},
        },
        "use": {
            "description": "the name of what is shared for this kind; what stands beside it goes "
            "before it. What is shared may use itself, for blocks within blocks",
            "type": "string",
            "minLength": 1,
            "maxLength": 48,
        },
        "lookup": _lookup(),
        "skip": {
            **rule(),
            "description": "a rule that gives true or false: whether to leave a node out, with "
            "all that is in it. An XPath may be a comparison, or boolean(…)",
        },
        "inherit": _inherit(),
        "fixed": {
            "description": "an object with properties just as a description has them in JSON, for "
            "what the document does not say",
            "type": "object",
        },
    }


def mapping_schema_text() -> str:
    """Return the text of ``schemas/mapping.schema.json``."""
    kinds = {name: _node(name, shape) for name, shape in shapes().items()}
    whole = {
        "$schema": _DIALECT,
        "$id": "urn:regwright:mapping:1",
        "title": "Mapping of a document to a description, format 1",
        "description": _ABOUT,
        "type": "object",
        "additionalProperties": False,
        "required": ["format", "reads", "chip"],
        "properties": _outermost(kinds),
        "$defs": {
            "path": PATH,
            "notation": notation(),
            "rule": rule(),
            "addresses": {
                **rule(),
                "description": "a rule for the address, or a list of rules, one for each space",
                "type": ["string", "object", "array"],
                "minItems": 1,
                "maxItems": 16,
                "items": RULE_REFERENCE,
            },
            **_places(),
            **kinds,
        },
    }
    return _laid_out(whole, "") + "\n"


def _laid_out(value: Any, indent: str) -> str:
    """Return JSON in which what holds nothing deeper stands on one line."""
    if not isinstance(value, dict) or _depth(value) <= 2:
        return json.dumps(value, ensure_ascii=False)
    inner = f"{indent}  "
    lines = [f"{inner}{json.dumps(key)}: {_laid_out(item, inner)}" for key, item in value.items()]
    return "{\n" + ",\n".join(lines) + f"\n{indent}}}"


def _depth(value: Any) -> int:
    return 1 + max(map(_depth, value.values()), default=0) if isinstance(value, dict) else 0


def _outermost(kinds: dict[str, Any]) -> dict[str, Any]:
    return {
        "$schema": {
            "description": "Where an editor finds this schema; regwright itself ignores it.",
            "type": "string",
        },
        "format": {"description": "The version of this format.", "enum": [1]},
        "title": {
            "description": "What documents it is for; a remark.",
            "type": "string",
            "maxLength": 200,
        },
        "reads": {"description": "What the document is.", "enum": ["xml", "json"]},
        "namespaces": {
            "description": "The prefixes that XPaths use, each with its namespace.",
            "type": "object",
            "maxProperties": 32,
            "properties": {},
            "additionalProperties": {
                "description": "the name of a namespace",
                "type": "string",
                "minLength": 1,
            },
        },
        "numbers": {
            "description": "How a number is written for which its rule does not say it; auto when "
            "it is left out.",
            "$ref": "#/$defs/notation",
        },
        "ignore": {
            "description": "What is not read on purpose and not to be listed: names of elements, "
            "@attribute, element/@attribute or element/text() for XML, names of members for JSON.",
            "type": "array",
            "maxItems": 256,
            "items": {"description": "a name", "type": "string", "minLength": 1},
        },
        "shared": {
            "description": "Rules that are used in several places, for each kind by a name.",
            "type": "object",
            "additionalProperties": False,
            "properties": {name: _shared(name) for name in kinds if name != "chip"},
        },
        "chip": {
            "description": "Where the chip and what it holds are. Without at it is the outermost "
            "element or value.",
            "$ref": "#/$defs/chip",
        },
    }


def _shared(name: str) -> dict[str, Any]:
    return {
        "description": f"What is shared for {name}, by names.",
        "type": "object",
        "properties": {},
        "additionalProperties": {
            "description": f"an object that says where a {name} is and what it holds",
            "$ref": f"#/$defs/{name}",
            "type": "object",
        },
    }


def _lookup() -> dict[str, Any]:
    return {
        "description": "an object that says which nodes elsewhere in the document to start from",
        "type": "object",
        "additionalProperties": False,
        "required": ["in", "by", "key"],
        "properties": {
            "in": {
                "description": "The path to all nodes that may be meant, from the outermost "
                "element or value.",
                **without_text(PATH),
            },
            "by": {
                "description": "What names each of those; all that have the name are meant.",
                **RULE_REFERENCE,
            },
            "optional": {
                "description": "True when it is right that none of them has the name.",
                "type": "boolean",
            },
            "key": {
                "description": "The name of the one that is meant; with none, there is nothing "
                "here.",
                **RULE_REFERENCE,
            },
        },
    }


def _inherit() -> dict[str, Any]:
    return {
        "description": "an object that says which node this takes all from that is not given here",
        "type": "object",
        "additionalProperties": False,
        "required": ["from"],
        "properties": {
            "from": {
                "description": "The name of the other node: one beside this, or the only one of "
                "that name, or NAME.NAME with that of what is around it.",
                **RULE_REFERENCE,
            },
            "key": {
                "description": "What names a node for this; its name, as the document has it, when "
                "it is left out.",
                **RULE_REFERENCE,
            },
        },
    }


if __name__ == "__main__":
    sys.stdout.write(mapping_schema_text())
