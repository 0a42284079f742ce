"""What sources define by hand that the emitted header has: the same thing, or another."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import NamedTuple

from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import OTHER_SPACE, RIGHT, Verdict
from regwright.audit.vocabulary import header_macros
from regwright.code.directives import Directives, Macro, directives
from regwright.code.scope import HeaderMacro
from regwright.code.seen import Branch, Definition, Location, Number, Where
from regwright.code.text import ASSEMBLER, CodeText
from regwright.macros.registers import Macro as Emitted
from regwright.macros.registers import macro_name

#: What is no code: comments, literals, directives.
_NO_CODE = re.compile(
    rb'/\*.*?(?:\*/|\Z)|//[^\n]*+|"(?:[^"\\\n]|\\.)*+"?|\'(?:[^\'\\\n]|\\.)*+\'?'
    rb"|^[ \t]*+#(?:[^\n\\/]|\\\r?\n|\\.|/\*.*?(?:\*/|\Z)|//[^\n]*+|/)*+",
    re.DOTALL | re.MULTILINE,
)
_WORD = re.compile(rb"[A-Za-z_]\w*+")
#: What stands before a name that is declared: words, and other names with commas between.
_DECLARES = re.compile(
    rb"\s*+(?:[A-Za-z_]\w*+\s++)*?[A-Za-z_]\w*+[\s*]++"
    rb"(?:\w++\s*+(?:\[[^\]]*+\]\s*+)?(?::\s*+\d++\s*+)?,[\s*]*+)*+"
)
_DECLARED = re.compile(rb"\s*+[;,=\[:()]")
#: Words after which an expression comes.
_BEFORE_VALUES = frozenset(
    b"return else do case sizeof goto throw new delete not and or xor compl typeof alignof "
    b"co_await co_return co_yield typename operator".split()
)
_LONGEST = 400
_UNDEF = re.compile(rb"^[ \t]*+#[ \t]*+undef[ \t]++([A-Za-z_]\w*+)", re.MULTILINE)


class HandMade(NamedTuple):
    """A macro that the header makes superfluous.

    ``body`` is the header's name that can be its body; empty where the header has the macro itself.
    """

    definition: Definition
    body: str


class Clash(NamedTuple):
    """A place where a name of the header stands for something else, or is taken away."""

    name: str
    at: Where
    branch: Branch = ()
    is_undef: bool = False


class OwnDefinitions:
    """Finds them in all sources; the emitted header itself may be one of these."""

    def __init__(self, subject: AuditSubject) -> None:
        """Look at the sources of ``subject``."""
        self._subject = subject
        emitted = last_part(subject.use_header)
        self._files = dict.fromkeys(
            number for number, text in enumerate(subject.files) if last_part(text.name) != emitted
        )

    def hand_made(self) -> list[HandMade]:
        """Return every macro that the header makes superfluous, in the order of the sources."""
        return list(self._hand_made.values())

    @cached_property
    def _hand_made(self) -> dict[Where, HandMade]:
        found: dict[Where, list[HandMade | None]] = {}
        for item in self._subject.seen.definitions:
            if item.form == "macro" and item.name_at.file in self._files:
                body = self._body(item)
                made = None if body is None else HandMade(item, body)
                found.setdefault(item.name_at, []).append(made)
        # What it stands for may depend on conditions: it must be the same in all of them.
        return {
            at: items[0]
            for at, items in found.items()
            if items[0] and all(item and item.body == items[0].body for item in items)
        }

    def _body(self, item: Definition) -> str | None:
        """Return the new body of a macro, empty where the header has it, or nothing."""
        if isinstance(item.means, Number):
            return "" if self._numbers.get(item.name) == item.means.value else None
        verdict = self._verdicts.get((item.name_at, item.branch))
        if not isinstance(item.means, Location) or verdict is None:
            return None
        found = self._registers(verdict, item.means)
        if len(found) != 1 or found[0] not in self._subject.header:
            return None
        if item.name == found[0]:
            return ""
        is_name = re.fullmatch(r"[\s()]*\w+[\s()]*", self._subject.text(item.body)) is not None
        return None if is_name or item.name in self._subject.header else found[0]

    def _registers(self, verdict: Verdict, means: Location) -> list[str]:
        """Return the registers that a macro can be: by its name, or else all at its address."""
        placed = []
        if verdict.certainty and verdict.placed and verdict.kind in (RIGHT, OTHER_SPACE):
            placed = [verdict.placed]
        elif verdict.kind == RIGHT:
            placed = self._subject.registers_at(self._subject.space, means.address)
        return [item.name for item in placed if self._accesses[item.name] == means.type.bits]

    @cached_property
    def _verdicts(self) -> dict[tuple[Where, Branch], Verdict]:
        return {(item.claim.at, item.claim.branch): item for item in self._subject.verdicts}

    @cached_property
    def _accesses(self) -> dict[str, int | None]:
        """How many bits C reads at once through the header, for each register."""
        return {item.placed.name: item.access for item in self._subject.macros.registers}

    @cached_property
    def _numbers(self) -> dict[str, int]:
        """The header's plain numbers, which assembler files see as well."""
        found: dict[str, int] = {}
        for register in self._subject.macros.registers:
            found.update(map(_read, register.numbers))
            for field in register.fields:
                found.update(map(_read, field.numbers))
        return found

    def clashes(self) -> list[Clash]:
        """Return every place where a name of the header is something else, in their order."""
        found: dict[Where, Clash] = {}
        for item in self._subject.seen.definitions:
            is_other = item.form not in ("macro", "member") and item.name_at.file in self._files
            if is_other and item.name in self._names(self._subject.files[item.name_at.file]):
                found.setdefault(item.name_at, Clash(item.name, item.name_at, item.branch))
        for number in self._files:
            for clash in self._in_text(number):
                found.setdefault(clash.at, clash)
        return sorted(found.values(), key=lambda clash: clash.at)

    def _names(self, text: CodeText) -> set[str]:
        return set(self._numbers) if text.language == ASSEMBLER else self._subject.header

    def _in_text(self, number: int) -> Iterator[Clash]:
        """Yield what the text of one file tells: macros, `#undef`, names that are declared."""
        text = self._subject.files[number]
        names = {name.encode() for name in self._names(text)}
        if names.isdisjoint(_WORD.findall(text.data)):
            return
        found = directives(text.data)
        for macro in found.macros:
            at = Where(number, macro.name_start, macro.name_start + len(macro.name))
            is_known = at in self._hand_made or self._may_stay(macro)
            if macro.name.encode() in names and not is_known:
                branch = tuple(dict.fromkeys(found.conditions[arm] for arm in macro.arms))
                yield Clash(macro.name, at, branch)
        for match in _UNDEF.finditer(text.data):
            if match[1] in names and not _is_in_comment(found, match.start()):
                at = Where(number, *match.span(1))
                yield Clash(match[1].decode(), at, is_undef=True)
        if text.language != ASSEMBLER:
            for match in _declared(text.data, names):
                yield Clash(match[0].decode(), Where(number, *match.span()))

    def _may_stay(self, macro: Macro) -> bool:
        """Tell whether a macro of the header's name is no harm.

        The header lets its ways to access a register be replaced; and the same macro may be defined
        twice (ISO C11 6.10.3).
        """
        if macro.parameters is not None and macro.name in self._accesses_by:
            return True
        own = self._header.get(macro.name)
        if own is None or own.parameters != macro.parameters:
            return False
        return own.body.split() == macro.body.split()

    @cached_property
    def _accesses_by(self) -> set[str]:
        return {macro_name(macro) for macro, _ in self._subject.macros.frame.accesses}

    @cached_property
    def _header(self) -> Mapping[str, HeaderMacro]:
        return header_macros(self._subject.chip.name, self._subject.macros)


def last_part(path: str) -> str:
    """Return the name of a file without its folders."""
    return path.replace("\\", "/").rpartition("/")[2]


def _read(macro: Emitted) -> tuple[str, int]:
    name, body = macro
    return name, int(body.rstrip("U"), 0)


def _is_in_comment(found: Directives, place: int) -> bool:
    last = bisect_right(found.comments, (place, place)) - 1
    return last >= 0 and place < found.comments[last][1]


def _declared(data: bytes, names: set[bytes]) -> Iterator[re.Match[bytes]]:
    """Yield where one of ``names`` is declared: where words that can be a type stand before it."""
    code = _NO_CODE.sub(lambda match: b" " * len(match[0]), data)
    for match in _WORD.finditer(code):
        if match[0] not in names:
            continue
        before = re.split(rb"[;{}()]", code[max(match.start() - _LONGEST, 0) : match.start()])[-1]
        if not _DECLARES.fullmatch(before) or _BEFORE_VALUES.intersection(_WORD.findall(before)):
            continue
        place = match.start() - len(before) - 1
        may_be_product = b"*" in before and code[place : place + 1] == b"("
        if not may_be_product and _DECLARED.match(code, match.end()):
            yield match
