"""What the whole table of registers says against a window: one constant for most of its rows."""

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from regwright.model.chip import Window
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.rules.wording import given_pairs, region_at

#: Fewer rows than this make no table.
FEWEST_ROWS = 4


class TableVerdict(NamedTuple):
    """A constant that explains most rows of a table better than the window does.

    ``explained`` has the identities of the registers it explains, ``is_past`` tells whether the
    inner address of one lies past the window's end; ``kind`` is ``distance``
    (both addresses given, ``distance`` apart), ``inner-for-outer`` (only the outer addresses are
    given, and they are the inner ones) or ``outer-for-inner``.
    """

    window: Window
    kind: str
    distance: int
    explained: frozenset[int]
    total: int
    others: tuple[str, ...]
    is_past: bool = False


def _by_distance(resolved: ResolvedChip, described: list[Placed]) -> Iterator[TableVerdict]:
    for window in resolved.chip.windows:
        rows = [pair for pair in given_pairs(resolved, described) if pair.window is window]
        if len(rows) < FEWEST_ROWS:
            continue
        distances = Counter(pair.outside.value - pair.inside.value for pair in rows)
        distance, count = distances.most_common(1)[0]
        if distance == window.offset or 2 * count <= len(rows):
            continue
        agree = {id(p.placed) for p in rows if p.outside.value - p.inside.value == distance}
        others = tuple(pair.placed.name for pair in rows if id(pair.placed) not in agree)
        is_past = any(id(p.placed) in agree and p.inside.value > window.last for p in rows)
        yield TableVerdict(
            window, "distance", distance, frozenset(agree), len(rows), others, is_past
        )


def _one_sided(resolved: ResolvedChip, described: list[Placed]) -> Iterator[TableVerdict]:
    """Yield a verdict when every row has one address only, and that of the wrong side."""
    for window in resolved.chip.windows:
        source, into = resolved.spaces.get(window.source), resolved.spaces.get(window.into)
        if source is None or into is None or not window.offset:
            continue
        outer = _only_given(described, window.into, window.source)
        hits = [region_at(into, value) for _, value in outer]
        if (
            len(outer) >= FEWEST_ROWS
            and all(window.first <= value <= window.last for _, value in outer)
            and any(region is not None and region.kind == "cpu-registers" for region in hits)
        ):
            yield _verdict(window, "inner-for-outer", outer)
        inner = _only_given(described, window.source, window.into)
        low, high = window.first + window.offset, window.last + window.offset
        if (
            len(inner) >= FEWEST_ROWS
            and all(low <= value <= high for _, value in inner)
            and any(value > window.last for _, value in inner)
        ):
            yield _verdict(window, "outer-for-inner", inner)


def _only_given(described: list[Placed], space: str, not_space: str) -> list[tuple[Placed, int]]:
    """Return the registers with an address given in one space and none in the other."""
    rows = []
    for placed in described:
        names = {address.space for address in placed.register.addresses}
        if space in names and not_space not in names:
            value = next(a.value for a in placed.register.addresses if a.space == space)
            rows.append((placed, value))
    return rows


def _verdict(window: Window, kind: str, rows: list[tuple[Placed, int]]) -> TableVerdict:
    explained = frozenset(id(placed) for placed, _ in rows)
    return TableVerdict(window, kind, 0, explained, len(rows), ())


def verdicts(resolved: ResolvedChip, described: list[Placed]) -> list[TableVerdict]:
    """Return what the whole table says against the windows."""
    if not resolved.chip.windows:
        return []
    return [*_by_distance(resolved, described), *_one_sided(resolved, described)]
