"""Which registers and bits sources use, in words or as ``schemas/uses.schema.json`` has it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from regwright import __version__
from regwright.audit.usage import Usage, name_of
from regwright.code.text import CodeText
from regwright.model.words import plural, visible
from regwright.reports.results import encodable

#: The version of the JSON; a change that breaks readers raises it.
VERSION = 1


def uses_text(chip: str, files: Sequence[CodeText], usages: Iterable[Usage]) -> str:
    """Return a paragraph for each register and field that is used, with its places."""
    lines = []
    registers = 0
    for usage in usages:
        registers += usage.field is None
        lines.append(f"{name_of(usage)}: {plural(len(usage.places), 'place')}")
        for at, how, name in usage.places:
            text = files[at.file]
            line, column = text.line_and_column(at.start)
            called = f" as {name}" if name and name != usage.placed.name else ""
            lines.append(visible(f"  {text.name}:{line}:{column}: {how}{called}"))
    lines.append(
        f"{plural(registers, 'register')} of {chip} used in {plural(len(files), 'source')}"
    )
    return "\n".join(lines) + "\n"


def uses_json(chip: str, files: Sequence[CodeText], usages: Iterable[Usage]) -> str:
    """Return the same as JSON."""
    data = {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "chip": chip,
        "sources": [encodable(text.name) for text in files],
        "uses": [_entry(files, usage) for usage in usages],
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _entry(files: Sequence[CodeText], usage: Usage) -> dict[str, Any]:
    places = []
    for at, how, name in usage.places:
        text = files[at.file]
        line, column = text.line_and_column(at.start)
        place = {"file": encodable(text.name), "line": line, "column": column, "how": how}
        places.append({**place, "name": name})
    field = usage.field
    return {
        "register": usage.placed.name,
        "field": field.field.name if field else None,
        "places": places,
    }
