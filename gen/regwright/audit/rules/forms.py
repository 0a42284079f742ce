"""Rules on the form of definitions: volatile, parentheses, width; and configuration values."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.address_words import excerpt, listed, number
from regwright.audit.casts import place_in_cast, place_in_declaration
from regwright.audit.named_numbers import Reached, named_numbers
from regwright.audit.problem import CodeEdit, CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import Claim, Verdict
from regwright.audit.widths import Widths
from regwright.code.grammar import Shapes
from regwright.code.seen import Definition, Location, Number, Where
from regwright.code.text import C
from regwright.model.finding import ERROR, WARNING
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import rule
from regwright.rules.wording import bit_list

#: What takes an expression of several operands apart when something is put next to it.
_OPERATORS = frozenset({"binary", "choice", "comma", "assign"})
#: What comes first in these: a sign put behind (ISO C11 6.5.2 before 6.5.3).
_POSTFIX = {"deref": "++", "cast": "[0]", "address": "[0]"}


@rule("not-volatile", ERROR)
def not_volatile(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A register is accessed through a type that is not volatile.

    ## What it catches
    Pointers to registers, objects placed at them, and members of structures laid over them, whose
    type is known and not volatile. A cast that many macros share is told once.

    ## Why it matters
    The compiler may keep the value, leave a write out or join two: the loop that waits for a flag
    never ends, but only when it optimizes.

    ## Example
    `#define OUT_B (*(uint8_t *)0x38)`

    ## Instead
    `#define OUT_B (*(volatile uint8_t *)0x38)`

    ## When to silence it
    When other code casts the pointer to a volatile type before it is used.
    """
    places = _Places(subject)
    groups: dict[Where, list[Verdict]] = {}
    types: set[Where] = set()
    for item in subject.verdicts:
        claim = item.claim
        if item.placed is None or claim.type.volatile or claim.type.bits is None:
            continue
        if places.is_volatile_reference(claim):
            continue
        found = places.of(claim)
        if found is not None:
            types.add(found)
        groups.setdefault(found or claim.at, []).append(item)
    for key, group in groups.items():
        yield from _not_volatile(subject, group, key if key in types else None)


def _not_volatile(
    subject: AuditSubject, group: list[Verdict], type_at: Where | None
) -> Iterator[CodeProblem]:
    """Yield the problem of a group; ``type_at`` is the type that they share, if it is to repair."""
    first = group[0].claim
    at = first.at
    names = listed(item.claim.name or number(item.claim.address) for item in group)
    registers = listed(item.placed.name for item in group if item.placed)
    of = "" if registers == names else f" ({registers})"
    why = "the compiler may leave out, keep or join what is read and written there"
    message = f"{names}{of} {'are' if ' and ' in names else 'is'} not volatile: {why}"
    edits: tuple[CodeEdit, ...] = ()
    repair = None
    if type_at is not None:
        shown = excerpt(subject.text(type_at))
        edits = (CodeEdit(type_at._replace(end=type_at.start), "volatile "),)
        repair = f"volatile {shown}"
        if len({item.claim.at for item in group}) > 1:
            at = type_at
            message = f"{shown} is not volatile here, through which {names}{of} are reached: {why}"
    for branch in dict.fromkeys(item.claim.branch for item in group):
        yield CodeProblem(message, at, branch, edits, repair)


