"""The macros of the chip's header, for reading sources that include it or will."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from regwright.code.scope import HeaderMacro
from regwright.macros.literals import c_type
from regwright.macros.registers import ChipMacros, Macro, macro_name


def header_macros(chip: str, macros: ChipMacros) -> Mapping[str, HeaderMacro]:
    """Return every macro that the header of the chip named ``chip`` defines, with its body."""
    return dict(_all(chip.upper(), macros))


def _all(upper: str, macros: ChipMacros) -> Iterator[tuple[str, HeaderMacro]]:
    for width in macros.widths:
        yield f"{upper}_REG{width}", _access(f"volatile {c_type(width)}")
    for width in macros.read_widths:
        yield f"{upper}_READ{width}", _access(f"const volatile {c_type(width)}")
    for register in macros.registers:
        for macro in (*register.numbers, *register.code):
            yield _read(macro)
        for field in register.fields:
            for macro in (*field.numbers, *field.code):
                yield _read(macro)
    for part in macros.parts:
        for macro in (*part.numbers, *part.code):
            yield _read(macro)


def _access(kind: str) -> HeaderMacro:
    return HeaderMacro(("address",), f"(*({kind} *)(address))".encode())


def _read(macro: Macro) -> tuple[str, HeaderMacro]:
    """Return a macro's name, and its parameters and body."""
    head, body = macro
    name = macro_name(head)
    inside = head[len(name) :].strip("()")
    parameters = None
    if "(" in head:
        parameters = tuple(part.strip() for part in inside.split(",")) if inside else ()
    return name, HeaderMacro(parameters, body.encode())
