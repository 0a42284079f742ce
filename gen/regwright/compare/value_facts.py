"""What differs between the named values of two fields that are a pair."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.likeness import normal, numbers_differ, title_key, titles_differ
from regwright.compare.pairs import CERTAIN, LIKELY, POSSIBLE, SURENESS, FieldAt
from regwright.compare.unique import in_turn, unique_pairs
from regwright.model.chip import NamedValue

Values = list[NamedValue]


def value_changes(a: FieldAt, b: FieldAt, sure: str) -> Iterator[Change]:
    """Yield what differs between the named values of two fields; ``sure`` is how sure these are."""
    left, right = list(a.facts.field.values), list(b.facts.field.values)
    widths = a.facts.layout.width, b.facts.layout.width
    pairs, lone_a, lone_b = _pairs(left, right)
    for one, other, own in pairs:
        least = max(sure, own, key=SURENESS.index)
        names = f"{a.name}.{one.name}", f"{b.name}.{other.name}"
        for kind, before, after in _facts(one, other, widths):
            if before != after:
                yield Change(
                    *(kind, *names, before, after, "", least),
                    origin_a=one.origin,
                    origin_b=other.origin,
                )
    for item in lone_a:
        name, value = f"{a.name}.{item.name}", show.number(item.value, widths[0])
        yield Change("value-only-in-a", name, "", value, "", "", sure, origin_a=item.origin)
    for item in lone_b:
        name, value = f"{b.name}.{item.name}", show.number(item.value, widths[1])
        yield Change("value-only-in-b", "", name, "", value, "", sure, origin_b=item.origin)


def _facts(
    one: NamedValue, other: NamedValue, widths: tuple[int, int]
) -> Iterator[tuple[str, str, str]]:
    yield "value-renamed", one.name, other.name
    if one.value != other.value:
        yield "value", show.number(one.value, widths[0]), show.number(other.value, widths[1])
    yield "value-usage", one.usage, other.usage
    yield "value-aliases", show.names(one.aliases), show.names(other.aliases)
    yield "title", show.text(one.title), show.text(other.title)


def _pairs(
    left: Values, right: Values
) -> tuple[list[tuple[NamedValue, NamedValue, str]], Values, Values]:
    """Return which value is which and how sure that is, and those of either side alone.

    By name, by alias, by names alike, by title, and then by number, unless something speaks
    against it: ``DIV4`` is not ``DIV8``, whatever number it has.
    """
    turns = in_turn(left, lambda item: item.name) | in_turn(right, lambda item: item.name)
    found: list[tuple[NamedValue, NamedValue, str]] = []
    for sure, keys in (
        (CERTAIN, lambda item: (turns[id(item)],)),
        (CERTAIN, lambda item: (item.name, *item.aliases)),
        (LIKELY, lambda item: (normal(item.name),)),
        (LIKELY, lambda item: (title_key(item.title),) if item.title else ()),
        (POSSIBLE, lambda item: (item.value,)),
    ):
        if not left or not right:
            break
        made = [
            pair
            for pair in unique_pairs(left, right, keys)
            if sure != POSSIBLE or _may_be_one(*pair)
        ]
        found += [(one, other, sure) for one, other in made]
        gone = {id(item) for pair in made for item in pair}
        left = [item for item in left if id(item) not in gone]
        right = [item for item in right if id(item) not in gone]
    return found, left, right


def _may_be_one(one: NamedValue, other: NamedValue) -> bool:
    """Tell whether nothing speaks against it that one value has two names."""
    return not numbers_differ(one.name, other.name) and not titles_differ(one.title, other.title)
