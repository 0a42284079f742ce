"""The header of a family: it includes the header of the chip that a program is built for."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from regwright.format.devices import DEVICES
from regwright.macros.frame import choice, guard
from regwright.macros.registers import macro_names
from regwright.model.chip import Chip
from regwright.render.safe_text import comment
from regwright.render.templates import Output, own_environment
from regwright.render.views import Input

#: The headers of ISO C: ISO/IEC 9899:2024, 7.1.2. One of ours by such a name would take its place.
_STANDARD = frozenset(
    [
        *("assert", "complex", "ctype", "errno", "fenv", "float", "inttypes", "iso646", "limits"),
        *("locale", "math", "setjmp", "signal", "stdalign", "stdarg", "stdatomic", "stdbit"),
        *("stdbool", "stdckdint", "stddef", "stdint", "stdio", "stdlib", "stdnoreturn", "string"),
        *("tgmath", "threads", "time", "uchar", "wchar", "wctype"),
    ]
)
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,47}")


class FamilyProblem(Exception):
    """The descriptions and the name make no header of a family; the message says why."""


class Member(NamedTuple):
    """A chip as the template sees it.

    ``choices`` are the macros each of which chooses it, in words, ``condition`` tells whether one
    of them is defined. ``title`` and ``source`` are safe within a C comment.
    """

    name: str
    title: str
    source: str
    choices: str
    condition: str


def refusal(name: str) -> str:
    """Return why no header of a family can be called ``name``, or nothing."""
    if not _NAME.fullmatch(name) or "__" in name:
        return "a letter first, then letters, digits and single underscores, 48 at most"
    if name.lower() in DEVICES:
        return f"some systems keep {name!r} for a device, and no file there can have that name"
    if name.lower() in _STANDARD:
        return f"{name}.h is a header of C itself, and would be found in its place"
    return ""


def family_header(name: str, inputs: Iterable[Input]) -> Output:
    """Return the header ``name`` of the family of all that is a chip in ``inputs``; no device is.

    Raises :class:`FamilyProblem`.
    """
    inputs = list(inputs)
    chips = [item for item in inputs if item.resolved.chip.kind == "chip"]
    if not chips:
        raise FamilyProblem(
            f"{name}.h: none of the descriptions is a chip's, so there is nothing to choose from"
        )
    _refuse_names(name, inputs)
    _refuse_shared(name, [(item.resolved.chip, item.source) for item in chips])
    members = [_member(item) for item in chips]
    context = {
        "name": name,
        "guard": guard(name),
        "chips": members,
        "number": " \\\n    + ".join(f"({member.condition})" for member in members),
        "known": ", ".join(f"{member.name} (define {member.choices})" for member in members),
    }
    return Output(f"{name}.h", own_environment().get_template("family.h.j2").render(context))


def _macros_of(chip: Chip) -> list[str]:
    """Return the macros each of which chooses ``chip``."""
    own = [choice(chip)]
    return list(dict.fromkeys([*own, chip.compiler_macro])) if chip.compiler_macro else own


def _member(item: Input) -> Member:
    chip = item.resolved.chip
    macros = _macros_of(chip)
    condition = " || ".join(f"defined({macro})" for macro in macros)
    title = comment(chip.title or chip.name)
    return Member(chip.name, title, comment(item.source), " or ".join(macros), condition)


def _refuse_names(name: str, inputs: list[Input]) -> None:
    """Refuse a name by which something in one of the chips goes already."""
    for item in inputs:
        chip = item.resolved.chip
        if chip.name.lower() == name.lower():
            raise FamilyProblem(
                f"{name}.h is the header of {item.source} itself; give the family another name"
            )
        macros = {*macro_names(item.macros), *_macros_of(chip)}
        if guard(name) in macros:
            raise FamilyProblem(
                f"{guard(name)}, which keeps {name}.h from being read twice, is a macro of "
                f"{item.source} already; give the family another name"
            )


def _refuse_shared(name: str, chips: list[tuple[Chip, str]]) -> None:
    """Refuse two chips that one macro would choose."""
    owners: dict[str, str] = {}
    for chip, source in chips:
        for macro in _macros_of(chip):
            if macro in owners:
                raise FamilyProblem(
                    f"{name}.h: {owners[macro]} and {source} are both chosen by {macro}, so that "
                    "nothing tells them apart; give each a compilerMacro of its own, or none"
                )
            owners[macro] = source
