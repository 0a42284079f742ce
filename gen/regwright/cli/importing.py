"""What an import prints and writes, and with which code it ends."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any, NamedTuple

import click

from regwright.cli.exits import CLEAN, FINDINGS
from regwright.cli.inputs import DESCRIPTIONS, STDIN, CannotRead, load
from regwright.cli.terminal import print_findings
from regwright.importing.draft import Draft, Remark, Tree
from regwright.model.finding import ERROR, WARNING, Finding, Place
from regwright.model.words import levels_in_words, plural, visible
from regwright.pipeline import Located, check
from regwright.read.source import Source
from regwright.reports import Result, Run, render_report
from regwright.reports.results import Excerpt, Found
from regwright.write.files import CannotWrite, Pending, changed, write
from regwright.write.spelling_json import to_json
from regwright.write.spelling_xml import to_xml

#: The form of the remarks, by the ending of their file.
FORMS = {
    ".txt": "text",
    ".json": "json",
    ".sarif": "sarif",
    ".md": "markdown",
    ".html": "html",
    ".xml": "junit",
}
_NOTHING = "nothing was written"


class Brought(NamedTuple):
    """A description to write: its tree, where, and what there is to say about it."""

    tree: Tree
    target: str
    words: str
    conflicts: list[Located] = []  # noqa: RUF012 (nothing changes it)


def finish(name: str, draft: Draft, options: dict[str, Any]) -> int:
    """Write what the import of ``name`` has made, print the rest and return the exit code.

    Raises :class:`CannotRead` and :class:`CannotWrite`.
    """
    target = _target(options, name)
    found = [located(name, item, strict=options["strict"]) for item in draft.remarks]
    found.sort(key=lambda item: (item.place.file != name, item.place))
    is_refused = draft.tree is None or any(item.finding.level == ERROR for item in found)
    print_findings(found, err=True)
    remarks = _remarks_file(name, draft, found, options["remarks"])
    if is_refused or draft.tree is None:
        write(remarks)
        click.echo(f"{visible(name)}: {_levels(found)}; {_NOTHING}", err=True)
        return FINDINGS
    into = options["into"]
    brought = _filled(draft.tree, into) if into else Brought(draft.tree, target, _size(draft.tree))
    print_findings(brought.conflicts, err=True)
    spelled = _spelled(brought)
    if brought.target == STDIN:
        write(remarks)
        click.echo(spelled, nl=False)
    else:
        file = Pending(Path(brought.target), spelled)
        if not into and not options["force"]:
            _refuse_to_replace(file)
        write([file, *remarks])
    words = f"{_levels(found)}; {brought.words}{_verdict(brought, spelled)}"
    click.echo(f"{visible(name)}: {words}", err=True)
    return FINDINGS if brought.conflicts else CLEAN


def _target(options: dict[str, Any], name: str) -> str:
    """Return where the description goes. Raises ``click.UsageError`` and :class:`CannotWrite`."""
    output, into, remarks = options["output"], options["into"], options["remarks"]
    if output and into:
        raise click.UsageError("--output makes a description and --into fills one; choose one")
    if remarks and Path(remarks).suffix.lower() not in FORMS:
        raise click.UsageError(f"{remarks}: the ending must be one of {', '.join(FORMS)}")
    target: str = output or STDIN
    if target == STDIN:
        return target
    if not DESCRIPTIONS.matches(target):
        raise click.UsageError(f"{target}: the ending must be .json or .xml")
    if os.path.realpath(target) == os.path.realpath(name):
        raise CannotWrite(f"{target}: is the file to import")
    return target


def _refuse_to_replace(file: Pending) -> None:
    """Refuse to write over something else. Raises :class:`CannotWrite`."""
    if changed([file]) and os.path.lexists(file.path):
        advice = f"--into {file.path} fills it, --force replaces it"
        raise CannotWrite(f"{file.path}: is already there and says something else; {advice}")


def _filled(tree: Tree, into: str) -> Brought:
    """Return the description ``into`` with what ``tree`` adds. Raises :class:`CannotRead`."""
    from regwright.importing.merge import merge
    from regwright.read.description import read_whole_tree
    from regwright.read.json_text import NotRead

    source = load(into)
    try:
        existing, findings, _ = read_whole_tree(source)
    except NotRead as problem:
        existing, findings = {}, problem.findings
    if findings:
        print_findings([Located(source.place(item), item) for item in findings], err=True)
        raise CannotRead(f"{into}: correct this description first; {_NOTHING}")
    merged = merge(existing, tree)
    conflicts = [
        Finding("import-conflict", WARNING, item.message, item.origin) for item in merged.conflicts
    ]
    words = f"{plural(len(merged.added), 'addition')} to {visible(into)}"
    if conflicts:
        words += f", {plural(len(conflicts), 'conflict')}"
    return Brought(
        merged.tree, into, words, [Located(source.place(item), item) for item in conflicts]
    )


def _spelled(brought: Brought) -> bytes:
    is_xml = brought.target.lower().endswith(".xml")
    return (to_xml if is_xml else to_json)(brought.tree).encode("utf-8")


def _size(tree: Tree) -> str:
    def registers(node: Tree) -> int:
        return len(node.get("registers", ())) + sum(map(registers, node.get("blocks", ())))

    return f"{plural(registers(tree), 'register')} described"


def _verdict(brought: Brought, spelled: bytes) -> str:
    """Return in words what a check of the new description finds."""
    is_xml = brought.target.lower().endswith(".xml")
    checked = check(Source(brought.target, spelled, "xml" if is_xml else "json"))
    levels = [item.finding.level for item in checked.findings]
    if ERROR in levels or WARNING in levels:
        return f"; regwright check finds {levels_in_words(levels)} in it"
    return ""


def _levels(found: list[Located]) -> str:
    if not found:
        return "nothing odd"
    return levels_in_words(item.finding.level for item in found)


def located(name: str, remark: Remark, *, strict: bool) -> Located:
    """Return ``remark`` at its place; ``name`` is the file that was asked for."""
    level = ERROR if strict and remark.level == WARNING else remark.level
    finding = Finding(remark.rule, level, remark.message, None, at=(remark.line, remark.column))
    return Located(Place(remark.file or name, remark.line, remark.column), finding)


def _remarks_file(name: str, draft: Draft, found: list[Located], path: str | None) -> list[Pending]:
    """Return the file with the remarks, if it is wanted."""
    if path is None:
        return []
    chip = draft.tree["name"] if draft.tree else None
    files = dict.fromkeys([name, *(item.place.file for item in found)])
    results = [
        Result(file, chip, "", 0, [_plain(item) for item in found if item.place.file == file])
        for file in files
    ]
    form = FORMS[Path(path).suffix.lower()]
    return [Pending(Path(path), render_report(form, Run(results)).encode("utf-8"))]


def _plain(item: Located) -> Found:
    _, line, column = item.place
    finding = item.finding
    return Found(
        *(finding.rule, finding.level, finding.message),
        *(line, column, line, column + 1),
        *(None, [], Excerpt("", "", "")),
    )
