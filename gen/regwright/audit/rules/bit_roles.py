"""Rules on positions and masks that are taken for each other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from regwright.audit.bit_uses import COUNT, BitUse, bit_uses
from regwright.audit.bit_words import fits_as_mask, reaches, what_has
from regwright.audit.loose_bits import loose_matches
from regwright.audit.names import EXACT, MASK, POSITION, Match
from regwright.audit.problem import CodeEdit, CodeProblem
from regwright.audit.put import value_of
from regwright.audit.rules.bit_names import bits_named, stranger
from regwright.audit.subject import AuditSubject
from regwright.model.finding import ERROR
from regwright.resolve.facts import FieldFacts
from regwright.rules.catalogue import rule

#: Arithmetic before a name and behind it, and how far from it at most.
_RECKONED_BEFORE = re.compile(rb"[-+*/%]=?[\s(]*\Z")
_RECKONED_BEHIND = re.compile(rb"[\s)]*[-+*/%]")
_NEAR = 40


class _Mistaken(NamedTuple):
    """A name that is used as what it is not, and the field that it is of."""

    use: BitUse
    match: Match
    field: FieldFacts


@rule("position-as-mask", ERROR)
def position_as_mask(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The position of a bit is used as its mask.

    ## What it catches
    A name that says or has a bit's position, as an operand of `|`, `&`, `^` or `~` or alone, in
    what is written to a register or asked of it.

    ## Why it matters
    `OUT_B |= 2` sets bit 1. The bit that is meant stays as it is, and its neighbour changes.

    ## Example
    `OUT_B |= OUT_B_LED_BITPOS;`

    ## Instead
    `OUT_B |= OUT_B_LED_MASK;` or `OUT_B |= 1U << OUT_B_LED_BITPOS;`

    ## When to silence it
    Never; where the number is meant as a mask, call it one.
    """
    for use, match, field in _mistaken(subject, POSITION):
        layout, placed = field.layout, match.placed
        number = layout.position if use.number is None else use.number
        hit = what_has(placed, number) if number > 0 else "no bit"
        yield CodeProblem(
            f"{use.name} is the position of {field.field.name} in {placed.name} and is used as a "
            f"mask: {value_of(placed, max(number, 0))} is {hit}; its mask is "
            f"{_or_by_name(subject, match, 'MASK', value_of(placed, layout.mask))}",
            use.at,
            use.branch,
            *_edit(subject, use, match, "MASK"),
        )


@rule("mask-as-position", ERROR)
def mask_as_position(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The mask of a bit is used as its position.

    ## What it catches
    A name that says or has a bit's mask, as how far something is shifted in what is written to a
    register or asked of it, as the argument of a macro that shifts by it, and as the bit number of
    an instruction.

    ## Why it matters
    `1 << 4` is bit 4, where the mask 4 means bit 2: another bit changes, or none at all.

    ## Example
    `OUT_B |= 1 << OUT_B_LED_MASK;`

    ## Instead
    `OUT_B |= OUT_B_LED_MASK;` or `OUT_B |= 1U << OUT_B_LED_BITPOS;`

    ## When to silence it
    Never; where the number is meant as a position, call it one.
    """
    for use, match, field in _mistaken(subject, MASK):
        layout, placed = field.layout, match.placed
        number = layout.mask if use.number is None else use.number
        hit = what_has(placed, 1 << number) if 0 <= number < 64 else "no bit at all"
        yield CodeProblem(
            f"{use.name} is the mask of {field.field.name} in {placed.name} and is used as a "
            f"position: bit {number} is {hit}; its position is "
            f"{_or_by_name(subject, match, 'BITPOS', str(layout.position))}",
            use.at,
            use.branch,
            *_edit(subject, use, match, "BITPOS"),
        )


def _mistaken(subject: AuditSubject, kind: str) -> Iterator[_Mistaken]:
    """Yield the names that are of ``kind``, a position or a mask, and used as the other."""
    for use in bit_uses(subject):
        matches = bits_named(subject, use.name) or loose_matches(subject, use)
        own = [item for item in matches if item.placed in use.registers] or matches
        verdicts = {_verdict(match, use) for match in own}
        field = own[0].field if own else None
        if verdicts == {kind} and field is not None and stranger(subject, use) is None:
            yield _Mistaken(use, own[0], field)


def _verdict(match: Match, use: BitUse) -> str:
    """Return what a name is when it is used as the other: a position, or a mask; else nothing."""
    if match.field is None or match.value is not None:
        return ""
    layout, number = match.field.layout, use.number
    if use.role == COUNT:
        if number is None:
            return MASK if match.says == MASK else ""
        is_mask = match.says == MASK or number == layout.mask
        return MASK if is_mask and not reaches(layout, number) else ""
    if match.says == POSITION:
        return POSITION if number != layout.mask else ""
    if number != layout.position or match.says == MASK or fits_as_mask(match, layout, number):
        return ""
    return POSITION


def _or_by_name(subject: AuditSubject, match: Match, word: str, right: str) -> str:
    """Return the right number, with its name where the header has one."""
    name = _by_name(match, word)
    return f"{right}, {name}" if name in subject.header else right


def _by_name(match: Match, word: str) -> str:
    field = match.field.field.name if match.field is not None else ""
    return f"{match.placed.name}_{field}_{word}"


def _edit(
    subject: AuditSubject, use: BitUse, match: Match, word: str
) -> tuple[tuple[CodeEdit, ...], str | None]:
    """Return the edit that puts the right name of the header where it has the wrong one.

    It is certain only for one bit, and where no source defines the name that stands there.
    """
    name = _by_name(match, word)
    is_one_bit = match.field is not None and match.field.layout.width == 1
    is_headers = match.certainty == EXACT and {use.name, name} <= subject.header
    if not is_one_bit or not is_headers or not _is_bare(subject, use):
        return (), None
    if any(item.name in (use.name, name) for item in subject.seen.definitions):
        return (), None
    return (CodeEdit(use.at, name),), name


def _is_bare(subject: AuditSubject, use: BitUse) -> bool:
    """Tell whether a name stands as it is, and nothing is reckoned with it."""
    data = subject.files[use.at.file].data
    before = data[max(use.at.start - _NEAR, 0) : use.at.start]
    after = data[use.at.end : use.at.end + _NEAR]
    is_reckoned = _RECKONED_BEFORE.search(before) or _RECKONED_BEHIND.match(after)
    return subject.text(use.at) == use.name and is_reckoned is None
