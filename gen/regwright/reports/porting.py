"""The list of work for a program that moves to another chip, as text, Markdown and JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from regwright.audit.subject import AuditSubject
from regwright.audit.usage import Place, name_of, usages
from regwright.code.text import CodeText
from regwright.compare.differences import Comparison
from regwright.compare.porting import Porting, porting
from regwright.compare.porting_kinds import DANGERS, MISSING, MOVED, WHOLE, WRONG
from regwright.compare.work import Work
from regwright.macros.registers import ChipMacros
from regwright.model.words import plural, visible
from regwright.render.safe_text import code_span, markdown

#: The heading of each part of the list.
HEADINGS = {
    WRONG: "Compiles, and is wrong or may be",
    WHOLE: "Concerns every program that moves",
    MISSING: "Does not compile",
    MOVED: "Moves with the header: build again",
}
#: Places beyond these are counted.
_MOST_PLACES = 6


class Move(NamedTuple):
    """A program that moves: its sources, the names of both chips, and the work.

    ``used`` are the registers of A that it uses, and their fields as ``REGISTER.FIELD``.
    """

    files: Sequence[CodeText]
    a: str
    b: str
    porting: Porting
    used: frozenset[str]


def move_of(
    comparison: Comparison, old: ChipMacros, new: ChipMacros, files: Sequence[CodeText]
) -> Move:
    """Return the work of moving ``files``, which are written for A.

    ``old`` and ``new`` are the macros of the headers of A and B.
    """
    subject = AuditSubject(comparison.a, old, files)
    work = porting(comparison, subject, new)
    names = comparison.a.chip.name, comparison.b.chip.name
    used = frozenset(name_of(usage) for usage in usages(subject))
    return Move(files, *names, work, used)


def where(move: Move, place: Place) -> str:
    """Return file, line and column of a place."""
    text = move.files[place.at.file]
    line, column = text.line_and_column(place.at.start)
    return f"{text.name}:{line}:{column}"


def distinct(move: Move, places: Sequence[Place]) -> list[str]:
    """Return each line that ``places`` stand in, by the first of them."""
    seen: dict[tuple[int, int], str] = {}
    for place in sorted(places):
        line = move.files[place.at.file].line(place.at.start)
        seen.setdefault((place.at.file, line), where(move, place))
    return list(seen.values())


def answer(move: Move) -> list[str]:
    """Return whether the program can move, and what it takes, in sentences."""
    work, homeless, used = move.porting
    counts = {danger: sum(item.danger == danger for item in work) for danger in DANGERS}
    about = f"It uses {plural(used, 'register')} of {move.a}."
    if not work:
        return [f"It can move to {move.b} as it is.", about]
    parts = []
    if counts[WRONG]:
        things = plural(counts[WRONG], "thing")
        parts.append(f"{things} to think about, where the compiler is silent")
    if counts[WHOLE]:
        things = plural(counts[WHOLE], "thing")
        parts.append(f"{things} that every program must see to, whatever it uses")
    if counts[MISSING]:
        parts.append(f"{plural(counts[MISSING], 'name')} to change, which the compiler asks for")
    if counts[MOVED]:
        parts.append(f"{plural(counts[MOVED], 'thing')} that a build with the new header moves")
    takes = "; ".join(parts)
    if homeless:
        names = ", ".join(homeless[:8]) + (", …" if len(homeless) > 8 else "")
        first = f"It cannot move to {move.b} without a change of design: there is no {names}."
        return [first, f"Beside that it takes: {takes}.", about]
    return [f"It can move to {move.b}. It takes: {takes}.", about]


def porting_text(move: Move) -> str:
    """Return the list for a terminal, the most dangerous first."""
    lines = []
    number = 0
    for danger in DANGERS:
        items = [item for item in move.porting.work if item.danger == danger]
        if not items:
            continue
        lines += [f"{HEADINGS[danger]}:"]
        for item in items:
            number += 1
            lines += [visible(line) for line in _lines(move, number, item)]
        lines.append("")
    return "\n".join([*lines, *answer(move)]) + "\n"


def _lines(move: Move, number: int, item: Work) -> Iterator[str]:
    yield f"{number:3}. {item.thing}: {item.message}"
    if item.instead:
        yield f"     instead: {item.instead}"
    places = distinct(move, item.places)
    for place in places[:_MOST_PLACES]:
        yield f"     {place}"
    if len(places) > _MOST_PLACES:
        yield f"     and {plural(len(places) - _MOST_PLACES, 'more place')}"


def porting_markdown(move: Move) -> str:
    """Return the list as Markdown: what to tick off."""
    parts = [f"# From {markdown(move.a)} to {markdown(move.b)}", " ".join(answer(move))]
    for danger in DANGERS:
        items = [item for item in move.porting.work if item.danger == danger]
        if not items:
            continue
        lines = [f"## {HEADINGS[danger]}", ""]
        for item in items:
            words = f"{item.message}; {item.instead}" if item.instead else item.message
            lines.append(f"- [ ] {code_span(visible(item.thing))}: {markdown(visible(words))}")
            lines += [f"  - {code_span(visible(place))}" for place in distinct(move, item.places)]
        parts.append("\n".join(lines))
    return "\n\n".join(parts)


def porting_data(move: Move) -> dict[str, Any]:
    """Return the list as plain data, for ``schemas/compare.schema.json``."""
    return {
        "sources": [text.name for text in move.files],
        "registersUsed": move.porting.used,
        "withoutCounterpart": move.porting.homeless,
        "answer": answer(move),
        "work": [_entry(move, item) for item in move.porting.work],
    }


def _entry(move: Move, item: Work) -> dict[str, Any]:
    return {
        "danger": item.danger,
        "thing": item.thing,
        "message": item.message,
        "instead": item.instead,
        "places": [_place(move, place) for place in item.places],
    }


def _place(move: Move, place: Place) -> dict[str, Any]:
    text = move.files[place.at.file]
    line, column = text.line_and_column(place.at.start)
    found = {"file": text.name, "line": line, "column": column}
    return {**found, "how": place.how, "name": place.name}
