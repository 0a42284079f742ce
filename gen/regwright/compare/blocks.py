"""The blocks of a chip, and which of them are the same in two chips.

Registers that stand in no block count as one when their names start alike: ``TMR_A_CTRL`` and
``TMR_A_COUNT`` stand in ``TMR_A``, and in ``TMR``. A register stands in every block around it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping
from typing import NamedTuple

from regwright.compare.likeness import is_telling, normal, title_key, titles_differ
from regwright.compare.pairs import ALIAS, BLOCK, NAME, PINNED, TITLE, BlockPair
from regwright.compare.unique import unique_pairs
from regwright.model.chip import Block, Instance
from regwright.resolve.chip import Placed, ResolvedChip

#: A name within blocks that so many blocks have says nothing about two of them.
_COMMON = 12
#: Only so many parts of the names of registers in no block are looked at.
_DEEPEST = 4


class Seat(NamedTuple):
    """A block that a register stands in, and what the register is called there."""

    path: str
    inner_name: str


class Blocks:
    """The blocks of one chip by their paths, as :class:`Placed` has them, or by common starts.

    ``names`` are what the registers in them are called there, as names are compared.
    """

    def __init__(self, chip: ResolvedChip, wholes: list[Placed]) -> None:
        """Look at ``chip``, whose registers that are no halves are ``wholes``."""
        self._seats: dict[int, list[Seat]] = {}
        self.names: dict[str, list[str]] = {}
        for placed, seat in (*_loose_seats(wholes, chip.prefix), *_block_seats(wholes)):
            self._seats.setdefault(id(placed), []).append(seat)
            self.names.setdefault(seat.path, []).append(normal(seat.inner_name))
        self.titles: dict[str, str] = {}
        self.aliases: dict[str, tuple[str, ...]] = {}
        for path, node in block_nodes(chip.chip.blocks).items():
            title = node.instance.title if node.instance else None
            if node.is_single:
                title = title or node.block.title
                around = path[: path.rfind(".") + 1]
                self.aliases[path] = tuple(around + alias for alias in node.block.aliases)
            if title:
                self.titles[path] = title

    def of(self, placed: Placed) -> list[Seat]:
        """Return the blocks that a register stands in."""
        return self._seats.get(id(placed), [])

    def titles_around(self, placed: Placed) -> list[str]:
        """Return the titles of the blocks that a register stands in."""
        return [self.titles[seat.path] for seat in self.of(placed) if seat.path in self.titles]


class Node(NamedTuple):
    """A block of the model, and the instance of it that stands at a place."""

    block: Block
    instance: Instance | None

    @property
    def is_single(self) -> bool:
        """Whether the block stands at one place only."""
        return len(self.block.instances) < 2 and not (
            self.block.array and self.block.array.length > 1
        )


def block_nodes(blocks: Iterable[Block], around: str = "") -> dict[str, Node]:
    """Return what stands at each path; of a row, what is at its first."""
    found: dict[str, Node] = {}
    for block in filter(_holds_registers, blocks):
        for instance in block.instances or (None,):
            number = block.array.first if block.array else ""
            path = f"{around}{(instance or block).name}{number}"
            found.setdefault(path, Node(block, instance))
            found.update(block_nodes(block.blocks, f"{path}."))
    return found


def _holds_registers(block: Block) -> bool:
    return bool(block.registers) or any(_holds_registers(inner) for inner in block.blocks)


def _loose_seats(wholes: list[Placed], prefix: str) -> Iterator[tuple[Placed, Seat]]:
    """Yield the common starts of the names of registers in no block."""
    loose = [placed for placed in wholes if not placed.block]
    names = [placed.name.removeprefix(prefix) for placed in loose]
    starts = Counter(start for name in names for start in starts_of(name))
    for placed, name in zip(loose, names, strict=True):
        for start in starts_of(name):
            if starts[start] > 1:
                yield placed, Seat(start, name[len(start) + 1 :])


def starts_of(name: str) -> list[str]:
    """Return what ``name`` starts with, up to each of its first underscores."""
    found: list[str] = []
    end = name.find("_")
    while end >= 0 and len(found) < _DEEPEST:
        if end and end + 1 < len(name):
            found.append(name[:end])
        end = name.find("_", end + 1)
    return found


def _block_seats(wholes: list[Placed]) -> Iterator[tuple[Placed, Seat]]:
    """Yield the blocks around each register, the outermost first."""
    inside = [placed for placed in wholes if placed.block]
    starts: dict[str, tuple[str, str]] = {}
    own = [_own_name(placed) for placed in inside]
    for placed, name in zip(inside, own, strict=True):
        prefix = placed.name[: len(placed.name) - len(name)]
        for path in _paths(placed.block):
            low, high = starts.get(path, (prefix, prefix))
            starts[path] = min(low, prefix), max(high, prefix)
    for placed, name in zip(inside, own, strict=True):
        for path in _paths(placed.block):
            length = len(_common_start(*starts[path]))
            inner = name if path == placed.block else placed.name[length:]
            yield placed, Seat(path, inner)


def _paths(block: str) -> Iterator[str]:
    end = block.find(".")
    while end >= 0:
        yield block[:end]
        end = block.find(".", end + 1)
    yield block


def _own_name(placed: Placed) -> str:
    """Return a register's name without the prefixes of its blocks, its number in a row kept."""
    name = placed.register.name
    if placed.register.array is not None:
        for digits in range(4, 0, -1):
            own = name + placed.name[-digits:]
            if placed.name.endswith(own) and placed.name[-digits:].isdigit():
                return own
    return name if placed.name.endswith(name) else placed.name


