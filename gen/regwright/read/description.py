"""Read one description, in either spelling, into the model."""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.format.resources import folder
from regwright.model.chip import Chip
from regwright.model.finding import ERROR, Finding
from regwright.read.build import TooDeep, build_chip
from regwright.read.json_text import NotRead, read_json
from regwright.read.source import Source

if TYPE_CHECKING:
    import jsonschema_rs


_FOREIGN = (
    "of XML Schema has no place here; a description has noNamespaceSchemaLocation on <chip> alone, "
    "with a path of 1 to 200 plain characters"
)


class Reading(NamedTuple):
    """What came of reading: a chip, or findings that say why there is none."""

    source: Source
    chip: Chip | None
    findings: list[Finding]


@cache
def deciding_validator() -> jsonschema_rs.Validator:
    """Return the validator that accepts or refuses the JSON spelling."""
    import jsonschema_rs

    schema = json.loads((folder("schemas") / "chip.schema.json").read_bytes())
    return jsonschema_rs.validator_for(schema)


def read_tree(source: Source) -> tuple[Any, list[Finding]]:
    """Return the document as the tree both spellings share, and what the schema holds against it.

    Raises :class:`NotRead` when the text is not well formed.
    """
    if source.spelling == "json":
        return _read_json_tree(source)
    return _read_xml_tree(source)


def read_whole_tree(source: Source) -> tuple[Any, list[Finding], list[int]]:
    """Return what :func:`read_tree` does, with the comments of XML in the tree.

    The last are the lines of comments that have no place there.
    """
    tree, findings = read_tree(source)
    if findings or source.spelling == "json":
        return tree, findings, []
    from regwright.read.xml_text import read_xml_with_comments

    tree, lost = read_xml_with_comments(source)
    return tree, findings, lost


def _read_xml_tree(source: Source) -> tuple[Any, list[Finding]]:
    from regwright.format.shape import shapes
    from regwright.read.xml_text import foreign_attributes, parse_xml, tree_of, xml_schema

    root = parse_xml(source)
    schema = xml_schema()
    if schema.validate(root):
        foreign = [
            Finding("schema", ERROR, f"the attribute {name!r} {_FOREIGN}", None, at=(line, 1))
            for line, name in foreign_attributes(root, source.data)
        ]
        return ({} if foreign else tree_of(root, shapes()["chip"])), foreign
    from regwright.read.explain_xml import explain_xml

    return {}, explain_xml(source, [f"{entry.line}:{entry.message}" for entry in schema.error_log])


def _read_json_tree(source: Source) -> tuple[Any, list[Finding]]:
    tree = read_json(source)
    try:
        accepted = deciding_validator().is_valid(tree)
    except ValueError:
        message = "objects and lists are nested too deeply for a description"
        return tree, [Finding("schema", ERROR, message, None)]
    if accepted:
        return tree, []
    from regwright.read.explain import explain

    findings = explain(tree, source)
    return tree, findings or [Finding("schema", ERROR, "the schema refuses this document", None)]


def read_description(source: Source) -> Reading:
    """Read ``source``. Whatever is wrong with it becomes findings; nothing is raised."""
    try:
        tree, findings = read_tree(source)
        if findings:
            return Reading(source, None, findings)
        return Reading(source, build_chip(tree), [])
    except NotRead as problem:
        return Reading(source, None, problem.findings)
    except TooDeep as problem:
        return Reading(source, None, [problem.finding])
