"""What a spelled value of a description means, so that two spellings of one thing are equal."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any

from regwright.format.shape import PREFIX, definition, shapes
from regwright.read.numbers import bit_ranges, conditions, number, reset
from regwright.read.quantities import quantity, settings


def single_bits(text: str | int) -> tuple[int, ...]:
    """Return each bit that ``text`` spells, the field's highest first."""
    found: list[int] = []
    for high, low in bit_ranges(text):
        step = -1 if high >= low else 1
        found.extend(range(high, low + step, step))
    return tuple(found)


def spelled_addresses(text: str | int, space: str) -> list[tuple[str, str]]:
    """Return the space and the spelled number of each address in ``text``.

    ``space`` is the one that an address means which names none.
    """
    if ":" not in str(text):
        return [(space, str(text))]
    return [(name, value) for name, _, value in (item.partition(":") for item in text.split())]  # type: ignore[union-attr]


def _words(text: str) -> Hashable:
    return tuple(text.split())


_MEANINGS: dict[str, Callable[[Any], Hashable]] = {
    "number": number,
    "reset": reset,
    "bits": single_bits,
    "condition": conditions,
    "settingCondition": settings,
    "frequency": quantity,
    "voltage": quantity,
    "tolerance": quantity,
    "hexBytes": str.lower,
    "flags": _words,
    "line": _words,
    "prose": _words,
    "printed": _words,
    "comment": _words,
    "identifiers": lambda text: frozenset(text.split()),
    "mnemonics": lambda text: frozenset(text.split()),
    "plainNames": lambda text: frozenset(text.split()),
    "pinFunctions": lambda text: frozenset(text.split()),
}


def meaning(kind: str, value: Any, space: str) -> Hashable:
    """Return what ``value`` means, which is of the kind ``kind`` of the schema's definitions.

    ``space`` is the one that an address means which names none.
    """
    if kind == "address":
        pairs = spelled_addresses(value, space)
        return frozenset((name, number(text)) for name, text in pairs)
    read = _MEANINGS.get(kind)
    found: Hashable = value if read is None else read(value)
    return found


def kind_of(specification: dict[str, Any]) -> str:
    """Return the name of the definition that a property's value follows, or nothing."""
    reference: str = specification.get("$ref", "")
    return reference.removeprefix(PREFIX)


def whole_meaning(shape: str, tree: dict[str, Any], space: str) -> Hashable:
    """Return what a whole object means: equal for two that say the same."""
    properties = definition(shape)["properties"]
    return frozenset(
        (key, _any_meaning(shape, key, properties[key], value, space))
        for key, value in tree.items()
    )


def _any_meaning(
    shape: str, key: str, specification: dict[str, Any], value: Any, space: str
) -> Hashable:
    child = shapes()[shape].by_property.get(key)
    if child is None or child.shape is None:
        return meaning(kind_of(specification), value, space)
    if child.many:
        return tuple(whole_meaning(child.shape, item, space) for item in value)
    return whole_meaning(child.shape, value, space)
