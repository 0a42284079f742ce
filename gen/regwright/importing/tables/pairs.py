"""Find registers that are the high and low byte of one, by more than the ends of their names."""

from __future__ import annotations

import re

from regwright.importing.tables import words
from regwright.importing.tables.facts import FieldFacts, RegisterFacts, ReservedFacts

_ENDS = (("_HIGH", "_LOW"), ("_HI", "_LO"), ("_H", "_L"), ("HIGH", "LOW"), ("H", "L"))
_BYTE = re.compile(r"\b(high|low|upper|lower|most|least)\b", re.IGNORECASE)
_NUMBERED = re.compile(r"([A-Za-z_]\w*?)_?(\d{1,2})")


def join_pairs(registers: list[RegisterFacts]) -> list[RegisterFacts]:
    """Return the registers; each proven pair has become one of 16 bits, the rest is marked."""
    by_name = {item.name: item for item in registers if item.name and not item.is_reserved}
    joined: dict[int, RegisterFacts] = {}
    gone: set[int] = set()
    for name, high in by_name.items():
        stem, low = _partner(name, by_name)
        if low is None or id(high) in gone or id(low) in gone or not _adjacent(high, low):
            continue
        proof = _proof(high, low)
        if stem in by_name:
            for item in (high, low):
                item.review(f"is it a half of {stem}, which is printed as well?")
        elif proof is None:
            for item in (high, low):
                item.review(f"{high.name} and {low.name} may be the halves of one register")
        elif proof:
            first, second = sorted((high, low), key=registers.index)
            joined[id(first)] = _joined(stem, high, low)
            gone |= {id(first), id(second)}
    found = [joined.get(id(item), item) for item in registers]
    return [item for item in found if id(item) not in gone]


def _partner(name: str, by_name: dict[str, RegisterFacts]) -> tuple[str, RegisterFacts | None]:
    for high, low in _ENDS:
        if name.upper().endswith(high) and len(name) > len(high) + 1:
            stem = name[: -len(high)]
            for end in (low, low.lower()):
                if stem + end in by_name:
                    return stem, by_name[stem + end]
    return "", None


def _adjacent(high: RegisterFacts, low: RegisterFacts) -> bool:
    if high.placed.keys() != low.placed.keys() or not high.placed:
        return False
    steps = {high.placed[space] - low.placed[space] for space in high.placed}
    return (steps in ({1}, {-1})) and high.width == low.width == 8 and high.block == low.block


def _proof(high: RegisterFacts, low: RegisterFacts) -> bool | None:
    """Tell whether the bits show that two bytes belong together; ``None`` if nothing does.

    Slices or numbers of bits that go on from one byte to the other prove it, and so does a text
    that calls them high and low byte. Flags with names of their own speak against it.
    """
    if _goes_on(_numbered(high.fields, 8), _numbered(low.fields, 0)):
        return True
    is_said = bool(_BYTE.search(high.title)) and bool(_BYTE.search(low.title))
    if is_said and high.title != low.title:
        return True
    return False if high.fields or low.fields else None


def _numbered(fields: list[FieldFacts], shift: int) -> list[FieldFacts]:
    """Return the fields that are slices; bits named with their number become such."""
    found = []
    for item in fields:
        match = _NUMBERED.fullmatch(item.name) if item.index is None else None
        if item.index is not None:
            found.append(item)
        elif match and item.width == 1 and int(match[2]) == item.bits[0][0] + shift:
            found.append(FieldFacts(match[1], item.bits, item.spot, (int(match[2]),) * 2))
    return found


def _goes_on(high: list[FieldFacts], low: list[FieldFacts]) -> bool:
    for name in {item.name for item in high}:
        upper = [item.index for item in high if item.name == name and item.index]
        lower = [item.index for item in low if item.name == name and item.index]
        if upper and lower and min(upper)[1] == max(lower)[0] + 1:
            return True
    return False


def _joined(stem: str, high: RegisterFacts, low: RegisterFacts) -> RegisterFacts:
    first = min((high, low), key=lambda item: next(iter(item.placed.values())))
    whole = RegisterFacts(stem.rstrip("_"), low.spot, low.address, 16)
    whole.placed = dict(first.placed)
    whole.byte_order = "big" if first is high else ""
    whole.is_offset, whole.block, whole.base = low.is_offset, low.block, low.base
    whole.space, whole.page, whole.layout = low.space, low.page or high.page, low.layout
    whole.access, whole.prints_page = low.access, low.prints_page or high.prints_page
    if low.access != high.access:
        whole.review(f"its halves have different access: {low.access!r} and {high.access!r}")
    for shift, half in ((8, high), (0, low)):
        plain = _numbered(half.fields, shift)
        for printed in half.fields:
            item = next((one for one in plain if one.bits == printed.bits), printed)
            item.bits = [(top + shift, end + shift) for top, end in item.bits]
            whole.fields.append(item)
        whole.reserved += [
            ReservedFacts(item.high + shift, item.low + shift, item.spot) for item in half.reserved
        ]
        whole.resets.update({bit + shift: digit for bit, digit in half.resets.items()})
        for reason in half.reviews:
            whole.review(f"{half.name}: {reason}")
        whole.notes += half.notes
    whole.reset = _joined_resets(high.reset, low.reset)
    whole.halves = [low, high]
    return whole


def _joined_resets(high: str, low: str) -> str:
    found = [words.reset(text, 8) for text in (high, low)]
    digits = [
        "".join(
            "x" if item.undefined >> bit & 1 else str(item.value >> bit & 1)
            for bit in reversed(range(8))
        )
        for item in found
        if item is not None
    ]
    return "".join(digits) if len(digits) == 2 else ""
