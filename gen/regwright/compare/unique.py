"""Pair things that share a key that nothing else has, on either side."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import TypeVar

Thing = TypeVar("Thing")


def unique_pairs(
    left: Iterable[Thing], right: Iterable[Thing], keys: Callable[[Thing], Iterable[Hashable]]
) -> Iterator[tuple[Thing, Thing]]:
    """Yield each pair whose things have a key in common that only one on each side has.

    A thing that has such keys with several others is in no pair. Swapping the sides swaps the
    pairs and changes nothing else.
    """
    of_left, of_right = _by_key(left, keys), _by_key(right, keys)
    found: dict[tuple[int, int], tuple[Thing, Thing]] = {}
    for key, one in of_left.items():
        other = of_right.get(key)
        if one is not None and other is not None:
            found[id(one), id(other)] = one, other
    of_one: dict[int, int] = {}
    of_other: dict[int, int] = {}
    for one_id, other_id in found:
        of_one[one_id] = of_one.get(one_id, 0) + 1
        of_other[other_id] = of_other.get(other_id, 0) + 1
    for (one_id, other_id), pair in found.items():
        if of_one[one_id] == 1 and of_other[other_id] == 1:
            yield pair


def _by_key(
    things: Iterable[Thing], keys: Callable[[Thing], Iterable[Hashable]]
) -> dict[Hashable, Thing | None]:
    """Return the thing of each key; ``None`` for one that several have."""
    found: dict[Hashable, Thing | None] = {}
    for thing in things:
        for key in keys(thing):
            known = found.setdefault(key, thing)
            if known is not thing:
                found[key] = None
    return found


def in_turn(things: Iterable[Thing], name: Callable[[Thing], Hashable]) -> dict[int, Hashable]:
    """Return a key for each thing, by its identity: its name, and the how manieth of it this is.

    So the second of two things of one name is the second of them on the other side too.
    """
    found: dict[int, Hashable] = {}
    count: dict[Hashable, int] = {}
    for thing in things:
        key = name(thing)
        number = count.get(key, 0)
        count[key] = number + 1
        found[id(thing)] = (key, number) if number else key
    return found
