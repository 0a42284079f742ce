"""Rules on addresses in code: those behind pointers, and constants by the name of a register."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit import address_words as words
from regwright.audit.explained import (
    Group,
    OffByConstant,
    by_literal,
    delta_of,
    is_doubtful,
    place_of,
)
from regwright.audit.locations import ADDED_TWICE, ALREADY_ADDED, NOT_ADDED
from regwright.audit.named_numbers import WrongNumber, wrong_numbers
from regwright.audit.names import ADDRESS, EXACT
from regwright.audit.operands import faults
from regwright.audit.problem import CodeEdit, CodeProblem
from regwright.audit.renumber import Renumber
from regwright.audit.rules import instructions
from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import NOWHERE, OTHER_REGISTER, OTHER_SPACE, RIGHT, Verdict
from regwright.model.finding import ERROR, NOTE
from regwright.rules.catalogue import rule
from regwright.rules.digits import explain_slip
from regwright.rules.wording import label

_OFF_BY_A_CONSTANT = "file-off-by-a-constant"
#: The addresses that a message lists are no more than this.
_MOST_LISTED = 8


@rule(_OFF_BY_A_CONSTANT, ERROR)
def file_off_by_a_constant(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The addresses of a whole file are off by the same number.

    ## What it catches
    A file with three or more wrong addresses behind pointers, at least four of five of which one
    constant explains: the distance between two spaces was forgotten or added twice throughout, or
    the base is wrong. It is said once, with what each should be.

    ## Why it matters
    When forty addresses are wrong in one way, one thing is wrong: the column of the datasheet that
    was copied, or the chip that the file was made for. Forty findings would hide that.

    ## Example
    `#define OUT_B (*(volatile uint8_t *)0x18)`, and every other line with the I/O address as well.

    ## Instead
    `#define OUT_B (*(volatile uint8_t *)0x38)`, and so on: I/O 0x00 is seen at data 0x20.

    ## When to silence it
    On a file that is for another chip.
    """
    renumber = Renumber(subject)
    for found in subject.off_by_constant:
        first = found.groups[0][0]
        edits = [_edit(subject, renumber, group) for group in found.groups]
        certain = tuple(dict.fromkeys(edit for edit in edits if edit is not None))
        branches = {item.claim.branch for group in found.groups for item in group}
        yield CodeProblem(
            _off_by(subject, renumber, found),
            first.claim.at,
            branches.pop() if len(branches) == 1 else (),
            certain,
            f"{abs(found.delta):#04x} {'less' if found.delta > 0 else 'more'}" if certain else None,
        )


def _off_by(subject: AuditSubject, renumber: Renumber, found: OffByConstant) -> str:
    count = len(found.groups)
    of = f"all {count}" if count == found.total else f"{count} of {found.total}"
    distance, way = words.number(abs(found.delta)), "low" if found.delta < 0 else "high"
    right = [_right(group) for group in found.groups]
    claims = [item.claim for group in found.groups for item in group]
    is_sum = all(claim.literal is None for claim in claims)
    base = renumber.shared([place_of(claim) for claim in claims]) if is_sum else None
    sums = f". All are sums with {base.name}" if base is not None else ""
    doubtful = words.listed((_named(item) for item in found.doubtful), _MOST_LISTED)
    unsure = f". Look also at {doubtful}, which no name tells" if doubtful else ""
    return (
        f"{of} addresses behind pointers in this file are {distance} too {way}: "
        f"{_why(subject, found)} Right are {words.listed(right, _MOST_LISTED)}{sums}{unsure}"
    )


def _right(group: Group) -> str:
    """Return what a wrong address should be, and for whom."""
    first = group[0]
    right = words.number(words.start_of(first) - (first.delta or 0))
    if first.claim.base is not None:
        return f"{right} for {words.structure_of(first)}"
    name = first.claim.name
    return f"{right} for {name}" if name else f"{right} instead of {_named(first)}"


def _named(verdict: Verdict) -> str:
    address = words.number(verdict.claim.address)
    return f"{verdict.claim.name} ({address})" if verdict.claim.name else address


def _why(subject: AuditSubject, found: OffByConstant) -> str:
    """Say how all addresses may have become wrong, and what the first one does now."""
    wrong = [item for group in found.groups for item in group if item.kind != RIGHT]
    meant = wrong[0].meant
    kinds = {item.meant.kind if item.meant else "" for item in wrong}
    told = words.effect(subject, wrong[0].claim.address)
    effect = f"{told[:1].upper()}{told[1:]}."
    if meant is None or len(kinds) > 1:
        return f"is the base wrong, or is this the map of another chip? {effect}"
    if meant.kind == ADDED_TWICE:
        return f"was {words.number(meant.window.offset)} added twice? {effect}"
    return f"was the column of {label(meant.wrong_space)} addresses copied? {effect}"


def _open(subject: AuditSubject) -> list[Verdict]:
    """Return the verdicts without those that a finding on their whole file explains."""
    if _OFF_BY_A_CONSTANT in subject.switched_off:
        return subject.verdicts
    told = {
        id(item) for found in subject.off_by_constant for group in found.groups for item in group
    }
    return [item for item in subject.verdicts if id(item) not in told]


