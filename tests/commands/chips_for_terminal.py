"""A description that takes a while to check."""

from __future__ import annotations

import json


def slow_chip() -> str:
    """Return a description of 4,000 registers, which takes some tenths of a second to check."""
    registers = [
        {"name": f"R{n}", "address": f"0x{n:X}", "flags": "H G F E D C B A"} for n in range(4000)
    ]
    spaces = [{"name": "data", "size": "0x10000"}]
    return json.dumps({"format": 1, "name": "slow", "spaces": spaces, "registers": registers})
