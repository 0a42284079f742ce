"""What differs in what tools know two chips by: the signature, and the names that they use."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.part_changes import Fact, whole_sides
from regwright.model.chip import Chip
from regwright.model.memories import Build, Identity


def build_changes(a: Chip, b: Chip) -> Iterator[Change]:
    """Yield what differs between the identities and the build names of two chips."""
    yield from whole_sides("identity", a.identity, b.identity).changes(
        _identity(a.identity, b.identity)
    )
    yield from whole_sides("build", a.build, b.build).changes(_build(a.build, b.build))


def _identity(one: Identity | None, other: Identity | None) -> Iterator[Fact]:
    yield "signature", _signature(one), _signature(other)
    yield "signature-place", _place(one), _place(other)
    if one and other:
        yield "page", show.text(one.page), show.text(other.page)


def _signature(found: Identity | None) -> str:
    return " ".join(f"0x{byte:02X}" for byte in found.signature) if found else ""


def _place(found: Identity | None) -> str:
    if found is None or (found.space is None and found.address is None):
        return ""
    address = "" if found.address is None else show.number(found.address)
    return " ".join(part for part in (found.space or "", address) if part)


def _build(one: Build | None, other: Build | None) -> Iterator[Fact]:
    for kind, attribute in (
        ("build-target", "target"),
        ("instruction-set", "instruction_set"),
        ("programmer-part", "programmer_part"),
    ):
        before, after = (show.text(getattr(side, attribute, None)) for side in (one, other))
        yield kind, before, after
