"""The rule on what a person must still look at."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from regwright.model.chip import Block, Chip, Register
from regwright.model.finding import WARNING
from regwright.rules.catalogue import Problem, Subject, rule


@rule("needs-review", WARNING)
def needs_review(subject: Subject) -> Iterator[Problem]:
    """A part of the description was imported and could not be read with certainty.

    ## What it catches
    A `review` mark: it says what a person must look at.

    ## Why it matters
    An import marks instead of guessing. Until somebody has looked, the value may be wrong.

    ## Example
    `review="the address 0xOB has a letter O; 0x0B was read"`

    ## Instead
    Look it up, correct the value if need be, and remove the mark.

    ## When to silence it
    Never: remove the mark.
    """
    for node in _nodes(subject.chip):
        if node.review is not None:
            name = getattr(node, "name", "") or "these bits"
            message = f"{name} needs review: {node.review}"
            yield Problem(message, (node.origin, "review"))


def _nodes(chip: Chip) -> Iterator[Any]:
    """Yield every node that may carry a mark."""
    for register in chip.registers:
        yield from _of_register(register)
    waiting: list[Block] = list(chip.blocks)
    while waiting:
        block = waiting.pop(0)
        yield block
        for register in block.registers:
            yield from _of_register(register)
        waiting += block.blocks
    for word in chip.configuration.words if chip.configuration else ():
        yield word
        yield from word.fields
    yield from chip.vector_table.vectors if chip.vector_table else ()
    for package in chip.packages:
        yield from package.pins


def _of_register(register: Register) -> Iterator[Any]:
    yield register
    if register.halves:
        yield register.halves.low
        yield register.halves.high
    yield from register.reserved
    for field in register.fields:
        yield field
        yield from field.values
