"""Which register and which field of one chip is which of another, and how sure that is."""

from typing import NamedTuple

from regwright.resolve.chip import Placed
from regwright.resolve.facts import FieldFacts

#: How sure a pair is, the surest first.
CERTAIN, LIKELY, POSSIBLE = "certain", "likely", "possible"
SURENESS = (CERTAIN, LIKELY, POSSIBLE)

#: Why two things are a pair: the user said so; they have one name; an alias of one is a name of the
#: other; the names differ in case and underscores; they have one title; their blocks are a pair and
#: they are the same within them; they have the same fields; they stand at the same place; they are
#: the same half of a pair; a field has its name in another register of the block, or of the chip.
PINNED, NAME, ALIAS, ALIKE, TITLE = "pinned", "name", "alias", "alike", "title"
BLOCK, FIELDS, PLACE, HALF = "block", "fields", "place", "half"
MOVED, ELSEWHERE = "moved", "elsewhere"

_SURE = {
    **dict.fromkeys((PINNED, NAME, ALIAS, HALF), CERTAIN),
    **dict.fromkeys((ALIKE, TITLE, BLOCK, MOVED), LIKELY),
    **dict.fromkeys((FIELDS, PLACE, ELSEWHERE), POSSIBLE),
}


def sureness(why: str) -> str:
    """Return how sure a pair is that was made for the reason ``why``."""
    return _SURE[why]


class Pair(NamedTuple):
    """A register of A and one of B; ``None`` where a chip has none, and ``why`` is empty then."""

    a: Placed | None
    b: Placed | None
    why: str = ""


class FieldAt(NamedTuple):
    """A field and the register that it stands in."""

    placed: Placed
    facts: FieldFacts

    @property
    def name(self) -> str:
        """Its name with its register's, as messages and pins have it."""
        return f"{self.placed.name}.{self.facts.field.name}"


class FieldPair(NamedTuple):
    """A field of A and one of B, as :class:`Pair`."""

    a: FieldAt | None
    b: FieldAt | None
    why: str = ""


class BlockPair(NamedTuple):
    """The path of a block of A and of one of B."""

    a: str
    b: str
    why: str


class Matching(NamedTuple):
    """All pairs, in the order of A, then what only B has; ``fields`` by their registers' order."""

    blocks: list[BlockPair]
    registers: list[Pair]
    fields: list[FieldPair]
