"""A comparison for programs, in the format of ``schemas/compare.schema.json``."""

from __future__ import annotations

import json
from typing import Any

from regwright import __version__
from regwright.compare.changes import CATEGORIES, Change, category
from regwright.compare.pairs import FieldPair, Pair, sureness
from regwright.model.finding import Place
from regwright.reports.compare_places import places
from regwright.reports.compared import Compared
from regwright.reports.porting import porting_data
from regwright.reports.results import encodable

#: The version of the format; a change that breaks readers raises it.
VERSION = 1


def compare_json(compared: Compared) -> str:
    """Return the comparison as JSON."""
    return json.dumps(_plain(compare_data(compared)), ensure_ascii=False, indent=2) + "\n"


def compare_data(compared: Compared) -> dict[str, Any]:
    """Return the comparison as plain data."""
    matching = compared.comparison.matching
    return {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "a": _chip(compared, 0),
        "b": _chip(compared, 1),
        "total": len(compared.changes),
        "leftOut": len(compared.comparison.changes) - len(compared.changes),
        "counts": {word: compared.counts.get(word, 0) for word in CATEGORIES},
        "blocks": [_match(item.a, item.b, item.why) for item in matching.blocks],
        "registers": [_register(pair) for pair in matching.registers],
        "fields": [_field(pair) for pair in matching.fields],
        "changes": [_change(compared, item) for item in compared.changes],
        **({"porting": porting_data(compared.move)} if compared.move else {}),
    }


def _plain(value: Any) -> Any:
    """Return ``value`` with no half of a surrogate pair in its texts."""
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_plain(item) for item in value]
    return encodable(value)


def _chip(compared: Compared, side: int) -> dict[str, Any]:
    chip = (compared.comparison.a, compared.comparison.b)[side]
    return {
        "file": compared.sources[side].name,
        "chip": chip.chip.name,
        "title": chip.chip.title or "",
        "registers": len(chip.registers),
    }


def _match(a: str | None, b: str | None, why: str) -> dict[str, Any]:
    return {"a": a, "b": b, "why": why or None, "sure": sureness(why) if why else None}


def _register(pair: Pair) -> dict[str, Any]:
    return _match(pair.a.name if pair.a else None, pair.b.name if pair.b else None, pair.why)


def _field(pair: FieldPair) -> dict[str, Any]:
    return _match(pair.a.name if pair.a else None, pair.b.name if pair.b else None, pair.why)


def _change(compared: Compared, change: Change) -> dict[str, Any]:
    at_a, at_b = places(compared, change)
    return {
        "kind": change.kind,
        "category": category(change),
        "a": change.a or None,
        "b": change.b or None,
        "detail": change.detail,
        "before": change.before,
        "after": change.after,
        "sure": change.sure or None,
        "message": compared.words.message(change),
        "placeA": _place(at_a),
        "placeB": _place(at_b),
    }


def _place(place: Place | None) -> dict[str, Any] | None:
    return place and {"file": place.file, "line": place.line, "column": place.column}
