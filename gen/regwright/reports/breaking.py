"""What a newer description changes for users of the header: as lines, as JSON, as Markdown.

The JSON is that of ``schemas/breaking.schema.json``.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from regwright import __version__
from regwright.compare.breaking import ADDED, RESPELLED
from regwright.compare.releases import Told
from regwright.model.finding import Finding, Place
from regwright.model.words import plural, visible
from regwright.pipeline import Located
from regwright.render.safe_text import code_span, markdown
from regwright.reports.results import encodable

#: The version of the JSON; a change that breaks readers raises it.
VERSION = 1
#: Longer bodies of macros are cut in a table.
_LONGEST_SHOWN = 60


class Side(NamedTuple):
    """One of the two descriptions: its file, and the name of the chip in it."""

    file: str
    chip: str


class Release(NamedTuple):
    """Two descriptions of one chip, and each change of the header with its place."""

    old: Side
    new: Side
    changes: list[tuple[Told, Place]]


def lines_of(release: Release, *, verbose: bool) -> Iterator[Located]:
    """Yield what breaks users as lines that a terminal, an editor and CI understand.

    With ``verbose``, what breaks nobody follows as notes.
    """
    for told, place in release.changes:
        if told.breaks or verbose:
            yield Located(place, Finding(told.kind, told.level, told.message, told.origin))


def count_line(release: Release) -> str:
    """Return how many changes there are of which effect, in words."""
    counts = _counts(release)
    parts = [
        plural(counts["breaking"], "breaking change"),
        plural(counts[ADDED], "addition"),
        f"{counts[RESPELLED]} respelled",
    ]
    return ", ".join(parts)


def _counts(release: Release) -> dict[str, int]:
    effects = Counter("breaking" if told.breaks else told.effect for told, _ in release.changes)
    return {name: effects[name] for name in ("breaking", ADDED, RESPELLED)}


def breaking_text(release: Release) -> str:
    """Return every change as a line, then the count."""
    lines = [visible(str(item)) for item in lines_of(encodable(release), verbose=True)]
    return "\n".join([*lines, count_line(release)]) + "\n"


def breaking_json(release: Release) -> str:
    """Return every change as JSON."""
    release = encodable(release)
    data = {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "old": release.old._asdict(),
        "new": release.new._asdict(),
        "counts": _counts(release),
        "changes": [_entry(told, place) for told, place in release.changes],
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _entry(told: Told, place: Place) -> dict[str, Any]:
    return {
        "kind": told.kind,
        "breaks": told.breaks,
        "name": told.name,
        "before": told.before,
        "after": told.after,
        "instead": told.instead or None,
        "message": told.message,
        "file": place.file,
        "line": place.line,
        "column": place.column,
    }


def breaking_markdown(release: Release) -> str:
    """Return a table of what breaks users and one of the rest, for a comment on a change."""
    release = encodable(release)
    files = [code_span(visible(side.file)) for side in (release.old, release.new)]
    parts = [
        f"# Changes of {markdown(visible(release.new.chip))}.h",
        f"{files[0]} to {files[1]}: **{count_line(release)}.**",
    ]
    for title, breaks in (("Breaks users", True), ("Breaks nobody", False)):
        rows = [_row(told, place) for told, place in release.changes if told.breaks == breaks]
        if rows:
            head = f"## {title}\n\n| Name | Before | Now | What | Place |\n|---|---|---|---|---|"
            parts.append("\n".join([head, *rows]))
    return "\n\n".join(parts) + "\n"


def _row(told: Told, place: Place) -> str:
    what = told.message.removeprefix(f"{told.name} ")
    where = f"{place.file}:{place.line}:{place.column}"
    cells = [code_span(told.name), _body(told.before), _body(told.after)]
    cells += [markdown(visible(what)), code_span(visible(where))]
    return "".join(f"| {cell} " if cell else "| " for cell in cells) + "|"


def _body(text: str | None) -> str:
    if not text:
        return ""
    return code_span(text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}…")


#: Each form by the name that ``--report`` has for it.
FORMS: dict[str, Callable[[Release], str]] = {
    "text": breaking_text,
    "markdown": breaking_markdown,
    "json": breaking_json,
}
