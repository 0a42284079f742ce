"""Rules on names that clash with what people include, or with each other to the eye."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.registers import names_of_part, names_of_register
from regwright.model.finding import NOTE, WARNING
from regwright.model.origin import Origin
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.names import name_place

#: Names that a header of ISO C or POSIX defines. Sources: ISO/IEC 9899:2011, clause 7;
#: POSIX.1-2017, <termios.h>.
_EXACT: dict[str, str] = {
    name: header
    for header, names in (
        ("<assert.h>", "assert NDEBUG"),
        ("<complex.h>", "I"),
        ("<errno.h>", "errno"),
        ("<math.h>", "HUGE_VAL HUGE_VALF HUGE_VALL NAN INFINITY DOMAIN OVERFLOW UNDERFLOW PLOSS"),
        ("<stddef.h>", "NULL offsetof"),
        ("<stdarg.h>", "va_arg va_copy va_end va_list va_start"),
        (
            "<stdio.h>",
            "BUFSIZ EOF FILENAME_MAX FOPEN_MAX L_tmpnam SEEK_CUR SEEK_END SEEK_SET TMP_MAX "
            "stderr stdin stdout",
        ),
        ("<stdlib.h>", "EXIT_FAILURE EXIT_SUCCESS MB_CUR_MAX RAND_MAX"),
        ("<time.h>", "CLOCKS_PER_SEC"),
        (
            "<termios.h>",
            "B0 B50 B75 B110 B134 B150 B200 B300 B600 B1200 B1800 B2400 B4800 B9600 B19200 B38400 "
            "BRKINT BS0 BS1 BSDLY CLOCAL CR0 CR1 CR2 CR3 CRDLY CREAD CS5 CS6 CS7 CS8 CSIZE CSTOPB "
            "FF0 FF1 FFDLY HUPCL ICANON ICRNL IEXTEN IGNBRK IGNCR IGNPAR INLCR INPCK ISIG ISTRIP "
            "IXANY IXOFF IXON NCCS NL0 NL1 NLDLY NOFLSH OCRNL OFDEL OFILL ONLCR ONLRET ONOCR OPOST "
            "PARENB PARMRK PARODD TAB0 TAB1 TAB2 TAB3 TABDLY TCIFLUSH TCIOFF TCIOFLUSH TCION "
            "TCOFLUSH TCOOFF TCOON TCSADRAIN TCSAFLUSH TCSANOW TOSTOP VEOF VEOL VERASE VINTR VKILL "
            "VMIN VQUIT VSTART VSTOP VSUSP VT0 VT1 VTDLY VTIME",
        ),
        ("the C program itself", "main"),
    )
    for name in names.split()
}
#: Beginnings that a header keeps for itself, with the characters that must follow. Source:
#: ISO/IEC 9899:2011, 7.31, future library directions.
_CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_STARTS = (
    ("E", _CAPITALS + "0123456789", "<errno.h>"),
    ("SIG", _CAPITALS + "_", "<signal.h>"),
    ("LC_", _CAPITALS, "<locale.h>"),
    ("FE_", _CAPITALS, "<fenv.h>"),
    ("FP_", _CAPITALS, "<math.h>"),
    ("PRI", _CAPITALS[23] + _CAPITALS.lower(), "<inttypes.h>"),
    ("SCN", _CAPITALS[23] + _CAPITALS.lower(), "<inttypes.h>"),
    ("ATOMIC_", _CAPITALS, "<stdatomic.h>"),
    ("TIME_", _CAPITALS, "<time.h>"),
)
_LIMITS = ("INT", "UINT", "SIZE_", "PTRDIFF_", "SIG_ATOMIC_", "WCHAR_", "WINT_")


def defining_header(name: str) -> str:
    """Return the standard header that defines ``name`` or is likely to, or nothing.

    Error numbers have no underscore (``EIO``), so a name that has one is not taken for one.
    """
    if name in _EXACT:
        return _EXACT[name]
    header = keeping_header(name)
    return "" if header == "<errno.h>" and "_" in name else header


def keeping_header(name: str) -> str:
    """Return the standard header that keeps names like ``name`` for itself, or nothing."""
    for start, following, header in _STARTS:
        if name.startswith(start) and name[len(start) : len(start) + 1] in (*following,):
            return header
    if name.startswith(_LIMITS) and name.endswith(("_MAX", "_MIN", "_C")):
        return "<stdint.h>"
    return ""


@rule("name-of-a-header", WARNING)
def name_of_a_header(subject: Subject) -> Iterator[Problem]:
    """A register is called like something that a common header defines.

    ## What it catches
    A register whose macro, prefix included, is a name of a header of ISO C or POSIX: `E` and a
    digit or capital without an underscore (errno.h), `SIG…` (signal.h), `LC_…` (locale.h), `I`
    (complex.h), `CS5` … (termios.h) and others.

    ## Why it matters
    Whoever includes both headers gets a macro defined twice, or another meaning without a word.

    ## Example
    `<register name="EIO" …/>`, with `<errno.h>` in the same file.

    ## Instead
    A prefix for the chip or block: `prefix="GH_"`.

    ## When to silence it
    On a target without that header.
    """
    for placed in subject.described:
        header = defining_header(placed.name)
        if header:
            message = (
                f"{placed.name} is a name that {header} keeps for itself; with both included one "
                "of the two is lost: use a prefix"
            )
            yield Problem(message, name_place(placed.register.origin))


@rule("name-kept-by-a-header", NOTE)
def name_kept_by_a_header(subject: Subject) -> Iterator[Problem]:
    """A register has a name that a header may take in a later edition.

    ## What it catches
    A register whose macro starts with `E` and a digit or capital and has an underscore: ISO C
    keeps all such names for errno.h, although no error number looks like that.

    ## Why it matters
    With `<errno.h>` in the same file the name is reserved; that it works is luck, though likely.

    ## Example
    `<register name="EVENT_CTRL" …/>`

    ## Instead
    A prefix for the chip or block: `prefix="GH_"`.

    ## When to silence it
    When nobody includes that header beside this one.
    """
    for placed in subject.described:
        header = keeping_header(placed.name)
        if header and not defining_header(placed.name):
            message = f"names like {placed.name} are kept for {header}; a prefix makes it safe"
            yield Problem(message, name_place(placed.register.origin))


@rule("macros-too-alike", WARNING)
def macros_too_alike(subject: Subject) -> Iterator[Problem]:
    """Two macros differ only beyond the characters that a compiler must look at.

    ## What it catches
    Macros with the same first 63 characters, which is all that C99 and later promise to tell
    apart.

    ## Why it matters
    A compiler may take them for one macro.

    ## Example
    Long block, register, field and value names put together.

    ## Instead
    A shorter prefix or name.

    ## When to silence it
    When your compiler looks at more.
    """
    yield from _alike(subject, 63, "C99 and later tell")


@rule("macros-alike-in-old-c", NOTE)
def macros_alike_in_old_c(subject: Subject) -> Iterator[Problem]:
    """Two macros have the same first 31 characters, all that C89 promises to tell apart.

    ## What it catches
    Macros that differ from each other in the 32nd character or later only.

    ## Why it matters
    A compiler of that age may take them for one macro. Newer ones look at 63 at least.

    ## Example
    Long block, register, field and value names put together.

    ## Instead
    A shorter prefix or name.

    ## When to silence it
    When no compiler of that age is used.
    """
    yield from _alike(subject, 31, "C89 tells")


def _alike(subject: Subject, length: int, who: str) -> Iterator[Problem]:
    """Yield one finding for each register or other thing that has such macros."""
    names = [name for name in subject.macro_names if len(name) > length]
    if len({name[:length] for name in names}) == len(set(names)):
        return
    first: dict[str, str] = {}
    told: set[int] = set()
    for origin, own in _owned_names(subject):
        for name in own:
            if len(name) <= length:
                continue
            earlier = first.setdefault(name[:length], name)
            if earlier != name and id(origin) not in told:
                told.add(id(origin))
                message = (
                    f"{name} and {earlier} have the same first {length} characters, all that "
                    f"{who} apart; shorten a prefix or name"
                )
                yield Problem(message, name_place(origin))


def _owned_names(subject: Subject) -> Iterator[tuple[Origin, list[str]]]:
    """Yield the macros of each register and of each other thing, with where it stands."""
    for item in subject.macros.registers:
        yield item.placed.register.origin, names_of_register(item)
    for part in subject.macros.parts:
        yield part.node.origin, names_of_part(part)


_LOOKS = str.maketrans({"O": "0", "l": "1"})


@rule("names-look-alike", WARNING)
def names_look_alike(subject: Subject) -> Iterator[Problem]:
    """Two names differ only in case, or in characters that look the same.

    ## What it catches
    Registers, or fields of one register, whose names differ only in capitals, in `0` and `O`, or
    in `1` and `l`.

    ## Why it matters
    Whoever types the one gets the other, and it compiles. Often one of the two was copied by
    text recognition.

    ## Example
    `DIR_O` and `DIR_0`

    ## Instead
    Look the names up in the document.

    ## When to silence it
    When the document really has both.
    """
    yield from _lookalikes([(item.name, item.register.origin) for item in subject.described])
    for placed in subject.described:
        if len(placed.facts.fields) > 1:
            yield from _lookalikes([(i.field.name, i.field.origin) for i in placed.facts.fields])


def _lookalikes(named: list[tuple[str, Origin]]) -> Iterator[Problem]:
    names = {name for name, _ in named}
    folded = {name.upper() for name in names}
    if len(folded) == len(names) == len({name.translate(_LOOKS) for name in names}):
        return
    seen: dict[str, str] = {}
    for name, origin in named:
        for key in {f"case {name.upper()}", f"look {name.translate(_LOOKS)}"}:
            earlier = seen.setdefault(key, name)
            if earlier != name:
                message = f"{name} and {earlier} look the same at a glance; is one mistyped?"
                yield Problem(message, name_place(origin))
                break
