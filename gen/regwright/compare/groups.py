"""Changes that are one change of the description: of a row, of instances, of halves, of a move."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from typing import NamedTuple

from regwright.compare.changes import Change
from regwright.model.origin import Origin

#: Kinds whose before and after name registers or places: they differ along a row by nature.
_NAMING = {
    *("register-renamed", "register-only-in-a", "register-only-in-b", "field-moved"),
    *("register-split", "registers-merged"),
}


class Group(NamedTuple):
    """Changes of one kind that say the same: the first of them, and the rest in their order.

    They are of one node of either description (a row's elements, a block's instances, a register
    and its halves), or addresses of one block, or of registers in no block, that moved by the same
    ``distance``: how far up from A to B in units of the space, negative for down; ``None`` for
    what is no such move, and where each moved by its own distance.
    """

    change: Change
    others: tuple[Change, ...] = ()
    distance: int | None = None

    @property
    def all(self) -> tuple[Change, ...]:
        """All changes of the group, in their order."""
        return (self.change, *self.others)


def collapsed(changes: Iterable[Change]) -> list[Group]:
    """Return ``changes`` in groups, in the order of the first change of each.

    Each change is in exactly one group.
    """
    listed = list(changes)
    keys = _move_keys([item for item in listed if item.kind == "address"])
    found: dict[Hashable, list[Change]] = {}
    whole: dict[Hashable, Hashable] = {}
    for number, item in enumerate(listed):
        key = keys.get(id(item)) or _key(item, number)
        half = item.kind, item.detail, *_nodes(item)
        if _is_half(item.origin_a) and _is_half(item.origin_b):
            key = whole.get(half, key)
        else:
            whole.setdefault(half, key)
        found.setdefault(key, []).append(item)
    return [Group(items[0], tuple(items[1:]), _common_distance(items)) for items in found.values()]


def _key(item: Change, number: int) -> Hashable:
    """Return what the changes of a group have in common; ``number`` keeps a chip's own apart."""
    if item.origin_a is None and item.origin_b is None:
        return number
    said = () if item.kind in _NAMING else (item.before, item.after)
    return (item.kind, item.detail, item.sure, *_nodes(item), *said)


def _nodes(item: Change) -> tuple[Origin, Origin]:
    """Return which registers or fields a change is about, a half standing for its register."""
    return _of_register(item.origin_a), _of_register(item.origin_b)


def _is_half(origin: Origin) -> bool:
    return origin is not None and origin[0] is not None and origin[0][1] == "halves"


def _of_register(origin: Origin) -> Origin:
    return (
        origin[0][0]
        if origin is not None and origin[0] is not None and _is_half(origin)
        else origin
    )


def _move_keys(moves: Sequence[Change]) -> dict[int, Hashable]:
    """Return a key for each of ``moves``: its block and distance, or its own node.

    The latter where the elements of a row moved each by another distance, as when its step changed.
    """
    distances: dict[Hashable, set[int | str]] = {}
    of_block: dict[Hashable, list[Hashable]] = {}
    for item in moves:
        node = _node_key(item)
        if node not in distances:
            of_block.setdefault(_block_key(item), []).append(node)
        distances.setdefault(node, set()).add(_distance(item))
    regular: set[Hashable] = set()
    for nodes in of_block.values():
        least = min(len(distances[node]) for node in nodes)
        alike = [node for node in nodes if len(distances[node]) == least]
        if len(set().union(*(distances[node] for node in alike))) <= max(len(alike), 1):
            regular.update(alike)
    return {
        id(item): (*_block_key(item), _distance(item))
        if _node_key(item) in regular
        else _node_key(item)
        for item in moves
    }


def _node_key(item: Change) -> tuple[Hashable, ...]:
    return ("node", item.detail, item.sure, *_nodes(item))


def _block_key(item: Change) -> tuple[Hashable, ...]:
    one, other = _nodes(item)
    return "block", item.detail, item.sure, one and one[0], other and other[0]


def _distance(item: Change) -> int | str:
    """Return how far an address moved, or that it came or went."""
    if item.before and item.after:
        return int(item.after, 16) - int(item.before, 16)
    return "gone" if item.before else "new"


def _common_distance(items: list[Change]) -> int | None:
    if items[0].kind != "address":
        return None
    found = {_distance(item) for item in items}
    distance = found.pop()
    return distance if not found and isinstance(distance, int) else None