def _common_start(low: str, high: str) -> str:
    """Return what two names start with; up to an underscore, unless that is all of one."""
    length = 0
    while length < min(len(low), len(high)) and low[length] == high[length]:
        length += 1
    return low if length == len(low) else low[: low.rfind("_", 0, length) + 1]


_Pairs = Iterator[tuple[str, str]]


def block_pairs(
    left: Blocks, right: Blocks, pinned: list[tuple[Placed, Placed]]
) -> list[BlockPair]:
    """Return which block of one chip is which of the other.

    By name, by registers that the user has pinned, by alias, by title, then by how many registers
    in them have the same names.
    """
    found: dict[str, BlockPair] = {}
    taken: set[str] = set()

    def note(why: str, pairs: Iterable[tuple[str, str]]) -> None:
        for one, other in list(pairs):
            if one not in found and other not in taken:
                found[one] = BlockPair(one, other, why)
                taken.add(other)

    def by(keys_left: Mapping[str, list[str]], keys_right: Mapping[str, list[str]]) -> _Pairs:
        ones = [(path, keys) for path, keys in keys_left.items() if path not in found]
        others = [(path, keys) for path, keys in keys_right.items() if path not in taken]
        for one, other in unique_pairs(ones, others, lambda item: item[1]):
            yield one[0], other[0]

    note(NAME, by(*({path: [path] for path in side.names} for side in (left, right))))
    note(PINNED, _best_pairs(_pinned_votes(left, right, pinned)))
    note(ALIAS, by(*(_named(side) for side in (left, right))))
    note(TITLE, by(*(_titled(side) for side in (left, right))))
    note(BLOCK, _by_names(left, right, found, taken))
    return [found[path] for path in left.names if path in found]


def _named(side: Blocks) -> dict[str, list[str]]:
    return {path: [path, *side.aliases.get(path, ())] for path in side.names}


def _titled(side: Blocks) -> dict[str, list[str]]:
    titles = {path: title_key(side.titles.get(path)) for path in side.names}
    return {path: [title] for path, title in titles.items() if title}


def _pinned_votes(
    left: Blocks, right: Blocks, pinned: list[tuple[Placed, Placed]]
) -> Counter[tuple[str, str]]:
    """Return how many pinned pairs have the same name within each two blocks."""
    return Counter(
        (one.path, other.path)
        for a, b in pinned
        for one in left.of(a)
        for other in right.of(b)
        if normal(one.inner_name) == normal(other.inner_name)
    )


def _by_names(
    left: Blocks, right: Blocks, found: Mapping[str, BlockPair], taken: set[str]
) -> _Pairs:
    """Yield pairs of blocks, each the best for the other: with most inner names in common."""
    of_left, of_right = _by_inner_name(left, found), _by_inner_name(right, taken)
    votes: Counter[tuple[str, str]] = Counter()
    for name, paths in of_left.items():
        partners = of_right.get(name, [])
        if len(paths) <= _COMMON and len(partners) <= _COMMON:
            votes.update((one, other) for one in paths for other in partners)
    for one, other in _best_pairs(votes):
        if _may_be_one(left, one, right, other):
            yield one, other


def _may_be_one(left: Blocks, one: str, right: Blocks, other: str) -> bool:
    """Tell whether the names in two blocks are enough to take them for one.

    Names that any block may have, as ``CTRL`` and ``DATA``, are enough when there are no others.
    """
    ones, others = set(left.names[one]), set(right.names[other])
    common = ones & others
    if len(common) < 2 or 2 * len(common) < min(len(ones), len(others)):
        return False
    if titles_differ(left.titles.get(one), right.titles.get(other)):
        return False
    return any(map(is_telling, common)) or (len(common) > 2 and ones == others)


def _by_inner_name(side: Blocks, without: Container[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for path, names in side.names.items():
        if path not in without:
            for name in dict.fromkeys(names):
                found.setdefault(name, []).append(path)
    return found


def _best_pairs(votes: Counter[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Yield the pairs each of which is the best for the other; ties are none."""
    best_left, best_right = _best(votes, 0), _best(votes, 1)
    for one, other in votes:
        if best_left[one] == other and best_right[other] == one:
            yield one, other


def _best(votes: Counter[tuple[str, str]], side: int) -> dict[str, str]:
    """Return for each block of one side the one with most votes; nothing where two have as many."""
    most: dict[str, tuple[int, str]] = {}
    for pair, count in votes.items():
        one, other = pair[side], pair[1 - side]
        known, _ = most.get(one, (0, ""))
        if count > known:
            most[one] = count, other
        elif count == known:
            most[one] = count, ""
    return {path: other for path, (_, other) in most.items()}
