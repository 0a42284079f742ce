"""Which macro or constant a name stands for at a place, in all the sources that are read together.

A file's own definitions come first, then those of the other files, then the names of the chip's
header. Includes are not followed: what stands in none of them stays a name.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain, islice
from typing import Generic, NamedTuple, Protocol, TypeVar

from regwright.code.blocks import Block
from regwright.code.directives import Arm, Macro
from regwright.code.seen import Meaning, Where
from regwright.code.syntax import TypeName
from regwright.code.words import names_in

#: The file of what the chip's header defines: none of the sources.
HEADER = -1
#: In a world, the arm of a conditional that is none of those that matter.
NONE_OF_THEM = -1
#: Definitions of one name that are looked at, in one file and in all the others.
_MOST = 128
#: Names that are followed to see whether a conditional makes a difference to a value.
_MOST_NAMES = 12


class HeaderMacro(NamedTuple):
    """A macro of the chip's header."""

    parameters: tuple[str, ...] | None
    body: bytes


@dataclass
class Constant:
    """A name that a declaration gives to a constant; ``means`` once it has been worked out.

    ``type`` is the declared one, ``None`` for an enumerator; ``plus`` is added to the value of an
    enumerator that has none of its own. ``block`` is the innermost one around it. A ``loose`` one
    is set elsewhere too, so that its name does not stand for the value. One that ``is_nothing`` has
    none in any choice of arms.
    """

    name: str
    file: int
    arms: tuple[Arm, ...]
    start: int
    value: bytes
    value_at: Where
    whole: Where
    form: str
    type: TypeName | None = None
    plus: int = 0
    block: Block | None = None
    loose: bool = False
    means: Meaning | None = None
    is_known: bool = False
    is_nothing: bool = False
    is_busy: bool = False


class Member(NamedTuple):
    """A member of a structure: ``offset`` in bytes; ``length`` of a row, else 0."""

    offset: int
    type: TypeName
    size: int
    length: int
    at: Where


@dataclass
class Layout:
    """How a structure or union is laid out; ``is_sure`` is false where the compiler decides.

    ``size`` and ``alignment``, the one that it may want, are in bytes.
    """

    size: int
    members: dict[str, Member]
    is_sure: bool = True
    alignment: int = 1

    def is_like(self, other: Layout) -> bool:
        """Tell whether ``other`` has the same members at the same places."""
        return self.size == other.size and self._plain() == other._plain()

    def _plain(self) -> dict[str, tuple[object, ...]]:
        return {
            name: (item.offset, item.size, item.length, item.type.pointers)
            for name, item in self.members.items()
        }


class LayoutTable:
    """The layouts of all structures, by their tags; they are worked out when one is asked for."""

    def __init__(self) -> None:
        """Start without any."""
        self._known: dict[str, Layout] = {}
        self._tags: set[str] = set()
        self._waiting: list[Callable[[], None]] = []

    def later(self, tags: Iterable[str], make: Callable[[], None]) -> None:
        """Note that ``make`` adds the layouts with ``tags``."""
        self._tags.update(tags)
        self._waiting.append(make)

    def add(self, tag: str, layout: Layout) -> Layout:
        """Add a layout; return it, or the one that ``tag`` has already."""
        self._tags.add(tag)
        return self._known.setdefault(tag, layout)

    def __contains__(self, tag: str) -> bool:
        return tag in self._tags

    def get(self, tag: str) -> Layout | None:
        """Return the layout with a tag, if there is one."""
        if tag not in self._tags:
            return None
        waiting, self._waiting = self._waiting, []
        for make in waiting:
            make()
        return self._known.get(tag)


class Entry(NamedTuple):
    """A macro and the file it stands in."""

    file: int
    macro: Macro

    @property
    def arms(self) -> tuple[Arm, ...]:
        """The arms of conditionals around it."""
        return self.macro.arms

    @property
    def start(self) -> int:
        """Where it stands."""
        return self.macro.start


class Led(NamedTuple):
    """The definitions of one name, and their texts, the header's too.

    ``met`` counts the names that have been met on the way to it.
    """

    macros: list[Entry]
    constants: list[Constant]
    values: list[bytes]
    met: int


