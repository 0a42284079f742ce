"""The file in which a user says which register or field of one chip is which of another.

It is described by ``schemas/match.schema.json``. ``compare --write-match`` writes what was used,
``compare --match`` takes it.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

from regwright.compare.pairs import HALF, NAME, Matching, sureness
from regwright.compare.pins import NO_PINS, Pins
from regwright.model.words import nearest, visible
from regwright.resolve.chip import ResolvedChip

FORMAT = 1
_LARGEST = 64 << 20
_KEYS = {"a", "b", "forbid", "why", "sure"}


class BadMatch(Exception):
    """A file of matches cannot be used; the message says why, and where."""


class Entry(NamedTuple):
    """What the file says of two names, or of one that has no counterpart.

    ``number`` is where in the list it stands; ``why`` is the reason for a pair that was found.
    """

    a: str | None
    b: str | None
    forbid: bool = False
    number: int = 0
    why: str = ""


def match_text(matching: Matching, pins: Pins = NO_PINS) -> str:
    """Return the file that gives ``matching`` again, which ``pins`` led to.

    What has the same name in both chips is found again without being written. So are halves of
    registers that are a pair, and that the fields of a register without a counterpart have none.
    Nothing is said of a name that two have.
    """
    entries = [*_registers(matching), *_fields(matching)]
    entries += [Entry(a, b, forbid=True) for a, b in pins.forbidden]
    entries.sort(key=lambda item: (item.a is None, item.a or "", item.b or "", item.forbid))
    several = _several(matching)
    lines = [
        f"    {json.dumps(_written(item))}"
        for item in entries
        if ("a", item.a) not in several and ("b", item.b) not in several
    ]
    body = "[\n" + ",\n".join(lines) + "\n  ]" if lines else "[]"
    return f'{{\n  "format": {FORMAT},\n  "matches": {body}\n}}\n'


def _registers(matching: Matching) -> Iterator[Entry]:
    for a, b, why in matching.registers:
        if why not in (NAME, HALF):
            yield Entry(a.name if a else None, b.name if b else None, why=why)


def _fields(matching: Matching) -> Iterator[Entry]:
    partner = {id(a): b for a, b, _ in matching.registers if a and b}
    paired = {*partner, *(id(b) for b in partner.values())}
    for a, b, why in matching.fields:
        if a and b:
            if why != NAME or partner.get(id(a.placed)) is not b.placed:
                yield Entry(a.name, b.name, why=why)
        elif a and id(a.placed) in paired:
            yield Entry(a.name, None)
        elif b and id(b.placed) in paired:
            yield Entry(None, b.name)


def _several(matching: Matching) -> set[tuple[str, str]]:
    """Return the names that more than one register or field of a chip has."""
    counts: Counter[tuple[str, str]] = Counter()
    for pair in matching.registers:
        counts.update((side, at.name) for side, at in (("a", pair.a), ("b", pair.b)) if at)
    for item in matching.fields:
        counts.update((side, at.name) for side, at in (("a", item.a), ("b", item.b)) if at)
    return {key for key, count in counts.items() if count > 1}


def _written(entry: Entry) -> dict[str, Any]:
    found: dict[str, Any] = {"a": entry.a, "b": entry.b}
    if entry.forbid:
        found["forbid"] = True
    if entry.why:
        found |= {"why": entry.why, "sure": sureness(entry.why)}
    return found


def read_match(file: str, a: ResolvedChip, b: ResolvedChip) -> Pins:
    """Return what ``file`` says about the pairs of ``a`` and ``b``.

    Raises :class:`BadMatch` where it cannot be read, is no such file, names what a chip does not
    have, or contradicts itself.
    """
    read = _Read(file)
    entries = [read.entry(number, item) for number, item in enumerate(read.items())]
    sides = _Names(a), _Names(b)
    for item in entries:
        found = [_kind_of(read, item, key, names) for key, names in zip("ab", sides, strict=True)]
        if None not in found and found[0] != found[1]:
            message = f"{item.a} is a {found[0]} and {item.b} a {found[1]}; they cannot be a pair"
            raise read.bad(item.number, "b", message)
    _refuse_contradictions(read, entries)
    both = [(item, item.a, item.b) for item in entries if item.a is not None and item.b is not None]
    return Pins(
        frozenset((one, other) for item, one, other in both if not item.forbid),
        frozenset((one, other) for item, one, other in both if item.forbid),
        frozenset(item.a for item in entries if item.a is not None and item.b is None),
        frozenset(item.b for item in entries if item.b is not None and item.a is None),
    )


class _Read:
    """The text and data of the file, and the errors at places in it."""

    def __init__(self, file: str) -> None:
        self._file = visible(file)
        try:
            path = Path(file)
            if path.is_file() and path.stat().st_size > _LARGEST:
                raise BadMatch(f"{self._file}: is too large for a file of matches")
            self._text = path.read_bytes().decode("utf-8")
            self._data: Any = json.loads(self._text)
        except OSError as problem:
            raise BadMatch(f"{self._file}: cannot be read: {problem.strerror}") from None
        except json.JSONDecodeError as problem:
            where = f"{self._file}:{problem.lineno}:{problem.colno}"
            words = problem.msg[:1].lower() + problem.msg[1:]
            raise BadMatch(f"{where}: error: no JSON: {words}") from None
        except (ValueError, RecursionError):
            raise BadMatch(f"{self._file}: is no file of matches") from None

    def bad(self, number: int, key: str, message: str) -> BadMatch:
        """Return the error at a property of entry ``number``, or at the entry without it."""
        from regwright.read.json_locate import JsonLocator  # only a mistake needs it

        start = JsonLocator(self._text).offset(["matches", number, key])
        line = self._text.count("\n", 0, start) + 1
        column = start - self._text.rfind("\n", 0, start)
        return BadMatch(f"{self._file}:{line}:{column}: error: {visible(message)}")

    def items(self) -> list[Any]:
        """Return the entries, as they stand there. Raises :class:`BadMatch`."""
        data = self._data
        if not isinstance(data, dict) or "format" not in data or "matches" not in data:
            raise BadMatch(f"{self._file}: is no file of matches; write one with --write-match")
        if data["format"] != FORMAT or isinstance(data["format"], bool):
            raise BadMatch(
                f"{self._file}: has another format than {FORMAT}, which is the only one known "
                "here; write it again with --write-match"
            )
        items = data["matches"]
        if not isinstance(items, list) or not set(data) <= {"$schema", "format", "matches"}:
            raise BadMatch(f"{self._file}: holds a format and a list of matches, nothing else")
        return items

    def entry(self, number: int, item: Any) -> Entry:
        """Return an entry that is written as it must be. Raises :class:`BadMatch`."""
        if not isinstance(item, dict) or not {"a", "b"} <= set(item) <= _KEYS:
            message = 'a match has "a" and "b", and may have "forbid", "why" and "sure"'
            raise self.bad(number, "", message)
        for key in ("a", "b"):
            if not (item[key] is None or (isinstance(item[key], str) and item[key])):
                message = "the name of a register, a name as REGISTER.FIELD, or null is wanted here"
                raise self.bad(number, key, message)
        if item["a"] is None and item["b"] is None:
            raise self.bad(number, "a", "one of the two must have a name")
        forbid = item.get("forbid", False)
        if not isinstance(forbid, bool):
            raise self.bad(number, "forbid", "true or false is wanted here")
        if forbid and (item["a"] is None or item["b"] is None):
            raise self.bad(number, "forbid", "what is forbidden is a pair: both need a name")
        return Entry(item["a"], item["b"], forbid, number)


class _Names:
    """The registers and fields of a chip by their names."""

    def __init__(self, chip: ResolvedChip) -> None:
        self.chip = chip.chip.name
        self.registers = {placed.name: placed for placed in chip.registers}

    def kind_of(self, name: str) -> str | None:
        """Return ``register`` or ``field``; ``None`` for what is neither."""
        if name in self.registers:
            return "register"
        return "field" if name in self._fields(name) else None

    def _fields(self, name: str) -> Iterable[str]:
        """Return the fields of the register that ``name`` starts with."""
        placed = self.registers.get(name.partition(".")[0])
        fields = placed.facts.fields if placed else ()
        return [f"{name.partition('.')[0]}.{item.field.name}" for item in fields]

    def nearest(self, name: str) -> str | None:
        """Return the register, or the field of the register, whose name is most like ``name``."""
        return nearest(name, self._fields(name) or self.registers)


def _kind_of(read: _Read, item: Entry, key: str, names: _Names) -> str | None:
    """Return what a name of an entry is of. Raises :class:`BadMatch`."""
    name = item.a if key == "a" else item.b
    if name is None:
        return None
    found = names.kind_of(name)
    if found is None:
        near = names.nearest(name)
        hint = f"; {near} is meant?" if near else ""
        raise read.bad(item.number, key, f"{names.chip} has no {name[:80]}{hint}")
    return found


def _refuse_contradictions(read: _Read, entries: list[Entry]) -> None:
    """Refuse names that are to be two things. Raises :class:`BadMatch`."""
    forbidden = {(item.a, item.b) for item in entries if item.forbid}
    said: dict[tuple[str, str], str | None] = {}
    for item in entries:
        if item.forbid:
            continue
        if (item.a, item.b) in forbidden:
            raise read.bad(item.number, "a", f"{item.a} and {item.b} are forbidden too")
        for key, name, other in (("a", item.a, item.b), ("b", item.b, item.a)):
            if name is not None and said.setdefault((key, name), other) != other:
                before = said[key, name] or "nothing"
                message = f"{name} is {before} already, it cannot be {other or 'nothing'} too"
                raise read.bad(item.number, key, message)
