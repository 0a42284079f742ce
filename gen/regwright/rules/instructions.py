"""Rules on the instructions and C functions that take an address."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.chip import Instruction
from regwright.model.finding import ERROR
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import label


@rule("instruction-repeats", ERROR)
def instruction_repeats(subject: Subject) -> Iterator[Problem]:
    """An instruction is described twice.

    ## What it catches
    A mnemonic, or the name of a C function, that stands twice for the same operand as an address
    of the same space.

    ## Why it matters
    Either the two say the same, or one is wrong, and whoever reads the description has to guess
    which.

    ## Example
    `<instruction names="in out" space="io" access="read" address="2"/>` with a line for `out`
    below it.

    ## Instead
    One line for each: `names="in"` there.

    ## When to silence it
    Never. One mnemonic may stand in several lines for different operands or spaces.
    """
    seen: dict[tuple[str, str, str, int], tuple[int, Instruction]] = {}
    for number, item in enumerate(subject.chip.instructions, 1):
        for name in item.names:
            key = (item.kind, name, item.space, item.address)
            if key in seen:
                message = _twice(name, seen[key], (number, item))
                yield Problem(message, (item.origin, "names"), name)
            else:
                seen[key] = (number, item)


def _twice(name: str, before: tuple[int, Instruction], now: tuple[int, Instruction]) -> str:
    """Say where ``name`` stands twice; the numbers count the instructions from 1."""
    first, earlier = before
    second, item = now
    what = (
        f"the {item.kind} {name}, with an address of {label(item.space)} space as operand "
        f"{item.address}, stands"
    )
    if first == second:
        return f"{what} twice in entry {first} of instructions; remove one"
    both = f"{what} in entry {first} and in entry {second} of instructions"
    differing = [
        key for key in ("access", "bit", "value") if getattr(item, key) != getattr(earlier, key)
    ]
    if differing:
        return f"{both}, which differ in {' and '.join(differing)}; keep the right one"
    return f"{both}, which say the same; remove it from one"


@rule("operands-coincide", ERROR)
def operands_coincide(subject: Subject) -> Iterator[Problem]:
    """One operand of an instruction is two things.

    ## What it catches
    An instruction whose address, bit number and value are not operands of their own.

    ## Why it matters
    One operand cannot be an address and a value: one of the numbers is mistyped.

    ## Example
    `<instruction names="out" space="io" access="write" address="1" value="1"/>`

    ## Instead
    `address="1" value="2"`, as the assembler wants them.

    ## When to silence it
    Never.
    """
    for item in subject.chip.instructions:
        places = {item.address: "address"}
        for key, operand in (("bit", item.bit), ("value", item.value)):
            if operand is None:
                continue
            other = places.setdefault(operand, key)
            if other != key:
                message = (
                    f"operand {operand} of {item.names[0]} is the {other} and the {key} at once; "
                    "count the operands from 1, as the assembler or C has them"
                )
                yield Problem(message, (item.origin, key))
