"""What differs between the configuration words of two chips, and in what can go wrong with them."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from operator import attrgetter

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.pairs import PLACE
from regwright.compare.part_changes import Fact, Sides, documentation, named_sides, whole_sides
from regwright.compare.setting_facts import setting_changes, when
from regwright.compare.unique import in_turn
from regwright.model.chip import Chip
from regwright.model.configuration import Configuration, ConfigurationWord, Hazard, UnusedBits
from regwright.model.words import plural
from regwright.resolve.layout import layout


def word_sides(one: Configuration, other: Configuration) -> list[Sides]:
    """Return which word is which: by name, then by address."""
    return named_sides("word", one.words, other.words, attrgetter("name"), [(PLACE, _address)])


def _address(word: ConfigurationWord) -> Iterable[Hashable]:
    yield word.address


def configuration_changes(a: Chip, b: Chip) -> Iterator[Change]:
    """Yield what differs between the configurations of two chips."""
    one, other = a.configuration, b.configuration
    whole = whole_sides("configuration", one, other)
    if one is None or other is None:
        if one or other:
            yield from whole.alone("configuration", _summary(whole.lone))
        return
    words = word_sides(one, other)
    yield from whole.changes(_whole_facts(one, other))
    for sides in words:
        if sides.node_a and sides.node_b:
            yield from _word(sides)
        else:
            yield from sides.alone("word", _word_summary(sides.lone))
    yield from setting_changes(one, other, words)
    for sides in named_sides("hazard", one.hazards, other.hazards, attrgetter("name")):
        if sides.node_a and sides.node_b:
            yield from sides.changes(_hazard_facts(sides.node_a, sides.node_b))
        else:
            yield from sides.alone("hazard", _hazard_summary(sides.lone))


def _summary(found: Configuration) -> str:
    settings = sum(len(word.fields) for word in found.words)
    return f"{plural(len(found.words), 'word')}, {plural(settings, 'setting')}"


def _whole_facts(one: Configuration, other: Configuration) -> Iterator[Fact]:
    yield "configuration-space", one.space, other.space
    yield "configuration-polarity", str(one.programmed), str(other.programmed)


def _word_summary(word: ConfigurationWord) -> str:
    lock = ", lock bits" if word.lock else ""
    default = show.number(word.default, word.width)
    return f"address {word.address:#x}, {show.width(word.width)}, {default} as delivered{lock}"


def _word(sides: Sides) -> Iterator[Change]:
    one, other = sides.node_a, sides.node_b
    yield from sides.changes(_word_facts(one, other))
    left, right = (_by_mask(word.unused) for word in (one, other))
    for key, item in left.items():
        if key in right:
            where = f"unused {layout(item.bits).mask:#x}"
            yield from sides.changes(documentation(item, right[key], "title"), where)


def _word_facts(one: ConfigurationWord, other: ConfigurationWord) -> Iterator[Fact]:
    yield "word-renamed", one.name, other.name
    yield "word-address", f"{one.address:#x}", f"{other.address:#x}"
    yield "word-width", show.width(one.width), show.width(other.width)
    before, after = (show.number(word.default, word.width) for word in (one, other))
    yield "word-default", before, after
    yield "word-lock", show.truth(one.lock), show.truth(other.lock)
    yield "unused-bits", _unused(one), _unused(other)
    yield from documentation(one, other, "title", "page", "notes")


def _by_mask(unused: tuple[UnusedBits, ...]) -> dict[Hashable, UnusedBits]:
    keys = in_turn(unused, lambda item: layout(item.bits).mask)
    return {keys[id(item)]: item for item in unused}


def _unused(word: ConfigurationWord) -> str:
    """Return the bits without a meaning by what they must be, as ``0x02: 1, 0xC0: anything``."""
    masks: dict[str, int] = {}
    for item in word.unused:
        key = "anything" if item.value is None else str(item.value)
        masks[key] = masks.get(key, 0) | layout(item.bits).mask
    return ", ".join(f"{show.number(masks[key], word.width)}: {key}" for key in sorted(masks))


def _hazard_facts(one: Hazard, other: Hazard) -> Iterator[Fact]:
    yield "hazard-kind", one.kind, other.kind
    yield "hazard-when", when(one.when), when(other.when)
    yield "hazard-caution", show.text(one.caution), show.text(other.caution)
    yield from documentation(one, other, "title")


def _hazard_summary(hazard: Hazard) -> str:
    told = hazard.caution or hazard.title
    return f"{hazard.kind}: {told}" if told else hazard.kind
