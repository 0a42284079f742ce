"""Pair what two chips have besides registers, and turn what differs of a pair into changes."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from typing import Any, NamedTuple, TypeVar

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.pairs import CERTAIN, NAME, sureness
from regwright.compare.unique import in_turn, unique_pairs

Node = TypeVar("Node")
#: A kind of change and what stands in either chip.
Fact = tuple[str, str, str]
#: Why two are a pair, and the keys of each; nothing but the pair may have them.
Step = tuple[str, Callable[[Any], Iterable[Hashable]]]


class Sides(NamedTuple):
    """A thing of A and one of B, by their full names: empty, and no node, where there is none."""

    a: str
    b: str
    node_a: Any
    node_b: Any
    sure: str = CERTAIN

    def changes(self, facts: Iterable[Fact], detail: str = "") -> Iterator[Change]:
        """Yield a change for each of ``facts`` in which the two differ."""
        origins = [node.origin if node else None for node in (self.node_a, self.node_b)]
        for kind, before, after in facts:
            if before != after:
                yield Change(kind, self.a, self.b, before, after, detail, self.sure, *origins)

    @property
    def lone(self) -> Any:
        """The node, when only one chip has it."""
        return self.node_a or self.node_b

    def alone(self, thing: str, summary: str) -> Iterator[Change]:
        """Yield that only one chip has the thing; ``summary`` is what it is, in short."""
        origin = self.lone.origin
        if self.node_a:
            yield Change(f"{thing}-only-in-a", self.a, "", summary, origin_a=origin)
        else:
            yield Change(f"{thing}-only-in-b", "", self.b, "", summary, origin_b=origin)


def named_sides(
    word: str,
    left: Sequence[Node],
    right: Sequence[Node],
    name: Callable[[Node], str],
    steps: Iterable[Step] = (),
) -> list[Sides]:
    """Return the pairs of two lists by name, then by ``steps``, and what is alone, A's first.

    The second of two of one name is the second of them on the other side too. ``word`` goes before
    each name, with a blank.
    """
    pairs: dict[int, tuple[Node, str]] = {}
    taken: set[int] = set()
    turns = in_turn(left, name) | in_turn(right, name)

    def by_name(node: Node) -> tuple[Hashable, ...]:
        return (turns[id(node)],)

    for why, keys in ((NAME, by_name), *steps):
        ones = [node for node in left if id(node) not in pairs]
        others = [node for node in right if id(node) not in taken]
        for one, other in unique_pairs(ones, others, keys):
            pairs[id(one)] = other, why
            taken.add(id(other))
    found = []
    for node in left:
        full = f"{word} {name(node)}"
        if id(node) not in pairs:
            found.append(Sides(full, "", node, None))
            continue
        twin, why = pairs[id(node)]
        found.append(Sides(full, f"{word} {name(twin)}", node, twin, sureness(why)))
    lone = [node for node in right if id(node) not in taken]
    return [*found, *(Sides("", f"{word} {name(node)}", None, node) for node in lone)]


def whole_sides(name: str, one: Any, other: Any) -> Sides:
    """Return what a chip has once at most; ``None`` for one that does not."""
    return Sides(name if one else "", name if other else "", one, other)


def documentation(one: Any, other: Any, *kinds: str) -> Iterator[Fact]:
    """Yield the titles, pages or notes of two nodes."""
    for kind in kinds:
        yield kind, show.text(getattr(one, kind)), show.text(getattr(other, kind))
