"""Rules on the memories of a chip."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import shown
from regwright.model.chip import Region
from regwright.model.finding import ERROR, WARNING
from regwright.model.memories import Memory
from regwright.rules.catalogue import Problem, Subject, rule

#: The kind of region in which a memory of a kind lies.
_REGIONS = {"flash": "flash", "ram": "ram", "eeprom": "eeprom", "rom": "flash"}


def _last(memory: Memory) -> int:
    return memory.first + max(memory.size, 1) - 1


@rule("memories-overlap", ERROR)
def memories_overlap(subject: Subject) -> Iterator[Problem]:
    """Two memories lie on each other, or have one name.

    ## What it catches
    Memories of one space that share an address, and memories of one name.

    ## Why it matters
    The linker would place data and program in the same cells.

    ## Example
    `first="0x100" size="0x200"` and `first="0x200" size="0x100"`

    ## Instead
    `size="0x100"` for the first, if the data sheet says so.

    ## When to silence it
    Where the same cells are reached in two ways; say so in the title.
    """
    names: set[str] = set()
    for memory in subject.chip.memories:
        if memory.name in names:
            message = f"{memory.name} is a memory already; give this one another name"
            yield Problem(message, (memory.origin, "name"))
        names.add(memory.name)
    furthest: dict[str, Memory] = {}
    for memory in sorted(subject.chip.memories, key=lambda item: (item.space, item.first)):
        one = furthest.get(memory.space)
        if one is not None and memory.first <= _last(one):
            message = (
                f"{memory.name} starts at {shown(memory.first)}, but {one.name} goes on to "
                f"{shown(_last(one))}; look both up"
            )
            yield Problem(message, (memory.origin, "first"))
        if one is None or _last(memory) > _last(one):
            furthest[memory.space] = memory


@rule("memory-outside-space", ERROR)
def memory_outside_space(subject: Subject) -> Iterator[Problem]:
    """A memory does not fit into its space.

    ## What it catches
    A memory that ends behind the last address of its space, and one without any size.

    ## Why it matters
    Its size was mistyped, often because bytes and words were mixed up.

    ## Example
    `size="0x800"` in a space of 0x400 words.

    ## Instead
    `size="0x400"`: sizes count units of the space.

    ## When to silence it
    Never.
    """
    for memory in subject.chip.memories:
        space = subject.resolved.spaces.get(memory.space)
        if not memory.size:
            message = f"{memory.name} has no size; look it up"
            yield Problem(message, (memory.origin, "size"))
        elif space is not None and _last(memory) >= space.size:
            message = (
                f"{memory.name} ends at {shown(_last(memory))}, but the last address of the space "
                f"{space.name} is {shown(max(space.size - 1, 0))}; sizes count units of the space, "
                f"{space.unit} bits each"
            )
            yield Problem(message, (memory.origin, "size"))


@rule("memory-disagrees", WARNING)
def memory_disagrees(subject: Subject) -> Iterator[Problem]:
    """A memory and the regions of its space say different things.

    ## What it catches
    A memory that lies, all or in part, in a region of another kind, or that shares only a part of
    a region of its own kind.

    ## Why it matters
    One of the two was taken from another chip of the family, or counted in other units.

    ## Example
    A region of SRAM from 0x60 to 0x15F, and a memory of SRAM from 0x60 with a size of 0x200.

    ## Instead
    `size="0x100"`.

    ## When to silence it
    Where the memory is one part of what the region holds, on purpose.
    """
    for memory in subject.chip.memories:
        space = subject.resolved.spaces.get(memory.space)
        kind = _REGIONS.get(memory.kind)
        for region in space.regions if space and memory.size else ():
            if region.last < memory.first or region.first > _last(memory):
                continue
            if region.kind == kind and _is_same(region, memory):
                continue
            if region.kind == "other":
                continue
            here = f"{shown(region.first)} to {shown(region.last)}"
            message = (
                f"{memory.name} takes {shown(memory.first)} to {shown(_last(memory))}, but "
                f"{region.name} ({region.kind}) is {here}; look both up"
            )
            yield Problem(message, memory.origin)


def _is_same(region: Region, memory: Memory) -> bool:
    return region.first == memory.first and region.last == _last(memory)


@rule("memory-pages-do-not-fit", WARNING)
def memory_pages_do_not_fit(subject: Subject) -> Iterator[Problem]:
    """A memory is no whole number of its pages.

    ## What it catches
    A size that `pageSize` or `eraseUnit` does not divide, and an erase unit that is no whole
    number of pages.

    ## Why it matters
    A program that writes page after page would write beyond the end. Bytes and words may be mixed.

    ## Example
    `size="0x400" pageSize="0x30"`

    ## Instead
    `pageSize="0x40"`

    ## When to silence it
    Where the data sheet says that the last page is a short one.
    """
    for memory in subject.chip.memories:
        for key, whole, part in (
            ("pageSize", memory.size, memory.page_size),
            ("eraseUnit", memory.size, memory.erase_unit),
            ("eraseUnit", memory.erase_unit, memory.page_size),
        ):
            if part is None or whole is None or (part and not whole % part):
                continue
            message = f"{memory.name}: {shown(whole)} is no whole number of {shown(part)}"
            yield Problem(f"{message}; look up size and pages", (memory.origin, key))
            break


@rule("identity-misplaced", ERROR)
def identity_misplaced(subject: Subject) -> Iterator[Problem]:
    """Where the bytes of the identity can be read is not said in full, or is not there.

    ## What it catches
    An identity with a `space` but no `address`, or the other way round, and one whose bytes end
    behind the last address of the space.

    ## Why it matters
    A program that asks which chip it runs on would read nothing, or something else.

    ## Example
    `<identity signature="0x51 0x09 0xA1" space="config" address="0x7"/>` in a space of 8 bytes.

    ## Instead
    `address="0x5"`, or neither space nor address where a programmer alone can read them.

    ## When to silence it
    Never.
    """
    identity = subject.chip.identity
    if identity is None or (identity.space is None and identity.address is None):
        return
    if identity.space is None or identity.address is None:
        has, lacks = ("a space", "address") if identity.space else ("an address", "space")
        message = f"the identity has {has} but no {lacks}; add it, or give neither"
        yield Problem(message, identity.origin)
        return
    space = subject.resolved.spaces.get(identity.space)
    count = len(identity.signature)
    units = -(-8 * count // space.unit) if space else 0
    if space is not None and identity.address + units > space.size:
        message = (
            f"the {count} bytes of the identity start at {shown(identity.address)}, but the last "
            f"address of the space {space.name} is {shown(max(space.size - 1, 0))}; look it up"
        )
        yield Problem(message, (identity.origin, "address"))
