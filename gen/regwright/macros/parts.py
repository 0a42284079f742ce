"""The macros of what a chip has besides registers: memories, vectors, settings, clock, pins.

Loaded only for a chip that has something of the kind.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from regwright.macros.registers import Macro
from regwright.resolve.chip import ResolvedChip

#: What a part is of; the header has a section for each, in this order.
MEMORY, VECTORS, VECTOR = "memory", "vectors", "vector"
WORD, SETTING = "word", "setting"
CLOCK, IDENTITY = "clock", "identity"
PORT, PACKAGE, BUILD = "port", "package", "build"


class Part(NamedTuple):
    """The macros of one thing: plain numbers, and those that only C can use.

    ``kind`` is one of the words above, ``what`` names the thing in a message, ``node`` is what the
    model has of it.
    """

    kind: str
    what: str
    node: Any
    numbers: list[Macro]
    code: list[Macro]


def chip_parts(resolved: ResolvedChip) -> tuple[Part, ...]:
    """Return the parts of ``resolved`` in the order of the header."""
    from regwright.macros.memories import build_parts, identity_parts, memory_parts, vector_parts

    chip, stem = resolved.chip, stem_of(resolved)
    parts = [*memory_parts(resolved, stem), *vector_parts(resolved, stem)]
    if chip.configuration is not None:
        from regwright.macros.settings import setting_parts

        parts += setting_parts(chip.configuration, resolved, stem)
    if chip.clock is not None:
        from regwright.macros.clock import clock_parts

        parts += clock_parts(chip.clock, resolved, stem)
    parts += identity_parts(resolved, stem)
    if chip.ports or chip.packages:
        from regwright.macros.pins import pin_parts

        parts += pin_parts(chip, stem)
    return (*parts, *build_parts(resolved, stem))


def stem_of(resolved: ResolvedChip) -> str:
    """Return what every name here starts with: the prefix, or a device's own name.

    A device stands beside a chip in one program, and both may have an identity, say.
    """
    if resolved.prefix or resolved.chip.kind == "chip":
        return resolved.prefix
    return f"{resolved.chip.name.upper()}_"


def word_of(name: str) -> str:
    """Return ``name`` as a part of a macro: an underscore for whatever cannot stand in one."""
    word = re.sub(r"[^A-Za-z0-9]+", "_", name).strip("_")
    return word or "_".join(f"U{ord(character):04X}" for character in name)


def plain_word(name: str) -> str:
    """Return a plain name (``clock-source``) as a part of a macro (``CLOCK_SOURCE``)."""
    return name.replace("-", "_").upper()
