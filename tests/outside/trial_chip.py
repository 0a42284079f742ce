"""A made-up chip that has one of everything the format can say."""

from __future__ import annotations

from typing import Any

from trial_parts import trial_parts

WRITES = [
    "oneToClear",
    "oneToSet",
    "oneToToggle",
    "zeroToClear",
    "zeroToSet",
    "zeroToToggle",
    "clear",
    "set",
    "modify",
]
READS = [None, "clear", "set", "modify"]


def _wide(width: int) -> dict[str, Any]:
    """Return a register of ``width`` bits, its field split in a way that depends on the width."""
    top, middle = width - 1, width // 2
    shapes = [f"{top}:0"]
    if width >= 3:
        shapes += [f"0,{top}:1", f"{middle - 1}:0,{top}:{middle}", f"{top}:{middle},{middle - 1}:0"]
    if width >= 6:
        shapes += [f"1,0,{top}:4,2,3"]
    return {
        "name": f"W{width}",
        "width": width,
        "address": hex(0x1000 + 8 * width),
        "reset": hex((1 << width) - 1),
        "byteOrder": "big" if width % 3 else "little",
        "fields": [
            {
                "name": "F",
                "bits": shapes[width % len(shapes)],
                "values": [
                    {"name": "TOP", "value": hex((1 << width) - 1)},
                    {"name": "1", "value": "0x1"},
                ],
            }
        ],
    }


def _acting(effect: str, index: int) -> dict[str, Any]:
    """Return a register whose fields all answer to ``effect``, each with another read action."""
    fields = []
    for place, action in enumerate(READS):
        for name, bits in (
            (f"BIT{place}", f"{place}"),
            (f"FIELD{place}", f"{place + 8},{place + 4}"),
        ):
            field = {"name": name, "bits": bits, "modifiedWriteValue": effect}
            fields.append(field | ({"readAction": action} if action else {}))
    return {
        "name": f"ACT_{effect}",
        "width": 16,
        "address": hex(0x100 + 2 * index),
        "readAction": READS[1 + index % 3],
        "fields": [*fields, {"name": "PLAIN", "bits": "15"}],
        "reserved": [{"bits": "14", "write": "1"}, {"bits": "13:12", "write": "preserve"}],
    }


def _halves(name: str, width: int, address: int, order: str) -> dict[str, Any]:
    return {
        "name": name,
        "width": width,
        "address": hex(address),
        "byteOrder": order,
        "halves": {
            "readFirst": "high",
            "writeFirst": "low",
            "temporary": "TEMP",
            "low": {"name": f"{name}_L"},
            "high": {"name": f"{name}_H"},
        },
    }


def _blocks() -> list[dict[str, Any]]:
    inner = {
        "name": "CH",
        "offset": "0x10",
        "count": 2,
        "stride": "0x8",
        "firstIndex": 1,
        "registers": [{"name": "DATA", "offset": 0, "count": 3, "firstIndex": 4, "width": 16}],
    }
    status = {
        "name": "STATUS",
        "offset": 1,
        "flags": "A B - - C - - D",
        "access": "read-only",
    }
    parts = {
        "name": "PARTS",
        "offset": 2,
        "fields": [{"name": "LOW", "bits": "3:0", "reset": "0x9"}],
    }
    return [
        {
            "name": "UNIT",
            "size": "0x40",
            "instances": [
                {"name": "UNIT0", "base": "0x400"},
                {"name": "UNIT1", "prefix": "SECOND_", "base": "0x440"},
            ],
            "registers": [status, parts],
            "blocks": [inner],
        },
        {
            "name": "BOTH",
            "base": "io:0x08 data:0x28",
            "registers": [{"name": "X", "offset": 2}, {"name": "Y", "offset": 3, "width": 24}],
        },
        {"name": "ONE", "base": "io:0x18", "registers": [{"name": "X", "offset": 1}]},
    ]


def trial_chip(**changes: Any) -> dict[str, Any]:
    """Return the description, with ``changes`` in its chip."""
    registers = [_wide(width) for width in range(1, 65)]
    registers += [_acting(effect, index) for index, effect in enumerate(WRITES)]
    registers += [
        _halves("LITTLE16", 16, 0x200, "little"),
        _halves("BIG16", 16, 0x202, "big"),
        _halves("BIG32", 32, 0x204, "big"),
        _halves("LITTLE64", 64, 0x208, "little"),
        _halves("LITTLE48", 48, 0x210, "little"),
        {**_halves("ROW", 16, 0x220, "big"), "count": 3, "stride": 4},
        {"name": "PORT", "address": "io:0x05"},
        {"name": "LAST", "address": "io:0x1F data:0x3F", "reset": "0bx01x_0x10"},
        {"name": "FAR", "address": "data:0x7F", "reset": "0b0000_0001"},
        {"name": "HIDDEN", "address": "bus:0x3", "width": 16, "reset": "0x0_0_0_7"},
        {"name": "CHECK", "address": "data:0x80", "access": "writeOnce"},
        {
            "name": "FAR_BY",
            "address": "data:0x81",
            "reset": "0x21",
            "fields": [{"name": "F", "bits": "6:5"}],
        },
    ]
    return {
        "name": "trial",
        "compilerMacro": "TRIAL_TARGET",
        "spaces": [
            {"name": "data", "size": "0x2000"},
            {"name": "io", "size": "0x20", "pointer": False},
            {"name": "bus", "size": "0x8", "unit": 16, "pointer": False},
        ],
        "windows": [
            {
                "from": "io",
                "first": 0,
                "last": "0x1F",
                "into": "data",
                "offset": "0x20",
                "singleBit": {"first": 4, "last": "0x0F"},
            }
        ],
        "registers": registers,
        "blocks": _blocks(),
        **trial_parts(),
        **changes,
    }
