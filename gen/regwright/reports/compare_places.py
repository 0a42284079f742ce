"""Where in the two descriptions stands what a change is about."""

from __future__ import annotations

from regwright.compare.changes import Change
from regwright.model.chip import Chip, Space
from regwright.model.finding import NOTE, Finding, Place
from regwright.model.origin import Origin
from regwright.reports.compared import Compared

#: The property of the chip that a kind of change of the whole chip is about.
_PROPERTIES = {
    "chip-name": "name",
    "kind": "kind",
    "compiler-macro": "compilerMacro",
    "int-width": "intWidth",
    "title": "title",
    "family": "family",
    "notes": "notes",
}


def places(compared: Compared, change: Change) -> tuple[Place | None, Place | None]:
    """Return the place in A and the one in B; ``None`` where that chip has no such thing."""
    comparison = compared.comparison
    sides = (
        (change.a, change.before, change.origin_a, comparison.a.chip),
        (change.b, change.after, change.origin_b, comparison.b.chip),
    )
    is_chips = change.origin_a is None and change.origin_b is None
    found: list[Place | None] = []
    for source, (name, text, origin, chip) in zip(compared.sources, sides, strict=True):
        if not name or (origin is None and not is_chips):
            found.append(None)
            continue
        at = _of_chip(chip, change.kind, name, is_said=bool(text)) if is_chips else origin
        found.append(source.place(Finding("compare", NOTE, "", at)))
    return found[0], found[1]


def _of_chip(chip: Chip, kind: str, name: str, *, is_said: bool) -> Origin:
    """Return where a thing of the whole chip stands; the chip itself where it says nothing."""
    if kind in _PROPERTIES and name == "chip":
        is_default = kind == "kind" and chip.kind == "chip"
        return (None, _PROPERTIES[kind]) if is_said and not is_default else None
    if kind == "document":
        return chip.document.origin if chip.document else None
    if kind == "window":
        return next(
            (item.origin for item in chip.windows if f"{item.source} in {item.into}" == name), None
        )
    if kind == "instruction":
        plain = name.removesuffix("()")
        return next((item.origin for item in chip.instructions if plain in item.names), None)
    return _of_space(chip.spaces, name)


def _of_space(spaces: tuple[Space, ...], name: str) -> Origin:
    """Return where a space stands, or the region ``SPACE.REGION``."""
    for space in spaces:
        if space.name == name:
            return space.origin
        for region in space.regions:
            if f"{space.name}.{region.name}" == name:
                return region.origin
    return None
