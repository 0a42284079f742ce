"""How messages about addresses in code put it: who is wrong, what is hit, what is right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from regwright.audit.explained import Group
from regwright.audit.locations import ADDED_TWICE, Meant
from regwright.audit.names import TITLED
from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import Verdict
from regwright.macros.literals import shown
from regwright.resolve.addresses import Address
from regwright.rules.digits import explain_slip
from regwright.rules.wording import label, region_at

#: So many names a sentence has; then their number.
_MOST_NAMES = 4
#: So much of a source is shown.
_MOST_SHOWN = 60


def listed(names: Iterable[str], most: int = _MOST_NAMES, last: str = "and") -> str:
    """Return different names as a list in words, with a number for those beyond ``most``."""
    found = list(dict.fromkeys(names))
    if len(found) > most:
        return f"{', '.join(found[:most])} {last} {len(found) - most} more"
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} {last} {found[-1]}"


def excerpt(text: str) -> str:
    """Return a piece of a source on one line, cut where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= _MOST_SHOWN else f"{line[:_MOST_SHOWN]}…"


def number(value: int) -> str:
    """Return a number as messages show it, also one below 0."""
    return shown(value) if value >= 0 else f"-{shown(-value)}"


def addresses(found: Iterable[Address]) -> str:
    """Return the addresses of a register in words."""
    return listed(f"the {label(item.space)} address {number(item.value)}" for item in found)


def start_of(verdict: Verdict) -> int:
    """Return the address that the source gives: that of the structure for one of its members."""
    claim = verdict.claim
    return claim.address if claim.base is None else claim.base


def structure_of(verdict: Verdict) -> str:
    """Return what a structure laid over an address is called."""
    claim = verdict.claim
    name = claim.name.replace("->", ".").partition(".")[0]
    return name if claim.form != "access" and name else "the structure"


def who(group: Group) -> str:
    """Return who is at an address: names and their verb, or the address itself."""
    address = number(start_of(group[0]))
    if group[0].claim.base is not None:
        return f"{structure_of(group[0])} lies at {address} behind a pointer"
    names = dict.fromkeys(item.claim.name for item in group if item.claim.name)
    if not names:
        return f"{address} stands behind a pointer"
    verb = "are" if len(names) > 1 else "is"
    return f"{listed(names)} {verb} {address} behind a pointer"


def effect(subject: AuditSubject, address: int) -> str:
    """Say what a pointer with the wrong address does."""
    space = subject.space
    known = subject.resolved.spaces[space]
    region = region_at(known, address)
    hit = subject.locations.hits(space, address)
    is_cpu = region is not None and region.kind == "cpu-registers"
    if is_cpu and not subject.locations.at(space, address):
        return (
            f"in {label(space)} space {number(address)} is one of {hit}, so a write there changes "
            "nothing at the pin"
        )
    return f"in {label(space)} space {number(address)} hits {hit}"


def of_another_space(subject: AuditSubject, group: Group) -> str:
    """Say that an address behind a pointer is that of another space, and which is right."""
    first = group[0]
    meant, placed = first.meant, first.placed
    if meant is None or placed is None or first.right is None:
        return ""
    address = start_of(first)
    right = address - first.claim.address + first.right
    window = meant.window
    space = label(meant.wrong_space)
    if meant.kind == ADDED_TWICE:
        inner = right - window.offset
        sum_of = f"{number(inner)} + {number(window.offset)}"
        why = f": {number(window.offset)} was added twice to the {space} address {number(inner)}"
        why += _of_whom(subject, group)
    else:
        sign = "+" if right > address else "-"
        sum_of = f"{number(address)} {sign} {number(abs(right - address))}"
        why = f", but that is {_whose(subject, group, space)}"
    return f"{who(group)}{why}: {effect(subject, address)}. {number(right)} is meant ({sum_of})"


def _whose(subject: AuditSubject, group: Group, space: str) -> str:
    first = group[0]
    names = {item.claim.name for item in group}
    if first.claim.base is not None:
        return f"right only as {space} address{_of_whom(subject, group)}"
    if first.placed is not None and names == {first.placed.name}:
        return f"its {space} address"
    return f"the {space} address{_of_whom(subject, group)}"


def _of_whom(subject: AuditSubject, group: Group) -> str:
    """Say of which register an address is, and how that is known."""
    first = group[0]
    registers = [item.placed.name for item in group if item.placed is not None]
    names = {item.claim.name for item in group}
    if first.claim.base is not None:
        return f" of {listed(registers)}"
    if first.certainty:
        told = "" if names == set(registers) else ", which the name means"
        return f" of {listed(registers)}{told}"
    seen = subject.locations.seen_through(subject.space, first.claim.address)
    same = [item for item in seen if item.right == first.right]
    return f" of {listed(names_meant(same, subject.space), last='or')}"


def names_meant(seen: Sequence[Meant], space: str) -> list[str]:
    """Return the names of registers that may be meant by the first right address of ``seen``.

    They are those that start there, if any does.
    """
    same = [item.placed for item in seen if item.right == seen[0].right]
    starting = [
        placed.name
        for placed in same
        if (found := placed.address(space)) is not None and found.value == seen[0].right
    ]
    return starting or [placed.name for placed in same]


def another_register(subject: AuditSubject, group: Group) -> str:
    """Say that a name means a register, and that the address behind a pointer is not its."""
    first = group[0]
    placed = first.placed
    if placed is None:
        return ""
    space = label(subject.space)
    is_own = {item.claim.name for item in group} == {placed.name}
    owner = "its" if is_own else "the"
    of = "" if is_own else f" of {placed.name}"
    address = first.claim.address
    name = listed(item.claim.name for item in group)
    if first.right is None:
        but = f"{placed.name} has no {space} address: pointers do not reach it"
    else:
        but = f"{owner} {space} address{of} is {number(first.right)}"
    return f"{name} is {number(address)} behind a pointer, but {but}; {_there(subject, first)}"


def _there(subject: AuditSubject, verdict: Verdict) -> str:
    """Say what is at an address that a name does not mean."""
    address = verdict.claim.address
    if verdict.placed in verdict.others:
        return f"{number(address)} lies within it"
    slip = slip_of(verdict)
    if slip:
        return slip
    if not verdict.others:
        seen = subject.locations.seen_through(subject.space, address)
        if seen:
            space = label(seen[0].wrong_space)
            return f"as {space} address {number(address)} would be that of {seen[0].placed.name}"
    return f"{number(address)} hits {subject.locations.hits(subject.space, address)}"


def slip_of(verdict: Verdict) -> str:
    """Say which slip of the fingers made an address wrong that is no register's; else nothing."""
    if verdict.others or verdict.right is None or verdict.claim.address < 0:
        return ""
    return explain_slip(verdict.claim.address, verdict.right)


def reads_as(subject: AuditSubject, group: Group) -> str:
    """Say that a name reads as one register, and that the address is another's."""
    first = group[0]
    placed, address = first.placed, first.claim.address
    if placed is None:
        return ""
    title = f", {placed.register.title}" if first.certainty == TITLED else ""
    at = "" if first.right is None else f" ({number(first.right)})"
    seen = subject.locations.seen_through(subject.space, address)
    if first.others or not seen:
        other = f"{number(address)} is {subject.locations.hits(subject.space, address)}"
    else:
        space = label(seen[0].wrong_space)
        other = f"{number(address)} is the {space} address of {seen[0].placed.name}"
    name = listed(item.claim.name for item in group)
    return f"{name} reads as {placed.name}{title}{at}, but {other}"
