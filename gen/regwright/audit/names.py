"""What a name in a source means on a chip: a register, a field, a value, or a number of one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cached_property
from typing import NamedTuple, TypeVar

from regwright.audit.own_names import Loose, OwnNames
from regwright.audit.titled import Titles
from regwright.macros.registers import ChipMacros, RegisterMacros, macro_name
from regwright.model.chip import NamedValue
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.facts import FieldFacts

#: How sure a match is: the header's own name or an alias; the same but for case, underscores and
#: the words of the trade below; by the words of the title.
EXACT, ALIKE, TITLED = 3, 2, 1

#: What the number behind a name is. ``OTHER`` is for names of the header whose number is none of
#: these, and no bits of a field either: ``R_SINGLE_BIT``, ``R_F_EXTRACT``.
ADDRESS, POSITION, MASK, RESET, OTHER = "address", "position", "mask", "reset", "other"

#: The header's own words behind the name of a field.
_OWN_WORDS = {"BITPOS": POSITION, "MASK": MASK}
#: What sources put behind the name of a field or register, or before it: common practice, no
#: source.
_POSITION_WORDS = ("BIT", "POS", "POSITION", "SHIFT", "BITPOS", "BITPOSITION", "NUM", "BITNUM")
_MASK_WORDS = ("MASK", "MSK", "BITMASK")
_TRADE_WORDS = {**dict.fromkeys(_POSITION_WORDS, POSITION), **dict.fromkeys(_MASK_WORDS, MASK)}
_ADDRESS_WORDS = ("ADDR", "ADDRESS", "PTR", "REG")
_REGISTER_WORDS = ("REG", "R")

#: Where a word starts in ``pumpBRate``.
_HUMP = re.compile(r"(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")

#: How many characters the names of a field and a value, or an alias, add to a register's name.
_MOST_ADDED = 600
#: Longer names are not held against names that are only alike.
_LONGEST_ALIKE = 127

Item = TypeVar("Item")


class Match(NamedTuple):
    """What a name means.

    ``placed`` is the register or half, with ``field`` and ``value`` when the name goes further.
    ``says`` is what the rest of the name says that its number is: one of the constants above, or
    nothing. ``space`` is the one that the name of an address names (``OUT_B_IO_ADDR``: ``io``);
    unless the match is exact, the register need not have an address there.
    """

    placed: Placed
    field: FieldFacts | None = None
    value: NamedValue | None = None
    says: str = ""
    space: str = ""
    certainty: int = EXACT


class Names:
    """Finds what names mean on one chip. Everything is indexed when it is first asked for."""

    def __init__(self, resolved: ResolvedChip, macros: ChipMacros) -> None:
        """Look names up in ``resolved``, whose header defines ``macros``."""
        own = OwnNames(resolved)
        self._resolved = resolved
        self._exact = _Level(own, macros, _as_it_is, EXACT)
        self._alike = _Level(own, macros, _plain, ALIKE)
        self._found: dict[str, tuple[Match, ...]] = {}
        self._fields: dict[str, tuple[Match, ...]] = {}
        self._titled: dict[str, tuple[Match, ...]] = {}

    def find(self, name: str) -> tuple[Match, ...]:
        """Return what ``name`` can mean, the surest readings only: exact ones before alike ones."""
        found = self._found.get(name)
        if found is None and not self._may_mean(name):
            found = self._found[name] = ()
        if found is None:
            matches = self._exact.find(name) or self._find_alike(_HUMP.sub("_", name))
            found = self._found[name] = tuple(matches)
        return found

    def _find_alike(self, name: str) -> list[Match]:
        word, _, rest = name.partition("_")
        is_register = word.upper() in _REGISTER_WORDS
        return self._alike.find(name) or (self._alike.find(rest) if is_register else [])

    def fields_named(self, name: str) -> tuple[Match, ...]:
        """Return the fields, of any register, whose name or alias is ``name``.

        A word for a position or a mask may follow: ``LED``, ``LED_BIT``, ``vent_open``. Only the
        surest readings.
        """
        found = self._fields.get(name)
        if found is None and not self._may_mean(name):
            found = self._fields[name] = ()
        if found is None:
            alike = self._alike.fields_named
            matches = self._exact.fields_named(name) or alike(_HUMP.sub("_", name))
            found = self._fields[name] = tuple(matches)
        return found

    def _may_mean(self, name: str) -> bool:
        """Tell whether a name starts with a name of the chip, or one that is alike.

        Most names in sources do not, and are not looked at any further.
        """
        if not name.isascii():
            return True
        begin = name.replace("_", "")[:2].upper()
        if begin not in self._begin and begin[:1] not in self._begin:
            return False
        head = ""
        for word in _HUMP.sub("_", name).upper().split("_"):
            head += word
            if head in self._starts:
                return True
        return False

    @cached_property
    def _begin(self) -> frozenset[str]:
        """The first two letters of :attr:`_starts`; of most names in sources they tell enough."""
        return frozenset(start[:2] for start in self._starts)

    @cached_property
    def _starts(self) -> frozenset[str]:
        """What names that mean something start with, as :func:`_plain` has it."""
        return self._exact.starts | self._alike.starts | frozenset(_REGISTER_WORDS)

    def find_titled(self, name: str) -> tuple[Match, ...]:
        """Return the register whose title has the words of ``name``, if it is the only one."""
        found = self._titled.get(name)
        if found is None:
            title = self._titles.find(name)
            found = ()
            if title is not None:
                placed = self._resolved.registers[title.register]
                says = ADDRESS if title.is_address else ""
                found = (Match(placed, says=says, certainty=TITLED),)
            self._titled[name] = found
        return found

    @cached_property
    def _titles(self) -> Titles:
        return Titles(self._resolved)


def _as_it_is(name: str) -> str:
    return name


def _plain(name: str) -> str:
    """Return ``name`` as names are compared that are alike: ``DIRB`` for ``Dir_b``."""
    return name.replace("_", "").upper() if name.isascii() else ""


def _splits(name: str) -> Iterator[tuple[str, str]]:
    """Yield what stands before and behind each underscore in ``name``."""
    at = name.find("_")
    while at >= 0:
        yield name[:at], name[at + 1 :]
        at = name.find("_", at + 1)


class _Tail(NamedTuple):
    """What may stand behind the name of a register, or of a field."""

    field: FieldFacts | None = None
    value: NamedValue | None = None
    says: str = ""
    space: str = ""


class _Level:
    """The names of a chip compared in one way; ``key`` makes equal what counts as equal."""

    def __init__(
        self, own: OwnNames, macros: ChipMacros, key: Callable[[str], str], certainty: int
    ) -> None:
        self._own = own
        self._registers = own.resolved.registers
        self._macros = macros.registers
        self._key = key
        self._certainty = certainty
        self._words = _OWN_WORDS if certainty == EXACT else _TRADE_WORDS
        self._tails: dict[int, dict[str, list[_Tail]]] = {}
        self._parts: dict[int, dict[str, list[_Tail]]] = {}

    def find(self, name: str) -> list[Match]:
        """Return all that ``name`` can mean."""
        if not 0 < len(name) <= self._longest:
            return []
        found = self._with_register(name) + self._without_register(self._aliases, name)
        for head, rest in _splits(name) if self._prefixes else ():
            for prefix in self._prefixes.get(self._key(head), ()):
                found += self._with_register(prefix + rest)
        return _each_once(found)

    def fields_named(self, name: str) -> list[Match]:
        """Return the fields that ``name`` is a name of, as it stands or without its last word."""
        if not 0 < len(name) <= self._longest:
            return []
        found = self._without_register(self._fields, name)
        return _each_once(match for match in found if match.value is None)

    @cached_property
    def starts(self) -> frozenset[str]:
        """The names that one must start with to mean something, as :func:`_plain` has them."""
        known = (self._heads, self._aliases, self._fields, self._prefixes)
        return frozenset(_plain(name) for names in known for name in names)

    @cached_property
    def _longest(self) -> int:
        """How long a name can be that means anything."""
        if self._certainty != EXACT:
            return _LONGEST_ALIKE
        return max((len(placed.name) for placed in self._registers), default=0) + _MOST_ADDED

    @cached_property
    def _heads(self) -> dict[str, list[int]]:
        return self._index(self._own.registers())

    @cached_property
    def _aliases(self) -> dict[str, list[Loose]]:
        loose = self._own.loose()
        return self._index((name, item) for name, item in loose if item.is_alias)

    @cached_property
    def _fields(self) -> dict[str, list[Loose]]:
        loose = self._own.loose()
        return self._index((name, item) for name, item in loose if item.value is None)

    @cached_property
    def _prefixes(self) -> dict[str, list[str]]:
        return self._index(self._own.blocks())

    def _index(self, pairs: Iterable[tuple[str, Item]]) -> dict[str, list[Item]]:
        found: dict[str, list[Item]] = {}
        for name, item in pairs:
            found.setdefault(self._key(name), []).append(item)
        found.pop("", None)
        return found

    def _match(self, index: int, tail: _Tail) -> Match:
        return Match(self._registers[index], *tail, self._certainty)

    def _with_register(self, name: str) -> list[Match]:
        """Return what ``name`` means where it starts with the name of a register."""
        found = [self._match(index, _Tail()) for index in self._heads.get(self._key(name), ())]
        for head, rest in _splits(name):
            for index in self._heads.get(self._key(head), ()):
                found += [self._match(index, tail) for tail in self._behind(index, rest)]
        return found

    def _behind(self, index: int, rest: str) -> Iterator[_Tail]:
        """Yield what ``rest`` means behind the name of a register."""
        tails = self._tails.get(index)
        if tails is None:
            tails = self._tails[index] = self._index(self._tails_of(self._macros[index]))
        yield from tails.get(self._key(rest), ())
        if self._certainty != EXACT:
            yield from self._addresses.get(self._key(rest), ())
        for head, part in _splits(rest):
            for tail in tails.get(self._key(head), ()):
                if tail.field is not None and not tail.says:
                    yield from self._parts_of(tail.field).get(self._key(part), ())

    def _without_register(self, loose: dict[str, list[Loose]], name: str) -> list[Match]:
        """Return what ``name`` means where it starts with a name in ``loose``."""
        found = [
            self._match(index, _Tail(item.field, item.value))
            for item in loose.get(self._key(name), ())
            for index in self._own.with_facts[item.facts]
        ]
        for head, rest in _splits(name):
            for item in loose.get(self._key(head), ()):
                tails = self._parts_of(item.field).get(self._key(rest), ())
                for index in self._own.with_facts[item.facts] if item.value is None else ():
                    found += [self._match(index, tail) for tail in tails]
        return found

    @cached_property
    def _addresses(self) -> dict[str, list[_Tail]]:
        """What the name of an address ends in, where it is not the header's own."""
        return self._index(_alike_addresses(self._own.resolved.spaces))

    def _tails_of(self, macros: RegisterMacros) -> Iterator[tuple[str, _Tail]]:
        """Yield all that the header defines behind the name of a register, and its fields."""
        placed = macros.placed
        behind = len(placed.name) + 1
        addresses = {f"{address.space.upper()}_ADDR": address.space for address in placed.addresses}
        for macro, _ in (*macros.numbers, *macros.code):
            tail = macro_name(macro)[behind:]
            if tail in addresses:
                yield tail, _Tail(says=ADDRESS, space=addresses[tail])
            elif tail:
                yield tail, _Tail(says=RESET if tail == "RESET" else OTHER)
        for item in macros.fields:
            for name in (item.facts.field.name, *item.facts.field.aliases):
                yield name, _Tail(item.facts)
            for macro, _ in item.code:
                yield macro_name(macro)[behind:], _Tail(item.facts, says=OTHER)

    def _parts_of(self, field: FieldFacts) -> dict[str, list[_Tail]]:
        """Return what may stand behind the name of a field."""
        parts = self._parts.get(id(field))
        if parts is None:
            words = ((word, _Tail(field, says=says)) for word, says in self._words.items())
            values = (
                (name, _Tail(field, value))
                for value in field.field.values
                for name in (value.name, *value.aliases)
            )
            parts = self._parts[id(field)] = self._index((*words, *values))
        return parts


def _alike_addresses(spaces: Iterable[str]) -> Iterator[tuple[str, _Tail]]:
    for word in _ADDRESS_WORDS:
        yield word, _Tail(says=ADDRESS)
        for space in spaces:
            yield f"{space}_{word}", _Tail(says=ADDRESS, space=space)
            yield f"{word}_{space}", _Tail(says=ADDRESS, space=space)
    yield "R", _Tail()


def _each_once(matches: Iterable[Match]) -> list[Match]:
    """Return ``matches`` without those that mean the same as one before."""
    found: dict[tuple[int, int, int, str, str], Match] = {}
    for match in matches:
        key = (id(match.placed), id(match.field), id(match.value), match.says, match.space)
        found.setdefault(key, match)
    return list(found.values())
