"""Where in its file a node of the model stands, as steps from the root.

A step is kept as a link to the step before it, so that noting it while reading costs one small
tuple. Lines and columns are worked out only when a finding asks for them (``read.source``).
"""

from __future__ import annotations

from typing import TypeAlias

#: ``None`` is the root; ``(parent, property)`` a property; ``(parent, property, index)`` an
#: element of a list, counted from 0. Both spellings of the format use the same steps.
Origin: TypeAlias = "tuple[Origin, str] | tuple[Origin, str, int] | None"


def steps(origin: Origin) -> list[str | int]:
    """Return the steps from the root to ``origin``, as a JSON Pointer would list them."""
    reversed_steps: list[str | int] = []
    while origin is not None:
        if len(origin) == 3:
            reversed_steps.append(origin[2])
        reversed_steps.append(origin[1])
        origin = origin[0]
    return reversed_steps[::-1]


def from_steps(path: list[str | int]) -> Origin:
    """Return the origin that ``path`` leads to; the inverse of :func:`steps`."""
    origin: Origin = None
    for position, step in enumerate(path):
        if isinstance(step, int):
            continue
        following = path[position + 1] if position + 1 < len(path) else None
        origin = (origin, step, following) if isinstance(following, int) else (origin, step)
    return origin
