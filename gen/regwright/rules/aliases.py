"""Rules on the other names by which sources know registers, fields and values."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule


class _Owner(NamedTuple):
    """What a name belongs to, in words, and where that stands."""

    words: str
    origin: Origin


#: Owners with their aliases, and the owner of each name.
_Claims = Iterable[tuple[_Owner, tuple[str, ...]]]
_Names = Mapping[str, _Owner]


@rule("alias-taken", ERROR)
def alias_taken(subject: Subject) -> Iterator[Problem]:
    """An alias is the name of something else.

    ## What it catches
    An alias of a register or half that is the name or an alias of another one. An alias of a field
    that is the name or an alias of another field of its register, or of a register; an alias of a
    value that is the name or an alias of another value of its field, or of a register.

    ## Why it matters
    Where sources use that name, nobody can tell which of the two they mean.

    ## Example
    `<register name="RX_DATA" aliases="UART_RX" …/> <register name="TX_DATA" aliases="UART_RX" …/>`

    ## Instead
    `aliases="UART_TX"`; or leave an alias out that has two meanings.

    ## When to silence it
    Where one name stands for two registers at one address, one that is read and one that is
    written.
    """
    inner = [placed for placed in subject.described if _has_inner_aliases(placed)]
    claims = list(_register_claims(subject))
    if not inner and not claims:
        return
    names = _register_names(subject)
    yield from _collisions(claims, names)
    for placed in inner:
        yield from _inner_collisions(placed, names)


def _has_inner_aliases(placed: Placed) -> bool:
    for item in placed.facts.fields:
        field = item.field
        if field.aliases:
            return True
        for value in field.values:
            if value.aliases:
                return True
    return False


def _register_claims(subject: Subject) -> Iterator[tuple[_Owner, tuple[str, ...]]]:
    """Yield the registers and halves that have aliases."""
    of_halves: dict[int, tuple[str, ...]] = {}
    for placed in subject.described:
        register = placed.register
        if register.halves:
            of_halves |= {id(half.origin): half.aliases for half in register.halves[:2]}
        aliases = of_halves.get(id(register.origin), ()) if placed.half else register.aliases
        if aliases:
            yield _Owner(f"the register {placed.name}", register.origin), aliases


def _register_names(subject: Subject) -> dict[str, _Owner]:
    """Return the register of each name, as the header has it and without the chip's prefix."""
    owners: dict[str, _Owner] = {}
    for placed in subject.resolved.registers:
        owner = _Owner(f"the register {placed.name}", placed.register.origin)
        owners.setdefault(placed.name, owner)
        owners.setdefault(placed.name.removeprefix(subject.resolved.prefix), owner)
    return owners


def _inner_collisions(placed: Placed, registers: _Names) -> Iterator[Problem]:
    """Yield the aliases of the fields of one register, and of their values, that are taken."""
    names: dict[str, _Owner] = {}
    claims = []
    for item in placed.facts.fields:
        field = item.field
        me = _Owner(f"the field {placed.name}.{field.name}", field.origin)
        names.setdefault(field.name, me)
        claims.append((me, field.aliases))
    yield from _collisions(claims, names, registers)
    for item in placed.facts.fields:
        stem = f"the value {placed.name}.{item.field.name}"
        names = {}
        claims = []
        for value in item.field.values:
            me = _Owner(f"{stem}.{value.name}", value.origin)
            names.setdefault(value.name, me)
            claims.append((me, value.aliases))
        yield from _collisions(claims, names, registers)


def _collisions(
    claims: _Claims, names: dict[str, _Owner], registers: _Names = MappingProxyType({})
) -> Iterator[Problem]:
    """Yield the aliases of ``claims`` that belong to another, and add the rest to ``names``."""
    for me, aliases in claims:
        for alias in aliases:
            other = registers.get(alias) or names.setdefault(alias, me)
            if other.origin is not me.origin:
                message = (
                    f"{alias}, here for {me.words}, is already a name of {other.words}; keep it "
                    "for the one that sources mean"
                )
                yield Problem(message, (me.origin, "aliases"), alias)
