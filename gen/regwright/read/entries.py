"""Read lists and optional numbers of the tree that both spellings share."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from regwright.model.origin import Origin
from regwright.read.numbers import number

Made = TypeVar("Made")


def each(
    tree: dict[str, Any], key: str, origin: Origin, build: Callable[[dict[str, Any], Origin], Made]
) -> tuple[Made, ...]:
    """Return what ``build`` makes of each entry of the list ``key`` of the node at ``origin``."""
    return tuple(build(item, (origin, key, index)) for index, item in enumerate(tree.get(key, ())))


def optional_number(tree: dict[str, Any], key: str) -> int | None:
    """Return the number ``key``, if ``tree`` has it."""
    return number(tree[key]) if key in tree else None
