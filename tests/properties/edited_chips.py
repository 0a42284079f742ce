"""A description with one of everything, for edits: no two of its titles are alike."""

from __future__ import annotations

from typing import Any

Tree = dict[str, Any]


def _field(name: str, bits: str, **more: Any) -> Tree:
    return {"name": name, "bits": bits, **more}


_SPEED = [
    {"name": "STOPPED", "value": 0, "title": "the clock stands still"},
    {"name": "SLOW", "value": 1, "title": "one step at a time"},
    {"name": "FAST", "value": "0b10", "usage": "write", "aliases": "QUICK"},
]
_HALVES = {"readFirst": "low", "temporary": "MOTOR_TEMP"}

BASE: Tree = {
    **{"format": 1, "name": "base", "title": "A chip to edit", "family": "Edited"},
    **{"intWidth": 16, "compilerMacro": "BASE_CHIP", "notes": "Invented for tests."},
    "document": {"title": "Base data sheet", "revision": "A", "date": "2026-01"},
    "spaces": [
        {
            **{"name": "data", "title": "data space", "size": "0x1000"},
            "regions": [
                {"name": "PORTS", "kind": "ports", "first": "0x20", "last": "0x5F"},
                {
                    "name": "SRAM",
                    "title": "memory",
                    "kind": "ram",
                    "first": "0x800",
                    "last": "0xFFF",
                },
            ],
        },
        {"name": "io", "size": "0x40", "pointer": False},
    ],
    "windows": [
        {
            **{"from": "io", "first": "0x00", "last": "0x3F", "into": "data", "offset": "0x20"},
            "singleBit": {"first": "0x00", "last": "0x1F"},
        }
    ],
    "instructions": [
        {"names": "in inb", "space": "io", "access": "read", "address": 2},
        {"names": "bset", "space": "io", "access": "modify", "address": 1, "bit": 2},
    ],
    "registers": [
        {
            **{
                "name": "LAMPS",
                "title": "Lamps of the front panel",
                "address": "io:0x02 data:0x22",
            },
            **{"reset": "0x00", "page": 4},
            "fields": [
                _field("RED", "0", title="the red lamp", page=4),
                _field("GREEN", "1", title="the green lamp", reset="0b0"),
                _field("BLINK", "4:3", title="how often they blink", values=_SPEED),
            ],
            "reserved": [{"bits": "7:6", "write": "0"}],
        },
        {
            **{"name": "KEYS", "title": "Keys of the front panel", "address": "data:0x24"},
            **{"access": "read-only", "reset": "0bxxxx_xx00"},
            "fields": [_field("HELD", "7:2", title="keys that are held down", volatile=True)],
        },
        {
            **{
                "name": "BELL",
                "title": "Bell of the door",
                "address": "io:0x1E",
                "aliases": "GONG",
            },
            **{"reset": "0x80", "readAction": "clear", "notes": "Rings once."},
            "fields": [
                _field("RINGS", "7", title="it rings now", modifiedWriteValue="oneToClear"),
                _field("TONE", "5,1:0", title="how high it rings", valuesComplete=False),
            ],
        },
        {
            **{"name": "DOOR", "title": "Lock of the door", "address": "data:0x3F", "page": 6},
            "fields": [
                _field("OPEN", "0", title="opens the lock", access="write-only", aliases="UNLOCK"),
                _field("BANK", "7", title="what stands behind it"),
            ],
        },
        {
            **{"name": "DOOR_CODE", "title": "Code of the door", "address": "data:0x70"},
            "when": "DOOR.BANK = 1",
        },
        {
            "name": "DOOR_COPY",
            "title": "Mirror of the lock",
            "address": "data:0x71",
            "aliasOf": "DOOR",
        },
        {
            **{"name": "MOTOR", "title": "Steps of the motor", "width": 16, "address": "data:0x80"},
            **{"reset": "0x1234", "page": 9},
            "halves": {**_HALVES, "low": {"name": "MOTOR_L"}, "high": {"name": "MOTOR_H"}},
            "fields": [_field("COUNT", "11:0", title="steps that are left")],
            "reserved": [{"bits": "15:14", "write": "preserve"}, {"bits": "13:12", "write": "1"}],
        },
        {
            **{"name": "BUFFER", "title": "Bytes that wait", "address": "data:0x90", "count": 4},
            "stride": 2,
        },
    ],
    "blocks": [
        {
            **{"name": "PUMP", "title": "A pump of the basin", "page": 20, "notes": "Two of them."},
            "instances": [
                {"name": "PUMP0", "title": "the pump in front", "base": "data:0x100"},
                {"name": "PUMP1", "title": "the pump behind", "base": "data:0x120", "page": 21},
            ],
            "registers": [
                {
                    **{"name": "SWITCH", "title": "Switch of one pump", "offset": "0x00"},
                    "reset": "0x01",
                    "fields": [
                        _field("RUN", "0", title="it runs"),
                        _field("GEAR", "3:2", title="its gear", values=_SPEED[:2]),
                    ],
                },
                {
                    **{"name": "FLOW", "title": "Water through one pump", "offset": "0x02"},
                    **{"width": 16, "access": "read-only", "byteOrder": "little"},
                },
                {"name": "LOG", "offset": "0x08", "count": 3, "title": "Faults of one pump"},
            ],
        },
        {
            **{"name": "LANE", "title": "A lane of the belt", "base": "data:0x200", "count": 3},
            **{"stride": "0x10", "width": 16, "aliases": "BELT"},
            "registers": [
                {
                    **{
                        "name": "LOAD",
                        "title": "Load of one lane",
                        "offset": "0x0",
                        "reset": "0x0",
                    },
                    "fields": [_field("GRAMS", "9:0", title="its weight", reset="0x000")],
                },
            ],
            "blocks": [
                {
                    **{"name": "GATE", "title": "The gate of one lane", "offset": "0x08"},
                    "registers": [
                        {"name": "ANGLE", "title": "Angle of one gate", "offset": "0x02"},
                        {"name": "FORCE", "title": "Force of one gate", "offset": "0x04"},
                    ],
                }
            ],
        },
    ],
}
