"""Say what a schema holds against a document, in words that tell what to write instead.

``jsonschema-rs`` (for JSON) or libxml2's XSD (for XML) has decided that the document is refused;
``jsonschema`` walks the tree that both spellings share and explains it, all problems in one run.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import islice
from typing import TYPE_CHECKING, Any

from regwright.format.shape import schema
from regwright.model.finding import ERROR, NAME, VALUE, Finding
from regwright.model.origin import from_steps
from regwright.model.words import nearest
from regwright.read.certain import only_near, repair_of
from regwright.read.hints import hint
from regwright.read.source import Source

if TYPE_CHECKING:
    from jsonschema.protocols import Validator

    #: Typed as anything: what an error holds depends on the keyword it is about.
    SchemaError = Any

RULE = "schema"
TOO_DEEP = "objects and lists are nested too deeply for a description"
#: More problems than this are not listed: nobody reads on, and explaining costs time.
MOST = 1000


@cache
def explaining_validator() -> Validator:
    """Return the validator that explains descriptions."""
    return explaining(schema())


def explaining(of: dict[str, Any]) -> Validator:
    """Return a ``jsonschema`` validator for ``of`` whose patterns mean what ECMA 262 says.

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
    validator: Validator = kind(of)
    return validator


def explain(data: Any, source: Source, validator: Validator | None = None) -> list[Finding]:
    """Return one finding for each thing in ``data`` that the schema refuses.

    ``source`` says in which spelling it is written and where its names stand; ``validator`` is
    given for what is no description.
    """
    # A text that is too long and has a wrong character is one mistake, not two.
    found: dict[Finding, None] = {}
    validator = validator or explaining_validator()
    try:
        errors = sorted(islice(validator.iter_errors(data), MOST), key=_order)
        for error in errors:
            found.update(dict.fromkeys(islice(_findings(error, source), MOST)))
    except RecursionError:
        return [Finding(RULE, ERROR, TOO_DEEP, None)]
    return list(found)[:MOST]


def _order(error: SchemaError) -> list[tuple[int, str, int]]:
    return [
        (1, "", step) if isinstance(step, int) else (0, str(step), 0)
        for step in error.absolute_path
    ]


def _findings(error: SchemaError, source: Source) -> Iterator[Finding]:
    path = list(error.absolute_path)
    if error.validator == "additionalProperties":
        for name in sorted(set(error.instance) - set(error.schema["properties"])):
            repair = _meant_name(name, error, source.spelling)
            message = _unknown(name, error.schema, source.spelling, repair)
            origin = from_steps([*path, name])
            yield Finding(RULE, ERROR, message, origin, repair=repair, part=NAME)
    elif error.validator == "required":
        # jsonschema reports each missing name by itself: its message starts with that name
        missing = [name for name in error.validator_value if name not in error.instance]
        name = next(n for n in missing if error.message.startswith(repr(n)))
        specification = error.schema["properties"][name]
        spelled = _spelled(name, specification, source.spelling)
        message = f"{spelled} is missing: {_phrase(specification['description'])}"
        yield Finding(RULE, ERROR, message, from_steps(path))
    else:
        message = _wrong_value(error, path, source.spelling)
        repair, part = repair_of(error.instance, error.schema, source.spelling) or (None, VALUE)
        yield Finding(RULE, ERROR, message, from_steps(path), repair=repair, part=part)


def _phrase(sentence: str) -> str:
    """Return a description's first sentence, to go on within another sentence."""
    first = sentence.partition(". ")[0].rstrip(".")
    return first[:1].lower() + first[1:]


def _spelled(name: str, specification: dict[str, Any], spelling: str) -> str:
    if spelling == "json":
        return f"the property {name!r}"
    if "x-element" in specification:
        return f"the element <{specification['x-element']}>"
    return f"the attribute {name!r}"


def _known(specification: dict[str, Any], spelling: str) -> list[str]:
    """Return the names that an object may have, or an element as attributes."""
    properties: dict[str, dict[str, Any]] = specification["properties"]
    if spelling == "json":
        return list(properties)
    return [key for key, value in properties.items() if not {"x-element", "x-xml"} & {*value}]


def _meant_name(name: str, error: SchemaError, spelling: str) -> str | None:
    """Return the name that an unknown one certainly stands for, unless it is taken already."""
    meant = only_near(name, _known(error.schema, spelling))
    rivals = [other for other in error.instance if other != name]
    if meant is None or meant in rivals:
        return None
    known = error.schema["properties"]
    if any(only_near(other, [meant]) for other in rivals if other not in known):
        return None
    kind = known[meant].get("type")
    value = error.instance[name]
    is_alike = isinstance(value, list) == (kind == "array")
    return meant if is_alike else None


def _unknown(name: str, specification: dict[str, Any], spelling: str, repair: str | None) -> str:
    """Say that a name is unknown, with the known one that looks most like it."""
    known = _known(specification, spelling)
    near = repair or nearest(name, known)
    advice = f"did you mean {near!r}?" if near else f"known are {', '.join(known)}"
    return f"{_shown(name)} is unknown here ({_phrase(specification['description'])}); {advice}"


def _wrong_value(error: SchemaError, path: list[str | int], spelling: str) -> str:
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), "this")
    if path and isinstance(path[-1], int):
        name = f"entry {path[-1] + 1} of {name}"
    value = error.instance
    if error.validator in ("minItems", "maxItems"):
        least = "at least" if error.validator == "minItems" else "at most"
        return f"{name} has {len(value)} entries; it must have {least} {error.validator_value}"
    expected = _expected(error.schema, spelling)
    return f"{name} is {_shown(value)}; it must be {expected}{hint(value, error.schema)}"


def _expected(specification: dict[str, Any], spelling: str) -> str:
    """Say in words what a value has to be."""
    kind = specification.get("type")
    description = _phrase(specification.get("description", ""))
    if "enum" in specification:
        words = specification["enum"]
        quoted = spelling == "json" and isinstance(words[0], str)
        allowed = ", ".join(f'"{word}"' if quoted else str(word) for word in words)
        return allowed if len(words) == 1 else f"one of {allowed}"
    if kind == "boolean":
        return "true or false"
    if kind == "array":
        return f"a list: {description}"
    if kind == "object":
        return f"an object: {description}"
    return str(specification.get("description", description))


def _shown(value: Any) -> str:
    if isinstance(value, str):
        text = repr(value)
        return text if len(text) <= 60 else f"a text of {len(value)} characters"
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    words = {"True": "true", "False": "false", "None": "null"}
    text = words.get(str(value), str(value))
    return text if len(text) <= 60 else f"a number of {len(text)} digits"
