"""What differs between the interrupt vectors of two chips."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from operator import attrgetter

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.likeness import title_key
from regwright.compare.pairs import TITLE
from regwright.compare.part_changes import Fact, Sides, documentation, named_sides, whole_sides
from regwright.model.chip import Chip
from regwright.model.memories import Vector, VectorTable
from regwright.model.words import plural


def vector_sides(one: VectorTable, other: VectorTable) -> list[Sides]:
    """Return which vector is which: by name, then by a title that no other has."""
    name = attrgetter("name")
    return named_sides("vector", one.vectors, other.vectors, name, [(TITLE, _title)])


def _title(vector: Vector) -> Iterable[Hashable]:
    key = title_key(vector.title)
    if key:
        yield key


def vector_changes(a: Chip, b: Chip) -> Iterator[Change]:
    """Yield what differs between the tables of two chips and their vectors."""
    one, other = a.vector_table, b.vector_table
    table = whole_sides("vectors", one, other)
    if one is None or other is None:
        if one or other:
            yield from table.alone("vectors", _all(table.lone))
        return
    yield from table.changes([("vector-table", table_text(one), table_text(other))])
    for sides in vector_sides(one, other):
        this, that = sides.node_a, sides.node_b
        if this and that:
            yield from sides.changes(_facts(this, that, one, other))
        else:
            yield from sides.alone("vector", _summary(sides.lone, one if this else other))


def table_text(table: VectorTable) -> str:
    """Return where the vectors are and how many units each takes."""
    return f"{plural(table.size, 'unit')} each, {table.space} from {show.number(table.base)} on"


def _all(table: VectorTable) -> str:
    return f"{plural(len(table.vectors), 'vector')}, {table_text(table)}"


def _summary(vector: Vector, table: VectorTable) -> str:
    return f"number {vector.number}, {_address(vector, table)}"


def _address(vector: Vector, table: VectorTable) -> str:
    """Return where a vector is: as printed, or as its number says."""
    follows = table.base + vector.number * table.size
    return f"{table.space} {show.number(follows if vector.address is None else vector.address)}"


def _facts(one: Vector, other: Vector, left: VectorTable, right: VectorTable) -> Iterator[Fact]:
    yield "vector-renamed", one.name, other.name
    yield "vector-number", str(one.number), str(other.number)
    yield "vector-address", _address(one, left), _address(other, right)
    yield from documentation(one, other, "title", "page")
