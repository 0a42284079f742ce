"""What differs between two blocks that are a pair: what is said of them, not of their registers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from regwright.compare import show
from regwright.compare.blocks import block_nodes
from regwright.compare.changes import Change
from regwright.compare.pairs import BlockPair, sureness
from regwright.model.chip import Block, Chip, Instance


def block_changes(a: Chip, b: Chip, pairs: Iterable[BlockPair]) -> Iterator[Change]:
    """Yield what differs between the blocks and instances of ``pairs``.

    A change is named after the path; of what stands in several places, after the first of them.
    """
    left, right = block_nodes(a.blocks), block_nodes(b.blocks)
    seen: set[tuple[int, int]] = set()
    for path_a, path_b, why in pairs:
        one, other = left.get(path_a), right.get(path_b)
        if one is None or other is None:
            continue
        for this, that in ((one.block, other.block), (one.instance, other.instance)):
            if this is None or that is None or (id(this), id(that)) in seen:
                continue
            seen.add((id(this), id(that)))
            for kind, before, after in _facts(this, that):
                if before != after:
                    origins = this.origin, that.origin
                    sure = sureness(why)
                    yield Change(kind, path_a, path_b, before, after, "", sure, *origins)


def _facts(one: Block | Instance, other: Block | Instance) -> Iterator[tuple[str, str, str]]:
    yield "title", show.text(one.title), show.text(other.title)
    yield "page", show.text(one.page), show.text(other.page)
    if isinstance(one, Block) and isinstance(other, Block):
        yield "notes", show.text(one.notes), show.text(other.notes)
        yield "register-aliases", show.names(one.aliases), show.names(other.aliases)
