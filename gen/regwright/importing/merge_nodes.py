"""Merge objects, lists and plain values of two descriptions, by the shape of the format."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Hashable, Sequence
from copy import deepcopy
from typing import Any, NamedTuple

from regwright.format.shape import definition, shapes
from regwright.importing.draft import Tree
from regwright.importing.merge_meaning import (
    kind_of,
    meaning,
    spelled_addresses,
    whole_meaning,
)
from regwright.model.finding import WARNING, Finding
from regwright.model.origin import Origin
from regwright.read.numbers import number

#: The name of the findings about what differs, see ``oddities``.
IMPORT_CONFLICT = "import-conflict"
#: By what the elements of a list are known again, the surest first. What stands in none of these
#: lists is the same when all of it is.
_KEYS: dict[str, tuple[tuple[str, ...], ...]] = {
    "space": (("name",),),
    "region": (("name",), ("first", "last")),
    "window": (("from", "into", "first"), ("from", "into")),
    "instruction": (("names", "space", "access"),),
    "memory": (("name",), ("space", "first")),
    "instance": (("name",), ("base",)),
    "vector": (("name", "number"), ("name",), ("number",)),
    "value": (("name", "value"), ("name", "usage"), ("value", "usage")),
    "reservedBits": (("bits",),),
    "silence": (("rule",),),
    "port": (("name",),),
    "package": (("name",),),
    "pin": (("number",),),
    "hazard": (("name",),),
    "configurationWord": (("name",), ("address",)),
    "configurationField": (("setting",), ("bits",)),
    "choice": (("name", "value"), ("name",), ("value",)),
    "unusedBits": (("bits",),),
    "clockSource": (("name",),),
    "clockDivider": (("name",),),
    "clockOption": (("choice", "value"),),
    "clockLimit": (("supply",),),
    "rate": (("name",),),
}
#: Lists that are sorted by a number, and by which.
_SORTED_BY = {"value": "value", "vector": "number", "choice": "value"}
#: What tells where and how something is printed, or speaks to people: no fact of the chip.
WORDS = frozenset({"title", "notes", "comment", "printed", "review", "page", "aliases", "silences"})
#: How far something reaches. An import may see but a part of the chip: less is no difference.
_EXTENTS = frozenset({("space", "size"), ("window", "last")})
#: What an import says of itself: its remarks are of no use where it agrees.
_NEVER_BROUGHT = frozenset({"$schema", "comment", "format", "printed", "review"})
#: Parts of a register, whose page is most often the page of the table that they stand in.
_PARTS = frozenset({"field", "value", "reservedBits"})
_LONGEST_ADDRESS = 200
_LONGEST_NAMES = 400
_LONGEST_REVIEW = 200
_LONGEST_SHOWN = 60


class Conflict(NamedTuple):
    """A difference between a description and an import: the description's value was kept.

    ``origin`` is the place in the existing description.
    """

    origin: Origin
    message: str

    def finding(self) -> Finding:
        """Return the finding that tells of it."""
        return Finding(IMPORT_CONFLICT, WARNING, self.message, self.origin)


class Spot(NamedTuple):
    """Where a node stands: ``at`` in the existing description, ``to`` in the merged one."""

    at: Origin
    to: Origin

    def under(self, key: str) -> Spot:
        """Return the spot of the property ``key``."""
        return Spot((self.at, key), (self.to, key))

    def element(self, key: str, old: int, new: int) -> Spot:
        """Return the spot of the element of the list ``key`` that moved from ``old`` to ``new``."""
        return Spot((self.at, key, old), (self.to, key, new))


class Arranged(NamedTuple):
    """One place of a merged list: the index in either list, ``None`` for what is not there."""

    old: int | None
    brought: int | None


class Nodes:
    """Merges nodes, and collects what could not be merged and what was added.

    ``space`` is the one that an address means which names none, in both descriptions.
    """

    def __init__(self, space: str) -> None:
        self.space = space
        self.conflicts: list[Conflict] = []
        self.added: list[Origin] = []
        self.other_pages: list[Origin] = []

    def differ(self, origin: Origin, message: str) -> None:
        """Note that both descriptions say different things."""
        self.conflicts.append(Conflict(origin, f"{message}; it stays as it is: {_ADVICE}"))

    def node(
        self,
        shape: str,
        here: Tree,
        brought: Tree,
        spot: Spot,
        skip: frozenset[str] = frozenset(),
        *,
        certain: bool = True,
    ) -> Tree:
        """Return ``here`` with what only ``brought`` gives; the properties ``skip`` stay.

        ``certain`` tells whether ``brought`` confirms what was skipped. Where something is taken,
        what the document prints and a mark for review come with it.
        """
        before = len(self.conflicts)
        found, new = dict(here), {}
        for key, value in brought.items():
            if key in skip or key in _NEVER_BROUGHT or (key == "page" and shape in _PARTS):
                continue
            if key in here:
                found[key] = self._value(shape, key, here[key], value, spot)
            else:
                new[key] = deepcopy(value)
                self.added.append((spot.to, key))
        has_more = any(key not in WORDS for key in new) or found != here
        agree = certain and len(self.conflicts) == before
        for key in ("page", "printed") if has_more else ():
            if key in brought and key not in found and key not in new:
                new[key] = brought[key]
        found = in_order(shape, found, new)
        if has_more and "review" in brought:
            self._warn(shape, found, brought["review"])
        elif agree and "review" in here and self._is_certain(here, brought, skip):
            del found["review"]
        return found

    def _warn(self, shape: str, found: Tree, review: str) -> None:
        """Keep the mark on what is brought beside the mark that is there."""
        if "review" not in found:
            found.update(in_order(shape, found, {"review": review}))
        elif review not in found["review"]:
            both = f"{found['review']}; {review}"
            found["review"] = both if len(both) <= _LONGEST_REVIEW else found["review"]

    @staticmethod
    def _is_certain(here: Tree, brought: Tree, skip: frozenset[str]) -> bool:
        """Tell whether ``brought`` gives every fact of ``here`` without a mark for review."""
        facts = here.keys() - WORDS - skip
        return "review" not in brought and facts <= brought.keys()

    def _value(self, shape: str, key: str, here: Any, brought: Any, spot: Spot) -> Any:
        child = shapes()[shape].by_property.get(key)
        if child is not None and child.shape is not None:
            if child.many:
                return self.many(shape, key, here, brought, spot)
            return self.node(child.shape, here, brought, spot.under(key))
        kind = kind_of(definition(shape)["properties"][key])
        is_part = (shape, key) in _EXTENTS and number(brought) <= number(here)
        if is_part:
            return here
        if kind == "address":
            return self.address(here, brought, spot.under(key))
        if key == "aliases":
            return self._names(here, brought, spot.under(key))
        return self.plain(kind, key, here, brought, (spot.at, key))

    def plain(self, kind: str, key: str, here: Any, brought: Any, at: Origin) -> Any:
        """Return the plain value ``here``; a conflict is noted when ``brought`` means another."""
        if meaning(kind, here, self.space) == meaning(kind, brought, self.space):
            return here
        if key == "page":
            self.other_pages.append(at)
        else:
            self.differ(at, f"{key} is {shown(here)} here and {shown(brought)} in the import")
        return here

    def address(self, here: str | int, brought: str | int, spot: Spot) -> str | int:
        """Return the addresses of both; in one space they must be the same."""
        own = spelled_addresses(here, self.space)
        known: dict[str, set[int]] = defaultdict(set)
        for space, value in own:
            known[space].add(number(value))
        more = []
        for space, value in spelled_addresses(brought, self.space):
            if space not in known:
                more.append((space, value))
            elif number(value) not in known[space]:
                spelled = " ".join(f"{name}:{text}" for name, text in own)
                message = f"address is {spelled} here and {space}:{value} in the import"
                self.differ(spot.at, message)
        both = " ".join(f"{space}:{value}" for space, value in own + more)
        if not more or len(both) > _LONGEST_ADDRESS:
            return here
        self.added.append(spot.to)
        return both

    def _names(self, here: str, brought: str, spot: Spot) -> str:
        more = [name for name in dict.fromkeys(brought.split()) if name not in here.split()]
        both = " ".join([here, *more])
        if more and len(both) > _LONGEST_NAMES:
            self.differ(spot.at, f"there is no room for the aliases {shown(brought)} of the import")
            return here
        if more:
            self.added.append(spot.to)
        return both

    def many(
        self, shape: str, key: str, here: list[Any], brought: list[Any], spot: Spot
    ) -> list[Any]:
        """Return the list ``key`` of both, known elements merged, the order kept."""
        kind = shapes()[shape].by_property[key].shape or ""
        pairs = pair(kind, here, brought, self.space)
        new = [index for index in range(len(brought)) if index not in pairs.values()]
        new = self.if_room(shape, key, len(here), new, spot)
        order = _SORTED_BY.get(kind)
        ranks = [number(item[order]) if order else None for item in here]
        new_ranks = {index: number(brought[index][order]) if order else None for index in new}
        found = []
        for position, place in enumerate(arranged(ranks, pairs, new_ranks)):
            if place.old is None:
                found.append(deepcopy(brought[place.brought or 0]))
                self.added.append((spot.to, key, position))
            else:
                item = brought[place.brought] if place.brought is not None else {}
                inner = spot.element(key, place.old, position)
                found.append(
                    self.node(kind, here[place.old], item, inner) if item else here[place.old]
                )
        return found

    def if_room(self, shape: str, key: str, size: int, new: list[int], spot: Spot) -> list[int]:
        """Return ``new``, or none of it when the list would grow longer than is allowed."""
        most = definition(shape)["properties"][key].get("maxItems")
        if most is None or size + len(new) <= most or not new:
            return new
        self.differ(
            (spot.at, key) if size else spot.at,
            f"{key} may have {most} entries, there is no room for {len(new)} more of the import",
        )
        return []


_ADVICE = "if the import is right, change it by hand"


def shown(value: Any) -> str:
    """Return a value as a message shows it."""
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    text = " ".join(text.split())
    return text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "…"


def in_order(shape: str, here: Tree, new: Tree) -> Tree:
    """Return ``here`` with the properties ``new``, each behind those that the format has before it.

    The order of ``here`` is kept.
    """
    if not new:
        return here
    ranks = {key: rank for rank, key in enumerate(definition(shape)["properties"])}
    keys = list(here)
    for key in sorted(new, key=ranks.__getitem__):
        behind = [index for index, item in enumerate(keys) if ranks[item] < ranks[key]]
        keys.insert(behind[-1] + 1 if behind else 0, key)
    return {key: new[key] if key in new else here[key] for key in keys}


def pair(kind: str, here: Sequence[Tree], brought: Sequence[Tree], space: str) -> dict[int, int]:
    """Return which element of ``here`` (by its index) is which of ``brought``."""
    properties = definition(kind)["properties"]
    pairs: dict[int, int] = {}
    taken: set[int] = set()

    def key_of(item: Tree, keys: tuple[str, ...]) -> Hashable:
        if not keys:
            return whole_meaning(kind, item, space)
        return tuple(
            meaning(kind_of(properties[key]), item[key], space) if key in item else None
            for key in keys
        )

    for keys in ((), *_KEYS.get(kind, ())):
        waiting: dict[Hashable, list[int]] = defaultdict(list)
        for index, item in enumerate(here):
            if index not in pairs:
                waiting[key_of(item, keys)].append(index)
        for index, item in enumerate(brought):
            if index not in taken and (found := waiting.get(key_of(item, keys))):
                pairs[found.pop(0)] = index
                taken.add(index)
    return pairs


def arranged(
    ranks: Sequence[int | None], pairs: dict[int, int], new: dict[int, int | None]
) -> list[Arranged]:
    """Return the order of a merged list.

    ``ranks`` are the numbers that the existing elements are sorted by (``None`` where there is
    none), ``pairs`` says which brought element each is, ``new`` are the ranks of those that have
    no partner. Existing elements keep their order; a new one follows the nearest before it.
    """
    known = [rank for rank in ranks if rank is not None]
    falls = known != sorted(known) and known == sorted(known, reverse=True)
    sign = -1 if falls else 1
    waiting: dict[int, list[int]] = defaultdict(list)
    for index in sorted(new, key=lambda index: (sign * (new[index] or 0), index)):
        waiting[
            _slot(
                [None if rank is None else sign * rank for rank in ranks],
                None if new[index] is None else sign * (new[index] or 0),
            )
        ].append(index)
    order: list[Arranged] = []
    for position in range(len(ranks) + 1):
        order.extend(Arranged(None, index) for index in waiting[position])
        if position < len(ranks):
            order.append(Arranged(position, pairs.get(position)))
    return order


def _slot(ranks: Sequence[int | None], rank: int | None) -> int:
    """Return before which element something of ``rank`` goes, ranks rising."""
    known = [(value, index) for index, value in enumerate(ranks) if value is not None]
    if rank is None or not known:
        return len(ranks)
    lower = [item for item in known if item[0] <= rank]
    return max(lower)[1] + 1 if lower else min(known)[1]
