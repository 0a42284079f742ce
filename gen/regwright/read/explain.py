"""Say what a schema holds against a document, in words that tell what to write instead.

``jsonschema-rs`` (for JSON) or libxml2's XSD (for XML) has decided that the document is refused;
``jsonschema`` walks the tree that both spellings share and explains it, all problems in one run.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Any

from regwright.format.shape import schema
from regwright.model.finding import ERROR, Finding
from regwright.model.origin import from_steps

if TYPE_CHECKING:
    from jsonschema.protocols import Validator

    #: Typed as anything: what an error holds depends on the keyword it is about.
    SchemaError = Any

RULE = "schema"


@cache
def explaining_validator() -> Validator:
    """Return a ``jsonschema`` validator whose patterns mean what ECMA 262 says.

    Python's ``$`` also matches before a final line break; ECMA's, and that of the deciding
    validator, does not.
    """
    from jsonschema import Draft202012Validator, ValidationError, validators

    def pattern(
        _validator: Validator, pattern: str, instance: Any, _schema: Any
    ) -> Iterator[ValidationError]:
        if isinstance(instance, str) and not re.fullmatch(pattern[1:-1], instance):
            yield ValidationError(f"{instance!r} does not match {pattern!r}")

    extend: Any = validators.extend
    kind = extend(Draft202012Validator, {"pattern": pattern})
    validator: Validator = kind(schema())
    return validator


def explain(data: Any, spelling: str) -> list[Finding]:
    """Return one finding for each thing in ``data`` that the schema refuses, in its order."""
    errors = sorted(explaining_validator().iter_errors(data), key=_order)
    return [finding for error in errors for finding in _findings(error, spelling)]


def _order(error: SchemaError) -> list[tuple[int, str, int]]:
    return [
        (1, "", step) if isinstance(step, int) else (0, str(step), 0)
        for step in error.absolute_path
    ]


def _findings(error: SchemaError, spelling: str) -> Iterator[Finding]:
    path = list(error.absolute_path)
    if error.validator == "additionalProperties":
        for name in sorted(set(error.instance) - set(error.schema["properties"])):
            message = _unknown(name, error, spelling)
            yield Finding(RULE, ERROR, message, from_steps([*path, name]))
    elif error.validator == "required":
        missing = [name for name in error.validator_value if name not in error.instance]
        # jsonschema reports each missing name by itself: its message starts with that name
        name = next((n for n in missing if error.message.startswith(repr(n))), missing[0])
        expected = error.schema["properties"][name]["description"]
        spelled = _spelled(name, error.schema["properties"][name], spelling)
        message = f"{spelled} is missing: {expected[0].lower()}{expected[1:]}"
        yield Finding(RULE, ERROR, message, from_steps(path))
    else:
        yield Finding(RULE, ERROR, _wrong_value(error, path), from_steps(path))


def _spelled(name: str, specification: dict[str, Any], spelling: str) -> str:
    if spelling == "json":
        return f"the property {name!r}"
    if "x-element" in specification:
        return f"the element <{specification['x-element']}>"
    return f"the attribute {name!r}"


def _unknown(name: str, error: SchemaError, spelling: str) -> str:
    """Say that a name is unknown, with the known one that looks most like it."""
    properties: dict[str, dict[str, Any]] = error.schema["properties"]
    known = {
        value.get("x-element", key) if spelling == "xml" else key: key
        for key, value in properties.items()
        if "x-xml" not in value
    }
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.6)
    what = f"{error.schema['description'].split('.')[0].lower()}"
    hint = f"; did you mean {near[0]!r}?" if near else f"; known are {', '.join(known)}"
    return f"{name!r} is unknown here ({what}){hint}"


def _wrong_value(error: SchemaError, path: list[str | int]) -> str:
    name = str(path[-1]) if path and isinstance(path[-1], str) else "this"
    value = error.instance
    shown = f"{name} is {_shown(value)}"
    if error.validator == "enum":
        allowed = ", ".join(str(item) for item in error.validator_value)
        return f"{shown}; it must be one of {allowed}"
    if error.validator in ("minItems", "maxItems"):
        return f"{name} has {len(value)} entries; the limit is {error.validator_value}"
    if error.validator == "minProperties":
        return f"{shown}; it must hold something"
    expected = error.schema.get("description") or f"of type {error.validator_value}"
    return f"{shown}; it must be {expected}{_base_hint(value, error)}"


def _shown(value: Any) -> str:
    if isinstance(value, str):
        text = repr(value)
        return text if len(text) <= 60 else f"a text of {len(value)} characters"
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    words = {"True": "true", "False": "false", "None": "null"}
    return words.get(str(value), str(value))


def _base_hint(value: Any, error: SchemaError) -> str:
    """Add what a bare number was probably meant to be, where a base must be said."""
    if "0d" not in str(error.schema.get("pattern", "")):
        return ""
    text = str(value)
    if re.fullmatch(r"[0-9]{2,19}", text):
        return f". Was 0x{text} or 0d{text} meant?"
    hexadecimal = re.fullmatch(r"(?:\$|[hH]')?([0-9A-Fa-f]{1,16})[hH]?", text)
    if hexadecimal:
        return f". Was 0x{hexadecimal[1]} meant?"
    if re.fullmatch(r"0x[0-9A-FOolI]+", text):
        repaired = text[2:].translate(str.maketrans("OolI", "0011"))
        return f". Was 0x{repaired} meant?"
    return ""