def _edit(subject: AuditSubject, renumber: Renumber, group: Group) -> CodeEdit | None:
    """Return the edit that puts right all that the literal of ``group`` gives, if that is certain.

    It is not where the literal is right for something else, or where several registers may be
    meant.
    """
    delta = delta_of(group)
    if not delta:
        return None
    for item in group:
        is_right = item.kind == RIGHT and not item.certainty
        if is_right and not is_doubtful([item], delta, subject.locations, subject.space):
            return None
        if item.kind == OTHER_SPACE and not item.certainty:
            seen = subject.locations.seen_through(subject.space, item.claim.address)
            if len({meant.right for meant in seen}) > 1:
                return None
    start = words.start_of(group[0])
    places = [place_of(item.claim) for item in group]
    return renumber.edit(group[0].claim.literal, start, start - delta, places, subject.space)


def _problems(
    message: str, group: Group, edit: CodeEdit | None, repeats: str = ""
) -> Iterator[CodeProblem]:
    """Yield the problem of a group once, where it is first, for each of its branches.

    ``repeats`` is added to the message when the literal is used at other places, too.
    """
    at = group[0].claim.at
    if len({item.claim.at for item in group}) > 1:
        message += repeats
    edits = () if edit is None else (edit,)
    for branch in dict.fromkeys(item.claim.branch for item in group):
        yield CodeProblem(message, at, branch, edits, edit.text if edit else None)


