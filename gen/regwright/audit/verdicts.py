"""Which register an address in a source was meant to be, and whether it is that."""

from __future__ import annotations

from typing import NamedTuple

from regwright.audit.locations import Locations, Meant, Spot
from regwright.audit.names import ADDRESS, ALIKE, EXACT, Match, Names
from regwright.code.seen import Branch, CType, Where
from regwright.resolve.chip import Placed

#: The address is the register's; it is one of another space; it is another register's, or none's.
RIGHT, OTHER_SPACE, OTHER_REGISTER, NOWHERE = "right", "other space", "other register", "nowhere"


class Claim(NamedTuple):
    """A place in a source that says: what I call ``name`` is at ``address``.

    ``name`` is empty where the source gives none. ``literal`` is the number to repair, ``at`` what
    a message is about. ``form`` is that of the definition, ``access`` for a bare cast in code.
    ``base`` is the address of the structure around it, if there is one.
    """

    name: str
    address: int
    type: CType
    literal: Where | None
    qualifier: Where | None
    at: Where
    whole: Where
    branch: Branch
    form: str
    is_closed: bool = True
    base: int | None = None


class Verdict(NamedTuple):
    """What a claim comes to.

    ``kind`` is one of the constants above. ``placed`` is the register that was meant, ``right`` the
    address it has in the space of pointers; ``meant`` tells how one of another space came here.
    ``certainty`` is that of the name, 0 where only the address speaks. ``others`` are the registers
    at the address when it is that of others.
    """

    claim: Claim
    kind: str
    placed: Placed | None = None
    right: int | None = None
    meant: Meant | None = None
    certainty: int = 0
    others: tuple[Placed, ...] = ()

    @property
    def delta(self) -> int | None:
        """What was added too much, or too little when it is negative."""
        return None if self.right is None else self.claim.address - self.right


def judge(claim: Claim, names: Names, locations: Locations, space: str) -> Verdict:
    """Return what ``claim``, an address behind a pointer into ``space``, comes to."""
    here = locations.at(space, claim.address)
    named = _named(claim, names)
    for match in named.all:
        if any(spot.placed is match.placed and _agrees(claim, spot) for spot in here):
            return Verdict(claim, RIGHT, match.placed, claim.address, None, match.certainty)
    seen = locations.seen_through(space, claim.address)
    others = tuple(spot.placed for spot in here)
    for match in named.all:
        meant = next((item for item in seen if item.placed is match.placed), None)
        if meant is not None:
            return Verdict(
                claim, OTHER_SPACE, match.placed, meant.right, meant, match.certainty, others
            )
    for match in named.all:
        sure = not named.last or _is_against(match, named.last, others)
        if sure and _is_other(match, here=bool(here), seen=bool(seen)):
            found = match.placed.address(space)
            right = found.value if found else None
            return Verdict(
                claim, OTHER_REGISTER, match.placed, right, None, match.certainty, others
            )
    if here:
        starts = [spot.placed for spot in here if not spot.offset] or [here[0].placed]
        return Verdict(claim, RIGHT, starts[0], claim.address)
    if seen and not locations.can_be_meant(space, claim.address):
        return Verdict(claim, OTHER_SPACE, seen[0].placed, seen[0].right, seen[0])
    return Verdict(claim, NOWHERE)


def _agrees(claim: Claim, spot: Spot) -> bool:
    """Tell whether the address is the register's: its first one, unless only a part is read."""
    bits = claim.type.bits
    return not spot.offset or (bits is not None and bits < spot.placed.facts.width)


def _is_other(match: Match, *, here: bool, seen: bool) -> bool:
    """Tell whether a name outweighs an address that is not its register's.

    ``here`` is whether any register is at the address, ``seen`` whether one would be if a distance
    between two spaces had been minded.
    """
    return match.certainty == EXACT or here or (seen and match.certainty == ALIKE)


def _is_against(match: Match, last: str, others: tuple[Placed, ...]) -> bool:
    """Tell whether the name of a member alone, ``last``, says something against its address.

    Many structures have a member called so: it must be a register's very own name, and another
    register must be there, none that has such a member's name behind that of its block.
    """
    own = f"_{last}".upper()
    is_member = any(placed.name.upper().endswith(own) for placed in others)
    return match.certainty == EXACT and bool(others) and not is_member


class _Named(NamedTuple):
    """The registers that a name may mean, the surest first.

    ``last`` is the name of a member alone, when it is that what they have, not the whole name.
    """

    all: list[Match]
    last: str = ""


def _named(claim: Claim, names: Names) -> _Named:
    """Return the registers that the name of a claim may mean."""
    whole, last = _spellings(claim)
    for find in (names.find, names.find_titled):
        for name in whole:
            found = _plain(find(name))
            if found:
                return _Named(found)
    return _Named(_plain(names.find(last)), last) if last else _Named([])


def _plain(matches: tuple[Match, ...]) -> list[Match]:
    """Return the matches that are registers themselves, or their addresses."""
    return [item for item in matches if item.field is None and item.says in ("", ADDRESS)]


def _spellings(claim: Claim) -> tuple[list[str], str]:
    """Return the names to look a claim up by, and the name of a member alone.

    A member's name is joined to that of its structure.
    """
    if not claim.name:
        return [], ""
    base, dot, member = claim.name.replace("->", ".").partition(".")
    if not dot:
        return [base], ""
    last = member.rpartition(".")[2].partition("[")[0]
    return [f"{base}_{last}", f"{last}_{base}"], last
