"""Let nodes take after others, as derivedFrom and its like say."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from regwright.importing.mapped.findings import Findings
from regwright.importing.mapped.raw import Raw

CIRCLE, NOTHING = "derived-in-a-circle", "derived-from-nothing"


class Heirs:
    """The nodes of one document by their keys, and what each of them comes to."""

    def __init__(self, root: Raw, findings: Findings) -> None:
        """Index all nodes in ``root``; what cannot be followed goes to ``findings``."""
        self._findings = findings
        self._by_key: dict[tuple[str, str], list[Raw]] = defaultdict(list)
        self._settled: set[Raw] = set()
        self._settling: list[Raw] = []
        self._all = list(_all_in(root))
        for raw in self._all:
            if raw.key:
                self._by_key[raw.plan.kind, raw.key].append(raw)

    def settle(self) -> None:
        """Give every node what it takes from another one."""
        for raw in self._all:
            self._settle(raw)

    def _settle(self, raw: Raw) -> None:
        if raw in self._settled:
            return
        if raw in self._settling:
            circle = [*self._settling[self._settling.index(raw) :], raw]
            names = " from ".join(item.key or item.plan.kind for item in circle)
            message = f"{names}: this goes round in a circle; let one of them stand for itself"
            rule = raw.plan.inherit.origin if raw.plan.inherit else raw.plan.origin
            self._findings.refuse(CIRCLE, message, raw.place, rule)
            return
        self._settling.append(raw)
        base = self._base(raw) if raw.base else None
        if base is not None:
            self._settle(base)
            _take(raw, base)
        for items in list(raw.children.values()):
            for item in items:
                if item.base and item not in self._settled:
                    self._settle(item)
        self._settling.pop()
        self._settled.add(raw)

    def _base(self, raw: Raw) -> Raw | None:
        """Return what ``raw`` takes after: a sibling, else the only one of that name."""
        found = self._named(raw, raw.base)
        beside = [item for item in found if item.around is raw.around]
        if len(beside) == 1 or len(found) == 1:
            return (beside if len(beside) == 1 else found)[0]
        rule = raw.plan.inherit.origin if raw.plan.inherit else raw.plan.origin
        kind = raw.plan.kind
        if found:
            message = f"there are {len(found)} {kind}s {raw.base!r} to derive from; say which"
        else:
            message = f"there is no {kind} {raw.base!r} to derive from"
        self._findings.refuse(NOTHING, message, raw.place, rule)
        return None

    def _named(self, raw: Raw, name: str) -> list[Raw]:
        """Return the other nodes of that kind with a name, or with one as ``BLOCK.REGISTER``."""
        found = self._by_key.get((raw.plan.kind, name), [])
        if not found and "." in name:
            last = name.rpartition(".")[2]
            candidates = self._by_key.get((raw.plan.kind, last), [])
            found = [item for item in candidates if f".{_path(item)}".endswith(f".{name}")]
        return [item for item in found if item is not raw]


def _path(raw: Raw) -> str:
    keys: list[str] = []
    node: Raw | None = raw
    while node is not None:
        keys.append(node.key)
        node = node.around
    return ".".join(reversed(keys))


def _all_in(raw: Raw) -> Iterator[Raw]:
    waiting = [raw]
    while waiting:
        found = waiting.pop()
        yield found
        for items in reversed(found.children.values()):
            waiting += reversed(items)


def _take(raw: Raw, base: Raw) -> None:
    """Give ``raw`` what only ``base`` has; of children with one name, its own stay."""
    raw.properties = {**base.properties, **raw.properties}
    for name, items in base.children.items():
        own = raw.children.get(name, [])
        by_name = {_name(item): item for item in own if _name(item) is not None}
        taken = [by_name.pop(_name(item), item) for item in items]
        kept = {id(item) for item in taken}
        raw.children[name] = [*taken, *(item for item in own if id(item) not in kept)]


def _name(raw: Raw) -> Any:
    return raw.properties.get("name")