class _Places:
    """Finds where the types of claims stand."""

    def __init__(self, subject: AuditSubject) -> None:
        self._subject = subject
        self._wholes: dict[tuple[Where, tuple[str, ...]], Definition] = {
            (item.name_at, item.branch): item
            for item in subject.seen.definitions
            if item.form != "member" and not isinstance(item.means, Number)
        }

    def of(self, claim: Claim) -> Where | None:
        """Return the type before which ``volatile`` would reach what is claimed, if it is clear."""
        qualifier, form = claim.qualifier, claim.form
        if form == "member":
            whole = self._wholes.get((claim.at, claim.branch))
            means = whole.means if whole else None
            if whole is None or means is None or isinstance(means, Number):
                return None
            qualifier, form = means.qualifier, whole.form
        if qualifier is None:
            return None
        if form in ("pointer", "object"):
            is_object = form == "object"
            return place_in_declaration(self._subject, qualifier, claim, is_object=is_object)
        return place_in_cast(self._subject, qualifier)

    def is_volatile_reference(self, claim: Claim) -> bool:
        """Tell whether a claim is a C++ reference to a volatile type, whatever it is made from."""
        if claim.form != "object":
            return False
        before = Where(claim.at.file, claim.whole.start, claim.at.start)
        return "&" in self._subject.text(before) and "volatile" in self._subject.names_in(before)


@rule("macro-without-parentheses", WARNING)
def macro_without_parentheses(subject: AuditSubject) -> Iterator[CodeProblem]:
    """The body of a macro comes apart where the macro is used.

    ## What it catches
    A macro without parentheses around an expression of several operands, when its name means a
    register or field or it takes part in a value or an address; and one for a register or a pointer
    that ends in a cast, where `++`, `[0]` or a member put behind it would come first.

    ## Why it matters
    `OUT_B &= ~LED` with `#define LED 1<<2` clears bits 1 and 0 as well: `~1<<2` is `(~1)<<2`, 0xF8.

    ## Example
    `#define LED 1<<2`, `#define OUT_B *(volatile uint8_t *)0x38`

    ## Instead
    `#define LED (1<<2)`, `#define OUT_B (*(volatile uint8_t *)0x38)`

    ## When to silence it
    When the macro is made to be a part of a larger expression.
    """
    shapes = Shapes(C)
    registers = {item.claim.at for item in subject.verdicts if item.placed is not None}
    used = _used_names(subject)
    for item in subject.seen.definitions:
        if item.form != "macro" or item.is_closed:
            continue
        if isinstance(item.means, Number):
            matters = item.name in used or subject.knows(item.name)
        else:
            matters = item.name_at in registers
        why = _comes_apart(subject, shapes, item) if matters else ""
        if why:
            file, start, end = item.body
            edits = (
                CodeEdit(Where(file, start, start), "("),
                CodeEdit(Where(file, end, end), ")"),
            )
            yield CodeProblem(
                why, item.name_at, item.branch, edits, f"({excerpt(subject.text(item.body))})"
            )


def _used_names(subject: AuditSubject) -> set[str]:
    """Return the names that take part in what registers are given, and in addresses."""
    found = {
        part.name for touch in subject.touches if touch.registers for part in touch.access.parts
    }
    for use in subject.uses:
        for operand in use.instruction.operands:
            found.update(operand.names)
    for item in subject.verdicts:
        found.update(subject.names_in(item.claim.whole) if item.placed is not None else ())
    return found


def _comes_apart(subject: AuditSubject, shapes: Shapes, item: Definition) -> str:
    """Say how the body of a macro comes apart, if it matters."""
    parsed = shapes.parse(subject.text(item.body).encode())
    kind = parsed.node.kind if parsed is not None else ""
    body = excerpt(subject.text(item.body))
    if kind in _OPERATORS:
        return f"{item.name} has no parentheses around it: ~{item.name} would be ~{body}"
    if kind in _POSTFIX and not isinstance(item.means, Number):
        sign = _POSTFIX[kind]
        if isinstance(item.means, Location) and item.means.type.bits is None:
            sign = ".member"
        return (
            f"{item.name} has no parentheses around it: in {item.name}{sign}, which would be "
            f"{body}{sign}, the {sign} comes first"
        )
    return ""


