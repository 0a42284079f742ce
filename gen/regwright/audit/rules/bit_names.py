"""Rules on the numbers and masks of bits: whose they are, and whether one is used as the other."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.bit_uses import COUNT, BitUse, bit_uses
from regwright.audit.bit_words import in_truth, is_right, right_of, what_has
from regwright.audit.loose_bits import wrong_loose
from regwright.audit.names import ALIKE, EXACT, MASK, POSITION, RESET, Match
from regwright.audit.problem import CodeProblem
from regwright.audit.put import value_of
from regwright.audit.related import are_related, is_at_home
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Definition, Number
from regwright.model.finding import ERROR
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import rule

_OF_BITS = frozenset({"", POSITION, MASK})


def bits_named(subject: AuditSubject, name: str) -> list[Match]:
    """Return the fields and values that a name with its register means, when it can be no else."""
    found = [item for item in subject.names.find(name) if item.certainty >= ALIKE]
    return found if all(item.field and item.says in _OF_BITS for item in found) else []


@rule("bit-of-another-name", ERROR)
def bit_of_another_name(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A name for a bit, a mask or a value stands for another one.

    ## What it catches
    A constant by the name of a register and its field, or a value of that, whose number is neither
    the position nor the mask nor the value that the name says; an `R_RESET` that is not the reset
    value; and a name of a field alone (`LED`) that is used for the register which has that field.

    ## Why it matters
    The program switches the neighbour: on the greenhouse controller a vent motor for the lamp.

    ## Example
    `#define OUT_B_LED_BITPOS 1`, or `#define LED 1` with `OUT_B |= 1 << LED`; bit 1 is VENT_CLOSE.

    ## Instead
    `#define OUT_B_LED_BITPOS 2`, or the header's own macros.

    ## When to silence it
    Where the board has the thing at another bit; better give it a name of its own.
    """
    shifts = _shifts(subject)
    for item in subject.seen.definitions:
        if isinstance(item.means, Number):
            match = _contradicted(subject, item, item.means.value, shifts)
            if match is not None:
                number = item.means.value
                yield CodeProblem(
                    f"{item.name} is {_shown(match, number)}, but {right_of(match)}"
                    f"{in_truth(match, number)}",
                    item.name_at,
                    item.branch,
                )
    for wrong in wrong_loose(subject):
        match, number = wrong.match, wrong.number
        yield CodeProblem(
            f"{wrong.name} is {_shown(match, number)}, but {right_of(match._replace(says=''))}"
            f"{in_truth(match, number)}",
            wrong.at,
            wrong.branch,
        )


def _shifts(subject: AuditSubject) -> set[int]:
    """Return the identities of the fields for whose positions the sources have names."""
    return {
        id(match.field)
        for item in subject.seen.definitions
        if isinstance(item.means, Number)
        for match in subject.names.find(item.name)
        if match.field is not None and match.says == POSITION
    }


def _contradicted(
    subject: AuditSubject, item: Definition, number: int, shifts: set[int]
) -> Match | None:
    """Return what the name of a constant means when its number is none that it can stand for."""
    found = subject.names.find(item.name)
    if not found or not all(_is_number(match) for match in found):
        return None
    if any(
        is_right(match, item.name, number, has_shift=id(match.field) in shifts) for match in found
    ):
        return None
    return found[0]


def _is_number(match: Match) -> bool:
    """Tell whether what a name means says which number it stands for."""
    if match.field is None:
        return match.says == RESET and match.certainty == EXACT
    return match.says in _OF_BITS


def _shown(match: Match, number: int) -> str:
    """Return a wrong number as the right one is written: positions decimal, the rest not."""
    is_small = not match.says and number < match.placed.facts.width
    return str(number) if match.says == POSITION or is_small else value_of(match.placed, number)


@rule("bit-of-another-register", ERROR)
def bit_of_another_register(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The name of one register's bit is used for another register.

    ## What it catches
    A name that is exactly that of a field of another register, or its alias, in what is written to
    a register or asked of it. Not where the two registers have the same field, nor where the bits
    mean nothing by themselves: `DIR_B |= OUT_B_LED_MASK` is right.

    ## Why it matters
    The bit at that place means something else here; it compiles, for numbers have no registers.

    ## Example
    `TMR_IRQ |= OUT_B_LED_MASK;`

    ## Instead
    The bit of this register, or the register of this bit.

    ## When to silence it
    Where two registers are laid out alike and the description does not say so.
    """
    for use in bit_uses(subject):
        match = stranger(subject, use)
        if match is not None:
            here = " or ".join(item.name for item in use.registers)
            placed = use.registers[0]
            bits = _about(match, use)
            yield CodeProblem(
                f"{use.name} is a bit of {match.placed.name}, but this is {here}, where "
                f"{_bits_shown(placed, use, bits)} {what_has(placed, bits)}",
                use.at,
                use.branch,
            )


def stranger(subject: AuditSubject, use: BitUse) -> Match | None:
    """Return what the name means when that is no bit of any register that it is used for."""
    found = bits_named(subject, use.name)
    if not found or not use.arrives:
        return None
    for match in found:
        is_known = match.certainty != EXACT or any(
            are_related(match.placed, placed) or is_at_home(match, _about(match, use), placed)
            for placed in use.registers
        )
        if is_known:
            return None
    return found[0]


def _about(match: Match, use: BitUse) -> int:
    """Return the bits that a name is about: those that it says, else those of its field."""
    field = match.field
    if field is not None and match.says == POSITION:
        return 1 << field.layout.position
    bits = (use.bits or 0) & ((1 << match.placed.facts.width) - 1)
    return bits or (field.layout.mask if field is not None else 0)


def _bits_shown(placed: Placed, use: BitUse, bits: int) -> str:
    if use.role == COUNT:
        return f"bit {bits.bit_length() - 1} is"
    return f"{value_of(placed, bits)} is"
