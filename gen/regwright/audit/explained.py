"""What one mistake explains: all addresses behind pointers of a file off by the same constant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from regwright.audit.locations import Locations
from regwright.audit.verdicts import NOWHERE, RIGHT, Claim, Verdict
from regwright.code.seen import Where

#: Fewer wrong addresses than this are told one by one.
FEWEST = 3
#: The share of a file's addresses that the constant must explain.
_OF, _AT_LEAST = 5, 4

#: The verdicts on the addresses that one literal gives.
Group = list[Verdict]


class OffByConstant(NamedTuple):
    """A file most of whose addresses behind pointers are wrong by ``delta``.

    ``groups`` are those, ``doubtful`` the verdicts on addresses that no name tells and that would
    be registers' with the constant as well as without. ``total`` counts the addresses that can be
    held against a register.
    """

    file: int
    delta: int
    groups: tuple[Group, ...]
    doubtful: tuple[Verdict, ...]
    total: int


def place_of(claim: Claim) -> Where:
    """Return the part of a source that gives the address: a definition, or the cast in code."""
    return claim.at if claim.form == "access" else claim.whole


def by_literal(verdicts: Iterable[Verdict]) -> list[Group]:
    """Return ``verdicts`` in groups: one for each literal; apart where no literal gives one."""
    groups: dict[Where, Group] = {}
    for verdict in verdicts:
        groups.setdefault(verdict.claim.literal or verdict.claim.at, []).append(verdict)
    return list(groups.values())


def off_by_a_constant(
    verdicts: Iterable[Verdict], locations: Locations, space: str
) -> Iterator[OffByConstant]:
    """Yield each file that one constant explains; ``verdicts`` are about pointers into ``space``.

    At least three registers must be off by it, and four of five addresses.
    """
    files: dict[int, list[Verdict]] = {}
    for verdict in verdicts:
        if verdict.kind != NOWHERE:
            files.setdefault(verdict.claim.at.file, []).append(verdict)
    for file, found in files.items():
        groups = by_literal(found)
        wrong = [(delta, group) for group in groups if (delta := delta_of(group))]
        delta, count = Counter(delta for delta, _ in wrong).most_common(1)[0] if wrong else (0, 0)
        explained = tuple(group for own, group in wrong if own == delta)
        if min(count, len({item.right for group in explained for item in group})) < FEWEST:
            continue
        rest = [group for group in groups if delta_of(group) != delta]
        doubtful = [group for group in rest if is_doubtful(group, delta, locations, space)]
        total = len(groups) - len(doubtful)
        if count * _OF >= total * _AT_LEAST:
            unsure = tuple(group[0] for group in doubtful)
            yield OffByConstant(file, delta, explained, unsure, total)


def delta_of(group: Group) -> int | None:
    """Return by what all that is sure of a group is off; ``None`` when it differs."""
    deltas = {verdict.delta for verdict in group if verdict.kind != RIGHT or verdict.certainty}
    return deltas.pop() if len(deltas) == 1 else None


def is_doubtful(group: Group, delta: int, locations: Locations, space: str) -> bool:
    """Tell whether addresses that no name tells are registers' also with ``delta`` taken off."""
    return all(
        verdict.kind == RIGHT
        and not verdict.certainty
        and any(not spot.offset for spot in locations.at(space, verdict.claim.address - delta))
        for verdict in group
    )
