"""A configuration as Markdown tables, for a change under review or a page of a wiki."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from regwright.configuration.changes import Change
from regwright.configuration.hazards import cause_in_words
from regwright.configuration.words import hexadecimal, inverted, verify_mask
from regwright.model.configuration import ConfigurationWord
from regwright.model.words import visible
from regwright.render.safe_text import code_span, markdown
from regwright.reports.configuration import (
    ABSENT,
    ASSUMED,
    CAUTION,
    Configured,
    about_hazard,
    about_word,
)
from regwright.reports.configuration_rows import Row, binary, rows


def configuration_markdown(configured: Configured) -> str:
    """Return the values, the changes and the hazards, and each word bit by bit, as tables."""
    parts = [f"# {_safe(configured.chip.name)}: {_safe(configured.heading)}"]
    if configured.is_computed:
        parts += [f"**Caution.** {_safe(CAUTION)}", *_changes(configured.changes)]
    parts += ["## Values", _values(configured)]
    if configured.problems:
        parts += ["## Cannot be right", _list(item.message for item in configured.problems)]
    if configured.is_computed and configured.cautions:
        parts += ["## Look out", _list(configured.cautions)]
    for word in configured.configuration.words:
        parts += _word(configured, word)
    if configured.known:
        parts += ["## Hazards", _hazards(configured)]
    return "\n\n".join(parts) + "\n"


def _safe(text: str) -> str:
    return markdown(visible(text))


def _list(texts: Iterable[str]) -> str:
    return "\n".join(f"- {_safe(text)}" for text in texts)


def _table(head: Sequence[str], lines: Iterable[Sequence[str]]) -> str:
    found = [f"| {' | '.join(head)} |", f"|{'---|' * len(head)}"]
    found += [" ".join(("|", " | ".join(cells), "|")) for cells in lines]
    return "\n".join(found)


def _changes(changes: list[Change]) -> list[str]:
    if not changes:
        return ["Nothing changes: the words have these settings already."]
    lines = []
    for item in changes:
        bits = ", ".join(f"{bit.bit}: {bit.before} → {bit.after}" for bit in item.bits)
        choices = [code_span(name) if name else "no meaning" for name in (item.before, item.after)]
        lines.append((code_span(item.field.setting), *choices, code_span(item.word.name), bits))
    head = ("Setting", "Before", "After", "Word", "Bits")
    return ["## Changes", _table(head, lines)]


def _values(configured: Configured) -> str:
    head = ["Word", "Value", "Binary", "Mask to verify with", "Inverted form"]
    head += ["Before"] if configured.is_computed else ["As delivered"]
    lines = []
    for word in configured.configuration.words:
        value = configured.words[word.name]
        other = configured.start[word.name] if configured.is_computed else word.default
        numbers = [hexadecimal(value, word.width), binary(value, word.width)]
        numbers += [
            hexadecimal(item, word.width)
            for item in (verify_mask(word), inverted(word, value), other)
        ]
        assumed = f", {ASSUMED}" if configured.is_computed and configured.is_assumed(word) else ""
        *cells, last = [word.name, *numbers]
        lines.append([*map(code_span, cells), code_span(last) + assumed])
    return _table(head, lines)


def _word(configured: Configured, word: ConfigurationWord) -> list[str]:
    value = configured.words[word.name]
    shown = hexadecimal(value, word.width)
    lines = [_row(row) for row in rows(configured.configuration, word, value)]
    head = ("Bits", "Value", "Name", "Setting", "Choice", "As delivered", "Meaning")
    notes = [_safe(" ".join(word.notes.split()))] if word.notes else []
    heading = f"## {code_span(word.name)} is {code_span(shown)}"
    return [heading, f"At {_safe(about_word(word))}.", *notes, _table(head, lines)]


def _row(row: Row) -> list[str]:
    choice = f"**{_safe(row.choice)}**" if not row.is_default else _safe(row.choice)
    cells = [row.bits, code_span(row.digits), code_span(row.name) if row.name else ""]
    setting = code_span(row.setting) if row.setting else ""
    return [*cells, setting, choice, _safe(row.default), _safe(row.words)]


def _hazards(configured: Configured) -> str:
    lines = []
    for item in configured.known:
        hazard, causes = item
        state = configured.state(hazard.name)
        when = ", or ".join(map(cause_in_words, causes)) or "no setting"
        here = "" if state == ABSENT else f"**{state}**"
        lines.append((code_span(hazard.name), _safe(when), _safe(about_hazard(item)), here))
    return _table(("Hazard", "When", "What it means", "Here"), lines)
