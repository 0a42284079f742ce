"""Rules on the table of interrupt vectors."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import shown
from regwright.model.finding import ERROR, WARNING
from regwright.rules.catalogue import Problem, Subject, rule

#: The kinds of memories that hold no program.
_NOT_FETCHED = ("eeprom", "configuration")


@rule("vector-repeats", ERROR)
def vector_repeats(subject: Subject) -> Iterator[Problem]:
    """Two vectors have one number or one name.

    ## What it catches
    A vector whose number or name an earlier vector has.

    ## Why it matters
    Two functions cannot stand at one place; the table of the program would be off from there on.

    ## Example
    `<vector number="3" name="NVM_READY"/>` and `<vector number="3" name="ADC_DONE"/>`

    ## Instead
    `number="4"` for the second, if the data sheet says so.

    ## When to silence it
    Never.
    """
    table = subject.chip.vector_table
    numbers: dict[int, str] = {}
    names: dict[str, int] = {}
    for vector in table.vectors if table else ():
        if numbers.setdefault(vector.number, vector.name) != vector.name:
            message = (
                f"{vector.name} has the number {vector.number}, as {numbers[vector.number]} has; "
                "look both up"
            )
            yield Problem(message, (vector.origin, "number"))
        elif vector.name in names:
            message = f"{vector.name} is a vector already, number {names[vector.name]}"
            yield Problem(f"{message}; look both up", (vector.origin, "name"))
        names.setdefault(vector.name, vector.number)


@rule("vector-missing", WARNING)
def vector_missing(subject: Subject) -> Iterator[Problem]:
    """The numbers of the vectors have a gap.

    ## What it catches
    A vector behind one or more numbers that no vector has.

    ## Why it matters
    A row of the data sheet's table was skipped. An interrupt without a name is one that a program
    cannot take care of.

    ## Example
    Vectors 0, 1 and 3.

    ## Instead
    Add vector 2, or one named as the data sheet names what is reserved.

    ## When to silence it
    Where the data sheet's table has no row for these numbers either.
    """
    table = subject.chip.vector_table
    following = 0
    for vector in sorted(table.vectors if table else (), key=lambda item: item.number):
        if vector.number > following:
            last = vector.number - 1
            which = str(last) if last == following else f"{following} to {last}"
            message = f"{vector.name} has the number {vector.number}, but no vector has {which}"
            yield Problem(f"{message}; was a row skipped?", (vector.origin, "number"))
        following = max(following, vector.number + 1)


@rule("vector-misplaced", ERROR)
def vector_misplaced(subject: Subject) -> Iterator[Problem]:
    """The address of a vector is not where its number puts it.

    ## What it catches
    An `address` that differs from the table's base plus the vector's number times its size, and
    vectors without any size.

    ## Why it matters
    Either the number or the address was mistyped, or the size of a vector is wrong.

    ## Example
    `number="3" address="0x0008"` where each vector takes 2 units from 0 on.

    ## Instead
    `number="4"`, or `address="0x0006"`.

    ## When to silence it
    Where the vectors do not stand in a row; leave the table's size at what most take.
    """
    table = subject.chip.vector_table
    if table is None:
        return
    if not table.size:
        message = "a vector of size 0 takes no place; look up how many units one takes"
        yield Problem(message, (table.origin, "size"))
        return
    for vector in table.vectors:
        place = table.base + vector.number * table.size
        if vector.address is not None and vector.address != place:
            message = (
                f"{vector.name} has the address {shown(vector.address)}, but vector "
                f"{vector.number} stands at {shown(place)}; look up number, address and size"
            )
            yield Problem(message, (vector.origin, "address"))


@rule("vectors-outside-memory", ERROR)
def vectors_outside_memory(subject: Subject) -> Iterator[Problem]:
    """The table of vectors reaches beyond the memory it lies in.

    ## What it catches
    A vector that stands in none of the memories of its space; where the description has no memory
    there, one that stands outside the space.

    ## Why it matters
    The CPU would fetch the function's address from nowhere. Base, size or space are wrong.

    ## Example
    `base="0x1F00"` in a memory of 0x400 units.

    ## Instead
    `base="0x0000"`.

    ## When to silence it
    Never.
    """
    table = subject.chip.vector_table
    space = subject.resolved.spaces.get(table.space) if table else None
    if table is None or space is None or not table.size:
        return
    spans = [(m.first, m.first + m.size) for m in subject.chip.memories if m.space == space.name]
    for vector in table.vectors:
        first = table.base + vector.number * table.size
        last = first + table.size
        if not any(low <= first and last <= high for low, high in spans or [(0, space.size)]):
            where = f"the memories of {space.name}" if spans else f"the space {space.name}"
            message = f"{vector.name} stands at {shown(first)}, outside {where}"
            yield Problem(f"{message}; look up base and size of the table", vector.origin)


@rule("vectors-in-other-memory", WARNING)
def vectors_in_other_memory(subject: Subject) -> Iterator[Problem]:
    """The table of vectors lies in a memory from which no CPU fetches.

    ## What it catches
    A table of vectors that starts in a memory of the kind `eeprom` or `configuration`.

    ## Why it matters
    The CPU fetches its vectors from a program memory or from RAM. The space was mistyped.

    ## Example
    `<vectorTable space="eeprom" size="4">`

    ## Instead
    `space="program"`

    ## When to silence it
    Where programs run from that memory too.
    """
    table = subject.chip.vector_table
    if table is None:
        return
    for memory in subject.chip.memories:
        if memory.space != table.space or memory.kind not in _NOT_FETCHED:
            continue
        if memory.first <= table.base < memory.first + memory.size:
            message = f"the vectors lie in {memory.name}, which is of the kind {memory.kind}"
            yield Problem(f"{message}; look up their space and base", (table.origin, "space"))
