"""The rule on assertions about the chip that do not hold."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.address_words import listed
from regwright.audit.names import EXACT
from regwright.audit.problem import CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Number
from regwright.macros.literals import shown
from regwright.model.finding import ERROR
from regwright.rules.catalogue import rule


@rule("assertion-contradicts", ERROR)
def assertion_contradicts(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A static assertion on the chip does not hold.

    ## What it catches
    `_Static_assert` and `static_assert` on names of the emitted header, or on definitions by the
    name of a register's address, bit or value, that come out false.

    ## Why it matters
    Either the source expects another chip than the one described, or one of the two was copied
    wrongly. The compiler says so only where it sees both, and not in branches that it skips.

    ## Example
    `_Static_assert(OUT_B_LED_BITPOS == 3, "lamp");` where it is 2.

    ## Instead
    Look it up in the datasheet; correct the source, or the description.

    ## When to silence it
    In code for another chip.
    """
    defined = {item.name: item.means for item in subject.seen.definitions}
    numbers = _header_numbers(subject)
    for item in subject.seen.assertions:
        if item.holds is not False:
            continue
        names = [name for name in item.names if _matters(subject, name, is_defined=name in defined)]
        if not names:
            continue
        values = []
        for name in names:
            own = defined.get(name)
            number = own.value if isinstance(own, Number) else numbers.get(name)
            if number is not None:
                values.append(f"{name} is {shown(number) if number > 9 else number}")
        told = f": {listed(values)}" if values else ""
        text = " ".join(item.text.split())
        yield CodeProblem(f"this does not hold: {text}{told}"[:400], item.at, item.branch)


def _matters(subject: AuditSubject, name: str, *, is_defined: bool) -> bool:
    """Tell whether a name is the header's, or means more than a register's name can by chance."""
    if not is_defined:
        return name in subject.header
    return any(
        match.certainty == EXACT and (match.field is not None or match.says)
        for match in subject.names.find(name)
    )


def _header_numbers(subject: AuditSubject) -> dict[str, int]:
    """Return the header's plain numbers by name."""
    found = {}
    for register in subject.macros.registers:
        pairs = [*register.numbers, *(pair for item in register.fields for pair in item.numbers)]
        found.update({name: int(text.rstrip("UL"), 0) for name, text in pairs})
    return found
