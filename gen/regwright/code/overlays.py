"""The members of structures that are laid over constant addresses, as definitions of their own."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.code.evaluate import Evaluator
from regwright.code.seen import Definition, Location, Number, Pointer

#: Members of one structure, and elements of one row, that are looked at.
MOST = 256
_DEEPEST = 4


def members(definition: Definition, evaluator: Evaluator) -> Iterator[Definition]:
    """Yield each plain member of the structure that a definition lays over an address."""
    means = definition.means
    if isinstance(means, Number):
        return
    kind = means.to if isinstance(means, Pointer) else means.type
    start = Location(means.address, kind, means.literal, means.qualifier)
    for count, (way, found) in enumerate(_inside(start, "", evaluator, 0)):
        if count >= MOST:
            return
        yield definition._replace(
            name=f"{definition.name}.{way}",
            form="member",
            means=found._replace(member=way, base=means.address),
        )


def _inside(
    around: Location, way: str, evaluator: Evaluator, depth: int
) -> Iterator[tuple[str, Location]]:
    layout = evaluator.scope.layouts.get(around.type.name) if around.type.bits is None else None
    if layout is None:
        if around.type.bits is not None and way:
            yield way, around
        return
    if not layout.is_sure or depth > _DEEPEST:
        return
    for name, member in layout.members.items():
        kind = evaluator.type_of(member.type)
        kind = kind._replace(volatile=kind.volatile or around.type.volatile)
        for number in range(min(max(member.length, 1), MOST)):
            element = f"[{number}]" if member.length else ""
            inner = f"{way}.{name}{element}" if way else f"{name}{element}"
            address = around.address + member.offset + number * member.size
            place = Location(address, kind, around.literal)
            yield from _inside(place, inner, evaluator, depth + 1)
