"""Which registers the page shows: a register with its halves, elements of a row together."""

from __future__ import annotations

from typing import NamedTuple

from regwright.compare.changes import Change
from regwright.compare.pairs import Pair
from regwright.reports.compared import Compared

_Members = list[tuple[int, list[Change]]]


class Entry(NamedTuple):
    """A register that has changes, or whose halves have some.

    ``number`` is its place among all pairs. ``others`` are elements of the same row, or the same
    register of other instances, with the same changes.
    """

    number: int
    pair: Pair
    changes: list[Change]
    halves: list[tuple[Pair, list[Change]]]
    others: list[Pair]
    other_numbers: list[int]


def entries(compared: Compared) -> list[Entry]:
    """Return the registers that have changes to show, in the order of the matching."""
    pairs = compared.comparison.matching.registers
    outline = compared.outline
    own: dict[int, list[Change]] = {}
    group: dict[int, int] = {}
    for order, section in enumerate((*outline.both, *outline.only_a, *outline.only_b)):
        for number, changes in zip(section.numbers, section.own, strict=True):
            own[number] = changes
            group[number] = order
    members: dict[int, _Members] = {}
    wholes = _wholes(pairs)
    for number in sorted(own):
        head = _head(pairs, number, wholes)
        members.setdefault(head, []).append((number, own[number]))
    made: dict[object, Entry] = {}
    for head in sorted(members):
        pair = pairs[head]
        parts = members[head]
        origins = [placed.register.origin if placed else None for placed in pair[:2]]
        ranks = tuple((group[number], _half(pairs[number])) for number, _ in parts)
        key = (*map(id, origins), ranks)
        known = made.get(key)
        numbers = [number for number, _ in parts if number != head]
        if known is not None:
            known.others.append(pair)
            known.other_numbers.extend((head, *numbers))
            continue
        changes = [item for number, found in parts if number == head for item in found]
        halves = [(pairs[number], found) for number, found in parts if number != head]
        made[key] = Entry(head, pair, changes, halves, [], numbers)
    return list(made.values())


def _wholes(pairs: list[Pair]) -> dict[tuple[str, str], int]:
    return {
        (pair.a.name if pair.a else "", pair.b.name if pair.b else ""): number
        for number, pair in enumerate(pairs)
    }


def _half(pair: Pair) -> str:
    one = pair.a or pair.b
    return one.half if one else ""


def _head(pairs: list[Pair], number: int, wholes: dict[tuple[str, str], int]) -> int:
    """Return the pair of the wide registers of which a pair are the same halves; else itself."""
    a, b, _ = pairs[number]
    sides = [placed for placed in (a, b) if placed]
    if not all(placed.half for placed in sides):
        return number
    return wholes.get((a.whole if a else "", b.whole if b else ""), number)
