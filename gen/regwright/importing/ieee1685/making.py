"""What is shared while the tree of a description is made: where its parts stand, how many."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.labels import Node
    from regwright.model.origin import Origin

#: More registers than this, arrays counted, no description may have.
MOST_REGISTERS = 65_536
#: More groups and registers than this, arrays not counted, are not read: a description of so
#: many would be larger than any that is read.
MOST_PARTS = 30_000


_WITH_PLACES = ("blocks", "registers", "fields")


class TooMuch(Exception):
    """The file expands to more than a description may have; carries the element at fault."""

    def __init__(self, message: str, element: etree._Element) -> None:
        super().__init__(message)
        self.element = element


class Making:
    """Counts what is made and remembers where each node came from."""

    def __init__(self) -> None:
        #: The node is kept too, so that its identity stays its own.
        self._lines: dict[int, tuple[Node, int]] = {}
        self._registers = 0
        self._parts = 0

    def remember(self, node: Node, element: etree._Element) -> None:
        """Note that ``node`` came from ``element``."""
        self._lines[id(node)] = node, element.sourceline or 1

    def share(self, node: Node, other: Node) -> None:
        """Note that ``node`` came from where ``other`` did."""
        if id(other) in self._lines:
            self._lines[id(node)] = node, self._lines[id(other)][1]

    def count(self, registers: int, element: etree._Element) -> None:
        """Count ``registers`` more, and a part. Raises :class:`TooMuch`."""
        self._registers += registers
        self._parts += 1
        if self._registers > MOST_REGISTERS:
            raise TooMuch(f"this expands to more than {MOST_REGISTERS} registers", element)
        if self._parts > MOST_PARTS:
            raise TooMuch(f"this has more than {MOST_PARTS} parts", element)

    def places(self, tree: Node) -> dict[Origin, tuple[int, int]]:
        """Return where the blocks, registers and fields of ``tree`` stand."""
        found: dict[Origin, tuple[int, int]] = {}
        lines = self._lines
        waiting: list[tuple[Node, Origin]] = [(tree, None)]
        while waiting:
            node, origin = waiting.pop()
            for kind in _WITH_PLACES:
                for index, item in enumerate(node.get(kind, ())):
                    place = (origin, kind, index)
                    known = lines.get(id(item))
                    if known is not None:
                        found[place] = (known[1], 1)
                    if kind != "fields":
                        waiting.append((item, place))
        return found


class Lane(NamedTuple):
    """A part of a parallel bank: of each ``bank`` units ``own`` ones belong to it.

    ``outer`` is the part of another bank that the whole bank is.
    """

    own: int
    bank: int
    outer: Lane | None = None

    def place(self, offset: int) -> int:
        """Return where in the outermost bank what has ``offset`` in the part stands."""
        at = offset // self.own * self.bank + offset % self.own
        return self.outer.place(at) if self.outer else at

    def is_regular(self, distance: int) -> bool:
        """Tell whether things ``distance`` apart in the part stand evenly in the bank too."""
        if distance % self.own:
            return False
        return self.outer is None or self.outer.is_regular(distance // self.own * self.bank)


class Within(NamedTuple):
    """What registers and groups inherit from what is around them.

    ``unit`` is the width of what one address holds in bits, ``times`` how often the group around
    stands in the chip, ``depth`` how many blocks are around, ``width`` what a register is wide
    that does not say it.
    """

    making: Making
    unit: int
    times: int = 1
    depth: int = 0
    volatile: bool = False
    width: int = 8
    access: str = "read-write"
    lane: Lane | None = None

    def units(self, bits: int) -> int:
        """Return how many units ``bits`` bits take."""
        return -(-bits // self.unit)