@rule("io-address-behind-pointer", ERROR)
def io_address_behind_pointer(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A pointer has the address of another space: mostly an I/O address.

    ## What it catches
    An address behind a pointer, or in an instruction that takes one of data space, that is a
    register's in another space: by the name that the source gives it, or because nothing that a
    pointer may aim at is there.

    ## Why it matters
    A C pointer takes the data address. With the I/O address in it the program compiles, uploads
    and writes a CPU register; the pin stays dead.

    ## Example
    `#define OUT_B (*(volatile uint8_t *)0x18)` where I/O 0x00 is seen at data 0x20.

    ## Instead
    `#define OUT_B (*(volatile uint8_t *)0x38)`, or the emitted header.

    ## When to silence it
    When the code really means what lies there: a CPU register through its data address.
    """
    yield from _of_another_space(subject, (NOT_ADDED, ALREADY_ADDED))
    yield from instructions.told(
        subject, [item for item in faults(subject) if item.use.described.space == subject.space]
    )


@rule("pointer-offset-added-twice", ERROR)
def pointer_offset_added_twice(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The distance between two spaces was added twice to an address behind a pointer.

    ## What it catches
    An address behind a pointer that is as far past its register's as the window moves it.

    ## Why it matters
    The number printed was the data address already. The pointer hits another register or RAM.

    ## Example
    `#define OUT_B (*(volatile uint8_t *)(0x38 + 0x20))`

    ## Instead
    `#define OUT_B (*(volatile uint8_t *)0x38)`

    ## When to silence it
    When the name means something else than the register of that name.
    """
    yield from _of_another_space(subject, (ADDED_TWICE,))


def _of_another_space(subject: AuditSubject, kinds: tuple[str, ...]) -> Iterator[CodeProblem]:
    renumber = Renumber(subject)
    for group in by_literal(_open(subject)):
        wrong = [item for item in group if item.meant is not None and item.meant.kind in kinds]
        for delta in dict.fromkeys(item.delta for item in wrong):
            same = [item for item in wrong if item.delta == delta]
            edit = _edit(subject, renumber, group)
            message = words.of_another_space(subject, same)
            more = len({item.claim.at for item in same}) - 1
            yield from _problems(message, same, edit, f"; so in {more} more places")


@rule("name-at-other-address", ERROR)
def name_at_other_address(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The name of a register stands for an address that is not the register's.

    ## What it catches
    A register's own name or alias, for an address behind a pointer or for a constant, with a
    number that is none of the register's; a constant whose name says that it is the address of a
    register. For `OUT_B_IO_ADDR` and the like only the address in that space is right.

    ## Why it matters
    Whoever reads the name trusts it. What is written to OUT_B goes to another register.

    ## Example
    `#define OUT_B (*(volatile uint8_t *)0x39)`, which is IN_B, or `#define OUT_B_IO_ADDR 0x38`.

    ## Instead
    `#define OUT_B (*(volatile uint8_t *)0x38)`, `#define OUT_B_IO_ADDR 0x18`

    ## When to silence it
    When the name means something else in that file.
    """
    renumber = Renumber(subject)
    yield from _at_other_address(subject, renumber)
    for wrong in wrong_numbers(subject):
        match = wrong.match
        if match.certainty == EXACT or (match.says == ADDRESS and not wrong.others):
            yield _number_problem(renumber, wrong)


def _at_other_address(subject: AuditSubject, renumber: Renumber) -> Iterator[CodeProblem]:
    for group in by_literal(_open(subject)):
        for same in _by_name(group):
            if same[0].certainty == EXACT:
                message = words.another_register(subject, same)
                edit = _edit(subject, renumber, group) if words.slip_of(same[0]) else None
                yield from _problems(message, same, edit)


def _by_name(group: Group) -> list[Group]:
    """Return the verdicts for another register than the name's, for each name and address."""
    found: dict[tuple[str, int], Group] = {}
    for item in group:
        if item.kind == OTHER_REGISTER:
            found.setdefault((item.claim.name, item.claim.address), []).append(item)
    return list(found.values())


def _number_problem(renumber: Renumber, wrong: WrongNumber) -> CodeProblem:
    item, value, match = wrong.definition, wrong.value, wrong.match
    is_exact = match.certainty == EXACT
    only = wrong.right[0].value if len(wrong.right) == 1 else None
    slip = ""
    if not wrong.own and not wrong.others and only is not None and value >= 0:
        slip = explain_slip(value, only)
    edit = None
    if slip and only is not None and is_exact:
        edit = renumber.own_edit(item, value, only)
    reads = "" if is_exact else f"reads as {match.placed.name} and "
    return CodeProblem(
        f"{item.name} {reads}is {words.number(value)}, but {match.placed.name} has "
        f"{words.addresses(wrong.right)}{_where_else(wrong, slip)}",
        *(item.name_at, item.branch),
        () if edit is None else (edit,),
        edit.text if edit else None,
    )


def _where_else(wrong: WrongNumber, slip: str) -> str:
    """Say what a wrong constant is instead."""
    value = words.number(wrong.value)
    if wrong.own:
        return f"; {value} is its {label(wrong.own[0])} address"
    if wrong.others:
        space, name = wrong.others[0]
        return f"; {value} is the {label(space)} address of {name}"
    return f"; {slip}" if slip else ""


@rule("address-with-other-name", ERROR)
def address_with_other_name(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The address of one register has a name that reads as another's.

    ## What it catches
    A name that is nearly a register's, or has the words of its title, for an address that another
    register has: behind a pointer, or as a constant.

    ## Why it matters
    One of the two is wrong: the line was copied and only half of it changed.

    ## Example
    `#define DIRB (*(volatile uint8_t *)0x38)`: it reads as DIR_B, which is at 0x37; 0x38 is OUT_B.

    ## Instead
    `#define DIRB (*(volatile uint8_t *)0x37)`

    ## When to silence it
    When the name means something else in that file.
    """
    for group in by_literal(_open(subject)):
        for same in _by_name(group):
            if same[0].certainty != EXACT:
                yield from _problems(words.reads_as(subject, same), same, None)
    for wrong in wrong_numbers(subject):
        if wrong.match.certainty != EXACT and wrong.others:
            space, name = wrong.others[0]
            placed = wrong.match.placed
            yield CodeProblem(
                f"{wrong.definition.name} reads as {placed.name}, which has "
                f"{words.addresses(placed.addresses)}, but {words.number(wrong.value)} is the "
                f"{label(space)} address of {name}",
                *(wrong.definition.name_at, wrong.definition.branch),
            )


@rule("address-hits-nothing", NOTE)
def address_hits_nothing(subject: AuditSubject) -> Iterator[CodeProblem]:
    """An address behind a pointer is no register's.

    ## What it catches
    With `--pedantic`: addresses behind pointers at which the description has no register, and whose
    names mean none.

    ## Why it matters
    The description may lack a register, or the address may be mistyped where no name tells.

    ## Example
    `*(volatile uint8_t *)0x5A = 1;` where the datasheet has nothing.

    ## Instead
    Describe the register, or look the address up.

    ## When to silence it
    When it is RAM, a table in program memory, or what another description holds.
    """
    for item in subject.verdicts if subject.pedantic else ():
        if item.kind != NOWHERE:
            continue
        address = item.claim.address
        name = f"{item.claim.name} ({words.number(address)})" if item.claim.name else ""
        hits = subject.locations.hits(subject.space, address)
        message = (
            f"{name or words.number(address)} is no register's address: in {label(subject.space)} "
            f"space it hits {hits}"
        )
        yield CodeProblem(message, item.claim.at, item.claim.branch)


@rule("name-means-nothing", NOTE)
def name_means_nothing(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The name of a register's address means no register.

    ## What it catches
    With `--pedantic`: definitions at the address of a register whose names are neither its own nor
    like it, nor have the words of its title.

    ## Why it matters
    The audit holds such an address against nothing: were it another register's, nobody would see.

    ## Example
    `#define LATCH (*(volatile uint8_t *)0x38)`, which is OUT_B.

    ## Instead
    `#define LATCH OUT_B` with the emitted header, or an alias in the description.

    ## When to silence it
    When the name says what is connected there, and is meant to.
    """
    for item in subject.verdicts if subject.pedantic else ():
        claim = item.claim
        is_named = claim.name and claim.form not in ("access", "member")
        if any(name in subject.header for name in subject.names_in(claim.whole)):
            continue  # the header tells which register it is
        if item.kind == RIGHT and not item.certainty and is_named and item.placed:
            message = (
                f"{claim.name} ({words.number(claim.address)}) is at {item.placed.name}, which the "
                "name does not tell"
            )
            yield CodeProblem(message, claim.at, claim.branch)
