"""What it takes to move a program from chip A to chip B: work, the most dangerous first."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from regwright.audit.locations import Locations
from regwright.audit.own_definitions import last_part
from regwright.audit.subject import AuditSubject
from regwright.audit.usage import NAMED, Place, Usage, usages
from regwright.code.directives import directives
from regwright.code.seen import Where
from regwright.compare.changes import Change
from regwright.compare.differences import Comparison
from regwright.compare.hand_written import HandWritten
from regwright.compare.header_names import GONE, OTHER, SAME, Fate, Fates, header_names
from regwright.compare.pairs import FieldAt
from regwright.compare.porting_kinds import (
    CLEARING,
    DANGERS,
    KINDS,
    MISSING,
    MOVED,
    WRONG,
    Effect,
    sets_all,
)
from regwright.compare.porting_rest import part_work, whole_work
from regwright.compare.work import Work
from regwright.macros.registers import ChipMacros, macro_name
from regwright.resolve.chip import Placed

#: The changes after which the number that a program has for a thing is another.
_OF_NUMBERS = frozenset({"address", "field-bits", "field-moved", "value"})

#: What a flag that is written back as it was read comes to.
_CLEARED_BY_THE_WAY = "oneToClear"
#: The changes of a register that matter where its halves are used by their own names.
_OF_HALVES = frozenset({"read-order", "write-order"})


class Porting(NamedTuple):
    """The whole list, and what of the program has no counterpart on B."""

    work: list[Work]
    homeless: list[str]
    used: int


def porting(comparison: Comparison, subject: AuditSubject, new_macros: ChipMacros) -> Porting:
    """Return what the sources of ``subject``, which are written for A, need on B.

    ``new_macros`` are those of B's header.
    """
    return _Mover(comparison, subject, new_macros).porting()


class _Mover:
    def __init__(
        self, comparison: Comparison, subject: AuditSubject, new_macros: ChipMacros
    ) -> None:
        self._comparison = comparison
        self._subject = subject
        old, new = header_names(subject.macros), header_names(new_macros)
        self._macros = subject.macros, new_macros
        self._frames = subject.macros.frame, new_macros.frame
        self._fates = Fates(comparison.matching, old, new)
        self._hand = HandWritten(subject)
        self._there = Locations(comparison.b)
        space = comparison.b.pointer_space
        self._space = space.name if space else ""
        self._homeless: dict[str, None] = {}
        self._set: set[str] = set()

    def porting(self) -> Porting:
        """Return the list: what is wrong in silence, what does not compile, what only moves."""
        every = usages(self._subject)
        used = [item for item in every if not item.placed.half or self._is_alone(item)]
        self._set = {
            item.placed.name
            for item in used
            if item.field is None and any(map(sets_all, item.places))
        }
        work = [*self._includes(), *self._names(), *self._chip(), *whole_work(self._comparison)]
        work += self._clock(every)
        for usage in used:
            work += self._of_usage(usage)
        order = {danger: number for number, danger in enumerate(DANGERS)}
        work = _moves_joined(_same_joined(work))
        work.sort(key=lambda item: (order[item.danger], item.rank))
        registers = sum(usage.field is None for usage in used)
        return Porting(work, list(self._homeless), registers)

    def _is_alone(self, usage: Usage) -> bool:
        """Tell whether a half is used by its own name, not only through its whole register."""
        name = usage.placed.name
        return any(place.name == name for place in usage.places)

    # Names of the header, wherever they stand.

    def _includes(self) -> Iterator[Work]:
        """Yield that A's header is included: with it all compiles as before, for A."""
        a, b = self._comparison.a.chip.name, self._comparison.b.chip.name
        if a == b:
            return
        places = [
            Place(Where(number, start, end), NAMED, f"{a}.h")
            for number, text in enumerate(self._subject.files)
            for start, end, words in directives(text.data).includes
            if last_part(words.strip('<>" ')) == f"{a}.h"
        ]
        if places:
            message = f"the header of {a} is included, with all its numbers"
            yield Work(WRONG, -1, f"{a}.h", message, f"include {b}.h", tuple(places))

    def _accesses(self) -> Iterator[Work]:
        """Yield that the macros are called otherwise by which the header reaches registers."""
        old, new = ([macro_name(macro) for macro, _ in item.accesses] for item in self._frames)
        a, b = (item.guard.removesuffix("_H") for item in self._frames)
        for name in old:
            places = self._hand.places_of(name)
            renamed = b + name.removeprefix(a)
            if places and renamed != name:
                spots = tuple(Place(at, NAMED, name) for at in places)
                instead = (
                    f"write {renamed}" if renamed in new else "there is no such access: drop it"
                )
                message = f"{name} is called {renamed}" if renamed in new else f"no {name}"
                yield Work(MISSING, 0, name, message, instead, spots)

    def _names(self) -> Iterator[Work]:
        yield from self._accesses()
        for name, places in self._hand.header_places.items():
            if name not in self._fates.a:
                continue
            fate = self._fates.of(name)
            if fate.word != SAME:
                yield self._of_name(name, fate, places)
        yield from part_work(self._comparison, self._macros, self._hand.header_places)

    def _of_name(self, name: str, fate: Fate, places: tuple[Where, ...]) -> Work:
        spots = tuple(Place(at, NAMED, name) for at in places)
        b = self._comparison.b.chip.name
        thing = _thing(fate)
        instead = f"write {fate.new_name}" if fate.new_name else self._without(fate)
        if fate.word == OTHER:
            if not fate.new_name:
                self._note_homeless(fate, thing)
            message = f"{name} is another thing's name on {b}: {self._new_thing(name)}"
            return Work(WRONG, 0, thing, message, instead, spots)
        if fate.word == GONE and not fate.new_name:
            self._note_homeless(fate, thing)
            return Work(MISSING, 1, thing, f"{b} has no {name}", instead, spots)
        message = f"{name} is called {fate.new_name} on {b}"
        return Work(MISSING, 0, thing, message, instead, spots)

    def _note_homeless(self, fate: Fate, thing: str) -> None:
        """Note that a register, a field or a value has no counterpart; a mere macro is no loss."""
        at = fate.named.field
        if id(fate.named.placed) not in self._fates.registers:
            self._homeless.setdefault(fate.named.placed.name)
        elif at is not None and self._fates.field(at) is None:
            self._homeless.setdefault(thing)
        elif at is not None and fate.named.tail[1:] in {
            item.name for item in at.facts.field.values
        }:
            self._homeless.setdefault(f"{thing}.{fate.named.tail[1:]}")

    def _new_thing(self, name: str) -> str:
        """Return what a name stands for on B, as A calls it."""
        was = self._fates.before(name)
        a = self._comparison.a.chip.name
        return f"there it is what {was} is here" if was else f"{a} has no such thing"

    def _without(self, fate: Fate) -> str:
        """Return what to do without a macro that has no counterpart."""
        placed = self._fates.registers.get(id(fate.named.placed))
        if placed is None:
            return "there is no such register: do without it, or pin its counterpart (--match)"
        if fate.named.field is None and fate.named.tail.endswith("_ADDR"):
            return f"{placed.name} has no address in that space: use {placed.name} itself"
        return f"look at {placed.name} in the datasheet: nothing there is the same"

    # What the program uses, whatever it calls it.

    def _of_usage(self, usage: Usage) -> Iterator[Work]:
        by_header, by_hand = self._hand.split(usage)
        if usage.field is None:
            placed = self._fates.registers.get(id(usage.placed))
            if placed is None:
                yield from self._lost(usage, by_hand)
                return
            whole = self._changes.get(usage.placed.whole, ())
            changes = [
                *self._changes.get(usage.placed.name, ()),
                *(item for item in whole if item.kind in _OF_HALVES),
            ]
            yield from self._by_the_way(usage)
        else:
            here = FieldAt(usage.placed, usage.field)
            there = self._fates.field(here)
            if there is None:
                yield from self._lost_field(usage, by_hand)
                return
            placed = there.placed
            key = f"{usage.placed.name}.{usage.field.field.name}"
            changes = self._changes.get(key, [])
        for change in changes:
            yield from self._of_change(usage, change, placed, (by_header, by_hand))

    def _by_the_way(self, usage: Usage) -> Iterator[Work]:
        """Yield the flags that a change of other bits of the register clears on B."""
        places = tuple(place for place in usage.places if place.how == "modify")
        places = tuple(place for place in places if not place.name.endswith(CLEARING))
        if not places:
            return
        prefix, b = f"{usage.placed.name}.", self._comparison.b.chip.name
        for thing, changes in self._changes.items():
            for change in changes if thing.startswith(prefix) else ():
                if change.kind == "write-effect" and change.after == _CLEARED_BY_THE_WAY:
                    name = change.b.replace(".", "_")
                    message = f"|= and &= write it back: on {b} that clears it"
                    instead = f"leave it out of what is written: & ~{name}_MASK"
                    yield Work(WRONG, 0, thing, message, instead, places)

    @cached_property
    def _changes(self) -> dict[str, list[Change]]:
        """The changes by what they are about in A; those of values are their field's."""
        found: dict[str, list[Change]] = {}
        for change in self._comparison.changes:
            key = ".".join(change.a.split(".")[:2])
            found.setdefault(key, []).append(change)
        return found

    def _lost(self, usage: Usage, by_hand: tuple[Place, ...]) -> Iterator[Work]:
        """Yield that what is written by hand goes on compiling where the register is gone."""
        name = usage.placed.name
        self._homeless.setdefault(name)
        if by_hand:
            b = self._comparison.b.chip.name
            message = f"{b} has no {name}; {self._hit(usage.placed)}"
            spots = self._hand.with_numbers(usage, by_hand)
            yield Work(WRONG, 0, name, message, "take this access out", spots)

    def _hit(self, placed: Placed) -> str:
        address = placed.address(self._subject.space)
        if address is None or not self._space:
            return "what is there is not known"
        hit = self._there.hits(self._space, address.value)
        return f"{address.value:#04x} is {hit} there"

    def _lost_field(self, usage: Usage, by_hand: tuple[Place, ...]) -> Iterator[Work]:
        if usage.field is None or id(usage.placed) not in self._fates.registers:
            return
        thing = f"{usage.placed.name}.{usage.field.field.name}"
        self._homeless.setdefault(thing)
        if by_hand:
            message = f"{self._comparison.b.chip.name} has no {thing}"
            spots = self._hand.with_numbers(usage, by_hand)
            yield Work(WRONG, 1, thing, message, "see what is at these bits now", spots)

    def _of_change(
        self,
        usage: Usage,
        change: Change,
        placed: Placed,
        places: tuple[tuple[Place, ...], tuple[Place, ...]],
    ) -> Iterator[Work]:
        """Yield what a change means for the places that use the header, and for the others."""
        kind = KINDS.get(change.kind)
        if kind is None:
            return
        by_header, by_hand = places
        if change.kind == "reserved":
            by_header, by_hand = (tuple(filter(sets_all, item)) for item in places)
        if change.kind == "address":
            by_header, by_hand = (self._hand.of_space(item, change.detail) for item in places)
        found: dict[tuple[str, int, str, str], tuple[Place, ...]] = {}
        field, is_set = self._there_field(usage), usage.placed.name in self._set
        for spots, is_by_hand in ((by_header, False), (by_hand, True)):
            if not spots:
                continue
            by_bit = self._hand.by_bit(spots)
            verdict = kind(change, Effect(usage, placed, field, spots, is_by_hand, is_set, by_bit))
            if verdict is not None:
                shown = self._shown(change, usage, spots) if is_by_hand else spots
                found[verdict] = found.get(verdict, ()) + shown
        for (danger, rank, message, instead), spots in found.items():
            yield Work(danger, rank, change.a, self._hedged(change, message), instead, spots)

    def _shown(self, change: Change, usage: Usage, spots: tuple[Place, ...]) -> tuple[Place, ...]:
        """Return the places to look at: where a number is written first, if it is another now."""
        return self._hand.with_numbers(usage, spots) if change.kind in _OF_NUMBERS else spots

    def _there_field(self, usage: Usage) -> FieldAt | None:
        return self._fates.field(FieldAt(usage.placed, usage.field)) if usage.field else None

    @staticmethod
    def _hedged(change: Change, message: str) -> str:
        words = {"likely": " (probably the same thing)", "possible": " (perhaps the same thing)"}
        return message + words.get(change.sure, "")

    def _clock(self, every: list[Usage]) -> Iterator[Work]:
        """Yield the dividers and rates that the program sets and that do something else on B."""
        if self._comparison.a.chip.clock and self._comparison.b.chip.clock:
            from regwright.compare.porting_clock import clock_work

            yield from clock_work(self._comparison, every)

    # What the whole program needs.

    def _chip(self) -> Iterator[Work]:
        both = self._comparison.a.chip, self._comparison.b.chip
        told = all(any(item.kind == "ram" for item in chip.memories) for chip in both)
        for change in self._comparison.changes:
            thing = change.a or change.b
            if told and change.kind == "region":
                continue
            if change.kind == "region" and "ram" in (change.before + change.after).split(", "):
                message = f"memory {change.before or 'none'} → {change.after or 'none'}"
                yield Work(WRONG, 8, thing, message, "give the linker the new memory", ())
            elif change.kind == "int-width":
                message = f"int has {change.after or 'another width'}, it had {change.before}"
                yield Work(WRONG, 2, "int", message, "use types of a stated width: uint16_t", ())


def _same_joined(work: list[Work]) -> list[Work]:
    """Return ``work`` with what is said of a register and of its halves, or of both, once."""
    joined: dict[Work, list[Place]] = {}
    for item in work:
        joined.setdefault(item._replace(places=()), []).extend(item.places)
    return [item._replace(places=tuple(dict.fromkeys(places))) for item, places in joined.items()]


def _moves_joined(work: list[Work]) -> list[Work]:
    """Return ``work`` with all that only moves of one thing in one line.

    The halves of a register move with it.
    """
    joined: dict[str, Work] = {}
    rest = []
    for item in work:
        if item.danger != MOVED:
            rest.append(item)
            continue
        known = joined.get(item.thing)
        if known is None:
            joined[item.thing] = item
            continue
        places = tuple(dict.fromkeys((*known.places, *item.places)))
        message = f"{known.message}, {item.message}"
        instead = known.instead or item.instead
        joined[item.thing] = known._replace(message=message, places=places, instead=instead)
    return rest + list(joined.values())


def _thing(fate: Fate) -> str:
    field = fate.named.field
    placed = fate.named.placed.name
    return f"{placed}.{field.facts.field.name}" if field else placed
