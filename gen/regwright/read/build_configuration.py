"""Build the configuration of a chip from the tree that both spellings share."""

from __future__ import annotations

from regwright.model.configuration import (
    Choice,
    Configuration,
    ConfigurationField,
    ConfigurationWord,
    Hazard,
    UnusedBits,
)
from regwright.model.origin import Origin
from regwright.read.build_register import Tree
from regwright.read.entries import each
from regwright.read.numbers import bit_ranges, number
from regwright.read.quantities import settings


def build_configuration(tree: Tree, origin: Origin) -> Configuration:
    """Return the configuration that ``tree`` describes. The tree has passed the schema."""
    return Configuration(
        tree["space"],
        each(tree, "words", origin, _word),
        each(tree, "hazards", origin, _hazard),
        tree.get("programmed", 0),
        origin,
    )


def _hazard(tree: Tree, origin: Origin) -> Hazard:
    get = tree.get
    when = settings(get("when"))
    return Hazard(tree["name"], tree["kind"], get("title"), get("caution"), when, origin)


def _word(tree: Tree, origin: Origin) -> ConfigurationWord:
    get = tree.get
    return ConfigurationWord(
        tree["name"],
        number(tree["address"]),
        number(tree["default"]),
        get("title"),
        get("width", 8),
        get("lock", False),
        get("page"),
        get("notes"),
        each(tree, "fields", origin, _field),
        each(tree, "unused", origin, _unused),
        get("printed"),
        get("review"),
        origin,
    )


def _field(tree: Tree, origin: Origin) -> ConfigurationField:
    get = tree.get
    return ConfigurationField(
        tree["name"],
        tree["setting"],
        bit_ranges(tree["bits"]),
        get("title"),
        get("programmed"),
        get("page"),
        get("notes"),
        each(tree, "choices", origin, _choice),
        get("printed"),
        get("review"),
        origin,
    )


def _choice(tree: Tree, origin: Origin) -> Choice:
    hazards = tuple(tree.get("hazards", "").split())
    return Choice(tree["name"], number(tree["value"]), tree.get("title"), hazards, origin)


def _unused(tree: Tree, origin: Origin) -> UnusedBits:
    return UnusedBits(bit_ranges(tree["bits"]), tree.get("value"), tree.get("title"), origin)
