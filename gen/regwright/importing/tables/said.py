"""Find the numbers in running text, and the words before them that say what they are."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NamedTuple

from regwright.importing.tables import words
from regwright.importing.tables.notation import DASHES, Number, number
from regwright.importing.tables.printed_address import PrintedAddress, Span

IO, DATA = "io", "data"
_H = "[0-9A-Fa-fOolI]"
#: A further group of a number; after a space it must not be a word such as "added".
_MORE = rf"(?:(?:[_'.]|[ ](?=[0-9A-Fa-f]*\d|[A-F]{{4}}|f{{4}})){_H}{{4}}(?=[hH]?(?![0-9A-Za-z])))"
_TOLD = (
    rf"(?:(?:[0Oo][xX]|\$){_H}{{1,16}}{_MORE}{{0,4}}|\d{_H}{{0,16}}{_MORE}{{0,4}}[hH]"
    r"|0[bB][01]{1,64}(?:[ _'.][01]{4}(?:[01]{4})?(?![0-9A-Za-z])){0,15})(?![0-9A-Za-z_])"
)
_BARE = (
    rf"(?:\d[0-9A-Fa-f]{{0,16}}{_MORE}{{0,4}}"
    r"|[A-F][0-9A-F]{0,15}\d[0-9A-F]{0,15}|[A-F]{2})"
)
_NUMBER = rf"(?:{_TOLD}|{_BARE}(?![0-9A-Za-z_]))"
_TO = rf"\s*(?:[{DASHES}]|\.\.\.?|…|~|\bto\b)\s*"
_RANGE = rf"({_NUMBER})(?:{_TO}({_NUMBER}))?"
_SPACE = r"i/?o|port|memory|mem\.?|data|ram|sfr"
_FLAGS = re.IGNORECASE
_PLACE = re.compile(
    rf"(?:(?P<space>\b(?:{_SPACE}))[ -](?:space )?(?:mapped )?)?"
    r"(?:\b(?:address )?(?P<offset>offset)|\baddr(?:ess(?:es)?\b|\b\.?))"
    rf"(?:\s*\((?P<behind>{_SPACE})\))?\s*[:=]?\s*(?:is\s+|at\s+)?(?P<numbers>(?-i:{_RANGE}))"
    rf"(?:\s*[(\[]\s*(?P<inner>(?-i:{_NUMBER})(?:{_TO}(?-i:{_NUMBER}))?)\s*[)\]])?"
    rf"(?:\s*\((?P<after>{_SPACE})\))?",
    _FLAGS,
)
_SHORT = re.compile(
    rf"(?:^|(?<=[(\[,;/]))\s*(?P<space>{_SPACE})(?: space)?\s*[:=]?\s*"
    rf"(?P<numbers>(?-i:{_TOLD}))",
    _FLAGS,
)
_NAMED_AFTER = re.compile(
    rf"(?P<numbers>(?-i:{_TOLD}))\s*(?:\(\s*|(?=(?:i/?o|memory)\b))(?P<space>{_SPACE})\b\s*\)?",
    _FLAGS,
)
_TRAILING = re.compile(
    rf"(?:\s+at)?\s*(?:[(\[,]\s*|\s)(?:at\s+)?(?P<outer>{_TOLD})"
    rf"(?:(?:\s*[(\[,/;|]\s*|\s+)(?P<inner>{_TOLD}))?\s*[)\]]{{0,2}}\s*$"
)
_STEPS = re.compile(
    rf"\s*\+\s*\(?\s*(?:(?P<step>{_NUMBER})\s*[*x\u00d7·]?\s*(?P<letter>[a-z])\b"
    rf"|(?P<letter2>[a-z])\s*[*x\u00d7·]\s*(?P<step2>{_NUMBER}))\s*\)?"
    rf"(?:\s*[,;]?\s*\(?\s*(?:where |for |with )?(?P<counter>[a-z])\s*=\s*(?P<first>\d{{1,4}})"
    rf"{_TO}(?P<last>\d{{1,4}})\s*\)?)?"
)
_BASE = re.compile(r"\bbase(?:[ -]address(?:es)?)?\b\s*[:=]?\s*(?:is\s+|are\s+)?", _FLAGS)
_BASE_ITEM = re.compile(
    r"(?:(?P<before>(?!(?:address|offset|reset|is|are)\b)[A-Za-z]\w*)\s*[:=]?\s*)?"
    rf"(?P<number>{_NUMBER})(?:\s*\((?P<name>\w+)\))?"
)
_NEXT = re.compile(r"\s*(?:[,;/]\s*(?:and\b)?|\band\b|\bor\b)\s*", _FLAGS)
_DIGIT = "[0-9A-Fa-fxXuU]"
_RESET_VALUE = (
    rf"(?:(?:0[xXbB]|\$)?(?={_DIGIT}{{0,64}}[0-9xXuU]){_DIGIT}{{1,64}}"
    rf"(?:[ _'.](?={_DIGIT}{{0,8}}[0-9xX]|[A-F]{{4}}|f{{4}}){_DIGIT}{{4}}(?:[01xX]{{4}})?"
    r"(?![0-9A-Za-z])){0,15}[hHbB]?|un(?:defined|known|changed))(?![0-9A-Za-z_])"
)
_RESET = re.compile(
    r"\b(?:(?:after|on|at) )?(?:reset|initial|default|power-on)(?P<noun> (?:value|state)s?)?"
    r"(?: (?:after|on|at) reset)?(?P<colon>\s*[:=]\s*|\s+is\s+|\s+)"
    rf"(?P<value>(?-i:{_RESET_VALUE}))",
    _FLAGS,
)
_ANOTHER = re.compile(rf"\s*(?:[,;/]|\bor\b|\band\b)\s*(?P<value>{_RESET_VALUE})")
_IF = re.compile(r"\s*\((?:for )?([^()]{1,80})\)")
_ACCESS = re.compile(
    r"\baccess(?P<colon>\s*[:=])?\s*(?P<word>[A-Za-z/0-9-]+(?:[ -](?:only|once|write)\b)?)", _FLAGS
)
_WIDTH = re.compile(r"\b(8|16|32|64)[ -]bits?\b", _FLAGS)
_LEFT = re.compile(_TOLD)


class Steps(NamedTuple):
    """A row of registers: how many, from one to the next, and the number of the first."""

    number: int
    stride: int
    start: int
    letter: str


class Place(NamedTuple):
    """An address as it is said: the space it is of, where a word tells, and the numbers."""

    space: str
    span: Span
    inner: Span | None = None


@dataclass
class Said:
    """What lines above a table say, gathered line by line; ``doubts`` are for a person."""

    places: list[Place] = field(default_factory=list)
    offset: Place | None = None
    steps: Steps | None = None
    bases: list[tuple[str, int]] = field(default_factory=list)
    reset: str = ""
    access: str = ""
    width: int = 0
    doubts: list[str] = field(default_factory=list)

    def take(self, line: str) -> str:
        """Take what ``line`` says with a word before it; return the rest of it."""
        rest = line
        for part in (self._reset, self._bases, self._places, self._access):
            rest = part(rest)
        if not self.width and (found := _WIDTH.search(rest)):
            self.width = int(found[1])
        return rest

    def take_trailing(self, line: str) -> str:
        """Take an address without a word before it at the end of a heading."""
        found = None if self.places or self.offset or self.bases else _TRAILING.search(line)
        outer = _span(found["outer"]) if found else None
        if found is None or outer is None:
            return line
        inner = _span(found["inner"]) if found["inner"] else None
        self.places.append(Place("", outer, inner))
        return line[: found.start()]

    def left(self, line: str) -> None:
        """Mark the numbers that nothing has been made of."""
        for found in _LEFT.finditer(line):
            self.doubts.append(f"{found[0]} stands above it, too: what is it?")

    def _reset(self, line: str) -> str:
        for found in _RESET.finditer(line):
            value = found["value"]
            is_sure = found["noun"] or found["colon"].strip() or value[:2].lower() in ("0x", "0b")
            if not is_sure or self.reset:
                continue
            self.reset, end = value, found.end()
            if said_for := _IF.match(line, end):
                self.doubts.append(f"its value after reset {value} is printed for: {said_for[1]}")
                end = said_for.end()
            while another := _ANOTHER.match(line, end):
                self.doubts.append(f"a second value after reset is printed: {another['value']}")
                said_for = _IF.match(line, another.end())
                end = said_for.end() if said_for else another.end()
            return f"{line[: found.start()]} {line[end:]}"
        return line

    def _bases(self, line: str) -> str:
        found = None if self.bases else _BASE.search(line)
        end = found.end() if found else 0
        while found and (item := _BASE_ITEM.match(line, end)):
            value = number(item["number"])
            if value is None:
                break
            if value.doubt:
                self.doubts.append(value.doubt)
            self.bases.append((item["name"] or item["before"] or "", value.value))
            end = item.end()
            goes_on = _NEXT.match(line, end)
            if goes_on is None or not _BASE_ITEM.match(line, goes_on.end()):
                break
            end = goes_on.end()
        return f"{line[: found.start()]} {line[end:]}" if found and self.bases else line

    def _places(self, line: str) -> str:
        for pattern in (_PLACE, _NAMED_AFTER, _SHORT):
            start = 0
            while found := pattern.search(line, start):
                end = self._place(found, line)
                line = f"{line[: found.start()]} {line[end:]}" if end else line
                start = found.start() if end else found.end()
        return line

    def _place(self, found: re.Match[str], line: str) -> int:
        """Take one address; return where it ends, 0 when it was none."""
        span = _span(found["numbers"])
        if span is None:
            return 0
        held = found.groupdict()
        inner = _span(held["inner"]) if held.get("inner") else None
        said = held.get("space") or held.get("behind") or held.get("after") or ""
        space = "" if not said else IO if said.lower() in ("i/o", "io", "port") else DATA
        place = Place(space, span, inner)
        end = found.end()
        if held.get("offset") and self.offset is None:
            self.offset = place
        elif held.get("offset"):
            self.doubts.append(f"a second offset is printed: {found['numbers']}")
        else:
            self.places.append(place)
        if steps := _STEPS.match(line, end):
            self._steps(steps)
            end = steps.end()
        return end

    def _steps(self, found: re.Match[str]) -> None:
        letter = found["letter"] or found["letter2"]
        step = number(found["step"] or found["step2"])
        if step is None or found["counter"] != letter or step.value < 1:
            self.doubts.append(f"it stands in a row, {found[0].strip()!r}: how many are there?")
            return
        first, last = sorted((int(found["first"]), int(found["last"])))
        self.steps = Steps(last - first + 1, step.value, first, letter)

    def _access(self, line: str) -> str:
        found = _ACCESS.search(line)
        if self.access or found is None or not (found["colon"] or words.access(found["word"])):
            return line
        self.access = found["word"]
        return f"{line[: found.start()]} {line[found.end() :]}"

    def address(self) -> tuple[PrintedAddress | None, str]:
        """Return the addresses that are meant, and their space where there is one and it is told.

        Two that cannot be told apart are marked in ``doubts``.
        """
        places = [self.offset] if self.offset else self.places
        if not places:
            return None, ""
        first = places[0]
        doubts = dict.fromkeys(
            end.doubt
            for place in places
            for span in (place.span, place.inner)
            if span
            for end in span
            if end.doubt
        )
        outer, inner = first.span, first.inner
        if inner is not None:
            if first.space == DATA:
                self.doubts.append("the address in parentheses is taken as the I/O address")
                outer, inner = inner, outer
            spaces = (IO, DATA) if first.space else ("", "")
            return PrintedAddress(outer, inner, tuple(doubts), spaces), ""
        told = {place.space: place.span for place in reversed(places) if place.space}
        others = {place.span.first.value for place in places} - {
            span.first.value for span in told.values()
        }
        if len(told) == 2:
            found = PrintedAddress(told[IO], told[DATA], tuple(doubts), (IO, DATA))
            self._mark(places, is_open=bool(others))
            return found, ""
        is_open = len({place.span.first.value for place in places}) > 1
        self._mark(places, is_open=is_open)
        if told:
            space, span = next(iter(told.items()))
            return PrintedAddress(span, None, tuple(doubts)), space
        return PrintedAddress(outer, None, tuple(doubts)), ""

    def _mark(self, places: list[Place], *, is_open: bool) -> None:
        if is_open:
            shown = ", ".join(f"0x{place.span.first.value:02X}" for place in places)
            self.doubts.append(f"several addresses stand above it, {shown}: which is meant?")


def _span(text: str) -> Span | None:
    """Return the range in ``text``, or its one address twice."""
    pieces = re.split(_TO, text, maxsplit=1)
    ends: list[Number] = [end for piece in pieces if (end := number(piece))]
    if len(ends) != len(pieces):
        return None
    return Span(*sorted((ends[0], ends[-1]), key=lambda end: end.value))
