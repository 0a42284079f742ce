"""What differs between two chips beside their registers: spaces, windows, regions, instructions."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.model.chip import Chip, Document


def chip_changes(a: Chip, b: Chip) -> Iterator[Change]:
    """Yield what differs between two chips as wholes."""
    for kind, before, after in _facts(a, b):
        if before != after:
            yield Change(kind, "chip", "chip", before, after)
    yield from _spaces(a, b)
    yield from _named("window", _windows(a), _windows(b))
    yield from _named("instruction", _instructions(a), _instructions(b))


def _facts(a: Chip, b: Chip) -> Iterator[tuple[str, str, str]]:
    yield "chip-name", a.name, b.name
    yield "kind", a.kind, b.kind
    yield "compiler-macro", a.compiler_macro or "", b.compiler_macro or ""
    yield "int-width", _int_width(a), _int_width(b)
    yield "title", a.title or "", b.title or ""
    yield "family", a.family or "", b.family or ""
    yield "document", _document(a.document), _document(b.document)
    yield "notes", a.notes or "", b.notes or ""


def _int_width(chip: Chip) -> str:
    return f"{chip.int_width} bits" if chip.int_width else ""


def _document(found: Document | None) -> str:
    if found is None:
        return ""
    parts = [found.title, found.revision or "", found.date or "", found.notes or ""]
    return ", ".join(part for part in parts if part)


def _spaces(a: Chip, b: Chip) -> Iterator[Change]:
    left = {space.name: space for space in a.spaces}
    right = {space.name: space for space in b.spaces}
    for name in dict.fromkeys([*left, *right]):
        one, other = left.get(name), right.get(name)
        if one is None and other is not None:
            yield Change("space-only-in-b", "", name, "", show.space(other))
        elif other is None and one is not None:
            yield Change("space-only-in-a", name, "", show.space(one))
        elif one is not None and other is not None:
            before, after = show.space(one), show.space(other)
            if before != after:
                yield Change("space", name, name, before, after)
            if (one.title or "") != (other.title or ""):
                yield Change("title", name, name, one.title or "", other.title or "")
            regions = [{item.name: item for item in side.regions} for side in (one, other)]
            shown = [
                {f"{name}.{key}": show.region(item) for key, item in side.items()}
                for side in regions
            ]
            yield from _named("region", *shown)
            titles = [
                {f"{name}.{key}": item.title or "" for key, item in side.items()}
                for side in regions
            ]
            for key in titles[0]:
                if key in titles[1] and titles[0][key] != titles[1][key]:
                    yield Change("title", key, key, titles[0][key], titles[1][key])


def _named(kind: str, left: dict[str, str], right: dict[str, str]) -> Iterator[Change]:
    """Yield what differs between two lists of named things."""
    for name in dict.fromkeys([*left, *right]):
        before, after = left.get(name, ""), right.get(name, "")
        if before != after:
            here, there = name if before else "", name if after else ""
            yield Change(kind, here, there, before, after)


def _windows(chip: Chip) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for item in chip.windows:
        found.setdefault(f"{item.source} in {item.into}", []).append(show.window(item))
    return {key: "; ".join(sorted(parts)) for key, parts in found.items()}


def _instructions(chip: Chip) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for item in chip.instructions:
        for name in item.names:
            key = f"{name}()" if item.kind == "function" else name
            found.setdefault(key, []).append(show.instruction(item))
    return {key: "; ".join(sorted(parts)) for key, parts in found.items()}
