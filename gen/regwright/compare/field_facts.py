"""What differs between two fields that are a pair."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from operator import attrgetter
from typing import Any

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.pairs import FieldAt, FieldPair
from regwright.compare.resets import same_reset
from regwright.compare.value_facts import value_changes
from regwright.model.chip import Field
from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts

#: The pair of each register that has one, by its identity; of the registers of both chips.
Partners = Mapping[int, Placed]


def lone_field(pair: FieldPair, partners: Partners) -> Iterator[Change]:
    """Yield that only one chip has a field; not where it has the whole register alone."""
    at = pair.a or pair.b
    if at is None or id(at.placed) not in partners:
        return
    if pair.a:
        field = pair.a.facts
        yield Change(
            "field-only-in-a", pair.a.name, "", _summary(field), origin_a=field.field.origin
        )
    elif pair.b:
        field = pair.b.facts
        yield Change(
            *("field-only-in-b", "", pair.b.name, "", _summary(field)),
            origin_b=field.field.origin,
        )


def _summary(facts: FieldFacts) -> str:
    return f"{show.bits(facts.layout)}, {facts.access}"


def field_changes(a: FieldAt, b: FieldAt, sure: str, partners: Partners) -> Iterator[Change]:
    """Yield what differs between two fields."""
    one, other = a.facts, b.facts
    stays = partners.get(id(a.placed)) is b.placed
    if stays and one[1:] == other[1:] and one.field[:_PLACE] == other.field[:_PLACE]:
        return
    names = a.name, b.name
    origins = one.field.origin, other.field.origin
    if not stays:
        before, after = a.placed.name, b.placed.name
        yield Change("field-moved", *names, before, after, "", sure, *origins)
    for kind, before, after in _facts(one, other, stays=stays):
        yield Change(kind, *names, before, after, "", sure, *origins)
    if one.field.values != other.field.values:
        yield from value_changes(a, b, sure)


#: Where in a field it is noted where it stands, which is the last of it and no fact of the chip.
_PLACE = Field._fields.index("origin")


#: What a field says of itself: the kind of a change of it, where it stands and how it is shown.
_SAID: tuple[tuple[str, Callable[[Field], Any], Callable[[Any], str]], ...] = (
    ("field-renamed", attrgetter("name"), show.text),
    ("write-effect", attrgetter("modified_write_value"), show.text),
    ("field-read-action", attrgetter("read_action"), show.text),
    ("volatile", attrgetter("volatile"), show.truth),
    ("values-complete", attrgetter("values_complete"), show.truth),
    ("field-aliases", attrgetter("aliases"), show.names),
    ("title", attrgetter("title"), show.text),
    ("page", attrgetter("page"), show.text),
    ("notes", attrgetter("notes"), show.text),
)


def _facts(one: FieldFacts, other: FieldFacts, *, stays: bool) -> Iterator[tuple[str, str, str]]:
    """Yield each fact in which two fields differ; an access that both inherit is the register's."""
    left, right = one.field, other.field
    for kind, get, shown in _SAID:
        before, after = get(left), get(right)
        if before != after and shown(before) != shown(after):
            yield kind, shown(before), shown(after)
    widths = one.layout.width, other.layout.width
    if one.layout != other.layout and show.bits(one.layout) != show.bits(other.layout):
        yield "field-bits", show.bits(one.layout), show.bits(other.layout)
    if widths[0] != widths[1]:
        yield "field-width", show.width(widths[0]), show.width(widths[1])
    inherits = stays and left.access is None and right.access is None
    if one.access != other.access and not inherits:
        yield "field-access", one.access, other.access
    if not same_reset(one.reset, other.reset, widths):
        yield "field-reset", show.reset(one.reset, widths[0]), show.reset(other.reset, widths[1])
