"""Which expressions are looked at: those whose words tell that they may do something."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence, Set
from functools import lru_cache
from itertools import chain
from typing import NamedTuple

from regwright.code.directives import Macro
from regwright.code.leads import leads_of
from regwright.code.pasting import unpasted
from regwright.code.reach import Following, Reach, Span, known_in, place_of
from regwright.code.scope import Constant, Scope
from regwright.code.seen import Number
from regwright.code.uses import File
from regwright.code.words import ASSEMBLY_WORDS, IDENTIFIER, names_in, words_outside

#: Text in which nothing becomes an address or a shift but by its names: no ``*`` that may be that
#: of a type, no ``<<`` or ``##``, and nothing that hides a name from a search for identifiers.
_PLAIN = re.compile(
    rb"(?:[^*<#/\\$\x80-\xff]++|<(?!<)|\#(?!\#)|/(?![/*])|\\(?![\r\nuU])"
    rb"|\*(?:[\s*]++|[A-Za-z_]\w*+)*+(?=[^\s*)>\[(]))*+"
)
#: The beginning of a cast, or of what is in one: what follows it is not there.
_OPEN = re.compile(rb"\*\s*+(?:[A-Za-z_]\w*+\s*+)*+\Z")
_CAST_TO_NAME = re.compile(rb"\(\s*+([A-Za-z_]\w*+)\s*+\)\s*+[\w(]")


class Telling:
    """Tells by the words of an expression alone whether it may do something that is looked for.

    Most expressions do not, whatever they look like: ``value`` may be a field of the chip, and is a
    parameter of every second function. Looking at their words costs a hundredth of expanding,
    parsing and evaluating them.
    """

    def __init__(
        self, files: Sequence[File], scope: Scope, calls: Set[str], meaning: Reach
    ) -> None:
        """Learn the names in ``scope``, in which the constants of ``files`` have been worked out.

        ``calls`` are the functions whose calls are looked for, ``meaning`` tells where a name may
        stand for something.
        """
        self._meaning = meaning
        found = _encoded({*scope.header, *calls, *scope.pointer_types(), *ASSEMBLY_WORDS})
        names = meaning.names()
        defined = (item for file in files for item in _defined(file, scope, names))
        #: What may be at an address, be one, or call what counts; and what has such a name in it.
        self.names = _with_users(found, defined)

    def tells(self, text: bytes, where: Span) -> bool:
        """Tell whether ``text``, which stands ``where``, may do something that is looked for.

        That is to reach an address, to shift a constant or to call what counts.
        """
        if self.names.has_one_of(IDENTIFIER.findall(text), where):
            return True
        leads = _leads(text)
        return leads is None or self._meaning.has_one_of(leads, where)


def _encoded(names: Iterable[str]) -> frozenset[bytes]:
    return frozenset(name.encode() for name in names)


def telling_macros(macros: Iterable[Macro], found: set[str]) -> frozenset[bytes]:
    """Return ``found``, and those of ``macros`` that do something or have such a name in them.

    What a name stands for is not known yet: of a macro it may be anything.
    """
    macros = list(macros)
    meaning = _encoded({*found, *(macro.name for macro in macros)})
    return _with_users(_encoded(found), (_of_macro(macro, meaning) for macro in macros)).names()


class _Defined(NamedTuple):
    """A name that is defined, its value, and whether that alone tells something.

    Names that begin with one of ``prefixes`` may be in the value, too.
    """

    name: bytes
    value: bytes
    is_telling: bool
    prefixes: tuple[bytes, ...] = ()
    constant: Constant | None = None

    @property
    def place(self) -> Span | None:
        """Where its text stands, ``None`` for anywhere."""
        return place_of(self.constant) if self.constant else None

    @property
    def known_in(self) -> Span | None:
        """Where its name is known, ``None`` for anywhere."""
        return known_in(self.constant) if self.constant else None


def _defined(file: File, scope: Scope, meaning: Set[bytes]) -> Iterator[_Defined]:
    for macro in file.found.macros:
        yield _of_macro(macro, meaning)
    for item in file.constants:
        if not (item.loose or item.is_nothing):
            yield _Defined(item.name.encode(), item.value, _may_be_place(item, scope), (), item)


def _of_macro(macro: Macro, meaning: Set[bytes]) -> _Defined:
    name = macro.name.encode()
    body, prefixes = unpasted(macro)
    parameters = macro.parameters or ()
    if prefixes is None or _is_open(body) or _casts_to_one_of(parameters, body):
        return _Defined(name, macro.body, is_telling=True)
    return _Defined(name, body, _does(body, meaning, parameters), prefixes)


def _casts_to_one_of(parameters: tuple[str, ...], body: bytes) -> bool:
    """Tell whether one of ``parameters`` may be a type to which ``body`` casts something."""
    if not parameters or b"(" not in body:
        return False
    return any(match[1].decode("ascii") in parameters for match in _CAST_TO_NAME.finditer(body))


def _is_open(body: bytes) -> bool:
    return body.endswith(b"_cast") or (b"*" in body and _OPEN.search(body) is not None)


def _does(text: bytes, meaning: Set[bytes], parameters: tuple[str, ...]) -> bool:
    """Tell whether the ``text`` of a macro may do something beyond its names.

    Those in ``meaning`` stand for something, and so may its ``parameters``.
    """
    leads = _leads(text)
    return (
        leads is None
        or not leads.isdisjoint(meaning)
        or any(name.encode() in leads for name in parameters)
    )


@lru_cache(maxsize=1 << 12)  # each macro is asked about twice
def _leads(text: bytes) -> frozenset[bytes] | None:
    return frozenset() if _PLAIN.fullmatch(text) is not None else leads_of(text)


def _with_users(found: Iterable[bytes], defined: Iterable[_Defined]) -> Reach:
    """Return ``found``, those of ``defined`` that tell, and all in whose values such names are."""
    reach = Reach()
    following: Following[_Defined] = Following(reach)
    pasting: dict[bytes, list[_Defined]] = {}
    for name in found:
        following.add(name, None)
    for item in defined:
        if item.is_telling:
            following.add(item.name, item.known_in)
            continue
        following.user(item, words_outside(item.value), item.place)
        for prefix in item.prefixes:
            pasting.setdefault(prefix, []).append(item)
    lengths = {len(prefix) for prefix in pasting}
    for name, users in following.follow():
        made = (pasting.pop(name[:length], ()) for length in lengths if length <= len(name))
        for item in chain(users, *made):
            following.add(item.name, item.known_in)
    return reach


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
