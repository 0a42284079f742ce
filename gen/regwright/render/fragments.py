"""What build tools are told of a chip: memories in bytes, names, what a program must fit into."""

from __future__ import annotations

from typing import Any, NamedTuple

from regwright.macros.clock import default_hertz
from regwright.macros.literals import shown
from regwright.macros.memories import bytes_of
from regwright.macros.parts import word_of
from regwright.model.memories import Build, Memory
from regwright.render.safe_text import comment
from regwright.render.views import Input
from regwright.resolve.chip import ResolvedChip

#: What a linker may put into a memory of each kind without being told. GNU ld places a section
#: that the script does not mention where these fit; "!rwx" fits none. Source: the manual of GNU
#: ld, "MEMORY Command".
_ATTRIBUTES = {"flash": "rx", "rom": "rx", "ram": "rwx"}
_NO_SECTION = "!rwx"

#: Sections that toolchains have for a memory of a kind, whatever a description calls the memory.
#: Common practice, no source.
_SECTIONS = {"eeprom": (".eeprom",), "configuration": (".config", ".fuse", ".lock", ".signature")}
#: Sections of every program: a memory with such a name has none of its own.
_OF_PROGRAMS = {".text", ".rodata", ".data", ".bss", ".noinit", ".init", ".fini", ".vectors"}


class MemoryView(NamedTuple):
    """A memory in bytes. ``name`` may stand in a macro, the texts in a comment.

    ``origin`` is where it starts, counted in bytes. ``offset`` is the symbol that a linker script
    may define where a toolchain moves the space, empty where there is no need.
    """

    name: str
    kind: str
    about: str
    space: str
    origin: str
    size: int
    attributes: str
    offset: str


class FragmentView(NamedTuple):
    """A chip for build tools. ``title`` and ``source`` may stand in a comment.

    ``program_size`` and ``data_size`` are the bytes of all memories that hold programs and data, 0
    where none is described; ``program_names`` and ``data_names`` say which those are. ``left_out``
    are the sections for the other memories, which a program's size counts too.
    """

    name: str
    title: str
    source: str
    memories: list[MemoryView]
    build: list[tuple[str, str]]
    clock_hz: int | None
    program_names: str
    program_size: int
    data_names: str
    data_size: int
    offsets: list[tuple[str, str]]
    left_out: list[str]


def fragment_context(data: Input) -> dict[str, Any]:
    """Return what the templates for build tools are given."""
    return {"fragment": fragment_view(data)}


def fragment_view(data: Input) -> FragmentView:
    """Return the chip as build tools are told of it."""
    chip = data.resolved.chip
    memories = [view for item in chip.memories if (view := _memory(item, data.resolved))]
    program = _of_kind(memories, "flash") or _of_kind(memories, "rom")
    data_memories = _of_kind(memories, "ram")
    offsets = {item.offset: item.space for item in memories if item.offset}
    return FragmentView(
        chip.name,
        comment(chip.title or chip.name),
        comment(data.source),
        memories,
        _names(chip.build),
        _whole_hertz(data.resolved),
        ", ".join(item.name for item in program),
        sum(item.size for item in program),
        ", ".join(item.name for item in data_memories),
        sum(item.size for item in data_memories),
        list(offsets.items()),
        _sections([item for item in memories if item not in program and item not in data_memories]),
    )


def _of_kind(memories: list[MemoryView], kind: str) -> list[MemoryView]:
    return [item for item in memories if item.kind == kind]


def _sections(memories: list[MemoryView]) -> list[str]:
    """Return the names of the sections that are for ``memories``."""
    names = [
        name
        for memory in memories
        for name in (f".{memory.name.lower()}", *_SECTIONS.get(memory.kind, ()))
        if name not in _OF_PROGRAMS
    ]
    return list(dict.fromkeys(names))


def _memory(memory: Memory, resolved: ResolvedChip) -> MemoryView | None:
    """Return ``memory`` in bytes; nothing for one that is no whole number of them."""
    space = resolved.spaces.get(memory.space)
    unit = space.unit if space else 8
    origin, size = bytes_of(memory.first, unit), bytes_of(memory.size, unit)
    if origin is None or size is None:
        return None
    spaces = {item.space for item in resolved.chip.memories}
    own = space.name if space else ""
    moved = own if len(spaces) > 1 else ""
    about = comment(memory.title or memory.kind)
    if unit != 8:
        about += f", {shown(memory.size)} units of {unit} bits in {own} space"
    return MemoryView(
        word_of(memory.name),
        memory.kind,
        about,
        own,
        shown(origin, 4),
        size,
        _ATTRIBUTES.get(memory.kind, _NO_SECTION),
        f"regwright_{moved}_offset" if moved else "",
    )


def _whole_hertz(resolved: ResolvedChip) -> int | None:
    hertz = default_hertz(resolved) if resolved.chip.clock else None
    return hertz.numerator if hertz is not None and hertz.denominator == 1 else None


def _names(build: Build | None) -> list[tuple[str, str]]:
    """Return what tools call the chip, each name with the word for it."""
    if build is None:
        return []
    names = (
        ("TARGET", build.target),
        ("INSTRUCTION_SET", build.instruction_set),
        ("PROGRAMMER_PART", build.programmer_part),
    )
    return [(word, name) for word, name in names if name]
