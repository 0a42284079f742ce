"""What the schema of mappings says of paths, rules and numbers: the texts that users read."""

from __future__ import annotations

from typing import Any

from regwright.importing.mapped.notations import NOTATIONS

PATH = {
    "description": "a path of 1 to 400 characters: XPath 1.0 when XML is read, JSONPath when JSON "
    "is",
    "type": "string",
    "minLength": 1,
    "maxLength": 400,
}
_PLAIN = {
    "description": "a text, a number, or true or false, as a description has it",
    "type": ["string", "integer", "boolean"],
}
_PLAIN_OR_NULL = {
    "description": "a text, a number, or true or false, as a description has it; null for nothing",
    "type": ["string", "integer", "boolean", "null"],
}
_WORDS = {
    "type": "array",
    "minItems": 1,
    "maxItems": 64,
    "items": {"description": "a word", "type": "string"},
}
RULE_REFERENCE = {"$ref": "#/$defs/rule"}


def rule() -> dict[str, Any]:
    """Return the schema of a rule for one value."""
    return {
        "description": "a path, or an object that says where a value is and how it is written",
        "type": ["string", "object"],
        "minLength": 1,
        "maxLength": 400,
        "additionalProperties": False,
        "properties": {**_sources(), **_parts(), **_texts(), **_numbers()},
    }


def _sources() -> dict[str, Any]:
    """Return the ways to a value; a rule has one of them, or the parts of bits."""
    return {
        "path": {
            "description": "The path to the value: an attribute, an element with text, a text, or "
            "what an XPath computes; a text, number, true or false in JSON.",
            **without_text(PATH),
        },
        "value": {
            "description": "The value itself, as a description has it.",
            **without_text(_PLAIN),
        },
        "first": {
            "description": "Rules, of which the first one that gives something is taken.",
            "type": "array",
            "minItems": 1,
            "maxItems": 16,
            "items": RULE_REFERENCE,
        },
        "key": {
            "description": "The name under which the node stands: of a member in JSON, of the "
            "element in XML. 0 is the node itself, 1 what is around it, and so on.",
            "type": "integer",
            "minimum": 0,
            "maximum": 16,
        },
        "file": {
            "description": "The name of the document's file, up to its first period.",
            "enum": [True],
        },
        "up": {
            "description": "From how many nodes further out the path starts: 1 is the node that "
            "this one was found in. JSONPath has no other way there.",
            "type": "integer",
            "minimum": 1,
            "maximum": 16,
        },
        "optional": {
            "description": "True when it is right that the path selects nothing in some document.",
            "type": "boolean",
        },
        "default": {
            "description": "What is taken when there is nothing, as a description has it.",
            **without_text(_PLAIN),
        },
    }


def _parts() -> dict[str, Any]:
    return {
        "high": {"description": "The higher bit, for bits; low is given too.", **RULE_REFERENCE},
        "low": {
            "description": "The lower bit, for bits; with neither high nor width it is one bit. "
            "When high is less than low, they change places.",
            **RULE_REFERENCE,
        },
        "width": {
            "description": "How many bits, for bits; low is given too.",
            **RULE_REFERENCE,
        },
        "mask": {
            "description": "A number with a 1 for each bit, for bits.",
            **RULE_REFERENCE,
        },
        "separator": {
            "description": "What stands between the two bits of a range in a text such as 7:4, or "
            "[7:4]; a colon when it is left out.",
            "type": "string",
            "minLength": 1,
            "maxLength": 8,
        },
        "numbered": {
            "description": "How bits are numbered: from-high when bit 0 is the register's highest.",
            "enum": ["from-low", "from-high"],
        },
        "defined": {
            "description": "A number with a 1 for each bit that has a value after reset, for a "
            "value after reset; the others are undefined.",
            **RULE_REFERENCE,
        },
        "space": {
            "description": "The space that an address is in. A list of rules gives one address "
            "in each of several spaces.",
            "type": "string",
            "maxLength": 24,
            "pattern": "^[a-z][a-z0-9_]*$",
        },
    }


def _texts() -> dict[str, Any]:
    return {
        "join": {
            "description": "What to put between several values that the path selects; without it "
            "only one is expected.",
            "type": "string",
            "maxLength": 8,
        },
        "pattern": {
            "description": "A regular expression with one group, which must match the whole text; "
            "the group is taken. It has no repetition of groups, no look-around and no reference "
            "back, and a text for it has 200 characters at most.",
            "type": "string",
            "minLength": 1,
            "maxLength": 200,
        },
        "case": {"description": "In which case to take the text.", "enum": ["upper", "lower"]},
        "table": {
            "description": "What each word stands for, as a description has it; null for nothing. "
            "An empty word stands for a value that is not there.",
            "type": "object",
            "maxProperties": 256,
            "properties": {},
            "additionalProperties": _PLAIN_OR_NULL,
        },
        "otherwise": {
            "description": "What a word that is not in the table stands for; null for nothing.",
            **without_text(_PLAIN_OR_NULL),
        },
        "true": {"description": "The words that say yes; in any case.", **_WORDS},
        "false": {"description": "The words that say no; in any case.", **_WORDS},
    }


def _numbers() -> dict[str, Any]:
    return {
        "number": {"$ref": "#/$defs/notation", "description": "How the number is written."},
        "times": {
            "description": "What the number is multiplied by, 8 for bytes that are to be bits.",
            "type": "integer",
            "minimum": 1,
            "maximum": 1048576,
        },
        "plus": {
            "description": "What is added to the number, after it was multiplied.",
            "type": "integer",
            "minimum": -1048576,
            "maximum": 1048576,
        },
    }


def without_text(part: dict[str, Any]) -> dict[str, Any]:
    """Return ``part`` for a property that is described in its own words."""
    return {key: value for key, value in part.items() if key != "description"}


def notation() -> dict[str, Any]:
    """Return the schema of how numbers are written."""
    return {
        "description": "how numbers are written: decimal; hexadecimal, with 0x or without; c, as "
        "ISO C has them, so that 010 is eight; h, hexadecimal with an h after it, else decimal; "
        "binary and octal, with 0b or 0o or without; sized, as 8'h1F; auto (when nothing is said) "
        "takes what can mean one number only, and refuses the rest. A number of JSON is itself",
        "enum": list(NOTATIONS),
    }
