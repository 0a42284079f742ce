"""Tell users of a header what a newer description changes for them: in words, and where it stands.

The preprocessor says what changes (:mod:`regwright.compare.breaking`); what is what in the two
descriptions says why, and what to write instead.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from regwright.compare.breaking import (
    ADDED,
    ALONE,
    BREAKING,
    EFFECTS,
    GONE,
    RENAMED,
    RESPELLED,
    TARGET,
    VALUE,
    HeaderChange,
    MacroChange,
    definitions,
    header_changes,
    macro_changes,
)
from regwright.compare.header_names import OTHER, Fates, header_names, part_names
from regwright.compare.macro_words import is_number, place, short, was_and_is, why_gone
from regwright.compare.matching import match
from regwright.compare.pairs import CERTAIN, LIKELY, SURENESS, Matching, sureness
from regwright.compare.pins import NO_PINS, Pins
from regwright.macros.registers import ChipMacros
from regwright.model.finding import ERROR, NOTE
from regwright.model.origin import Origin
from regwright.resolve.chip import ResolvedChip

#: What a line about a change ends with, by the effect on a macro or the change of the header.
KINDS = {
    GONE: "macro-gone",
    VALUE: "macro-changed",
    ADDED: "macro-added",
    RESPELLED: "macro-respelled",
    RENAMED: "header-renamed",
    TARGET: "target-changed",
    ALONE: "header-alone",
}


class Version(NamedTuple):
    """A description at one time, and the macros of its header."""

    chip: ResolvedChip
    macros: ChipMacros


class Told(NamedTuple):
    """A change, in words.

    ``kind`` is one of the values of :data:`KINDS`; ``effect`` is one of
    :data:`regwright.compare.breaking.EFFECTS`, also for what is no macro. ``instead`` is what the
    same thing is called now, if that is known. ``origin`` is where it stands, in the new
    description if ``in_new``, else in the old one.
    """

    kind: str
    effect: str
    name: str
    before: str | None
    after: str | None
    instead: str
    message: str
    in_new: bool
    origin: Origin

    @property
    def breaks(self) -> bool:
        """Whether it may break a program that uses the header."""
        return self.effect in BREAKING

    @property
    def level(self) -> str:
        """The level of a finding that tells of it."""
        return ERROR if self.breaks else NOTE


def changes_told(old: Version, new: Version, pins: Pins = NO_PINS) -> list[Told]:
    """Return what the new header changes for whoever uses the old one, what breaks them first.

    ``pins`` is what the user says about which thing is which.
    """
    order = {effect: number for number, effect in enumerate(EFFECTS)}
    told = [
        *(
            _header(change, old.chip.chip.name)
            for change in header_changes(old.chip.chip, new.chip.chip)
        ),
        *_Teller(old, new, pins).tell(),
    ]
    return sorted(told, key=lambda item: order[item.effect])


def _header(change: HeaderChange, chip: str) -> Told:
    """Tell of a change that is no macro's; ``chip`` is the name of the old one."""
    kind, before, after = change
    effect, instead, where = VALUE, "", "compilerMacro"
    if kind == RENAMED:
        effect, instead, where = GONE, after, "name"
        message = f"{before} is gone: the header is called {after} now"
    elif kind == ALONE:
        where = "kind"
        message = f"{chip}.h describes a chip now: no other chip's header may stand beside it"
    else:
        was = f"it wanted {before}" if before else "any would do"
        message = f"{chip}.h wants a compiler that defines {after}, before {was}"
    return Told(
        *(KINDS[kind], effect, f"{chip}.h", before or None, after),
        *(instead, message, effect != GONE, (None, where)),
    )


