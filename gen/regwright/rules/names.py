"""Rules on names: whether C can use them, and whether two things would become one macro."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.macros.registers import macro_name
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.keywords import is_identifier, keyword_of, reserved_because


class _Named(NamedTuple):
    what: str
    name: str
    origin: Origin


def _fields_and_values(placed: Placed) -> Iterator[_Named]:
    for item in placed.facts.fields:
        yield _Named(f"field of {placed.name}", item.field.name, item.field.origin)
        for value in item.field.values:
            what = f"value of {placed.name}.{item.field.name}"
            yield _Named(what, value.name, value.origin)


def _name_place(origin: Origin) -> Origin:
    is_flag = origin is not None and origin[1] == "flags"
    return origin if is_flag else (origin, "name")


@rule("name-not-identifier", ERROR)
def name_not_identifier(subject: Subject) -> Iterator[Problem]:
    """A name is no C identifier.

    ## What it catches
    Names of registers, fields and values that have something else in them than letters, digits
    and underscores, or registers whose whole name starts with a digit.

    ## Why it matters
    The name becomes part of a macro; the preprocessor would cut it where the identifier ends.

    ## Example
    `<register name="TCC.1" …/>`, `<field name="IRQ Vector" …/>`

    ## Instead
    `name="TCC_1"`, with the document's spelling as the title.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        if not is_identifier(placed.name):
            yield _not_identifier("register", placed.register.name, placed.register.origin)
        for what, name, origin in _fields_and_values(placed):
            # behind the register's name and an underscore a digit may come first
            if not is_identifier("_" + name):
                yield _not_identifier(what, name, origin)


def _not_identifier(what: str, name: str, origin: Origin) -> Problem:
    better = "".join(c if c.isascii() and (c.isalnum() or c == "_") else "_" for c in name)
    better = f"_{better}"[1:] if not better[:1].isdigit() else f"N{better}"
    message = f"{name!r} ({what}) is no C identifier; write {better!r} and keep the document's "
    return Problem(message + "spelling as the title", _name_place(origin))


@rule("name-is-keyword", ERROR)
def name_is_keyword(subject: Subject) -> Iterator[Problem]:
    """A register would be called like a keyword.

    ## What it catches
    A register whose macro, prefix included, is a keyword of C89, C99, C11, C23, C++17 or GNU C.
    Fields and values stand behind their register's name and cannot be.

    ## Why it matters
    `#define register …` or `#define or …` changes the language for every line that follows.

    ## Example
    `<register name="and" …/>`

    ## Instead
    `<register name="AND_MASK" …/>`, or a prefix.

    ## When to silence it
    When the header is never used with that language.
    """
    for placed in subject.described:
        language = keyword_of(placed.name)
        if language:
            message = f"{placed.name!r} is a keyword of {language}; rename it or use a prefix"
            yield Problem(message, _name_place(placed.register.origin))


@rule("name-is-reserved", ERROR)
def name_is_reserved(subject: Subject) -> Iterator[Problem]:
    """A name belongs to the compiler.

    ## What it catches
    A register whose macro starts with an underscore, and any name that would put two underscores
    in a row into a macro.

    ## Why it matters
    The compiler or its headers may use that name for something else, in the next version too.

    ## Example
    `<register name="_CTRL" …/>`

    ## Instead
    `<register name="CTRL" …/>`

    ## When to silence it
    Where a name with two underscores is only used from C.
    """
    for placed in subject.described:
        why = reserved_because(placed.name)
        if why:
            yield Problem(
                f"{placed.name!r} is reserved: {why}", _name_place(placed.register.origin)
            )
        for what, name, origin in _fields_and_values(placed):
            if "__" in f"_{name}_":
                message = (
                    f"{name!r} ({what}) is reserved: it would put two underscores in a row into "
                    "its macros, and C++ keeps such names for the compiler"
                )
                yield Problem(message, _name_place(origin))


@rule("duplicate-name", ERROR)
def duplicate_name(subject: Subject) -> Iterator[Problem]:
    """Two things of one kind have the same name.

    ## What it catches
    Registers with the same full name, fields of one register with the same name, values of one
    field with the same name, spaces or regions with the same name.

    ## Why it matters
    A copied line whose name was not changed: one of the two is missing from the header.

    ## Example
    `<field name="EN" bits="7"/> <field name="EN" bits="6"/>`

    ## Instead
    Look up the second one's name.

    ## When to silence it
    Never.
    """
    yield from _repeated(
        (placed.name, placed.register.origin, "the register")
        for placed in subject.resolved.registers
    )
    for space in subject.chip.spaces:
        yield from _repeated((item.name, item.origin, "the region") for item in space.regions)
    yield from _repeated((item.name, item.origin, "the space") for item in subject.chip.spaces)
    for placed in subject.described:
        yield from _repeated(
            (item.field.name, item.field.origin, f"the field of {placed.name}")
            for item in placed.facts.fields
        )
        for item in placed.facts.fields:
            if item.field.values:
                what = f"the value of {placed.name}.{item.field.name}"
                yield from _repeated((v.name, v.origin, what) for v in item.field.values)


def _repeated(named: Iterator[tuple[str, Origin, str]]) -> Iterator[Problem]:
    seen: set[str] = set()
    for name, origin, what in named:
        if name in seen:
            yield Problem(
                f"{what} {name} is there twice; rename or remove one", _name_place(origin)
            )
        seen.add(name)


@rule("macro-collision", ERROR)
def macro_collision(subject: Subject) -> Iterator[Problem]:
    """Two different things would become one macro.

    ## What it catches
    Macros that are the same after prefixes, instances and numbers are put together, such as the
    register `CTRL_EN_MASK` and the mask of the field `EN` of `CTRL`.

    ## Why it matters
    The second `#define` silently replaces the first, or the compiler stops with a message about
    a header that nobody wrote by hand.

    ## Example
    A register `CTRL` with a field `EN`, and a register `CTRL_EN_MASK`.

    ## Instead
    Rename one of them, or give its block a prefix.

    ## When to silence it
    Never.
    """
    owners: dict[str, tuple[str, Origin]] = {}
    for name in subject.macros.frame:
        owners[name] = ("the header itself", None)
    for item in subject.macros.registers:
        placed = item.placed
        owner = (f"the register {placed.name}", placed.register.origin)
        for macro, _ in (*item.numbers, *item.code):
            yield from _claim(owners, macro, owner)
        for field in item.fields:
            owner = (f"the field {placed.name}.{field.facts.field.name}", field.facts.field.origin)
            for macro, _ in field.numbers:
                yield from _claim(owners, macro, owner)
            for macro, _ in field.code:
                yield from _claim(owners, macro, owner)


def _claim(
    owners: dict[str, tuple[str, Origin]], macro: str, owner: tuple[str, Origin]
) -> Iterator[Problem]:
    name = macro_name(macro) if macro[-1] == ")" else macro
    earlier = owners.setdefault(name, owner)
    if earlier is owner or earlier[0] == owner[0]:
        return
    message = f"{owner[0]} and {earlier[0]} both make the macro {name}; rename one of them"
    yield Problem(message, _name_place(owner[1]))
