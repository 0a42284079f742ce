"""Where names count, anywhere or in the blocks that declare them; what has such names in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Generic, NamedTuple, TypeVar

from regwright.code.scope import Constant

#: A name that counts in more blocks than these counts anywhere.
_MOST = 64


class Span(NamedTuple):
    """The bytes ``start:end`` of a file."""

    file: int
    start: int
    end: int

    def meets(self, other: Span) -> bool:
        """Tell whether it has a byte in common with ``other``."""
        return self.file == other.file and self.start < other.end and other.start < self.end


_Item = TypeVar("_Item")


def place_of(constant: Constant) -> Span:
    """Return where ``constant`` is declared, with its value."""
    return Span(constant.file, constant.start, max(constant.value_at.end, constant.start + 1))


def known_in(constant: Constant) -> Span | None:
    """Return where the name of ``constant`` is known: its block, or ``None`` for anywhere."""
    block = constant.block
    return Span(constant.file, block.start, block.end) if block and block.local else None


class Reach:
    """Names, and where each counts: those ``anywhere``, and the others in their ``blocks``."""

    def __init__(self, anywhere: Iterable[bytes] = ()) -> None:
        """Let the names ``anywhere`` count anywhere."""
        self.anywhere = set(anywhere)
        self.blocks: dict[bytes, list[Span]] = {}

    def add(self, name: bytes, where: Span | None) -> bool:
        """Let ``name`` count ``where``, ``None`` for anywhere; tell whether it did not yet."""
        if name in self.anywhere:
            return False
        blocks = self.blocks.setdefault(name, [])
        if where in blocks:
            return False
        if where is None or len(blocks) == _MOST:
            del self.blocks[name]
            self.anywhere.add(name)
        else:
            blocks.append(where)
        return True

    def names(self) -> frozenset[bytes]:
        """Return the names that count somewhere."""
        return frozenset(self.anywhere.union(self.blocks))

    def counts(self, name: bytes, where: Span) -> bool:
        """Tell whether ``name`` counts in a part of ``where``."""
        if name in self.anywhere:
            return True
        return any(block.meets(where) for block in self.blocks.get(name, ()))

    def has_one_of(self, names: Iterable[bytes], where: Span) -> bool:
        """Tell whether one of ``names`` counts in a part of ``where``."""
        return any(self.counts(name, where) for name in names)


class Following(Generic[_Item]):
    """Follows names to the items that have them in their texts, where these names count."""

    def __init__(self, reach: Reach) -> None:
        """Follow the names that :meth:`add` adds to ``reach``, and only these."""
        self._reach = reach
        self._waiting: list[tuple[bytes, Span | None]] = []
        self._users: dict[bytes, list[tuple[Span | None, _Item]]] = {}

    def user(self, item: _Item, names: Iterable[bytes], place: Span | None) -> None:
        """Note that ``item`` has ``names`` in its text, which stands at ``place`` or anywhere."""
        for name in names:
            self._users.setdefault(name, []).append((place, item))

    def add(self, name: bytes, where: Span | None) -> None:
        """Let ``name`` count ``where``, ``None`` for anywhere."""
        if self._reach.add(name, where):
            self._waiting.append((name, where if name not in self._reach.anywhere else None))

    def follow(self) -> Iterator[tuple[bytes, list[_Item]]]:
        """Yield each name that counts, and the items to which it leads that are not yet known.

        What is added meanwhile is followed, too.
        """
        while self._waiting:
            name, where = self._waiting.pop()
            users = self._users.pop(name, [])
            if where is not None:
                left = [user for user in users if user[0] is not None and not user[0].meets(where)]
                if left:
                    self._users[name] = left
                users = [user for user in users if user[0] is None or user[0].meets(where)]
            yield name, [item for _, item in users]