class _Item(Protocol):
    @property
    def arms(self) -> tuple[Arm, ...]: ...

    @property
    def start(self) -> int: ...


_Named = TypeVar("_Named", bound=_Item)


class Names(Generic[_Named]):
    """What each name is defined to be, by files."""

    def __init__(self) -> None:
        """Start without any."""
        self._files: dict[str, dict[int, list[_Named]]] = {}

    def add(self, name: str, file: int, item: _Named) -> None:
        """Add a definition of ``name``; each file's are added in their order."""
        items = self._files.setdefault(name, {}).setdefault(file, [])
        if len(items) < _MOST:
            items.append(item)

    def __contains__(self, name: str) -> bool:
        return name in self._files

    def every(self, name: str) -> list[_Named]:
        """Return every definition of ``name``."""
        return list(chain.from_iterable(self._files.get(name, {}).values()))

    def own(self, name: str, file: int) -> list[_Named]:
        """Return the definitions of ``name`` in ``file``."""
        return self._files.get(name, {}).get(file, [])

    def others(self, name: str, file: int) -> list[_Named]:
        """Return the definitions of ``name`` in other files."""
        return list(islice(self._not_in(name, file), _MOST))

    def _not_in(self, name: str, file: int) -> Iterator[_Named]:
        for number, items in self._files.get(name, {}).items():
            if number != file:
                yield from items


