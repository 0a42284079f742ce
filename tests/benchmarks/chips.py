"""Descriptions of any size, of the kind that the yardstick reads too."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from regwright.write.spelling_json import to_json
from regwright.write.spelling_xml import to_xml


def description(registers: int, fields: int = 8) -> dict[str, Any]:
    """Return a description of ``registers`` registers with ``fields`` one-bit fields each."""
    return {
        "format": 1,
        "name": "bench",
        "title": "A chip of any size",
        "document": {"title": "Bench data sheet", "revision": "A"},
        "spaces": [
            {"name": "data", "size": "0x80000"},
            {"name": "io", "size": "0x40", "pointer": False},
        ],
        "windows": [
            {"from": "io", "first": "0x00", "last": "0x3F", "into": "data", "offset": "0x20"}
        ],
        "registers": [
            {
                "name": f"REG{number}",
                "title": f"Register number {number}",
                "address": f"data:0x{0x60 + number:X}",
                "reset": "0x00",
                "page": number // 10 + 1,
                "fields": [
                    {
                        "name": f"F{bit}",
                        "bits": str(bit),
                        "title": f"Flag {bit} of register {number}",
                        "access": "read-write",
                    }
                    for bit in range(fields)
                ],
            }
            for number in range(registers)
        ],
    }


def write(folder: Path, registers: int) -> tuple[Path, Path]:
    """Write a description in both spellings and return the XML and the JSON file."""
    tree = description(registers)
    xml, json = folder / f"bench{registers}.xml", folder / f"bench{registers}.json"
    xml.write_text(to_xml(tree), encoding="utf-8")
    json.write_text(to_json(tree), encoding="utf-8")
    return xml, json
