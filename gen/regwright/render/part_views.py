"""What the header says of what a chip has besides registers. Every text is safe in a C comment."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from regwright.macros.literals import shown
from regwright.macros.parts import (
    BUILD,
    CLOCK,
    IDENTITY,
    MEMORY,
    PACKAGE,
    PORT,
    SETTING,
    VECTOR,
    VECTORS,
    WORD,
)
from regwright.macros.registers import ChipMacros, Macro
from regwright.model.configuration import Configuration, ConfigurationField, ConfigurationWord
from regwright.model.memories import Identity, Memory, Vector, VectorTable
from regwright.model.packages import Package, Port
from regwright.model.words import plural
from regwright.render.bits import ranges_text
from regwright.render.safe_text import comment
from regwright.resolve.chip import ResolvedChip
from regwright.resolve.layout import layout

#: The macro with which firmware says that it changes the clock.
CLOCK_CHANGES = "REGWRIGHT_CLOCK_CHANGES"

_HEADINGS = {
    MEMORY: "Memories. UNITS counts addresses of its space, BYTES what they hold.",
    VECTORS: "Interrupt vectors. STEP: addresses that one takes; COUNT: the highest number plus 1.",
    WORD: "Configuration. DEFAULT is what a delivered chip has; values of settings are in place.",
    CLOCK: "Clock.",
    IDENTITY: "Identity: the bytes by which a programmer knows the chip.",
    PORT: "Ports: the bits that each has, and at which bit a function is.",
    PACKAGE: "Packages: numbers of pins. A name that several pins have is left out.",
    BUILD: "What tools call the chip.",
}
#: The section in which a part stands that has none of its own.
_WITHIN = {VECTOR: VECTORS, SETTING: WORD}


class PartView(NamedTuple):
    """The macros of one thing, with the lines of comment that go before them."""

    lines: list[str]
    numbers: list[Macro]
    code: list[Macro]


class SectionView(NamedTuple):
    """Parts of one kind under their heading, and what is to be known of all of them.

    ``plain`` are those of which the assembler may know, ``coded`` those with macros for C only.
    """

    heading: str
    lines: list[str]
    plain: list[PartView]
    coded: list[PartView]


class ClockHook(NamedTuple):
    """The comparison of the firmware's own ``constant`` with ``macro``, which is ``text``."""

    constant: str
    macro: str
    text: str
    unless: str


def section_views(resolved: ResolvedChip, macros: ChipMacros) -> list[SectionView]:
    """Return the sections of the header."""
    sections: dict[str, SectionView] = {}
    for part in macros.parts:
        kind = _WITHIN.get(part.kind, part.kind)
        if kind not in sections:
            lines = [comment(line) for line in _OF_SECTION.get(kind, _nothing)(resolved)]
            sections[kind] = SectionView(_HEADINGS[kind], lines, [], [])
        lines = [comment(line) for line in _LINES[part.kind](part.node, resolved)]
        view = PartView(lines, part.numbers, part.code)
        if part.numbers or not part.code:
            sections[kind].plain.append(view)
        if part.code:
            sections[kind].coded.append(view)
    return list(sections.values())


def clock_hook(resolved: ResolvedChip, macros: ChipMacros) -> ClockHook | None:
    """Return the comparison with the firmware's constant, where both frequencies are known."""
    clock = resolved.chip.clock
    part = next((part for part in macros.parts if part.kind == CLOCK), None)
    if clock is None or clock.constant is None or part is None or not part.numbers:
        return None
    from regwright.render.clock_words import default_words

    ((macro, _),) = part.numbers
    return ClockHook(clock.constant, macro, comment(default_words(resolved).result), CLOCK_CHANGES)


def _nothing(_resolved: ResolvedChip) -> Iterator[str]:
    yield from ()


def _joined(name: str, title: str | None, parts: list[str], page: int | None) -> str:
    """Return ``NAME: title; part, part, page 7``, without what is not known."""
    if title and title.lower() == name.lower():
        title = ""
    facts = ", ".join([part for part in parts if part] + ([f"page {page}"] if page else []))
    rest = "; ".join(part for part in (title or "", facts) if part)
    return f"{name}: {rest}" if rest else name