@dataclass
class Scope:
    """Every name of the sources. ``world`` says which arms of conditionals are taken for chosen.

    ``open_groups`` collects the conditionals on whose arms a look-up depended. ``elses`` has the
    number of the arm that is taken when no other is, for each conditional with an ``#else``.
    ``work`` is how many bytes may still be expanded, parts of expressions evaluated and definitions
    compared, in all: beyond it nothing stands for anything, so that no source takes for ever.
    """

    header: Mapping[str, HeaderMacro]
    work: int
    macros: Names[Entry] = field(default_factory=Names)
    constants: Names[Constant] = field(default_factory=Names)
    types: dict[str, TypeName] = field(default_factory=dict)
    layouts: LayoutTable = field(default_factory=LayoutTable)
    elses: dict[int, int] = field(default_factory=dict)
    world: dict[int, int] = field(default_factory=dict)
    open_groups: dict[int, set[int]] = field(default_factory=dict)

    def macro(
        self, name: str, file: int, arms: tuple[Arm, ...], offset: int
    ) -> Entry | HeaderMacro | None:
        """Return the macro that ``name`` is at the byte ``offset`` of ``file``."""
        if name in self.macros:
            own = self.macros.own(name, file)
            index = bisect_left(own, offset, key=_start)
            here = dict(arms)
            found = self._choose(own[:index], here) or self._choose(own[index:], here)
            found = found or self._choose(self.macros.others(name, file), here)
            if found is not None:
                return found
        return None if name in self.constants else self.header.get(name)

    def _choose(self, items: list[_Named], here: dict[int, int]) -> _Named | None:
        """Return the last of ``items`` that is there in this world, for code in the arms ``here``.

        Where that depends on conditionals that the world does not decide, they are noted, and the
        first one is returned.
        """
        self.work -= len(items)
        if self.work < 0:
            return None
        found: _Named | None = None
        open_arms: list[dict[int, int]] = []
        for item in reversed(items):
            undecided = self._undecided(item.arms, here) if item.arms else {}
            if undecided is not None:
                found = item
                open_arms.append(undecided)
                if not undecided:
                    break
        if len(open_arms) > 1:
            self._note(open_arms)
        return found

    def _undecided(self, arms: tuple[Arm, ...], here: dict[int, int]) -> dict[int, int] | None:
        """Return those of the ``arms`` that nothing decides; ``None`` where one is not chosen."""
        undecided = {}
        for group, number in arms:
            chosen = self.world.get(group, here.get(group))
            if chosen is None:
                undecided[group] = number
            elif chosen != number:
                return None
        return undecided

    def _note(self, chosen: list[dict[int, int]]) -> None:
        """Note the conditionals whose arms tell the chosen ones apart."""
        groups: dict[int, set[int]] = {}
        for item in chosen:
            for group, number in item.items():
                groups.setdefault(group, set()).add(number)
        for group, numbers in groups.items():
            if any(group not in item for item in chosen) and not self._is_all(group, numbers):
                numbers.add(NONE_OF_THEM)
            if len(numbers) > 1:
                self.open_groups.setdefault(group, set()).update(numbers)

    def _is_all(self, group: int, numbers: set[int]) -> bool:
        return len(numbers) == self.elses.get(group, -1) + 1

    def constant(self, name: str, file: int, arms: tuple[Arm, ...], offset: int) -> Constant | None:
        """Return the constant that ``name``, as ``Class::NAME``, is at the byte ``offset``."""
        around, _, name = name.rpartition("::")
        owner = around.rpartition("::")[2].strip()
        name = name.strip()
        if name not in self.constants:
            return None
        here = dict(arms)
        every = self.constants.own(name, file)
        own = [item for item in every if self._undecided(item.arms, here) is not None]
        items = _nearest(own, offset) if not owner else []
        if not items:
            items = [item for item in own if not _is_local(item)] or [
                item for item in self.constants.others(name, file) if not _is_local(item)
            ]
        owners = {item.block.name if item.block else "" for item in items}
        if len(owners) > 1:
            items = [item for item in items if owner == (item.block.name if item.block else "")]
        return self._choose(items, here) if len({item.file for item in items}) == 1 else None

    def is_settled(self, value: bytes) -> bool:
        """Tell whether no conditional makes a difference to the names in ``value``.

        Of those that they stand for, only so many are looked at.
        """
        for led in self.led_to(names_in(value)):
            arms = [item.arms for item in led.macros] + [item.arms for item in led.constants]
            if led.met > _MOST_NAMES or any(arms):
                return False
        return True

    def led_to(self, names: Iterable[str]) -> Iterator[Led]:
        """Yield what ``names`` are defined to be, and the names in those definitions, each once."""
        waiting = list(names)
        gone: set[str] = set()
        while waiting:
            name = waiting.pop()
            if name in gone:
                continue
            gone.add(name)
            macros, constants = self.macros.every(name), self.constants.every(name)
            values = [item.macro.body for item in macros] + [item.value for item in constants]
            if name in self.header:
                values.append(self.header[name].body)
            yield Led(macros, constants, values, len(gone) + len(waiting))
            for value in values:
                waiting += names_in(value)

    def pointer_types(self) -> list[str]:
        """Return the names of types that are pointers."""
        return [name for name, kind in self.types.items() if self.resolve_type(kind).pointers]

    def add_type(self, name: str, kind: TypeName) -> None:
        """Add a name for a type; one that stands for different types stands for none."""
        known = self.types.setdefault(name, kind)
        if known._replace(start=0, tag="") != kind._replace(start=0, tag="") and not known.tag:
            self.types[name] = TypeName(("?",))

    def resolve_type(self, name: TypeName) -> TypeName:
        """Return ``name`` with the names of types that the sources define replaced."""
        for _ in range(16):
            if len(name.words) != 1 or name.tag:
                return name
            found = self.types.get(name.words[0])
            if found is None:
                return name
            name = TypeName(
                found.words,
                found.pointers + name.pointers,
                found.volatile or (name.volatile and not found.pointers),
                found.const or (name.const and not found.pointers),
                name.start,
                found.tag,
                found.levels + name.levels,
            )
        return name


def _start(item: Entry) -> int:
    return item.macro.start


def _is_local(item: Constant) -> bool:
    return item.block is not None and item.block.local


def _nearest(items: list[Constant], offset: int) -> list[Constant]:
    """Return those of ``items`` that the innermost block around ``offset`` has, if one has any."""
    around = [
        item
        for item in items
        if item.block
        and item.block.holds(offset)
        and (item.start <= offset or not item.block.local)
    ]
    start = max((item.block.start for item in around if item.block), default=-1)
    return [item for item in around if item.block and item.block.start == start]
