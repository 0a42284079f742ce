"""What the rules about code look at: a chip, sources, and what was seen in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from regwright.audit.explained import OffByConstant, off_by_a_constant
from regwright.audit.locations import Locations
from regwright.audit.names import ADDRESS, Names
from regwright.audit.verdicts import Claim, Verdict, judge
from regwright.audit.vocabulary import header_macros
from regwright.code.integers import DataModel, data_model
from regwright.code.seen import (
    Access,
    Definition,
    Instruction,
    Number,
    Pointer,
    Seen,
    Where,
)
from regwright.code.sources import read_sources
from regwright.code.text import CodeText
from regwright.code.vocabulary import Vocabulary
from regwright.code.words import names_in
from regwright.macros.registers import ChipMacros
from regwright.model.chip import Instruction as Described
from regwright.model.chip import int_bits
from regwright.resolve.chip import Placed, ResolvedChip

if TYPE_CHECKING:
    from regwright.audit.catalogue import CodeFinding


class Touch(NamedTuple):
    """An access and the registers that it may be of: by the name, or else by the address.

    Several share one address where reading, writing or another field tells them apart.
    """

    access: Access
    registers: tuple[Placed, ...]


class Use(NamedTuple):
    """An instruction of the description's lists, as it stands in a source.

    ``address`` is the operand's value where it is known; ``described`` says what it is of.
    """

    instruction: Instruction
    described: Described
    address: int | None
    bit: int | None


class AuditSubject:
    """A chip and sources; everything is worked out when a rule first asks for it."""

    def __init__(
        self,
        resolved: ResolvedChip,
        macros: ChipMacros,
        files: Sequence[CodeText],
        *,
        pedantic: bool = False,
        use_header: str = "",
    ) -> None:
        """Hold ``files`` against ``resolved``, whose header defines ``macros``.

        ``pedantic`` asks for what is only counted else, ``use_header`` is the name of the header to
        use in place of definitions made by hand.
        """
        self.pedantic = pedantic
        self.use_header = use_header
        self.resolved = resolved
        self.chip = resolved.chip
        self.macros = macros
        self.files = files
        self.names = Names(resolved, macros)
        self.locations = Locations(resolved)
        space = resolved.pointer_space
        #: The space that pointers reach; empty where there is none.
        self.space = space.name if space else ""
        #: What the rules that ran before have found.
        self.findings: list[CodeFinding] = []
        self.switched_off: set[str] = set()

    @cached_property
    def model(self) -> DataModel:
        """The widths of C's types for the chip."""
        return data_model(int_bits(self.chip))

    @cached_property
    def header(self) -> set[str]:
        """The names of the header's macros."""
        return set(header_macros(self.chip.name, self.macros))

    @cached_property
    def seen(self) -> Seen:
        """All that is in the sources."""
        calls = frozenset(
            name
            for item in self.chip.instructions
            if item.kind == "function"
            for name in item.names
        )
        header = header_macros(self.chip.name, self.macros)
        vocabulary = Vocabulary(
            header,
            lambda name: bool(self.names.find(name)),
            calls,
            lambda name: bool(self.names.fields_named(name)),
        )
        return read_sources(self.files, vocabulary, self.model)

    def knows(self, name: str) -> bool:
        """Tell whether a name means something on the chip."""
        return bool(self.names.find(name) or self.names.fields_named(name))

    def text(self, at: Where) -> str:
        """Return the text of a part of a source."""
        return self.files[at.file].slice(at.start, at.end)

    def names_in(self, at: Where) -> tuple[str, ...]:
        """Return the identifiers in a part of a source."""
        return names_in(self.files[at.file].data[at.start : at.end])

    # Addresses.

    @cached_property
    def verdicts(self) -> list[Verdict]:
        """What each address behind a pointer comes to, in the order of the sources."""
        found = [self._judged(claim) for claim in self._claims_of_definitions()]
        found += [self._judged(claim) for claim in self._claims_of_accesses(found)]
        return sorted(found, key=lambda item: (item.claim.at.file, item.claim.at.start))

    def _judged(self, claim: Claim) -> Verdict:
        return judge(claim, self.names, self.locations, self.space)

    @cached_property
    def off_by_constant(self) -> list[OffByConstant]:
        """The files whose addresses behind pointers are wrong by one constant."""
        return list(off_by_a_constant(self.verdicts, self.locations, self.space))

    @cached_property
    def _verdict_by_literal(self) -> dict[tuple[Where, int | None], Verdict]:
        """The verdicts by literal and address; by the literal alone, that of its first member."""
        found: dict[tuple[Where, int | None], Verdict] = {}
        for verdict in self.verdicts:
            literal = verdict.claim.literal
            if literal is not None and verdict.placed is not None:
                found.setdefault((literal, verdict.claim.address), verdict)
                found.setdefault((literal, None), verdict)
        return found

    def _claims_of_definitions(self) -> Iterator[Claim]:
        if not self.space:
            return
        with_members = {
            (item.name_at, item.branch) for item in self.seen.definitions if item.form == "member"
        }
        for item in self.seen.definitions:
            claim = _claim_of(item)
            if claim is None:
                continue
            if item.form == "member" or (item.name_at, item.branch) not in with_members:
                yield claim

    def _claims_of_accesses(self, defined: list[Verdict]) -> Iterator[Claim]:
        """Yield the claims of accesses that no definition in ``defined`` has made already."""
        claims = [item.claim for item in defined]
        literals = {(item.literal, item.address) for item in claims if item.literal is not None}
        located: dict[str, set[int | None]] = {}
        for verdict in defined:
            addresses = located.setdefault(verdict.claim.name.partition(".")[0], set())
            addresses.add(verdict.claim.address)
            if verdict.delta:
                addresses.add(None)
        for access in self.seen.accesses if self.space else ():
            literal = access.target.literal
            if literal is None:
                yield from self._summed(access, located)
            elif (literal, access.target.address) not in literals:
                yield self._bare(access, self.names_in(access.target_at))

    def _summed(self, access: Access, located: dict[str, set[int | None]]) -> Iterator[Claim]:
        """Yield the claim of an access whose address no literal gives alone, if it has one.

        It has none where the header or a definition with a claim stands for the place. ``located``
        has the addresses of the latter, with ``None`` where one is wrong: then elements of what it
        points to are as well.
        """
        if access.name in self.header and self.names.find(access.name):
            return
        words = self.names_in(access.target_at)
        known = [word for word in words if word in located]
        if any(not located[word].isdisjoint((access.target.address, None)) for word in known):
            return
        yield self._bare(access, [word for word in words if word not in located])

    def _bare(self, access: Access, words: Iterable[str]) -> Claim:
        """Return the claim of an access through a cast that stands in the code itself."""
        target = access.target
        named = (
            word for word in words if any(item.field is None for item in self.names.find(word))
        )
        return Claim(
            *(next(named, ""), target.address, target.type, target.literal, target.qualifier),
            *(access.target_at, access.at, access.branch, "access"),
            base=target.base,
        )

    # Registers.

    @cached_property
    def touches(self) -> list[Touch]:
        """Every access with the registers that it may be of."""
        return [Touch(item, self._registers(item)) for item in self.seen.accesses]

    @cached_property
    def sure_touches(self) -> list[Touch]:
        """The accesses whose registers are sure: each by its address, or by the name itself.

        A wrong address behind another name has a finding of its own, and may have moved more than
        one thing.
        """
        return [item for item in self.touches if item.registers and self._is_sure(item)]

    def _is_sure(self, touch: Touch) -> bool:
        address = touch.access.target.address
        own = [item.placed for item in self.names.find(touch.access.name) if not item.field]
        for placed in touch.registers:
            at = placed.address(self.space)
            if placed not in own and (at is None or at.value != address):
                return False
        return True

    def _registers(self, access: Access) -> tuple[Placed, ...]:
        target = access.target
        spots = [spot for spot in self.locations.at(self.space, target.address) if not spot.offset]
        matches = [
            item
            for item in self.names.find(access.name)
            if item.field is None and item.says in ("", ADDRESS)
        ]
        named = [item.placed for item in matches]
        both = [spot.placed for spot in spots if spot.placed in named]
        if both:
            return tuple(both)
        literal = target.literal
        verdict = None
        if literal is not None:
            known = self._verdict_by_literal
            verdict = known.get((literal, target.address)) or known.get((literal, None))
        if verdict is not None and verdict.placed is not None and verdict.right is not None:
            moved = target.address - verdict.claim.address + verdict.right
            spots = [s for s in self.locations.at(self.space, moved) if not s.offset]
        elif named:
            return tuple(named)
        return tuple(_fitting(access, [spot.placed for spot in spots]))

    # Instructions.

    @cached_property
    def uses(self) -> list[Use]:
        """Every instruction that the description lists, with the values of its operands."""
        by_name = {
            (name if item.kind == "function" else name.lower(), item.kind == "function"): item
            for item in self.chip.instructions
            for name in item.names
        }
        found = []
        for item in self.seen.instructions:
            described = by_name.get((item.mnemonic, item.is_call))
            if described is not None:
                address = _operand(item, described.address)
                found.append(Use(item, described, address, _operand(item, described.bit)))
        return found

    def registers_at(self, space: str, address: int) -> list[Placed]:
        """Return the registers that start at an address."""
        return [spot.placed for spot in self.locations.at(space, address) if not spot.offset]


def _claim_of(item: Definition) -> Claim | None:
    means = item.means
    if isinstance(means, Number) or item.form == "equate":
        return None
    kind = means.to if isinstance(means, Pointer) else means.type
    if kind.bits is None and item.form == "member":
        return None
    return Claim(
        *(item.name, means.address, kind, means.literal, means.qualifier),
        *(item.name_at, item.whole, item.branch, item.form, item.is_closed),
        base=means.base,
    )


def _fitting(access: Access, registers: list[Placed]) -> list[Placed]:
    """Leave out what the access cannot be of, where something else is at the same address."""
    width = access.target.type.bits
    same = [item for item in registers if item.facts.width == width]
    registers = same or registers
    unwanted = "write-only" if access.how == "read" else "read-only"
    rest = [item for item in registers if item.facts.access != unwanted]
    return rest or registers


def _operand(item: Instruction, number: int | None) -> int | None:
    if number is None or number > len(item.operands):
        return None
    means = item.operands[number - 1].means
    if isinstance(means, Number):
        return means.value
    return means.address if isinstance(means, Pointer) else None
