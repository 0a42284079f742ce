"""Bring together what several tables say of one register, and what shares a name or an address."""

from __future__ import annotations

import re

from regwright.importing.draft import Draft
from regwright.importing.tables import words
from regwright.importing.tables.facts import FieldFacts, RegisterFacts

_MOST_TOLD = 8
_CONDITION = re.compile(r"\b([A-Z]\w*)(?:\.(\w+))?\s*={1,2}\s*([01])\b")


def merge(registers: list[RegisterFacts], draft: Draft) -> list[RegisterFacts]:
    """Return the registers, one for each name: a summary's row, its box and its fields together."""
    found: list[RegisterFacts] = []
    by_name: dict[str, RegisterFacts] = {}
    for register in registers:
        first = None if register.is_reserved else by_name.get(register.name)
        if first is None or not register.name:
            found.append(register)
            if register.name and not register.is_reserved:
                by_name[register.name] = register
        elif _is_same(first, register):
            _add(first, register, draft)
        elif register.space and first.space and _same_digit(first, register):
            first.placed.update(register.placed)
        else:
            found.append(register)
            if register.space == first.space and register.spot.row == first.spot.row:
                register.alias_of = first.name
            _differ(first, register)
    return found


def _is_same(one: RegisterFacts, other: RegisterFacts) -> bool:
    if not one.placed or not other.placed:
        return one.layout != other.layout
    shared = one.placed.keys() & other.placed.keys()
    return bool(shared) and all(one.placed[space] == other.placed[space] for space in shared)


def _same_digit(one: RegisterFacts, other: RegisterFacts) -> bool:
    return next(iter(one.placed.values()), -1) == next(iter(other.placed.values()), -2)


def _differ(one: RegisterFacts, other: RegisterFacts) -> None:
    for register, second in ((one, other), (other, one)):
        register.review(f"{second.name} is printed again, elsewhere: row {second.spot.row}")


def _add(one: RegisterFacts, other: RegisterFacts, draft: Draft) -> None:
    """Add to ``one`` what ``other`` says of the same register."""
    one.placed = {**other.placed, **one.placed}
    _add_words(one, other)
    one.width = max(one.width, other.width)
    one.page = one.page or other.page
    one.prints_page = one.prints_page or other.prints_page
    one.address = one.address or other.address
    for bit, digit in other.resets.items():
        one.resets.setdefault(bit, digit)
    had_fields = bool(one.fields)
    for item in other.fields:
        _add_field(one, item, had_fields=had_fields)
    if not one.reserved:
        one.reserved = other.reserved
    one.notes += [note for note in other.notes if note not in one.notes]
    for reason in other.reviews:
        if not (reason.startswith("no address") and one.placed):
            one.review(reason)
    one.reviews = [
        item for item in one.reviews if not (item.startswith("no address") and one.placed)
    ]
    if not other.fields and one.layout == other.layout:
        draft.tell("addresses-inferred", f"{one.name} is printed twice alike", other.spot.line)


def _add_words(one: RegisterFacts, other: RegisterFacts) -> None:
    """Add title, access and reset; say where two tables disagree about them."""
    for name in ("title", "access", "reset", "byte_order"):
        before, after = getattr(one, name), getattr(other, name)
        if not before:
            setattr(one, name, after)
        elif after and name in ("access", "reset") and not _agree(name, before, after, one.width):
            one.review(f"its {name} is printed as {before!r} and as {after!r}")


def _agree(name: str, before: str, after: str, width: int) -> bool:
    if name == "access":
        return words.access(before) == words.access(after)
    return words.reset(before, width or 8) == words.reset(after, width or 8)


def _add_field(register: RegisterFacts, item: FieldFacts, *, had_fields: bool) -> None:
    same = [
        one
        for one in register.fields
        if one.name == item.name and (one.index == item.index or not (one.index and item.index))
    ]
    if same and sorted(same[0].bits) == sorted(item.bits):
        one = same[0]
        one.index = one.index or item.index
        one.title, one.access = one.title or item.title, one.access or item.access
        one.reset, one.values = one.reset or item.reset, one.values or item.values
        one.reviews += [reason for reason in item.reviews if reason not in one.reviews]
        return
    if same:
        shown = ", ".join(f"{high}:{low}" for high, low in item.bits)
        same[0].reviews.append(f"another table has it at bits {shown}")
        return
    if had_fields:
        over = [one for one in register.fields if _mask(one) & _mask(item)]
        if over and all(not one.values and not one.access for one in over):
            names = ", ".join(one.name for one in over)
            at = register.fields.index(over[0])
            register.fields = [one for one in register.fields if one not in over]
            register.fields.insert(at, item)
            item.reviews.append(f"another table calls these bits {names}")
            return
    register.fields.append(item)


def _mask(item: FieldFacts) -> int:
    return sum((1 << high + 1) - (1 << low) for high, low in item.bits)


def tell_apart(registers: list[RegisterFacts]) -> None:
    """Find registers at one address, and what the document says about which of them answers."""
    groups: dict[tuple[str, int, str], list[RegisterFacts]] = {}
    for register in registers:
        if not register.is_reserved:
            for space, value in register.placed.items():
                groups.setdefault((space, value, register.block), []).append(register)
    for group in groups.values():
        if len(group) > _MOST_TOLD:
            for one in group:
                one.review(f"{len(group)} registers have its address: say what tells them apart")
            continue
        for index, one in enumerate(group):
            for other in group[index + 1 :]:
                _tell_two_apart(one, other, registers)


def _tell_two_apart(
    one: RegisterFacts, other: RegisterFacts, registers: list[RegisterFacts]
) -> None:
    found = {_word(one), _word(other)}
    if found == {words.READ, words.WRITE}:
        return
    conditions = [_condition(item, registers) for item in (one, other)]
    if all(conditions) and conditions[0] != conditions[1]:
        one.when, other.when = conditions
        return
    one.review(f"{other.name} has the same address: say what tells them apart")
    other.review(f"{one.name} has the same address: say what tells them apart")


def _word(register: RegisterFacts) -> str:
    texts = {item.access for item in register.fields if item.access}
    text = register.access or (texts.pop() if len(texts) == 1 else "")
    found = words.access(text) if text else None
    return found.word if found else ""


def _condition(register: RegisterFacts, registers: list[RegisterFacts]) -> str:
    """Return the condition under which a register answers, from its title and footnotes."""
    for text in (register.title, *register.notes):
        for name, inner, value in _CONDITION.findall(text):
            field = inner or name
            holders = [
                item.name
                for item in registers
                if (not inner or item.name == name)
                and any(one.name == field and one.index is None for one in item.fields)
            ]
            if len(holders) == 1:
                return f"{holders[0]}.{field} = {value}"
    return ""
