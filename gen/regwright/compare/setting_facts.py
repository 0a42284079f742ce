"""What differs between the settings of two chips' configuration words, and between their choices.

A setting is the same wherever it stands: by its plain name.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from operator import attrgetter
from typing import NamedTuple

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.part_changes import Fact, Sides, documentation, named_sides
from regwright.configuration.decode import name_in, polarity, value_in
from regwright.configuration.words import places
from regwright.model.configuration import (
    Choice,
    Configuration,
    ConfigurationField,
    ConfigurationWord,
    SettingIs,
)
from regwright.model.origin import Origin
from regwright.resolve.layout import layout


class Seat(NamedTuple):
    """A setting with the word it stands in and the configuration around both."""

    whole: Configuration
    word: ConfigurationWord
    field: ConfigurationField

    @property
    def setting(self) -> str:
        """Its plain name."""
        return self.field.setting

    @property
    def origin(self) -> Origin:
        """Where it stands."""
        return self.field.origin

    @property
    def bits(self) -> str:
        """Which bits it has, in words."""
        return show.bits(layout(self.field.bits))

    @property
    def place(self) -> str:
        """The word and the bits, as ``low bits 6:4``."""
        return f"{self.word.name} {self.bits}"


def when(items: Iterable[SettingIs]) -> str:
    """Return which settings must have which choices, in one order."""
    return " and ".join(sorted(f"{item.setting} = {item.choice}" for item in items))


def setting_sides(one: Configuration, other: Configuration) -> list[Sides]:
    """Return which setting is which; the nodes are :class:`Seat`."""
    return named_sides("setting", _seats(one), _seats(other), attrgetter("setting"))


def _seats(configuration: Configuration) -> list[Seat]:
    return [Seat(configuration, word, field) for word, field in places(configuration)]


def setting_changes(
    one: Configuration, other: Configuration, words: Iterable[Sides]
) -> Iterator[Change]:
    """Yield what differs between settings; ``words`` says which word is which."""
    same = {(id(pair.node_a), id(pair.node_b)) for pair in words}
    for sides in setting_sides(one, other):
        this, that = sides.node_a, sides.node_b
        if this and that:
            yield from sides.changes(_facts(this, that, same))
            yield from _choice_changes(this, that)
        else:
            yield from sides.alone("setting", _summary(sides.lone))


def stays(one: Seat, other: Seat, words: set[tuple[int, int]]) -> bool:
    """Tell whether a setting has the same bits of the same word."""
    return (id(one.word), id(other.word)) in words and one.bits == other.bits


def _facts(one: Seat, other: Seat, words: set[tuple[int, int]]) -> Iterator[Fact]:
    left, right = one.field, other.field
    yield "setting-name", left.name, right.name
    if not stays(one, other, words):
        yield "setting-place", one.place, other.place
    if left.programmed is not None or right.programmed is not None:
        before, after = (str(polarity(side.whole, side.field)) for side in (one, other))
        yield "setting-polarity", before, after
    yield "setting-default", _default(one), _default(other)
    yield from documentation(left, right, "title", "page", "notes")


def _default(seat: Seat) -> str:
    """Return the choice that a setting is delivered with; of a value without a name, its bits."""
    name = name_in(seat.whole, seat.field, seat.word.default)
    if name is not None:
        return name
    width = layout(seat.field.bits).width
    return f"0b{value_in(seat.field, seat.word.default):0{width}b}, which has no name"


def _summary(seat: Seat) -> str:
    return f"{seat.place}, {_default(seat)} as delivered"


def _choice_changes(one: Seat, other: Seat) -> Iterator[Change]:
    left, right = one.field.choices, other.field.choices
    widths = [layout(side.field.bits).width for side in (one, other)]
    for sides in named_sides(f"setting {one.setting} =", left, right, attrgetter("name")):
        this, that = sides.node_a, sides.node_b
        if this and that:
            yield from sides.changes(_choice_facts(this, that, widths))
        else:
            bits = _bits(sides.lone.value, widths[0 if this else 1])
            yield from sides.alone("choice", bits)


def _choice_facts(one: Choice, other: Choice, widths: list[int]) -> Iterator[Fact]:
    if one.value != other.value:
        yield "choice-value", _bits(one.value, widths[0]), _bits(other.value, widths[1])
    yield "choice-hazards", show.names(one.hazards), show.names(other.hazards)
    yield from documentation(one, other, "title")


def _bits(value: int, width: int) -> str:
    return f"0b{value:0{width}b}"
