"""Rules on what one part of a description says of another."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.finding import ERROR
from regwright.rules.catalogue import Problem, Subject, rule


@rule("unknown-reference", ERROR)
def unknown_reference(subject: Subject) -> Iterator[Problem]:
    """A condition or alias names something that is not there.

    ## What it catches
    A `when` whose field, or an `aliasOf` whose register, no part of the description has; a `when`
    whose value the field cannot hold.

    ## Why it matters
    The reason for a shared address is then no reason at all.

    ## Example
    `when="LINE_CTRL.DLAP = 1"`

    ## Instead
    `when="LINE_CTRL.DLAB = 1"`

    ## When to silence it
    Never.
    """
    if not any(placed.register.when or placed.register.alias_of for placed in subject.described):
        return
    registers = {placed.register.name for placed in subject.described}
    fields = {
        f"{placed.register.name}.{item.field.name}": item.layout.width
        for placed in subject.described
        if placed.facts.fields
        for item in placed.facts.fields
    }
    for placed in subject.described:
        register = placed.register
        for condition in () if placed.half else register.when:
            if condition.field not in fields:
                message = f"{placed.name} depends on {condition.field}, which is no field here"
                yield Problem(message + "; write REGISTER.FIELD", (register.origin, "when"))
            elif condition.value >> fields[condition.field]:
                message = (
                    f"{placed.name} depends on {condition.field} being {condition.value}, which is "
                    "more than that field holds"
                )
                yield Problem(message, (register.origin, "when"))
        if register.alias_of is not None and register.alias_of not in registers:
            message = f"{placed.name} is an alias of {register.alias_of}, which is no register here"
            yield Problem(message, (register.origin, "aliasOf"))


@rule("row-without-step", ERROR)
def row_without_step(subject: Subject) -> Iterator[Problem]:
    """A row of blocks has no distance between its elements.

    ## What it catches
    A block with a `count` of more than one, but neither a `stride` nor a `size`.

    ## Why it matters
    All its elements would stand at one address.

    ## Example
    `<block name="CH" count="4" …>`

    ## Instead
    `<block name="CH" count="4" stride="0x20" …>`

    ## When to silence it
    Never.
    """
    waiting = list(subject.chip.blocks)
    while waiting:
        block = waiting.pop(0)
        waiting += block.blocks
        row = block.array
        if row and row.length > 1 and not row.stride and not block.size:
            message = f"{block.name} stands {row.length} times in a row; give it a stride"
            yield Problem(message, (block.origin, "count"))


@rule("halves-do-not-fit", ERROR)
def halves_do_not_fit(subject: Subject) -> Iterator[Problem]:
    """A register with two halves cannot be halved.

    ## What it catches
    Halves of a register whose width is odd or below 16 bits.

    ## Why it matters
    Each half is a register of its own, half as wide.

    ## Example
    `<register name="COUNT" width="8"><halves>…`

    ## Instead
    `width="16"`.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        if placed.register.halves and (placed.facts.width < 16 or placed.facts.width % 16):
            message = (
                f"{placed.name} is {placed.facts.width} bits wide and has halves; "
                "they need a width of 16, 32, 48 or 64"
            )
            key = "width" if placed.register.width is not None else "halves"
            yield Problem(message, (placed.register.origin, key))