@rule("access-width", ERROR)
def access_width(subject: AuditSubject) -> Iterator[CodeProblem]:
    """An access is wider or narrower than its register.

    ## What it catches
    A type of another width than the register's at an address behind a pointer. A wide register may
    be accessed as a whole, or by its halves where the description has them.

    ## Why it matters
    A wide access to two narrow registers reads and writes the second as well. A narrow one to a
    wide register leaves a part of it as it was, and many such registers do not allow it.

    ## Example
    `#define DIR_A (*(volatile uint16_t *)0x34)`: that is DIR_A and OUT_A.

    ## Instead
    `#define DIR_A (*(volatile uint8_t *)0x34)`

    ## When to silence it
    When two registers are meant to be written at once, or a part of one, and the chip allows it.
    """
    widths = Widths(subject)
    members: dict[Where, list[Verdict]] = {}
    known = set()
    for item in subject.verdicts:
        claim = item.claim
        known.add((claim.address, claim.type.bits))
        found = widths.of(item)
        if found is None:
            continue
        if claim.form == "member":
            members.setdefault(claim.at, []).append(item)
            continue
        name = claim.name or number(claim.address)
        message = f"{name} is accessed as {found.bits} bits, but {found.placed.name} has"
        yield CodeProblem(f"{message} {found.right}: {found.why}", claim.at, claim.branch)
    yield from _members(widths, members)
    yield from _elements(subject, widths, known)


def _members(widths: Widths, groups: dict[Where, list[Verdict]]) -> Iterator[CodeProblem]:
    """Yield the members of each structure whose widths are wrong as one problem."""
    for at, group in groups.items():
        told = [
            f"{item.claim.name} with {found.bits} bits ({found.placed.name} has {found.right})"
            for item in group
            if (found := widths.of(item)) is not None
        ]
        claim = group[0].claim
        message = f"members have other widths than their registers: {listed(told)}"
        yield CodeProblem(message, at, claim.branch)


def _elements(
    subject: AuditSubject, widths: Widths, known: set[tuple[int, int | None]]
) -> Iterator[CodeProblem]:
    """Yield the accesses to elements of what a definition points to, which make no claim."""
    for access, registers in subject.touches:
        target = access.target
        bits = target.type.bits
        if bits is None or not registers or (target.address, bits) in known:
            continue
        found = widths.at(target.address, bits)
        if found is not None:
            name = access.name or number(target.address)
            message = f"{name} is accessed as {bits} bits, but {found.placed.name} has"
            yield CodeProblem(
                f"{message} {found.right}: {found.why}", access.target_at, access.branch
            )


@rule("configuration-value", ERROR)
def configuration_value(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A configuration value does not fit its register.

    ## What it catches
    A constant by the name of a register that no pointer, window or instruction of the description
    reaches, as configuration bytes are: with more bits than the register, or with reserved bits
    that are not what they must be.

    ## Why it matters
    A programmer writes these once, before the program runs. A wrong one can stop the clock or lock
    the chip out for good.

    ## Example
    `#define CONFIG_LOW 0x1E2`, or one with a reserved bit at 0 that must be 1.

    ## Instead
    Put it together from the emitted masks, and compare it with the datasheet and its errata.

    ## When to silence it
    When the name means something else in that file.
    """
    reached = Reached(subject)
    for definition, value, matches in named_numbers(subject):
        match = matches[0]
        if match.says or not reached.is_configuration(match.placed):
            continue
        wrong = _misfit(match.placed, value)
        if wrong:
            message = (
                f"{definition.name} is {number(value)}, but {wrong}. A wrong configuration can "
                "lock the chip out: check it against the datasheet and its errata"
            )
            yield CodeProblem(message, definition.name_at, definition.branch)


def _misfit(placed: Placed, value: int) -> str:
    """Say why a value does not fit a register; ``~0x04`` and the like are taken as they are cut."""
    width = placed.facts.width
    if value >> width not in (0, -1):
        return f"{placed.name} has {width} bits"
    must = {"0": 0, "1": 0}
    for item in placed.facts.reserved:
        if item.reserved.write in must:
            must[item.reserved.write] |= item.mask
    wrong = [
        f"{bit_list(mask)} of {placed.name} must be {bit}"
        for bit, mask in (("1", must["1"] & ~value), ("0", must["0"] & value))
        if mask
    ]
    return listed(wrong)
