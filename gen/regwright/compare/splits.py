"""Registers that were split into several, or merged from several.

They are one by the fields that moved from one to the other, by halves that have become registers,
or by names: ``COUNT`` of 16 bits is ``COUNT_L`` and ``COUNTH`` of 8 bits each, where neither chip
has the other's.
"""

from __future__ import annotations

from collections.abc import Iterator

from regwright.compare.changes import Change
from regwright.compare.likeness import normal
from regwright.compare.pairs import NAME, PLACE, POSSIBLE, Matching, Pair
from regwright.resolve.chip import Placed

#: How the names of the low and the high half of a register end (common practice, no source).
_ENDS = ("L", "H"), ("LO", "HI"), ("LOW", "HIGH")


def splits(matching: Matching) -> Iterator[Change]:
    """Yield each register of A that is several in B, and the other way round."""
    for whole, into in _split(matching, to_b=True):
        origin = whole.register.origin
        yield Change("register-split", whole.name, into, "", into, "", POSSIBLE, origin)
    for whole, into in _split(matching, to_b=False):
        origin = whole.register.origin
        yield Change("registers-merged", into, whole.name, into, "", "", POSSIBLE, None, origin)


def _split(matching: Matching, *, to_b: bool) -> Iterator[tuple[Placed, str]]:
    """Yield the registers of one chip whose parts are several registers of the other.

    What has a pair of its own has been split only if one of the others is new.
    """
    pairs = [_turned(pair, to_b=to_b) for pair in matching.registers]
    partner = {id(one): other for one, other in pairs if one and other}
    paired = {id(other) for other in partner.values()}
    parts: dict[int, dict[int, Placed]] = {}
    wholes: dict[int, Placed] = {}
    for one, other in (*_fields(matching, to_b=to_b), *_halves(pairs), *_ends(pairs)):
        if partner.get(id(one)) is not other:
            wholes[id(one)] = one
            parts.setdefault(id(one), {})[id(other)] = other
    for key, others in parts.items():
        own = partner.get(key)
        is_new = any(
            id(item) not in paired or item.half != wholes[key].half for item in others.values()
        )
        if is_new if own else len(others) > 1:
            names = {item.name for item in others.values()} | ({own.name} if own else set())
            yield wholes[key], ", ".join(sorted(names))


def _turned(pair: Pair, *, to_b: bool) -> tuple[Placed | None, Placed | None]:
    return (pair.a, pair.b) if to_b else (pair.b, pair.a)


def _fields(matching: Matching, *, to_b: bool) -> Iterator[tuple[Placed, Placed]]:
    """Yield the registers of each two fields that are a pair."""
    for a, b, why in matching.fields:
        if a and b and why not in (NAME, PLACE):  # these two stand in a pair
            yield (a.placed, b.placed) if to_b else (b.placed, a.placed)


def _halves(
    pairs: list[tuple[Placed | None, Placed | None]],
) -> Iterator[tuple[Placed, Placed]]:
    """Yield a wide register and the register that a half of it has become."""
    wholes = {one.name: one for one, _ in pairs if one and not one.half}
    for one, other in pairs:
        if one and other and one.half and not other.half and one.whole in wholes:
            yield wholes[one.whole], other


def _ends(
    pairs: list[tuple[Placed | None, Placed | None]],
) -> Iterator[tuple[Placed, Placed]]:
    """Yield a wide register without a pair, and each of two such registers named after it."""
    lone = {normal(other.name): other for one, other in pairs if other and not one}
    for whole in [one for one, other in pairs if one and not other] if lone else ():
        for ends in _ENDS:
            found = [lone.get(normal(whole.name) + end) for end in ends]
            parts = [item for item in found if item and 2 * item.facts.width == whole.facts.width]
            if len(parts) == len(ends):
                yield from ((whole, part) for part in parts)
