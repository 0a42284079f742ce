"""Work out the spaces, the window and the reserved regions that the registers imply."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from regwright.importing.draft import Draft
from regwright.importing.spelled import hexadecimal
from regwright.importing.tables.addresses import (
    DATA,
    INSIDE,
    IO,
    OFFSET_SPACE,
    OUTSIDE,
    Scheme,
)
from regwright.importing.tables.facts import RegisterFacts

_TITLES = {
    DATA: "data space",
    IO: "I/O space",
    OUTSIDE: "the addresses printed outside parentheses",
    INSIDE: "the addresses printed in parentheses",
}
_COMMENT = "the size is worked out from the highest address; write the real one if it differs"
_MOST_REGIONS = 256
_MOST_SPACES = 16


class Taken(NamedTuple):
    """A span of addresses that a row of a table takes."""

    first: int
    last: int


def spaces_of(
    registers: list[RegisterFacts], scheme: Scheme, draft: Draft
) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Return the spaces and the windows of a description, sizes worked out and marked."""
    taken: dict[str, list[Taken]] = {}
    for register in registers:
        for space, span in _spans(register):
            taken.setdefault(space, []).append(span)
    sizes = {space: _power(max(item.last for item in spans) + 1) for space, spans in taken.items()}
    windows: list[dict[str, Any]] = []
    if IO in sizes and scheme.offset is not None and len(sizes) <= _MOST_SPACES:
        sizes[IO] = _io_size(registers, sizes[IO], scheme.offset)
        sizes[DATA] = max(sizes.get(DATA, 0), _power(sizes[IO] + scheme.offset))
        windows = [_window(sizes[IO], scheme.offset)]
    sizes = sizes or {DATA: 0x100}
    names = sorted(sizes, key=lambda space: (space != DATA, list(sizes).index(space)))
    found = [_space(name, sizes[name]) for name in names[:_MOST_SPACES]]
    _add_regions(found, registers)
    shown = ", ".join(f"{item['name']} {item['size']}" for item in found)
    draft.tell(
        "addresses-inferred",
        f"sizes of spaces are worked out from the highest address: {shown}; write the real ones "
        f"as 'size' in the description",
    )
    return found, windows


def _spans(register: RegisterFacts) -> Iterator[tuple[str, Taken]]:
    units = max(1, register.width // 8) if register.count == 1 else register.count
    for space, value in register.placed.items():
        is_offset = space == OFFSET_SPACE
        first = value + (register.base or 0) if is_offset else value
        yield (DATA if is_offset else space), Taken(first, first + units - 1)


def _power(size: int) -> int:
    """Return the power of two that holds ``size`` addresses, 16 at least, 2**64 at most."""
    return min(1 << 64, max(16, 1 << (size - 1).bit_length()))


def _io_size(registers: list[RegisterFacts], size: int, offset: int) -> int:
    """Return the size of the I/O space: what has only a data address lies behind its window."""
    both = [item.placed[IO] for item in registers if IO in item.placed and DATA in item.placed]
    highest = max(both, default=0)
    beyond = [
        item.placed[DATA]
        for item in registers
        if DATA in item.placed and IO not in item.placed and item.placed[DATA] > highest + offset
    ]
    return max(highest + 1, min(size, min(beyond) - offset)) if beyond else size


def _window(size: int, offset: int) -> dict[str, Any]:
    last = hexadecimal(size - 1)
    return {"from": IO, "first": "0x00", "last": last, "into": DATA, "offset": hexadecimal(offset)}


def _space(name: str, size: int) -> dict[str, Any]:
    title = _TITLES.get(name) or name.replace("bank", "bank ")
    space: dict[str, Any] = {
        "comment": _COMMENT,
        "name": name,
        "title": title,
        "size": hexadecimal(size, 16),
    }
    if name == IO:
        space["pointer"] = False
    return space


def _add_regions(spaces: list[dict[str, Any]], registers: list[RegisterFacts]) -> None:
    """Keep the rows that say that nothing is there, as regions of the first space they are in."""
    for space in spaces:
        name = space["name"]
        used = [
            span
            for item in registers
            if not item.is_reserved
            for at, span in _spans(item)
            if at == name
        ]
        wanted = sorted(
            span
            for item in registers
            if item.is_reserved and not item.is_offset and not item.title
            for at, span in _spans(item)
            if at == name and (at != IO or DATA not in item.placed)
        )
        regions = _regions(wanted, used)
        if regions:
            space["regions"] = regions[:_MOST_REGIONS]


def _regions(wanted: list[Taken], used: list[Taken]) -> list[dict[str, Any]]:
    """Return regions for ``wanted``, joined; where a register lies after all there is none."""
    starts = sorted(used)
    joined: list[Taken] = []
    index = 0
    for span in wanted:
        while index < len(starts) and starts[index].last < span.first:
            index += 1
        if index < len(starts) and starts[index].first <= span.last:
            continue
        if joined and span.first <= joined[-1].last + 1:
            joined[-1] = Taken(joined[-1].first, max(joined[-1].last, span.last))
        else:
            joined.append(span)
    return [
        {
            "name": f"RESERVED_{first:X}",
            "title": "reserved addresses",
            "kind": "reserved",
            "first": hexadecimal(first),
            "last": hexadecimal(last),
        }
        for first, last in joined
    ]
