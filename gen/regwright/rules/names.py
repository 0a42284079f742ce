"""Rules on names: whether C can use them, and whether two things would become one macro."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from regwright.format.devices import DEVICES
from regwright.macros.registers import frame_macros, macro_name
from regwright.model.chip import Field
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.keywords import is_identifier, keyword_of, reserved_because

#: A name within a register, where it stands, and the field it is a value of, if it is one.
_Inner = tuple[str, Origin, str]


def _fields_and_values(placed: Placed) -> Iterator[_Inner]:
    for item in placed.facts.fields:
        field = item.field
        yield field.name, field.origin, ""
        for value in field.values:
            yield value.name, value.origin, field.name


def _what(placed: Placed, field: str) -> str:
    return f"value of {placed.name}.{field}" if field else f"field of {placed.name}"


def name_place(origin: Origin) -> Origin:
    """Return where the name of what stands at ``origin`` is; a flag of a row has only its own."""
    is_flag = origin is not None and origin[1] == "flags"
    return origin if is_flag else (origin, "name")


#: What a macro belongs to, in words, and where that stands.
_Owner = tuple[str, Origin]


@rule("name-not-identifier", ERROR)
def name_not_identifier(subject: Subject) -> Iterator[Problem]:
    """A name is no C identifier.

    ## What it catches
    Names of registers, fields and values that have something else in them than letters, digits
    and underscores, or registers whose whole name starts with a digit. An instruction that is a
    C function, with a name that C has not.

    ## Why it matters
    The name becomes part of a macro; the preprocessor would cut it where the identifier ends. No
    source can call such a function.

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
        for name, origin, field in _fields_and_values(placed):
            # behind the register's name and an underscore a digit may come first
            if not is_identifier("_" + name):
                yield _not_identifier(_what(placed, field), name, origin)
    for item in subject.chip.instructions:
        for name in item.names if item.kind == "function" else ():
            if not is_identifier(name):
                message = f"{name!r} is no C identifier, so it cannot be the name of a C function"
                yield Problem(message, (item.origin, "names"), name)


def _not_identifier(what: str, name: str, origin: Origin) -> Problem:
    better = "".join(c if c.isascii() and (c.isalnum() or c == "_") else "_" for c in name)
    better = f"_{better}"[1:] if not better[:1].isdigit() else f"N{better}"
    message = f"{name!r} ({what}) is no C identifier; write {better!r} and keep the document's "
    return Problem(message + "spelling as the title", name_place(origin))


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
            yield Problem(message, name_place(placed.register.origin))


@rule("name-is-reserved", ERROR)
def name_is_reserved(subject: Subject) -> Iterator[Problem]:
    """A name belongs to the compiler.

    ## What it catches
    A register whose macro starts with an underscore, and any name that would put two underscores
    in a row into a macro; names of `<stdint.h>`, which the header includes.

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
            yield Problem(f"{placed.name!r} is reserved: {why}", name_place(placed.register.origin))
        for name, origin, field in _fields_and_values(placed):
            if "__" in name or name[:1] == "_" or name[-1:] == "_":
                message = (
                    f"{name!r} ({_what(placed, field)}) is reserved: it would put two underscores "
                    "in a row into its macros, and C++ keeps such names for the compiler"
                )
                yield Problem(message, name_place(origin))


@rule("name-is-device", ERROR)
def name_is_device(subject: Subject) -> Iterator[Problem]:
    """The chip is called like a device.

    ## What it catches
    A chip whose name, in any case, is `con`, `prn`, `aux`, `nul`, or `com` or `lpt` with a digit.

    ## Why it matters
    The chip's name becomes its files' names, and some operating systems open the device of that
    name instead of the file, whatever ending follows. A repository with such a file cannot even
    be checked out there.

    ## Example
    `<chip format="1" name="aux" …>`

    ## Instead
    `<chip format="1" name="aux_board" …>`

    ## When to silence it
    Never.
    """
    name = subject.chip.name
    if name.lower() in DEVICES:
        message = (
            f"{name!r} is the name of a device on some operating systems, and no file there can "
            f"have it; write {name + '_chip'!r}, say"
        )
        yield Problem(message, (None, "name"))


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
        (placed.name, placed.register.origin, "register") for placed in subject.resolved.registers
    )
    for space in subject.chip.spaces:
        yield from _repeated((item.name, item.origin, "region") for item in space.regions)
    yield from _repeated((item.name, item.origin, "space") for item in subject.chip.spaces)
    for placed in subject.described:
        yield from _repeated(
            (item.field.name, item.field.origin, f"field of {placed.name}")
            for item in placed.facts.fields
        )
        for item in placed.facts.fields:
            if item.field.values:
                what = f"value of {placed.name}.{item.field.name}"
                yield from _repeated((v.name, v.origin, what) for v in item.field.values)


def _repeated(named: Iterator[tuple[str, Origin, str]]) -> Iterator[Problem]:
    seen: set[str] = set()
    for name, origin, what in named:
        if name in seen:
            message = f"there is another {what} called {name} before this one; rename one of them"
            yield Problem(message, name_place(origin))
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
    names = subject.macro_names
    if len(set(names)) == len(names):
        return
    frame = [macro_name(macro) for macro, _ in frame_macros(subject.macros)]
    owners: dict[str, _Owner] = dict.fromkeys(frame, ("the header itself", None))
    for item in subject.macros.registers:
        placed = item.placed
        owner = (f"the register {placed.name}", placed.register.origin)
        for macro, _ in (*item.numbers, *item.code):
            yield from _claim(owners, macro, owner)
        for field in item.fields:
            owner = (f"the field {placed.name}.{field.facts.field.name}", field.facts.field.origin)
            # the same value twice is for duplicate-name to say
            for macro in dict.fromkeys(macro for macro, _ in (*field.numbers, *field.code)):
                yield from _claim(owners, macro, owner)
            taken = {macro_name(macro).rpartition("_")[2] for macro, _ in field.code}
            yield from _value_collisions(field.facts.field, f"{placed.name}_", taken)
    yield from _part_collisions(subject, owners)


def _part_collisions(subject: Subject, owners: dict[str, _Owner]) -> Iterator[Problem]:
    """Yield a finding for each memory, setting or the like with a macro that is there already."""
    for part in subject.macros.parts:
        owner = (part.what, part.node.origin)
        names = [macro for macro, _ in (*part.numbers, *part.code)]
        # one macro is enough to say, and the same name twice is for other rules
        yield from islice((problem for name in names for problem in _claim(owners, name, owner)), 1)
        for macro in names[:2]:
            if macro in names[2:]:
                message = f"a choice of {part.what} makes the macro {macro}, which stands for its "
                yield Problem(f"{message}bits; rename the choice", name_place(part.node.origin))


def _claim(owners: dict[str, _Owner], macro: str, owner: _Owner) -> Iterator[Problem]:
    name = macro_name(macro)
    earlier = owners.setdefault(name, owner)
    if earlier[0] == owner[0]:
        return
    message = f"{owner[0]} and {earlier[0]} both make the macro {name}; rename one of them"
    yield Problem(message, name_place(owner[1]))


def _value_collisions(field: Field, stem: str, operations: set[str]) -> Iterator[Problem]:
    """Yield a finding for each value called like a macro that its own field makes anyway."""
    own = {"BITPOS", "MASK", *operations} | ({"TO_CLEAR"} if "CLEAR" in operations else set())
    for value in field.values:
        if value.name in own:
            macro = f"{stem}{field.name}_{value.name}"
            message = f"the value {value.name} and its field both make the macro {macro}; rename it"
            yield Problem(message, (value.origin, "name"))
