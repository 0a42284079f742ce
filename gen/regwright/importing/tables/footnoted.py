"""Carry the footnotes of a table to the registers whose fields have their marks."""

from __future__ import annotations

from regwright.importing.draft import Draft
from regwright.importing.tables.facts import RegisterFacts
from regwright.importing.tables.recognise import Section, alone, footnotes, is_footnote


def carry(section: Section, registers: list[RegisterFacts], draft: Draft) -> None:
    """Add to each register the footnotes its marks name; say which footnotes nothing names."""
    notes = footnotes(section)
    if not notes:
        return
    used: set[str] = set()
    for register in registers:
        marks = [*register.marks, *(mark for item in register.fields for mark in item.marks)]
        wanted = [notes[mark] for mark in marks if mark in notes]
        register.notes += [note for note in dict.fromkeys(wanted) if note not in register.notes]
        used.update(register.notes)
    for _, row in section.rows:
        text = alone(row)
        is_open = text in notes.values() and text not in used
        if is_open and is_footnote(text) and " " in text:
            draft.lose(f"no mark names the footnote {text[:200]!r}", row.line)
