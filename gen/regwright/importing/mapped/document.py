"""What XML and JSON have in common for a mapping: nodes, values, places, and what was not read."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any, NamedTuple, Protocol

#: A value as it stands in a document, before anything is made of it.
Value = str | int | bool


class BadPath(Exception):
    """A path is none, or cannot be followed; the message says why.

    ``column`` counts the characters of the path before the mistake.
    """

    def __init__(self, message: str, column: int = 0) -> None:
        super().__init__(message)
        self.column = column


class WrongKind(Exception):
    """A path selects something that cannot stand where it is used; the message says what."""


class Unreadable(Exception):
    """The document itself cannot be read; the message says why, at a line and column from 1."""

    def __init__(self, message: str, line: int = 1, column: int = 1) -> None:
        super().__init__(message)
        self.line = line
        self.column = column


class Lost(NamedTuple):
    """Things of one name that no path has read: how many, and where the first one stands."""

    name: str
    number: int
    place: tuple[int, int]


class Document(Protocol):
    """A document that paths are followed in; it notes what they read."""

    #: What stands for the whole document: the outermost element or value.
    root: Any

    def compile(self, path: str) -> Any:
        """Return ``path`` ready to be followed. Raises :class:`BadPath`."""
        ...

    def nodes(self, path: Any, node: Any) -> list[Any]:
        """Return the nodes that ``path`` selects from ``node``.

        Raises :class:`WrongKind` when it selects values, :class:`BadPath` when it fails.
        """
        ...

    def values(self, path: Any, node: Any) -> list[Value]:
        """Return the values that ``path`` selects from ``node``, in the document's order.

        Raises :class:`WrongKind` for what has no value of its own, :class:`BadPath` when it fails.
        """
        ...

    def key(self, node: Any, up: int) -> str | None:
        """Return the name under which ``node``, or what is ``up`` levels around it, stands."""
        ...

    def ignore(self, node: Any) -> None:
        """Note that ``node``, with all that is in it, is left out on purpose."""
        ...

    def identity(self, node: Any) -> Hashable:
        """Return what tells ``node`` from any other."""
        ...

    def place(self, node: Any) -> tuple[int, int]:
        """Return the line and column, from 1, at which ``node`` stands."""
        ...

    def lost(self, ignored: frozenset[str]) -> list[Lost]:
        """Return what no path has read and whose name is not in ``ignored``."""
        ...


class Tally:
    """Counts of things by name, in the order in which the first one stands."""

    def __init__(self, ignored: frozenset[str]) -> None:
        """Start counting; what has a name in ``ignored`` is not counted."""
        self._ignored = ignored
        self._found: dict[str, Lost] = {}

    def add(self, place: tuple[int, int], name: str, *other_names: str) -> None:
        """Count one more ``name``, which may be ignored by any of its names."""
        if self._ignored.isdisjoint((name, *other_names)):
            before = self._found.get(name, Lost(name, 0, place))
            self._found[name] = before._replace(number=before.number + 1)

    def lost(self) -> list[Lost]:
        """Return what was counted."""
        return list(self._found.values())