def _memory(memory: Memory, resolved: ResolvedChip) -> Iterator[str]:
    space = resolved.spaces.get(memory.space)
    parts = [memory.kind, f"in {memory.space} space"]
    if space is not None and space.unit != 8:
        parts.append(f"{space.unit} bits at each address")
    yield _joined(memory.name, memory.title, parts, memory.page)


def _vectors(table: VectorTable, _resolved: ResolvedChip) -> Iterator[str]:
    base = f" from {shown(table.base)}" if table.base else ""
    each = "one address" if table.size == 1 else f"{table.size} addresses"
    yield f"In {table.space} space{base}, {each} each."


def _vector(vector: Vector, _resolved: ResolvedChip) -> Iterator[str]:
    yield _joined(vector.name, vector.title, [], vector.page)


def _word(word: ConfigurationWord, _resolved: ResolvedChip) -> Iterator[str]:
    parts = [f"{word.width} bits", "locks memories" if word.lock else ""]
    yield _joined(f"The word {word.name}", word.title, parts, word.page)


def _setting(field: ConfigurationField, resolved: ResolvedChip) -> Iterator[str]:
    pieces = ""
    if len(layout(field.bits).pieces) > 1:
        pieces = "in pieces: BITPOS is where its bit 0 stands, a shift by it misplaces the rest"
        if not field.choices:
            pieces += "; EXTRACT and INSERT use an argument more than once"
    yield _joined(field.setting, field.title, [ranges_text(field.bits), pieces], field.page)
    configuration = resolved.chip.configuration
    if configuration is not None:
        for causes, text in _cautions(configuration):
            if causes == {field.setting}:
                yield text


def _configuration(resolved: ResolvedChip) -> Iterator[str]:
    yield "VERIFY_MASK has a 1 for each bit that must read back as it was written."
    configuration = resolved.chip.configuration
    if configuration is not None:
        for causes, text in _cautions(configuration):
            if len(causes) > 1:
                yield text


def _cautions(configuration: Configuration) -> Iterator[tuple[set[str], str]]:
    """Yield each way to a hazard: the settings that it takes, and the caution."""
    from regwright.configuration.hazards import KINDS, cause_in_words, known_hazards

    for hazard, causes in known_hazards(configuration):
        why = hazard.caution or hazard.title or hazard.name
        for cause in causes:
            text = f"Caution: {cause_in_words(cause)} {KINDS[hazard.kind]}: {why}"
            yield {item.setting for item in cause}, text


def _clock(_node: object, resolved: ResolvedChip) -> Iterator[str]:
    from regwright.render.clock_words import default_words

    words = default_words(resolved)
    yield f"As delivered, the CPU has {words.result}."
    yield from words.steps


def _identity(identity: Identity, _resolved: ResolvedChip) -> Iterator[str]:
    if identity.page:
        yield f"Page {identity.page}."


def _port(port: Port, _resolved: ResolvedChip) -> Iterator[str]:
    registers = f"in {', '.join(port.registers)}" if port.registers else ""
    yield _joined(f"Port {port.name}", port.title, [ranges_text(port.bits), registers], port.page)


def _ports(resolved: ResolvedChip) -> Iterator[str]:
    from regwright.macros.pins import functions_left_out

    several, without = [], []
    for word, bits in functions_left_out(resolved.chip).items():
        places = ", ".join(f"{bit.port}.{bit.bit}" if bit else "no port" for bit in bits)
        if len(bits) > 1:
            several.append(f"{word} ({places})")
        else:
            without.append(word)
    if several:
        yield f"Functions left out, for they can be at several bits: {', '.join(several)}."
    if without:
        yield f"Functions left out, for their pins are bits of no port: {', '.join(without)}."


def _package(package: Package, _resolved: ResolvedChip) -> Iterator[str]:
    yield _joined(package.name, package.title, [plural(package.pin_count, "pin")], package.page)


def _build(_node: object, _resolved: ResolvedChip) -> Iterator[str]:
    yield from ()


_LINES: dict[str, Callable[..., Iterator[str]]] = {
    MEMORY: _memory,
    VECTORS: _vectors,
    VECTOR: _vector,
    WORD: _word,
    SETTING: _setting,
    CLOCK: _clock,
    IDENTITY: _identity,
    PORT: _port,
    PACKAGE: _package,
    BUILD: _build,
}
_OF_SECTION: dict[str, Callable[[ResolvedChip], Iterator[str]]] = {
    WORD: _configuration,
    PORT: _ports,
}
