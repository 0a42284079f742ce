"""A chip with configuration words for the tests: invented, no such part is sold."""

from __future__ import annotations

import copy
import json
from functools import cache
from pathlib import Path
from typing import Any

from regwright.model.chip import Chip
from regwright.model.configuration import Configuration
from regwright.pipeline import check
from regwright.read.source import Source

Tree = dict[str, Any]

LOW: Tree = {
    "name": "low",
    "title": "Low byte",
    "address": "0x00",
    "default": "0x62",
    "page": 148,
    "fields": [
        {
            "name": "DIVIDE",
            "setting": "clock-divider",
            "bits": 7,
            "title": "what becomes of the clock",
            "choices": [
                {"name": "divide-by-8", "value": 0, "title": "1 MHz of an oscillator of 8 MHz"},
                {"name": "off", "value": 1},
            ],
        },
        {"name": "SHOW", "setting": "clock-output", "bits": 6},
        {
            "name": "DELAY",
            "setting": "start-up",
            "bits": "5:4",
            "choices": [
                {"name": "fast", "value": 0},
                {"name": "medium", "value": 1},
                {"name": "slow", "value": 2},
            ],
        },
        {
            "name": "WHICH",
            "setting": "clock-source",
            "bits": "3:0",
            "notes": "Choose it\nwith care.",
            "page": 31,
            "choices": [
                {"name": "pin", "value": 0, "hazards": "needs-clock"},
                {"name": "oscillator", "value": 2},
                {"name": "crystal", "value": "0xF", "hazards": "needs-crystal"},
            ],
        },
    ],
}
HIGH: Tree = {
    "name": "high",
    "address": "0x01",
    "default": "0xDF",
    "fields": [
        {
            "name": "RESET",
            "setting": "reset-pin",
            "bits": 7,
            "choices": [
                {"name": "port", "value": 0, "hazards": "no-reset"},
                {"name": "reset", "value": 1},
            ],
        },
        {"name": "DEBUG", "setting": "debugger", "bits": 6},
        {"name": "SERIAL", "setting": "serial-programming", "bits": 5},
        {"name": "LEVEL", "setting": "supply-watch", "bits": "4,2:1"},
        {"name": "KEEP", "setting": "keep-memory", "bits": 0, "programmed": 1},
    ],
    "unused": [{"bits": 3, "value": 1, "title": "kept for tests"}],
}
LOCK: Tree = {
    "name": "lock",
    "title": "Lock bits",
    "address": "0x04",
    "default": "0xFF",
    "lock": True,
    "notes": "An erase sets\nthem back.",
    "fields": [{"name": "READ", "setting": "read-back", "bits": 0}],
    "unused": [{"bits": "7:4", "value": 1}, {"bits": 2}],
}
HAZARDS = [
    {
        "name": "needs-crystal",
        "kind": "needs-hardware",
        "title": "without a crystal it stands still",
        "caution": "See that there is a crystal first",
    },
    {
        "name": "needs-clock",
        "kind": "needs-hardware",
        "caution": "See that there is a clock first",
    },
    {
        "name": "no-reset",
        "kind": "locks-out",
        "title": "the reset pin is gone",
        "caution": "Only a high voltage brings it back.",
    },
    {
        "name": "no-way-in",
        "kind": "locks-out",
        "when": "serial-programming = unprogrammed and debugger = unprogrammed",
        "caution": "Only a high voltage brings them back.",
    },
    {
        "name": "closed",
        "kind": "other",
        "when": "read-back = programmed",
        "caution": "Keep a copy of the program.",
    },
]


def lamp_tree() -> Tree:
    """Return the description of the chip, as the JSON spelling has it."""
    tree = {
        "format": 1,
        "name": "lamp8",
        "spaces": [{"name": "fuse", "size": "0x08", "pointer": False}],
        "registers": [],
        "configuration": {"space": "fuse", "words": [LOW, HIGH, LOCK], "hazards": HAZARDS},
    }
    return copy.deepcopy(tree)


def chip_of(tree: Tree) -> Chip:
    """Return the chip that ``tree`` describes; what rules say of it does not matter here."""
    checked = check(Source("lamp8.json", json.dumps(tree).encode(), "json"))
    assert checked.resolved is not None, checked.findings
    return checked.resolved.chip


@cache
def lamp() -> Configuration:
    """Return the configuration of the chip."""
    found = chip_of(lamp_tree()).configuration
    assert found is not None
    return found


def lamp_file(folder: Path, tree: Tree | None = None) -> Path:
    """Write the description into ``folder`` and return its file."""
    path = folder / "lamp8.json"
    path.write_text(json.dumps(tree or lamp_tree()), encoding="utf-8")
    return path
