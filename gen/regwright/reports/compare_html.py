"""A comparison as one page that needs nothing else: both maps, and what differs in words."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from regwright.compare.changes import Change
from regwright.compare.pairs import Pair, sureness
from regwright.compare.porting_kinds import DANGERS
from regwright.compare.words import doubt
from regwright.model.words import plural, visible
from regwright.render.templates import own_environment
from regwright.reports.compare_entries import Entry, entries
from regwright.reports.compare_maps import Cell, Drawing, Lane, Maps
from regwright.reports.compared import Compared, counted, pair_name, part_name
from regwright.reports.porting import HEADINGS, answer, distinct
from regwright.resolve.chip import Placed

#: A list of registers longer than this is folded.
_LONG_INDEX = 150


class Said(NamedTuple):
    """A change in words: of what, the sentence, how unsure; gone, new or changed."""

    name: str
    text: str
    doubt: str
    role: str


class Row(NamedTuple):
    """The addresses of a register on one chip, a text and a mark for each space."""

    chip: str
    name: str
    cells: list[tuple[str, str]]


class Shown(NamedTuple):
    """A register, or several of one row, as the page shows them; ``kind`` is both, a or b."""

    anchor: str
    kind: str
    name: str
    title: str
    doubt: str
    spaces: list[str]
    rows: list[Row]
    drawing: Drawing
    plain: str
    changes: list[Said]
    others: list[tuple[str, str]]


class Task(NamedTuple):
    """One thing to do for a program that moves: of what, what differs, what to write, where."""

    thing: str
    message: str
    instead: str
    places: list[str]


class Listed(NamedTuple):
    """A register in the index: how it stands, in a mark and a class, and where it is, if shown."""

    kind: str
    mark: str
    name: str
    anchor: str


def compare_html(compared: Compared) -> str:
    """Return the comparison as an HTML page."""
    template = own_environment(autoescape=True).get_template("compare.html.j2")
    text = template.render(_Page(compared).context())
    return text if text.endswith("\n") else text + "\n"


class _Page:
    def __init__(self, compared: Compared) -> None:
        self._compared = compared
        self._labels = visible(compared.labels[0]), visible(compared.labels[1])
        self._maps = Maps(compared.comparison)

    def context(self) -> dict[str, Any]:
        """Return what the template is given."""
        compared = self._compared
        found = entries(compared)
        shown = [self._shown(entry) for entry in found]
        index = self._index(found)
        return {
            "work": self._work(),
            "answer": [visible(line) for line in answer(compared.move)] if compared.move else [],
            "a": self._labels[0],
            "b": self._labels[1],
            "total": len(compared.changes),
            "narrowed": compared.is_narrowed,
            "sources": [self._source(side) for side in (0, 1)],
            "figures": [
                (number, counted(word, number)) for word, number in compared.counts.items()
            ],
            "chip": [self._said(item) for item in compared.outline.chip],
            "parts": [
                (heading, self._things(changes)) for heading, changes in compared.outline.parts
            ],
            "groups": [
                (heading, part)
                for heading, kind in (
                    ("Registers of both", "both"),
                    (f"Only in {self._labels[0]}", "a"),
                    (f"Only in {self._labels[1]}", "b"),
                )
                if (part := [item for item in shown if item.kind == kind])
            ],
            "index": index,
            "long_index": len(index) > _LONG_INDEX,
            "same": self._same(found),
            "documentation": [self._said(item) for item in compared.outline.documentation],
        }

    def _work(self) -> list[tuple[str, str, list[Task]]]:
        """Return the work of moving a program: each danger, its heading and what there is to do."""
        move = self._compared.move
        if move is None:
            return []
        found = []
        for danger in DANGERS:
            tasks = [
                Task(
                    visible(item.thing),
                    visible(item.message),
                    visible(item.instead),
                    [visible(place) for place in distinct(move, item.places)],
                )
                for item in move.porting.work
                if item.danger == danger
            ]
            if tasks:
                found.append((danger, HEADINGS[danger], tasks))
        return found

    def _source(self, side: int) -> tuple[str, str, str]:
        chip = (self._compared.comparison.a, self._compared.comparison.b)[side]
        title = visible(chip.chip.title or "")
        file = visible(self._compared.sources[side].name)
        return self._labels[side], title, f"{file}, {plural(len(chip.registers), 'register')}"

    def _said(self, change: Change, pair: Pair | None = None) -> Said:
        words = self._compared.words
        name = part_name(pair, change) if pair else words.name(change)
        unsure = words.doubt(change) if name else ""
        role = "changed" if change.before and change.after else "gone"
        if not change.before:
            role = "new"
        return Said(visible(name), visible(words.sentence(change)), visible(unsure), role)

    def _things(self, changes: list[Change]) -> list[tuple[str, list[Said]]]:
        """Return changes of what is no register by what they are of, its name once."""
        found: dict[str, list[Said]] = {}
        for change in changes:
            said = self._said(change)
            found.setdefault(said.name, []).append(said._replace(name=""))
        return list(found.items())

    def _shown(self, entry: Entry) -> Shown:
        pair = entry.pair
        kind = _kind(pair)
        one = pair.a or pair.b
        title = one.register.title if one is not None else None
        spaces = self._spaces((pair, *(half for half, _ in entry.halves)))
        rows = self._rows(pair, spaces)
        for half, _ in entry.halves:
            rows += self._rows(half, spaces)
        said = [self._said(item, pair) for item in entry.changes if not _is_in_table(item)]
        for _, changes in entry.halves:
            said += [self._said(item) for item in changes if not _is_in_table(item)]
        return Shown(
            f"r{entry.number}",
            kind,
            visible(pair_name(pair)),
            visible(title or ""),
            doubt(sureness(pair.why), pair.why) if pair.why else "",
            [visible(space) for space in spaces],
            rows,
            _readable(self._maps.draw(pair)),
            self._plain(pair),
            said,
            [(visible(pair_name(other)), _moves(other, spaces)) for other in entry.others],
        )

    def _spaces(self, pairs: Iterable[Pair]) -> list[str]:
        found = [placed for pair in pairs for placed in (pair.a, pair.b) if placed]
        return list(dict.fromkeys(at.space for placed in found for at in placed.addresses))

    def _rows(self, pair: Pair, spaces: list[str]) -> list[Row]:
        """Return a row for each chip that has the register."""
        made = []
        for side, (own, other) in enumerate(((pair.a, pair.b), (pair.b, pair.a))):
            if own is None:
                continue
            cells = [_address(own, other if side else None, space) for space in spaces]
            made.append(Row(self._labels[side], visible(own.name) if own.half else "", cells))
        return made

    def _plain(self, pair: Pair) -> str:
        """Return in words what there is to draw of registers that have no fields."""
        sides = [
            (label, plural(placed.facts.width, "bit"), placed)
            for label, placed in zip(self._labels, (pair.a, pair.b), strict=True)
            if placed
        ]
        widths = {width for _, width, _ in sides}
        text = widths.pop() if len(widths) == 1 else ""
        text = text or ", ".join(f"{width} in {label}" for label, width, _ in sides)
        one = sides[0][2]
        return f"{text}, the {one.half} half of {visible(one.whole)}" if one.half else text

    def _index(self, found: list[Entry]) -> list[Listed]:
        anchors = {}
        for entry in found:
            for number in (entry.number, *entry.other_numbers):
                anchors[number] = f"r{entry.number}"
        listed = []
        for number, pair in enumerate(self._compared.comparison.matching.registers):
            one = pair.a or pair.b
            if one is None or (one.half and number not in anchors):
                continue
            kind = _kind(pair)
            if kind == "both":
                kind = "changed" if number in anchors else "same"
            name = visible(pair_name(pair))
            elsewhere = "same" if kind == "same" else ""
            listed.append(Listed(kind, _MARKS[kind], name, anchors.get(number, elsewhere)))
        return listed

    def _same(self, found: list[Entry]) -> list[tuple[str, str, str]]:
        """Return name, title and addresses of the registers that no change is shown of."""
        shown = {number for entry in found for number in (entry.number, *entry.other_numbers)}
        rows = []
        for number, pair in enumerate(self._compared.comparison.matching.registers):
            if number in shown or pair.a is None or pair.b is None or pair.a.half:
                continue
            places = ", ".join(f"{at.space} 0x{at.value:02X}" for at in pair.a.addresses)
            title = visible(pair.a.register.title or "")
            rows.append((visible(pair_name(pair)), title, places))
        return rows


_MARKS = {"changed": "≠", "same": "=", "a": "\N{MINUS SIGN}", "b": "+"}


def _kind(pair: Pair) -> str:
    return "both" if pair.a and pair.b else "a" if pair.a else "b"


def _is_in_table(change: Change) -> bool:
    """Tell whether the table of addresses says all that ``change`` does."""
    return change.kind == "address" and bool(change.before and change.after)


def _address(own: Placed, other: Placed | None, space: str) -> tuple[str, str]:
    """Return an address as text, and what became of it; ``other`` is the register of A."""
    here = own.address(space)
    text = f"0x{here.value:02X}" if here else "none"
    if other is None:
        return text, ""
    there = other.address(space)
    if here and there:
        return text, "moved" if here.value != there.value else ""
    return text, "new" if here else "gone" if there else ""


def _moves(pair: Pair, spaces: list[str]) -> str:
    """Return the addresses of both sides in a line."""
    parts = []
    for space in spaces:
        texts = [
            f"0x{at.value:02X}" if (at := placed.address(space)) else "none"
            for placed in (pair.a, pair.b)
            if placed
        ]
        parts.append(f"{space} {' → '.join(dict.fromkeys(texts))}")
    return ", ".join(parts)


def _readable(drawing: Drawing) -> Drawing:
    """Return ``drawing`` with every character of its texts visible, and arrows kept to a word."""

    def note(text: str) -> str:
        return (
            visible(text).replace("→ ", "→\N{NO-BREAK SPACE}").replace("← ", "←\N{NO-BREAK SPACE}")
        )

    def cells(found: list[Cell]) -> list[Cell]:
        return [
            item._replace(name=visible(item.name), notes=tuple(map(note, item.notes)))
            for item in found
        ]

    lanes = [Lane(lane.bits, cells(lane.a), cells(lane.b), lane.bands) for lane in drawing.lanes]
    return drawing._replace(lanes=lanes)
