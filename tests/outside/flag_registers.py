"""Registers whose bits act in every way a write can act, and how each bit answers a write."""

from __future__ import annotations

import random
from typing import Any

#: The kinds of bits: what a description says of them, and C for the bit after ``w`` was written
#: where ``s`` stood. What IEEE 1685 says of modifiedWriteValue, bit by bit.
FIELDS = {
    "plain": ({}, "w"),
    "readonly": ({"access": "read-only"}, "s"),
    "one_clears": ({"modifiedWriteValue": "oneToClear"}, "s & ~w"),
    "zero_clears": ({"modifiedWriteValue": "zeroToClear"}, "s & w"),
    "one_sets": ({"modifiedWriteValue": "oneToSet"}, "s | w"),
    "zero_sets": ({"modifiedWriteValue": "zeroToSet"}, "s | ~w"),
    "one_toggles": ({"modifiedWriteValue": "oneToToggle"}, "s ^ w"),
    "zero_toggles": ({"modifiedWriteValue": "zeroToToggle"}, "s ^ ~w"),
}
#: Reserved bits: what the document asks for, and what the write must then have in them.
RESERVED = {"0": "0", "1": "~(uint32_t)0", "preserve": "s"}
CLEARABLE = ("one_clears", "zero_clears")


class FlagRegister:
    """One register: the kind of each bit, and the fields and reserved bits it is made of."""

    def __init__(self, name: str, kinds: list[str]) -> None:
        self.name = name
        self.kinds = kinds
        self.fields = list(self._fields())

    def _fields(self) -> Any:
        """Yield each field's name, bits and kind; neighbours of one kind may be one field."""
        index = 0
        while index < len(self.kinds):
            kind, end = self.kinds[index], index + 1
            # every other run of equal bits is one field of several bits
            while end % 2 and end < len(self.kinds) and self.kinds[end] == kind:
                end += 1
            yield f"F{index}", (end - 1, index), kind
            index = end

    def mask(self, kind: str) -> int:
        return sum(1 << index for index, own in enumerate(self.kinds) if own == kind)

    def described(self, address: int) -> dict[str, Any]:
        fields = [
            {"name": name, "bits": f"{high}:{low}", **FIELDS[kind][0]}
            for name, (high, low), kind in self.fields
            if kind in FIELDS
        ]
        reserved = [
            {"bits": f"{high}:{low}", "write": kind}
            for _, (high, low), kind in self.fields
            if kind in RESERVED
        ]
        return {
            "name": self.name,
            "width": len(self.kinds),
            "address": hex(address),
            "fields": fields,
            "reserved": reserved,
        }

    def flags(self) -> list[tuple[str, int]]:
        """Return the name and mask of each field that can be cleared."""
        return [
            (name, (2 << high) - (1 << low))
            for name, (high, low), kind in self.fields
            if kind in CLEARABLE
        ]

    def after_write(self) -> str:
        """Return C for the state after ``w`` was written where ``s`` stood."""
        parts = [
            f"(({effect}) & {self.mask(kind):#x}U)"
            for kind, (_, effect) in FIELDS.items()
            if self.mask(kind)
        ]
        return " | ".join(parts) or "0U"

    def wrong_reserved(self) -> str:
        """Return C for the reserved bits of ``w`` that are not what the document asks for."""
        parts = [f"((w ^ {wanted}) & {self.mask(kind):#x}U)" for kind, wanted in RESERVED.items()]
        return " | ".join(parts)

    def described_bits(self) -> int:
        return sum(self.mask(kind) for kind in FIELDS)


def registers(width: int, count: int) -> list[FlagRegister]:
    """Return ``count`` registers of ``width`` bits; each has at least one flag to clear."""
    rng = random.Random(width)
    found = []
    for index in range(count):
        kinds = [rng.choice([*FIELDS, *RESERVED]) for _ in range(width)]
        kinds[rng.randrange(width)] = CLEARABLE[index % 2]
        found.append(FlagRegister(f"R{width}_{index}", kinds))
    return found


def chip(items: list[FlagRegister]) -> dict[str, Any]:
    return {
        "name": "flags",
        "spaces": [{"name": "data", "size": "0x10000"}],
        "registers": [item.described(8 * index) for index, item in enumerate(items)],
    }
