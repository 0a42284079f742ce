"""What a move to another chip takes, whatever registers the program uses.

It is said once for each subject, and not at all of what the two descriptions do not both describe.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from regwright.audit.usage import NAMED, Place
from regwright.code.seen import Where
from regwright.compare.breaking import definitions
from regwright.compare.changes import Change
from regwright.compare.differences import Comparison
from regwright.compare.header_names import part_names
from regwright.compare.macro_words import short
from regwright.compare.porting_kinds import MISSING, MOVED, WHOLE
from regwright.compare.work import Work
from regwright.macros.parts import word_of
from regwright.macros.registers import ChipMacros

#: So many things are named; of more, how many more there are is said.
_MOST_NAMED = 8
#: The kind of memory that holds the configuration, of which there is more to say than its size.
_CONFIGURATION = "configuration"


def whole_work(comparison: Comparison) -> Iterator[Work]:
    """Yield what concerns every program that moves, what is hardest to undo first."""
    facts = _Facts(comparison)
    every = (
        *(_hazards, _configuration, _supply, _clock, _clock_tree),
        *(_vectors, _memories, _pages, _pins, _programmer, _compiler),
    )
    for rank, tell in enumerate(every):
        for thing, message, instead in tell(facts):
            yield Work(WHOLE, rank, thing, message, instead, ())


class _Facts:
    """The changes of a comparison by their kind, and what the two chips are called."""

    def __init__(self, comparison: Comparison) -> None:
        self.comparison = comparison
        self.a, self.b = comparison.a.chip, comparison.b.chip
        self._changes = comparison.changes

    def of(self, *kinds: str) -> list[Change]:
        """Return the changes of some kinds, in their order."""
        return [item for item in self._changes if item.kind in kinds]

    def without(self, gone: Iterable[Change], word: str) -> str:
        """Say what B does not have, without the ``word`` before each name."""
        return f"{self.b.name} has no {_named(item.a.removeprefix(word) for item in gone)}"


#: What it is about, what is different, what to do.
_Told = Iterator[tuple[str, str, str]]


def _named(names: Iterable[str]) -> str:
    """Return names with commas between, the first of many."""
    every = list(dict.fromkeys(names))
    more = len(every) - _MOST_NAMED
    return ", ".join(every[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def _each(changes: Iterable[Change], word: str) -> str:
    """Return what each was and is, by its name without the ``word`` before it."""
    return _named(f"{item.a.removeprefix(word)} {item.before} → {item.after}" for item in changes)


def _hazards(facts: _Facts) -> _Told:
    """Tell what can go wrong with the configuration of B only."""
    instead = "heed it before the configuration is written (regwright config shows it)"
    new = facts.of("hazard-only-in-b")
    for item in new:
        yield item.b, f"new on {facts.b.name}: {item.after}", instead
    for item in facts.of("hazard-kind"):
        yield item.a, f"{item.before} → {item.after}", instead
    for item in facts.of("hazard-when"):
        before, after = (text or "any choice that has it" for text in (item.before, item.after))
        yield item.a, f"when {before} → when {after}", instead
    told = {item.b.removeprefix("hazard ") for item in new}
    for item in facts.of("choice-hazards"):
        added = sorted(set(item.after.split()) - set(item.before.split()) - told)
        if added:
            yield item.a, f"has the hazard{'s'[: len(added) - 1]} {_named(added)} now", instead


def _configuration(facts: _Facts) -> _Told:
    kinds = ("setting-place", "setting-polarity", "choice-value", "choice-only-in-a")
    whole = ("configuration-space", "configuration-polarity", "word-address", "unused-bits")
    other = facts.of(*kinds)
    gone = facts.of("setting-only-in-a")
    if not other and not gone and not facts.of(*whole, "setting-only-in-b"):
        return
    parts = ["its bytes mean something else"]
    settings = [item.a.removeprefix("setting ").partition(" = ")[0] for item in other]
    if settings:
        parts.append(f"other bits or choices for {_named(settings)}")
    if gone:
        parts.append(facts.without(gone, "setting "))
    yield (
        "configuration",
        "; ".join(parts),
        "compute the bytes anew, by settings (regwright config); never write the old ones",
    )


def _supply(facts: _Facts) -> _Told:
    for item in facts.of("supply"):
        if item.before and item.after:
            message = f"{facts.b.name} works at {item.after}, {facts.a.name} at {item.before}"
            yield "supply", message, "check what the board supplies, and the levels at its pins"


def _clock(facts: _Facts) -> _Told:
    for item in facts.of("default-clock"):
        if item.before and item.after:
            message = f"the CPU of a chip as delivered runs at {item.after}, ran at {item.before}"
            instead = "compute delays, timers and baud rates anew, or configure the clock"
            yield "clock", message, instead


def _clock_tree(facts: _Facts) -> _Told:
    if facts.a.clock and facts.b.clock:
        from regwright.compare.porting_power import choice_work, limit_work, source_work

        yield from limit_work(facts.comparison)
        yield from source_work(facts.comparison)
        yield from choice_work(facts.comparison)


def _vectors(facts: _Facts) -> _Told:
    moved, gone = facts.of("vector-number"), facts.of("vector-only-in-a")
    table = facts.of("vector-table")
    parts = []
    if moved:
        parts.append(f"other numbers: {_each(moved, 'vector ')}")
    if gone:
        parts.append(facts.without(gone, "vector "))
    parts += [f"the table is now {item.after}; was {item.before}" for item in table]
    if parts:
        instead = "take the start-up code and the linker script for the new chip, and its numbers"
        yield "vectors", "; ".join(parts), instead


def _memories(facts: _Facts) -> _Told:
    """Tell what moved and what is smaller; more memory is no work, but for the end of the RAM."""
    kinds = {f"memory {item.name}": item.kind for item in facts.a.memories}
    found: dict[str, list[str]] = {}
    for item in facts.of("memory-place", "memory-size", "memory-only-in-a"):
        kind = kinds[item.a]
        is_size = item.kind == "memory-size"
        is_smaller = is_size and _count(item.after) < _count(item.before)
        if kind == _CONFIGURATION or (is_size and not is_smaller and kind != "ram"):
            continue
        what = "smaller: " if is_smaller else ""
        text = f"{what}{item.before} → {item.after}"
        if not item.after:
            text = f"{facts.b.name} has no such memory: {item.before}"
        found.setdefault(item.a, []).append(text)
    for thing, parts in found.items():
        yield thing, "; ".join(parts), "give the linker the new memory, and see that all fits"


def _pages(facts: _Facts) -> _Told:
    """Tell how much of a memory is written or erased at once, which a program needs to write it."""
    kinds = {f"memory {item.name}": item.kind for item in facts.a.memories}
    found: dict[str, list[str]] = {}
    for item in facts.of("memory-page-size", "memory-erase-unit"):
        if item.before and item.after and kinds[item.a] != _CONFIGURATION:
            word = "written" if item.kind == "memory-page-size" else "erased"
            found.setdefault(item.a, []).append(f"{word} at once {item.before} → {item.after}")
    for thing, parts in found.items():
        instead = "if the program writes it itself: change its buffers and steps to the new sizes"
        yield thing, "; ".join(parts), instead


def _count(size: str) -> int:
    """Return how much ``0x400 units (2048 bytes)`` is, in bytes where they are known."""
    units, _, held = size.partition(" (")
    return int(held.split()[0]) if held else int(units.split()[0], 0)


def _pins(facts: _Facts) -> _Told:
    moved, gone = facts.of("pin-function-moved"), facts.of("pin-function-only-in-a")
    numbers = facts.of("pin-number")
    old = [item.a.removeprefix("package ") for item in facts.of("package-only-in-a")]
    new = [item.b.removeprefix("package ") for item in facts.of("package-only-in-b")]
    parts = []
    if moved:
        parts.append(f"at other pins: {_each(moved, 'function ')}")
    if gone:
        parts.append(facts.without(gone, "function "))
    if numbers:
        parts.append(f"other numbers: {_each(numbers, 'pin ')}")
    if old:
        parts.append(f"there is no {_named(old)}" + (f" but {_named(new)}" if new else ""))
    if parts:
        yield "pins", "; ".join(parts), "change the board, and which pins the program uses"


#: What tools know a chip by, in words.
_PROGRAMMER = {
    "signature": "signature",
    "signature-place": "where a program reads the signature",
    "programmer-part": "programmer's name",
}
_COMPILER = {"build-target": "compiler's name", "instruction-set": "instruction set"}


def _programmer(facts: _Facts) -> _Told:
    parts = _tools(facts, _PROGRAMMER)
    if parts:
        yield "programmer", parts, "tell the programmer, and what checks the signature"


def _compiler(facts: _Facts) -> _Told:
    parts = _tools(facts, _COMPILER)
    if parts:
        yield "compiler", parts, "tell the compiler and the build files"


def _tools(facts: _Facts, words: Mapping[str, str]) -> str:
    told = (item for item in facts.of(*words) if item.before and item.after)
    return "; ".join(f"{words[item.kind]} {item.before} → {item.after}" for item in told)


def part_work(
    comparison: Comparison,
    macros: tuple[ChipMacros, ChipMacros],
    header_places: Mapping[str, tuple[Where, ...]],
) -> Iterator[Work]:
    """Yield what becomes of the header's names for what no register has: gone, or other numbers.

    ``macros`` are those of both headers, ``header_places`` says where the program has each name.
    """
    names = part_names(macros[0])
    if not names:
        return
    before, after = (definitions(item) for item in macros)
    renamed = {f"the {item.a}": item for item in comparison.changes if item.kind in _RENAMED}
    b = comparison.b.chip.name
    for name, places in header_places.items():
        part = names.get(name)
        if part is None or before.get(name) == after.get(name):
            continue
        spots = tuple(Place(at, NAMED, name) for at in places)
        if name in after:
            message = f"{name} {short(before[name])} → {short(after[name])}"
            yield Work(MOVED, 3, part.what, message, "", spots)
            continue
        new_name = _new_name(name, renamed.get(part.what))
        if new_name in after:
            message = f"{name} is called {new_name} on {b}"
            yield Work(MISSING, 0, part.what, message, f"write {new_name}", spots)
        else:
            instead = f"see what {b} has in place of {part.what}"
            yield Work(MISSING, 1, part.what, f"{b} has no {name}", instead, spots)


#: The changes after which a thing's macros have another name.
_RENAMED = ("vector-renamed", "memory-renamed")


def _new_name(name: str, change: Change | None) -> str:
    """Return what a macro is called in the new header, when its thing has another name there."""
    return name.replace(word_of(change.before), word_of(change.after), 1) if change else ""
