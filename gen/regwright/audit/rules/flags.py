"""Rules on flags: what becomes of those that a write does not mean."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.problem import CodeProblem
from regwright.audit.put import NO_READ, Write, mask_of, names_of, problems, value_of, writable
from regwright.audit.subject import AuditSubject
from regwright.macros.operations import ZERO_ACTS
from regwright.model.finding import ERROR, WARNING
from regwright.resolve.facts import FieldFacts
from regwright.rules.catalogue import rule

#: What a write of a flag's own level does to it, and what any write does.
_ACTS = {
    "oneToClear": "writing 1 clears",
    "oneToToggle": "writing 1 toggles",
    "zeroToSet": "writing 0 sets",
    "zeroToToggle": "writing 0 toggles",
    "clear": "any write clears",
    "set": "any write sets",
    "modify": "any write changes",
}
#: What a write of the level that was read does only where the flag has changed since.
_ACTS_IN_BETWEEN = {"zeroToClear": "writing 0 clears", "oneToSet": "writing 1 sets"}


def _written_back(write: Write, acts: dict[str, str]) -> list[FieldFacts]:
    """Return the fields of the kinds ``acts`` that are, or may be, written as they were read."""
    if not write.put.is_modify or write.placed.facts.access in NO_READ:
        return []
    doubtful = write.put.unknown if write.operator != "=" else 0
    back = write.put.kept | doubtful
    return [
        item
        for item in writable(write.placed)
        if item.field.modified_write_value in acts and item.layout.mask & back
    ]


def _is_acknowledged(write: Write, fields: list[FieldFacts]) -> bool:
    """Tell whether the flags that were seen are written back on purpose, and nothing else.

    ``R = R`` and ``R = R & FLAG`` do that; in ``R = R & ~FLAG`` the other bits go with them.
    """
    put = write.put
    if write.operator != "=" or put.ones or put.unknown:
        return False
    return not put.zeros or not put.kept & ~mask_of(fields)


def _effects(fields: list[FieldFacts], acts: dict[str, str]) -> str:
    """Say what the write does to each field: ``writing 1 clears MATCH``."""
    by_effect: dict[str, list[FieldFacts]] = {}
    for item in fields:
        by_effect.setdefault(acts[item.field.modified_write_value or ""], []).append(item)
    return ", ".join(f"{effect} {names_of(group)}" for effect, group in by_effect.items())


def _meant(write: Write) -> FieldFacts | None:
    """Return the flag that a write is about when that is all that it is about."""
    about = write.put.changed or write.put.unknown
    flags = [item for item in writable(write.placed) if item.layout.mask & about]
    if len(flags) != 1 or flags[0].field.modified_write_value != "oneToClear":
        return None
    return flags[0]


def _instead(subject: AuditSubject, write: Write, fields: list[FieldFacts]) -> str:
    """Say what to write so that ``fields`` stay as they are."""
    name = write.placed.name
    flag = _meant(write)
    if flag is not None:
        own = f"{name}_{flag.field.name}_CLEAR()"
        does = f"clears {flag.field.name} and no other"
        if own.removesuffix("()") in subject.header:
            return f"{own} {does}"
        return f"{name} = {value_of(write.placed, flag.layout.mask)} {does}"
    effects = {item.field.modified_write_value or "" for item in fields}
    if effects <= {"clear", "set", "modify"}:
        return f"no write to {name} leaves {names_of(fields)} alone"
    return f"to leave {names_of(fields)} alone write {_leaving_alone(write, fields)}"


def _leaving_alone(write: Write, fields: list[FieldFacts]) -> str:
    """Return a statement that does what the write is about, and nothing to ``fields``."""
    name, put = write.placed.name, write.put
    ones = mask_of(item for item in fields if item.field.modified_write_value in ZERO_ACTS)
    zeros = mask_of(fields) & ~ones
    change = ["…"] if put.unknown else []
    if not put.unknown:
        ones |= put.ones
        zeros |= put.zeros
    if ones:
        change.insert(0, value_of(write.placed, ones))
    kept = f"{name} & ~{value_of(write.placed, zeros)}" if zeros else name
    if not change:
        return f"{name} = {kept}"
    return f"{name} = {f'({kept})' if zeros else kept} | {' | '.join(change)}"


@rule("flags-cleared-by-the-way", ERROR)
def flags_cleared_by_the_way(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A flag is written back as it was read, and that acts on it.

    ## What it catches
    `|=`, `&=`, `^=`, `++` and the like, and `R = R | …`, on a register with flags that writing 1
    clears or toggles, that writing 0 sets or toggles, or on which any write acts, when the value
    has them as they were read. Not `R = mask`, and not `R = R` or `R = R & flag`, which clear what
    was seen on purpose.

    ## Why it matters
    A flag that is set reads as 1 and is written back as 1, which clears it: the event is lost,
    rarely and never while one looks.

    ## Example
    `TMR_FLAGS |= TMR_FLAGS_MATCH_MASK;` clears OVERFLOW too. `ADC_CTRL |= ADC_CTRL_START_MASK;`
    clears DONE.

    ## Instead
    `TMR_FLAGS_MATCH_CLEAR();` of the emitted header, or `TMR_FLAGS = TMR_FLAGS_MATCH_MASK;`.
    `ADC_CTRL = (ADC_CTRL & ~ADC_CTRL_DONE_MASK) | ADC_CTRL_START_MASK;` leaves DONE alone.

    ## When to silence it
    Where every flag is to be cleared, or none can be set.
    """

    def say(write: Write) -> str:
        fields = _written_back(write, _ACTS)
        if not fields or write.is_by_header or _is_acknowledged(write, fields):
            return ""
        back = "it was" if len(fields) == 1 else "they were"
        return (
            f"{write.start} writes {names_of(fields)} back as {back} read, and "
            f"{_effects(fields, _ACTS)}; {_instead(subject, write, fields)}"
        )

    yield from problems(subject, say)


@rule("flag-lost-in-between", WARNING)
def flag_lost_in_between(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A flag is written back as it was read, which undoes what happened since.

    ## What it catches
    `|=`, `&=`, `++` and the like, and `R = R | …`, on a register with a flag that writing 0 clears,
    or a bit that writing 1 sets, when the value has it as it was read.

    ## Why it matters
    Between the read and the write the flag may be set: it was read as 0, and the 0 that is written
    back clears it. A bit that was read as 1 and is 0 since is set again.

    ## Example
    `WATCHDOG |= WATCHDOG_ENABLE_MASK;` where writing 0 clears FLAG.

    ## Instead
    `WATCHDOG |= WATCHDOG_ENABLE_MASK | WATCHDOG_FLAG_MASK;`: a 1 leaves FLAG alone.

    ## When to silence it
    Where the bit cannot change just then.
    """

    def say(write: Write) -> str:
        fields = _written_back(write, _ACTS_IN_BETWEEN)
        if not fields or write.is_by_header:
            return ""
        return (
            f"{write.start} writes {names_of(fields)} back as read, and "
            f"{_effects(fields, _ACTS_IN_BETWEEN)}, also when that has changed since the read; "
            f"to leave {names_of(fields)} alone write {_leaving_alone(write, fields)}"
        )

    yield from problems(subject, say)
