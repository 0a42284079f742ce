"""The kinds of changes of what a chip has besides registers, and what they are about."""

from __future__ import annotations

from collections.abc import Iterator

MEMORIES, VECTORS, CONFIGURATION = "memories", "vectors", "configuration"
CLOCK, PINS = "clock", "pins"
_TOOLCHAIN = "toolchain"

#: The things that one chip may have and the other not: ``THING-only-in-a``, ``THING-only-in-b``.
THINGS = {
    "memory": MEMORIES,
    "vectors": VECTORS,
    "vector": VECTORS,
    "configuration": CONFIGURATION,
    "word": CONFIGURATION,
    "setting": CONFIGURATION,
    "choice": CONFIGURATION,
    "hazard": CONFIGURATION,
    "clock": CLOCK,
    "clock-source": CLOCK,
    "clock-divider": CLOCK,
    "rate": CLOCK,
    "port": PINS,
    "package": PINS,
    "pin": PINS,
    "pin-function": PINS,
}

#: The kinds that are themselves the other way round.
FACTS = {
    MEMORIES: (
        *("memory-renamed", "memory-kind", "memory-place", "memory-size"),
        *("memory-page-size", "memory-erase-unit"),
    ),
    VECTORS: ("vector-table", "vector-renamed", "vector-number", "vector-address"),
    CONFIGURATION: (
        *("configuration-space", "configuration-polarity", "word-renamed", "word-address"),
        *("word-width", "word-default", "word-lock", "unused-bits", "setting-name"),
        *("setting-place", "setting-polarity", "setting-default", "choice-value"),
        *("choice-hazards", "hazard-kind", "hazard-when", "hazard-caution"),
    ),
    CLOCK: (
        *("default-clock", "supply", "clock-limits", "clock-constant", "clock-source-kind"),
        *("clock-source-frequency", "clock-source-tolerance", "clock-source-when"),
        *("clock-divider-decided", "clock-divider-when", "clock-divider-options"),
        *("rate-formula", "rate-options"),
    ),
    PINS: (
        *("port-bits", "port-registers", "package-form", "pin-number", "pin-name", "pin-kind"),
        "pin-function-moved",
    ),
    _TOOLCHAIN: (
        *("signature", "signature-place", "build-target", "instruction-set"),
        "programmer-part",
    ),
}


def _kinds() -> Iterator[tuple[str, tuple[str, str]]]:
    for thing, about in THINGS.items():
        one, other = f"{thing}-only-in-a", f"{thing}-only-in-b"
        yield one, (about, other)
        yield other, (about, one)
    for about, kinds in FACTS.items():
        yield from ((kind, (about, kind)) for kind in kinds)


#: Each kind with its category and the kind that it is the other way round.
REST: dict[str, tuple[str, str]] = dict(_kinds())
