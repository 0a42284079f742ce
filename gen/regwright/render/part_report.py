"""What the report shows of memories, vectors, configuration, clock and names of tools."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.macros.literals import digits_of, shown
from regwright.macros.memories import bytes_of, vector_address
from regwright.model.configuration import Configuration, ConfigurationField, ConfigurationWord
from regwright.model.memories import Memory
from regwright.model.words import plural
from regwright.render.bits import ranges_text
from regwright.render.safe_text import code_span, markdown
from regwright.resolve.chip import ResolvedChip


class ReportTable(NamedTuple):
    """A table: its head and its rows; every cell is safe in Markdown."""

    head: list[str]
    rows: list[list[str]]


class ReportSection(NamedTuple):
    """A section: its heading, lines for a list, a drawing in a fence, and a table.

    Every text is safe in Markdown; ``fence`` is longer than what could end it in ``drawing``.
    """

    heading: str
    lines: list[str]
    table: ReportTable | None = None
    drawing: tuple[str, ...] = ()
    fence: str = "```"


def report_sections(resolved: ResolvedChip) -> list[ReportSection]:
    """Return a section for each kind of thing that is described besides registers."""
    chip = resolved.chip
    sections = [*_memories(resolved), *_vectors(resolved)]
    if chip.configuration is not None:
        sections += _configuration(chip.configuration)
    if chip.clock is not None:
        from regwright.render.clock_report import clock_section

        sections.append(clock_section(chip.clock, resolved))
    sections += [*_identity(resolved), *_build(resolved)]
    if chip.packages:
        from regwright.render.pin_report import package_sections

        sections += package_sections(resolved)
    return sections


def page_text(page: int | None) -> str:
    """Return a page for a cell, empty when it is not known."""
    return str(page or "")


def _memories(resolved: ResolvedChip) -> Iterator[ReportSection]:
    memories = resolved.chip.memories
    if memories:
        head = ["Memory", "Kind", "Space", "First", "Last", "Size", "Written by", "Erased by"]
        head += ["Page", "Title"]
        rows = [_memory(item, resolved) for item in memories]
        yield ReportSection("Memories", [], ReportTable(head, rows))


def _memory(memory: Memory, resolved: ResolvedChip) -> list[str]:
    space = resolved.spaces.get(memory.space)
    unit = space.unit if space else 8
    size = shown(memory.size)
    held = bytes_of(memory.size, unit)
    if held is not None:
        size += f", {plural(held, 'byte')}"
    return [
        code_span(memory.name),
        memory.kind,
        f"`{memory.space}`",
        shown(memory.first),
        shown(memory.first + max(memory.size, 1) - 1),
        size,
        "" if memory.page_size is None else shown(memory.page_size),
        "" if memory.erase_unit is None else shown(memory.erase_unit),
        page_text(memory.page),
        markdown(memory.title or ""),
    ]


def _vectors(resolved: ResolvedChip) -> Iterator[ReportSection]:
    table = resolved.chip.vector_table
    if table is None:
        return
    each = "one address" if table.size == 1 else f"{table.size} addresses"
    rows = [
        [
            str(item.number),
            code_span(item.name),
            f"`{shown(vector_address(table, item))}`",
            page_text(item.page),
            markdown(item.title or ""),
        ]
        for item in table.vectors
    ]
    line = f"In `{table.space}` space from {shown(table.base)} on, {each} for each."
    head = ["Number", "Vector", "Address", "Page", "Title"]
    yield ReportSection("Interrupt vectors", [line], ReportTable(head, rows))


def _configuration(configuration: Configuration) -> Iterator[ReportSection]:
    yield ReportSection("Configuration", list(_hazard_lines(configuration)))
    head = ["Setting", "Bits", "As delivered", "Choices", "Page", "Title"]
    for word in configuration.words:
        rows = [_setting(configuration, word, field) for field in word.fields]
        lines = list(_word_lines(configuration, word))
        table = ReportTable(head, rows) if rows else None
        yield ReportSection(f"Configuration word {code_span(word.name)}", lines, table)


def _hazard_lines(configuration: Configuration) -> Iterator[str]:
    from regwright.configuration.hazards import KINDS, cause_in_words, known_hazards

    default = ", ".join(
        f"{code_span(word.name)} {shown(word.default, digits_of(word.width))}"
        for word in configuration.words
    )
    yield f"As delivered: {default}."
    for hazard, causes in known_hazards(configuration):
        why = markdown(hazard.caution or hazard.title or hazard.name)
        for cause in causes:
            yield f"**Caution**: {code_span(cause_in_words(cause))} {KINDS[hazard.kind]}: {why}"


def _word_lines(configuration: Configuration, word: ConfigurationWord) -> Iterator[str]:
    from regwright.configuration.words import verify_mask

    digits = digits_of(word.width)
    if word.title:
        yield markdown(word.title)
    page = f", page {word.page}" if word.page else ""
    place = f"`{configuration.space}:{shown(word.address)}`"
    yield f"{place}, {word.width} bits{', lock bits' if word.lock else ''}{page}"
    default, mask = shown(word.default, digits), shown(verify_mask(word), digits)
    yield f"as delivered `{default}`; the bits of `{mask}` must read back as they were written"


def _setting(
    configuration: Configuration, word: ConfigurationWord, field: ConfigurationField
) -> list[str]:
    from regwright.configuration.decode import choices_of, name_in

    now = name_in(configuration, field, word.default)
    choices = choices_of(configuration, field)
    return [
        code_span(field.setting),
        ranges_text(field.bits).partition(" ")[2],
        code_span(now) if now else "a value without a name",
        ", ".join(code_span(item.name) for item in choices) or "a number",
        page_text(field.page),
        markdown(field.title or ""),
    ]


def _identity(resolved: ResolvedChip) -> Iterator[ReportSection]:
    identity = resolved.chip.identity
    if identity is None:
        return
    lines = ["Signature: `" + " ".join(shown(byte) for byte in identity.signature) + "`"]
    if identity.address is not None:
        space = f"{identity.space}:" if identity.space else ""
        lines.append(f"Programs read it at `{space}{shown(identity.address)}`")
    if identity.page:
        lines.append(f"Page {identity.page}")
    yield ReportSection("Identity", lines)


def _build(resolved: ResolvedChip) -> Iterator[ReportSection]:
    build = resolved.chip.build
    if build is None:
        return
    names = (
        ("Target of the compiler", build.target),
        ("Instruction set", build.instruction_set),
        ("Part name of the programmer", build.programmer_part),
    )
    lines = [f"{word}: {code_span(name)}" for word, name in names if name]
    if lines:
        yield ReportSection("Names for tools", lines)
