"""A comparison as Markdown tables, for a change under review or a page of a wiki."""

from __future__ import annotations

from collections.abc import Iterable

from regwright.compare.changes import Change
from regwright.compare.pairs import Pair, sureness
from regwright.compare.words import doubt
from regwright.model.words import visible
from regwright.render.safe_text import code_span, markdown
from regwright.reports.compared import Compared, Section, moved_by, pair_name, part_name
from regwright.reports.porting import porting_markdown


def compare_markdown(compared: Compared) -> str:
    """Return a table for each register, or for several whose changes are the same."""
    outline = compared.outline
    a, b = (_safe(label) for label in compared.labels)
    parts = [porting_markdown(compared.move)] if compared.move else []
    parts += [f"# {a} against {b}", f"**{_safe(compared.totals)}.**"]
    if outline.chip:
        parts += ["## The chip as a whole", _table(compared, "Of", outline.chip)]
    for heading, changes in outline.parts:
        parts += [f"## {heading}", _table(compared, "Of", changes)]
    if outline.both:
        parts.append("## Registers of both")
        for section in outline.both:
            parts += [_heading(section.pairs), _section_table(compared, section)]
    for name, sections in ((a, outline.only_a), (b, outline.only_b)):
        if sections:
            parts += [f"## Only in {name}", _only_table(compared, sections)]
    if outline.documentation:
        parts += ["## Documentation", _table(compared, "Of", outline.documentation)]
    return "\n\n".join(parts) + "\n"


def _safe(text: str) -> str:
    return markdown(visible(text))


def _name(text: str) -> str:
    return code_span(visible(text))


def _heading(pairs: list[Pair]) -> str:
    first = pairs[0]
    heading = "### " + ", ".join(_name(pair_name(pair)) for pair in pairs)
    title = first.a.register.title if first.a and len(pairs) == 1 else None
    if title:
        heading += f" {_safe(title)}"
    unsure = doubt(sureness(first.why), first.why)
    return f"{heading}\n\n({unsure})" if unsure else heading


def _rows(head: str, compared: Compared, rows: Iterable[list[str]]) -> str:
    a, b = (_safe(label) for label in compared.labels)
    lines = [f"| {head} | What | {a} | {b} |", "|---|---|---|---|"]
    lines += [f"| {' | '.join(cells)} |".replace("|  |", "| |") for cells in rows]
    return "\n".join(lines)


def _table(compared: Compared, head: str, changes: Iterable[Change]) -> str:
    rows = ([_name(compared.words.name(item)), *_cells(compared, item)] for item in changes)
    return _rows(head, compared, rows)


def _section_table(compared: Compared, section: Section) -> str:
    rows = []
    for change, distance in zip(section.own[0], section.distances, strict=True):
        name = part_name(section.pairs[0], change)
        unsure = compared.words.doubt(change) if name else ""
        note = moved_by(section, change, distance)
        what, before, after = _cells(compared, change)
        after += "".join(f" ({_safe(text)})" for text in (note, unsure) if text)
        rows.append([_name(name) if name else "", what, before, after])
    return _rows("Field", compared, rows)


def _cells(compared: Compared, change: Change) -> list[str]:
    words = compared.words
    return [_safe(text) for text in (words.what(change), *words.sides(change))]


def _only_table(compared: Compared, sections: list[Section]) -> str:
    entries = [
        (number, own)
        for section in sections
        for number, own in zip(section.numbers, section.own, strict=True)
    ]
    lines = ["| Register | |", "|---|---|"]
    for _, own in sorted(entries, key=lambda entry: entry[0]):
        first, *rest = own
        lines.append(f"| {_name(compared.words.name(first))} | {_safe(_whole(first))} |")
        for item in rest:
            sentence = compared.words.sentence(item)
            lines.append(f"| {_name(compared.words.name(item))} | {_safe(sentence)} |")
    return "\n".join(lines)


def _whole(change: Change) -> str:
    return change.before or change.after
