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
    from regwright.read.xml_text import read_xml

    tree, complaints = read_xml(source)
    if not complaints:
        return tree, []
    return tree, _explain_xml(tree, complaints)


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

    findings = explain(tree, "json")
    return tree, findings or [Finding("schema", ERROR, "the schema refuses this document", None)]


def _explain_xml(tree: Any, complaints: list[str]) -> list[Finding]:
    """Explain a refused XML document, from its tree and else in the XSD's own words."""
    findings: list[Finding] = []
    if tree:
        from regwright.read.explain import explain

        findings = explain(tree, "xml")
    if not findings:
        for complaint in complaints:
            line, _, message = complaint.partition(":")
            hint = "; regwright new shows which elements a description has, and in which order"
            at = (int(line), 1)
            findings.append(Finding("schema", ERROR, message.rstrip(".") + hint, None, at=at))
    return findings


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
