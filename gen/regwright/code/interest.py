"""Which expressions are looked at: those whose words tell that they may do something."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence, Set
from typing import NamedTuple

from regwright.code.directives import Macro
from regwright.code.plain import leads_of
from regwright.code.scope import Constant, Scope
from regwright.code.seen import Number
from regwright.code.uses import File
from regwright.code.words import ASSEMBLY_WORDS, IDENTIFIER, names_in

#: Text in which nothing becomes an address or a shift but by its names: no ``*`` that may be that
#: of a type, no ``<<`` or ``##``, and nothing that hides a name from a search for identifiers.
_PLAIN = re.compile(
    rb"(?:[^*<#/\\$\x80-\xff]++|<(?!<)|\#(?!\#)|/(?![/*])|\\(?![\r\nuU])"
    rb"|\*(?:[\s*]++|[A-Za-z_]\w*+)*+(?=[^\s*)>\[(]))*+"
)


class Telling:
    """Tells by the words of an expression alone whether it may do something that is looked for.

    Most expressions do not, whatever they look like: ``value`` may be a field of the chip, and is a
    parameter of every second function. Looking at their words costs a hundredth of expanding,
    parsing and evaluating them.
    """

    def __init__(self, files: Sequence[File], scope: Scope, calls: Set[str]) -> None:
        """Learn the names in ``scope``, in which the constants of ``files`` have been worked out.

        ``calls`` are the functions whose calls are looked for.
        """
        found = {*scope.header, *calls, *scope.pointer_types(), *ASSEMBLY_WORDS}
        defined = (item for file in files for item in _defined(file, scope))
        #: What may be at an address, be one, or call what counts; and what has such a name in it.
        self.names = frozenset(name.encode() for name in _with_users(found, defined))
        self._meaning = frozenset(_meaning(files, scope))

    def tells(self, text: bytes) -> bool:
        """Tell whether ``text`` may reach an address, shift a constant, or call what counts."""
        if not self.names.isdisjoint(IDENTIFIER.findall(text)):
            return True
        if _PLAIN.fullmatch(text) is not None:
            return False
        leads = leads_of(text)
        return leads is None or not leads.isdisjoint(self._meaning)


def telling_macros(macros: Iterable[Macro], found: set[str]) -> frozenset[bytes]:
    """Return ``found``, and those of ``macros`` that do something or have such a name in them."""
    names = _with_users(found, (_of_macro(macro) for macro in macros))
    return frozenset(name.encode() for name in names)


def _meaning(files: Sequence[File], scope: Scope) -> Iterator[bytes]:
    """Yield every name that stands for something."""
    yield from (name.encode() for name in scope.header)
    for file in files:
        yield from (macro.name.encode() for macro in file.found.macros)
        yield from (item.name.encode() for item in file.constants if not item.is_nothing)


class _Defined(NamedTuple):
    """A name that a file defines, its value, and whether that alone tells something."""

    name: str
    value: bytes
    is_telling: bool


def _defined(file: File, scope: Scope) -> Iterator[_Defined]:
    for macro in file.found.macros:
        yield _of_macro(macro)
    for item in file.constants:
        if not (item.loose or item.is_nothing):
            yield _Defined(item.name, item.value, _may_be_place(item, scope))


def _of_macro(macro: Macro) -> _Defined:
    return _Defined(macro.name, macro.body, _PLAIN.fullmatch(macro.body) is None)


def _with_users(found: set[str], defined: Iterable[_Defined]) -> set[str]:
    """Return ``found``, those of ``defined`` that tell, and all in whose values such names are."""
    users: dict[str, list[str]] = {}
    for name, value, is_telling in defined:
        if is_telling:
            found.add(name)
        for word in set(names_in(value)):
            users.setdefault(word, []).append(name)
    waiting = list(found)
    while waiting:
        for user in users.get(waiting.pop(), ()):
            if user not in found:
                found.add(user)
                waiting.append(user)
    return found


def _may_be_place(item: Constant, scope: Scope) -> bool:
    """Tell whether a constant may be at an address or be one, in whichever arms of ``#if``."""
    if not item.is_known or not (item.means is None or isinstance(item.means, Number)):
        return True
    if _PLAIN.fullmatch(item.value) is None:
        return True
    kind = scope.resolve_type(item.type) if item.type is not None else None
    if item.form != "object" and (kind is None or not kind.pointers):
        return False
    return any(word in scope.macros or word in scope.constants for word in names_in(item.value))
