"""Chips for the tests of this folder: the shipped ones, and small ones made of a tree."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from conftest import DESCRIPTIONS
from regwright.audit.names import Names
from regwright.macros.registers import chip_macros
from regwright.read.description import read_description
from regwright.read.source import Source, spelling_of
from regwright.resolve.chip import ResolvedChip, resolve


def _resolved(name: str, data: bytes) -> ResolvedChip:
    reading = read_description(Source(name, data, spelling_of(name, data)))
    assert reading.findings == []
    assert reading.chip is not None
    return resolve(reading.chip)


@cache
def shipped(name: str) -> ResolvedChip:
    """Return the description ``name`` of the project."""
    (path,) = DESCRIPTIONS.glob(f"{name}.*")
    return _resolved(path.name, path.read_bytes())


def made(**tree: Any) -> ResolvedChip:
    """Return a chip of a tree as the JSON spelling has it, with a space if it has none."""
    whole = {"format": 1, "name": "made", "spaces": [{"name": "data", "size": "0x1000"}], **tree}
    return _resolved("made.json", json.dumps(whole).encode())


def names_of(resolved: ResolvedChip) -> Names:
    return Names(resolved, chip_macros(resolved))


@cache
def shipped_names(name: str) -> Names:
    return names_of(shipped(name))
