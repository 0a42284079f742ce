"""What the operands of an instruction come to: the address it takes, and the bit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.audit.address_words import excerpt, listed, names_meant, number
from regwright.audit.locations import ADDED_TWICE
from regwright.audit.names import ADDRESS, Match
from regwright.audit.put import NO_WRITE
from regwright.audit.subject import AuditSubject, Use
from regwright.code.seen import Operand
from regwright.model.chip import Span
from regwright.resolve.chip import Placed
from regwright.rules.wording import label

#: So many instructions are named as those that reach a register.
_MOST_WAYS = 8


class Fault(NamedTuple):
    """What is wrong with the address that an instruction is given.

    ``right`` is the register's address in the space of the instruction; ``None`` when the
    instruction does not reach it. ``is_sure`` tells whether nothing else can be meant.
    """

    use: Use
    operand: Operand
    address: int
    message: str
    right: int | None = None
    is_sure: bool = False


def faults(subject: AuditSubject) -> Iterator[Fault]:
    """Yield each wrong address that an instruction is given.

    Not for a device: where a board puts its registers is the board's own matter.
    """
    if subject.chip.kind == "device":
        return
    for use in subject.uses:
        if use.address is not None:
            operand = use.instruction.operands[use.described.address - 1]
            found = _Judge(subject, use, operand, use.address).fault()
            if found is not None:
                yield found


class _Judge:
    """Looks at the address of one use of an instruction."""

    def __init__(self, subject: AuditSubject, use: Use, operand: Operand, address: int) -> None:
        self._subject = subject
        self._use = use
        self._operand = operand
        self._address = address
        self._space = use.described.space
        self._here = [item.placed for item in subject.locations.at(self._space, address)]

    def fault(self) -> Fault | None:
        """Return what is wrong with the address, if anything is."""
        named = self._named()
        if named and not any(item.placed in self._here for item in named):
            return self._misnamed(named)
        fits = not self._here or any(map(self._is_possible, self._here))
        if self._is_reached(self._address, self._here) and (self._here or named) and fits:
            return None
        found = None if named else self._of_another_space()
        if found is None and not self._is_reached(self._address, self._here):
            return self._out_of_reach(self._here)
        return found

    def _is_possible(self, placed: Placed) -> bool:
        """Tell whether a register can be what the instruction does to it: written, or read."""
        access, how = placed.facts.access, self._use.described.access
        return not (how != "read" and access in NO_WRITE) and not (
            how != "write" and access == "write-only"
        )

    def _named(self) -> list[Match]:
        """Return the registers that the names in the operand mean."""
        return [
            match
            for name in self._operand.names
            for match in self._subject.names.find(name)
            if match.field is None and match.says in ("", ADDRESS)
        ]

    def _misnamed(self, named: list[Match]) -> Fault | None:
        """Return the fault of an operand that names a register, and is another address of it."""
        for match in named:
            for other in match.placed.addresses:
                if other.space != self._space and other.value == self._address:
                    right = match.placed.address(self._space)
                    if right is None or not self._is_reached(right.value, [match.placed]):
                        return self._out_of_reach([match.placed])
                    return self._fault(match.placed.name, other.space, right.value, is_sure=True)
        return None

    def _of_another_space(self) -> Fault | None:
        """Return the fault of a number that is a register's address in another space."""
        locations = self._subject.locations
        can_be_meant = locations.can_be_meant(self._space, self._address)
        if can_be_meant and self._space == self._subject.space:
            return None
        seen = [
            item
            for item in locations.seen_through(self._space, self._address)
            if item.kind != ADDED_TWICE and self._is_reached(item.right, [item.placed])
            if self._is_possible(item.placed)
        ]
        if not seen:
            return None
        is_open = can_be_meant and self._is_reached(self._address, [])
        is_sure = len({item.right for item in seen}) == 1 and not is_open
        names = listed(names_meant(seen, self._space), last="or")
        return self._fault(names, seen[0].wrong_space, seen[0].right, is_sure=is_sure)

    def _fault(self, name: str, space: str, right: int, *, is_sure: bool) -> Fault:
        own, address = label(self._space), number(self._address)
        hits = ""
        if self._here:
            hit = self._subject.locations.hits(self._space, self._address)
            hits = f"; the {own} address {address} hits {hit}"
        sign = "+" if right > self._address else "-"
        distance = number(abs(right - self._address))
        message = (
            f"{self._use.instruction.mnemonic} takes {_article(own)} {own} address, but "
            f"{self._shown()} is the {label(space)} address of {name}{hits}. {number(right)} is "
            f"meant ({address} {sign} {distance})"
        )
        return Fault(self._use, self._operand, self._address, message, right, is_sure)

    def _shown(self) -> str:
        address = number(self._address)
        names = self._operand.names
        return f"{excerpt(self._operand.text)} ({address})" if names else address

    # How far an instruction reaches.

    def _spans(self) -> tuple[Span, ...]:
        """Return the addresses that the instruction reaches; none where that is not said."""
        locations = self._subject.locations
        spans = locations.single_bit_spans(self._space) if self._use.described.bit else ()
        whole = locations.reach(self._space)
        return spans or ((whole,) if whole else ())

    def _is_reached(self, address: int, registers: list[Placed]) -> bool:
        """Tell whether the instruction reaches an address at which ``registers`` are."""
        if self._use.described.bit:
            claims = [self._subject.locations.single_bit_reach(item) for item in registers]
            if any(claims):
                return True
            if False in claims:
                return False
        spans = self._spans()
        return not spans or any(span.first <= address <= span.last for span in spans)

    def _out_of_reach(self, registers: list[Placed]) -> Fault:
        spans = listed(f"{number(span.first)} to {number(span.last)}" for span in self._spans())
        placed, there = self._beyond(registers)
        ways = self._ways(placed) if placed else ""
        message = (
            f"{self._use.instruction.mnemonic} reaches the {label(self._space)} addresses {spans}, "
            f"and {there}{f': {ways} reach it' if ways else ''}"
        )
        return Fault(self._use, self._operand, self._address, message)

    def _beyond(self, registers: list[Placed]) -> tuple[Placed | None, str]:
        """Return the register that is out of reach, if it is known, and say where that is.

        ``registers`` are those that may be meant; none for any that has the address in a space.
        """
        found = registers[0].address(self._space) if registers else None
        if found is not None:
            return registers[0], f"{registers[0].name} is at {number(found.value)}"
        for space in self._subject.resolved.spaces:
            for item in self._subject.registers_at(space, self._address):
                if space != self._space and (not registers or item in registers):
                    return item, f"{self._shown()} is the {label(space)} address of {item.name}"
        return None, f"{self._shown()} is past it"

    def _ways(self, placed: Placed) -> str:
        """Name the instructions that reach a register."""
        found: list[str] = []
        for item in self._subject.chip.instructions:
            address = placed.address(item.space)
            locations = self._subject.locations
            if address is None or (item.bit and locations.single_bit_reach(placed) is False):
                continue
            whole = locations.reach(item.space)
            if whole is None or whole.first <= address.value <= whole.last:
                found += item.names
        return listed(found, _MOST_WAYS)


def _article(word: str) -> str:
    return "an" if word[:1] in "AEIOaeio" else "a"
