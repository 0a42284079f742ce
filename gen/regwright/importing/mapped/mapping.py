"""Map one document: the whole way from two texts to a draft, in this process."""

from __future__ import annotations

from pathlib import PurePosixPath

from regwright.importing.draft import Draft, Remark, Tree
from regwright.importing.mapped.document import Document, Unreadable
from regwright.importing.mapped.findings import Findings
from regwright.importing.mapped.finish import Finisher
from regwright.importing.mapped.gather import Gatherer, TooMuch
from regwright.importing.mapped.inherit import Heirs
from regwright.importing.mapped.mapping_file import INVALID, MappingFile, Planner
from regwright.importing.mapped.plan import Plan
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.model.words import plural
from regwright.read.source import SIZE_LIMIT, Source

UNREADABLE = "not-readable"
EMPTY, VALUE = "path-without-result", "value-not-readable"


def map_document(name: str, data: bytes, mapping_name: str, mapping: bytes) -> Draft:
    """Return the draft that ``mapping`` makes of ``data``; the names are for messages.

    There is no limit of time; :func:`regwright.importing.mapped.reading.import_mapped` sets one.
    """
    draft = Draft()
    file = MappingFile(mapping_name, mapping)
    if file.problems:
        for problem in file.problems:
            place = file.place_of(problem)
            draft.remarks.append(Remark(INVALID, ERROR, problem.message, *place, mapping_name))
        return draft
    findings = Findings(draft, mapping_name, file.place)
    try:
        if len(data) > SIZE_LIMIT:
            raise Unreadable(f"the file is larger than {SIZE_LIMIT >> 20} MB")
        document = _opened(data, file)
        plan = Planner(file.data, document, findings).plan()
        if not findings.has_errors:
            _draw(draft, plan, document, findings, name)
    except Unreadable as problem:
        draft.refuse(UNREADABLE, str(problem), problem.line, problem.column)
    except TooMuch as problem:
        draft.refuse("too-much", str(problem))
    findings.finish()
    return draft


def _opened(data: bytes, file: MappingFile) -> Document:
    """Return the document, read as the mapping says. Raises :class:`Unreadable`."""
    if file.data["reads"] == "json":
        from regwright.importing.mapped.json_document import JsonDocument

        return JsonDocument(data)
    from regwright.importing.mapped.xml_document import XmlDocument

    return XmlDocument(data, file.data.get("namespaces", {}))


def _draw(draft: Draft, plan: Plan, document: Document, findings: Findings, name: str) -> None:
    """Put into ``draft`` what ``plan`` makes of ``document``."""
    stem = PurePosixPath(name.replace("\\", "/")).name.partition(".")[0]
    chip = Gatherer(plan, document, findings, stem).gather()
    Heirs(chip, findings).settle()
    if not findings.has_errors:
        finisher = Finisher(findings)
        tree = finisher.tree(chip)
        draft.places = finisher.places
        if not findings.has_errors:
            _check(tree, finisher, findings)
        draft.tree = None if findings.has_errors else tree
    _tell_idle_paths(plan, findings)
    for lost in document.lost(plan.ignored):
        times = plural(lost.number, "time")
        message = f"{lost.name} stands there {times}, the first time here, and no path reads it"
        findings.lose(message, lost.place)


def _tell_idle_paths(plan: Plan, findings: Findings) -> None:
    """Warn of paths that select nothing, wherever the rule is used."""
    hits = {item.origin for rule in plan.rules for item in (rule, *rule.beside) if item.hits}
    for rule in plan.rules:
        is_idle = hits.isdisjoint(item.origin for item in (rule, *rule.beside))
        if rule.uses and is_idle and not rule.optional:
            message = (
                f"{rule.text} selects nothing in the whole document; correct it, or say that it "
                "is optional"
            )
            findings.doubt_rule(EMPTY, message, rule.origin)


def _check(tree: Tree, finisher: Finisher, findings: Findings) -> None:
    """Hold the tree against the schema of descriptions."""
    from regwright.read.description import deciding_validator
    from regwright.read.explain import explain

    if deciding_validator().is_valid(tree):
        return
    for problem in explain(tree, Source("", b"{}", "json")):
        origin = _known(problem.origin, finisher)
        line, column = findings.place_of(finisher.rules[origin])
        message = f"{problem.message} (by the rules at {findings.file}:{line}:{column})"
        findings.refuse(VALUE, message, finisher.places[origin], problem.origin)


def _known(origin: Origin, finisher: Finisher) -> Origin:
    """Return the innermost node around ``origin`` that was read from the document."""
    while origin not in finisher.places and origin is not None:
        origin = origin[0]
    return origin
