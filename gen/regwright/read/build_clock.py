"""Build the clock of a chip from the tree that both spellings share."""

from __future__ import annotations

from fractions import Fraction

from regwright.model.clock import Clock, ClockDivider, ClockLimit, ClockOption, ClockSource, Rate
from regwright.model.origin import Origin
from regwright.read.build_register import Tree
from regwright.read.entries import each, optional_number
from regwright.read.quantities import quantity, settings


def build_clock(tree: Tree, origin: Origin) -> Clock:
    """Return the clock that ``tree`` describes. The tree has passed the schema."""
    get = tree.get
    return Clock(
        each(tree, "sources", origin, _source),
        get("constant"),
        quantity(get("lowestSupply")),
        quantity(get("highestSupply")),
        get("between", "step"),
        each(tree, "dividers", origin, _divider),
        each(tree, "limits", origin, _limit),
        each(tree, "rates", origin, _rate),
        origin,
    )


def _source(tree: Tree, origin: Origin) -> ClockSource:
    get = tree.get
    return ClockSource(
        tree["name"],
        tree["kind"],
        get("title"),
        quantity(get("frequency")),
        quantity(get("lowest")),
        quantity(get("highest")),
        quantity(get("tolerance")),
        settings(get("when")),
        get("page"),
        origin,
    )


def _divider(tree: Tree, origin: Origin) -> ClockDivider:
    get = tree.get
    return ClockDivider(
        tree["name"],
        each(tree, "options", origin, _option),
        get("title"),
        get("setting"),
        get("field"),
        settings(get("when")),
        get("page"),
        origin,
    )


def _option(tree: Tree, origin: Origin) -> ClockOption:
    get = tree.get
    value = optional_number(tree, "value")
    return ClockOption(get("choice"), value, get("divide", 1), get("multiply", 1), origin)


def _limit(tree: Tree, origin: Origin) -> ClockLimit:
    supply, highest = quantity(tree["supply"]), quantity(tree["highest"])
    return ClockLimit(supply or Fraction(0), highest or Fraction(0), tree.get("page"), origin)


def _rate(tree: Tree, origin: Origin) -> Rate:
    get = tree.get
    return Rate(
        tree["name"],
        tree["kind"],
        tuple(tree["divisor"].split()),
        get("title"),
        get("clock"),
        get("scale", 1),
        get("prescale"),
        get("plus", 0),
        optional_number(tree, "lowest"),
        optional_number(tree, "highest"),
        each(tree, "options", origin, _option),
        get("page"),
        get("notes"),
        origin,
    )