class _Teller:
    """Tells of macros."""

    def __init__(self, old: Version, new: Version, pins: Pins) -> None:
        self._old, self._new, self._pins = old, new, pins
        self._names = header_names(old.macros)
        self._new_names = header_names(new.macros)
        self._parts, self._new_parts = part_names(old.macros), part_names(new.macros)
        self._new_texts = definitions(new.macros)

    def tell(self) -> Iterator[Told]:
        """Yield each macro that changes."""
        for change in macro_changes(self._old.macros, self._new.macros):
            name, before, after, effect = change
            is_gone = effect == GONE
            instead = self._called(name) if is_gone or effect == VALUE else ""
            named = (self._names if is_gone else self._new_names).get(name)
            part = (self._parts if is_gone else self._new_parts).get(name)
            yield Told(
                *(KINDS[effect], effect, name, before, after),
                *(instead, f"{name} {self._words(change, instead)}", not is_gone),
                place(named) if named else part.node.origin if part else (None, "name"),
            )

    @cached_property
    def _matching(self) -> Matching:
        """Which thing is which; nobody asks before something is gone or changed."""
        return match(self._old.chip, self._new.chip, self._pins)

    @cached_property
    def _fates(self) -> Fates:
        return Fates(self._matching, self._names, self._new_names)

    @cached_property
    def _why(self) -> dict[tuple[int, str], str]:
        """Why a register, or a field of it, is the same in the new description."""
        found = {
            (id(pair.a), ""): pair.why for pair in self._matching.registers if pair.a and pair.b
        }
        for item in self._matching.fields:
            if item.a and item.b:
                found[id(item.a.placed), item.a.facts.field.name] = item.why
        return found

    def _called(self, name: str) -> str:
        """Return what the old macro ``name`` is called now; nothing if that is its name still."""
        if name not in self._names:
            return self._frame_called(name)
        fate = self._fates.of(name)
        is_other = fate.word == OTHER or name not in self._new_names
        return fate.new_name if is_other and fate.new_name != name else ""

    def _frame_called(self, name: str) -> str:
        old, new = (side.chip.chip.name.upper() for side in (self._old, self._new))
        new_name = new.join(name.rsplit(old, 1))
        return new_name if new_name != name and new_name in self._new_texts else ""

    def _words(self, change: MacroChange, instead: str) -> str:
        name, before, after, effect = change
        if effect == GONE:
            return f"is gone{self._renamed(name, before or '', instead) or self._lost(name)}"
        if effect == ADDED:
            return f"is new: {short(after)}" if after and is_number(after) else "is new"
        if effect == RESPELLED:
            return f"is written {after}, no longer {before}, which means the same"
        other = f"; what it named is called {instead} now"
        return was_and_is(before or "", after or "") + (other if instead else "")

    def _renamed(self, name: str, before: str, instead: str) -> str:
        if not instead:
            return ""
        sure = self._sure(name)
        words = f": it is called {instead} now"
        if sure != CERTAIN:
            words = f"; {instead} {'is probably' if sure == LIKELY else 'may be'} meant"
        now = self._new_texts[instead]
        if now != before and is_number(now) and is_number(before):
            words += f", which is {short(now)} where this was {short(before)}"
        return words

    def _sure(self, name: str) -> str:
        """Return how sure it is that a thing is the same: a field is no surer than its register."""
        named = self._names.get(name)
        if named is None:
            return CERTAIN
        fields = ("", named.field.facts.field.name) if named.field else ("",)
        found = [sureness(why) for one in fields if (why := self._why.get((id(named.placed), one)))]
        return max(found, key=SURENESS.index, default=CERTAIN)

    def _lost(self, name: str) -> str:
        named = self._names.get(name)
        if named is not None:
            return f": {why_gone(named, self._fates, self._new.chip.chip.name)}"
        part = self._parts.get(name)
        if part is not None:
            if any(other.what == part.what for other in self._new_parts.values()):
                return f": nothing gives it for {part.what} any more"
            return f": {self._new.chip.chip.name} has no macros for {part.what} any more"
        if name == "REGWRIGHT_CHIP":
            return ": the description is a device's now"
        return ": no register is accessed that way any more"
