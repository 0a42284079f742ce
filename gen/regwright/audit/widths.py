"""Whether an access is as wide as the register that it is of."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from regwright.audit.address_words import listed
from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import OTHER_REGISTER, Verdict
from regwright.macros.literals import access_bits
from regwright.resolve.chip import Placed


class WrongWidth(NamedTuple):
    """An access of ``bits`` to ``placed``, which has ``right``; ``why`` tells what comes of it."""

    bits: int
    placed: Placed
    right: int
    why: str


class Widths:
    """Holds accesses against the widths of the registers in the space of pointers."""

    def __init__(self, subject: AuditSubject) -> None:
        """Look registers up in the description of ``subject``."""
        self._subject = subject
        known = subject.resolved.spaces.get(subject.space)
        self._unit = known.unit if known else 8

    def of(self, verdict: Verdict) -> WrongWidth | None:
        """Return what is wrong with the width of a claim, if anything is."""
        bits = verdict.claim.type.bits
        if bits is None or verdict.right is None or verdict.kind == OTHER_REGISTER:
            return None
        return self.at(verdict.right, bits, verdict.placed if verdict.certainty else None)

    def at(self, address: int, bits: int, named: Placed | None = None) -> WrongWidth | None:
        """Return what is wrong with an access of ``bits`` at ``address``, if anything is.

        It must be right for the register ``named``, or else for any that starts there.
        """
        spots = self._subject.locations.at(self._subject.space, address)
        starting = [spot.placed for spot in spots if not spot.offset]
        if named in starting:
            starting = [item for item in starting if item is named]
        found = starting or [spot.placed for spot in spots]
        widths = [access_bits(item.facts.width, self._unit) for item in found]
        if not found or None in widths or (starting and bits in widths):
            return None
        right = next(item for item in widths if item is not None)
        placed = found[0]
        return WrongWidth(bits, placed, right, self._why(placed, address, bits, right))

    def _why(self, placed: Placed, address: int, bits: int, right: int) -> str:
        halves = self._halves.get(placed.name)
        if bits < right:
            if halves is None:
                return f"that is a part of {placed.name} only"
            return f"that is one half only; use {listed(halves)}"
        space = self._subject.space
        units = range(address, address + bits // self._unit)
        taken = [spot.placed for unit in units for spot in self._subject.locations.at(space, unit)]
        names = {item.name for item in taken}
        own = (placed.name, placed.whole or placed.name)
        besides = [item.name for item in taken if item.whole not in names and item.name not in own]
        return f"the access takes in {listed(besides) or 'what lies behind it'} too"

    @cached_property
    def _halves(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for item in self._subject.resolved.registers:
            if item.half:
                found.setdefault(item.whole, []).append(item.name)
        return found
