"""What the made-up chip has besides registers: one of everything."""

from __future__ import annotations

from typing import Any


def trial_parts() -> dict[str, Any]:
    """Return memories, vectors, configuration, clock, identity, ports, packages and names."""
    return {
        "memories": [
            {"name": "CODE 0", "kind": "flash", "space": "bus", "first": 0, "size": 8},
            {
                "name": "RAM",
                "kind": "ram",
                "space": "data",
                "first": "0x1800",
                "size": "0x800",
                "pageSize": "0x100",
                "eraseUnit": "0x200",
            },
        ],
        "vectorTable": {
            "space": "bus",
            "base": 1,
            "size": 2,
            "vectors": [
                {"number": 0, "name": "RESET", "address": 1},
                {"number": 2, "name": "LATE-ONE"},
            ],
        },
        "configuration": _configuration(),
        "clock": {
            "constant": "TRIAL_CLOCK",
            "sources": [
                {"name": "quartz", "kind": "crystal", "when": "source = outside"},
                {
                    "name": "inner",
                    "kind": "internal",
                    "frequency": "12 MHz",
                    "when": "source = inside",
                },
            ],
            "dividers": [
                {
                    "name": "scale",
                    "setting": "scale",
                    "options": [
                        {"choice": "third", "divide": 3},
                        {"choice": "double", "multiply": 2},
                    ],
                },
                {"name": "last", "field": "FAR_BY.F", "options": [{"value": 1, "divide": 4}]},
            ],
        },
        "identity": {"signature": "0x00 0xFF 0x1E", "space": "data", "address": "0x40"},
        "ports": [
            {"name": "P", "bits": "15:8,3:0", "registers": "W16"},
            {"name": "Q", "bits": "7:0", "registers": "W8"},
        ],
        "packages": _packages(),
        "build": {"target": "trial+1", "instructionSet": "t-16", "programmerPart": "t.1"},
    }


def _configuration() -> dict[str, Any]:
    return {
        "space": "bus",
        "programmed": 1,
        "hazards": [{"name": "stuck", "kind": "other", "caution": "it */ \\ stays so"}],
        "words": [
            {
                "name": "first-one",
                "address": 6,
                "width": 16,
                "default": "0x8021",
                "fields": [
                    {
                        "name": "SOURCE",
                        "setting": "source",
                        "bits": "15:14",
                        "choices": [
                            {"name": "outside", "value": 1, "hazards": "stuck"},
                            {"name": "inside", "value": 2},
                        ],
                    },
                    {
                        "name": "SCALE",
                        "setting": "scale",
                        "bits": "5:4",
                        "choices": [
                            {"name": "third", "value": 2},
                            {"name": "double", "value": 3},
                        ],
                    },
                    {"name": "FLAG", "setting": "flag", "bits": 0},
                    {"name": "COUNT", "setting": "count", "bits": "12:10"},
                ],
                "unused": [{"bits": "3:1", "value": 0}, {"bits": "13,9:6"}],
            },
            {"name": "lock", "address": 5, "default": 0, "lock": True},
        ],
    }


def _packages() -> list[dict[str, Any]]:
    pins = [
        {"number": "1", "name": "VCC", "kind": "supply"},
        {"number": "2", "name": "Q7", "port": "Q.7", "functions": "T0/CLK ONE"},
        {"number": "3", "name": "P15", "port": "P.15", "functions": "TWICE"},
        {"number": "4", "name": "VCC", "kind": "supply"},
    ]
    balls = [
        {"number": "A1", "name": "Q7", "port": "Q.7", "functions": "T0/CLK"},
        {"number": "A2", "name": "P0", "port": "P.0", "functions": "TWICE"},
        {"number": "B1", "name": "~RESET", "kind": "reset"},
    ]
    return [
        {"name": "ROW4", "arrangement": "dual", "pinCount": 4, "pins": pins},
        {"name": "BALLS", "arrangement": "grid", "pinCount": 3, "pins": balls},
    ]
