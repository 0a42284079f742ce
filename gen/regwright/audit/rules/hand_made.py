"""Rules that run when hand-made definitions are to be replaced by the emitted header."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.catalogue import CodeFinding
from regwright.audit.including import Includes
from regwright.audit.own_definitions import Clash, HandMade, OwnDefinitions
from regwright.audit.problem import CodeEdit, CodeProblem
from regwright.audit.rules.comments import audible
from regwright.audit.subject import AuditSubject
from regwright.code.seen import Where
from regwright.model.finding import NOTE, WARNING
from regwright.rules.catalogue import rule

_NAME_OF_THE_HEADER = "name-of-the-header"


@rule("hand-made-definition", NOTE)
def hand_made_definition(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A definition made by hand stands for what the emitted header defines.

    ## What it catches
    With `--use-header NAME`: a macro of the header's own name for the same thing, and a macro of
    another name for the object at a register's address. `--fix` takes the first kind out, gives the
    second the header's name as its body, and includes NAME; unless a name of the header stands for
    something else in the sources, which name-of-the-header tells.

    ## Why it matters
    What is copied by hand is right until the next chip. The header is made again from the
    description, and its numbers were checked there.

    ## Example
    `#define OUT_B (*(volatile uint8_t *)0x38)` and `#define DIRB (*(volatile uint8_t *)0x37)`.

    ## Instead
    `#include "sorrel14.h"` and `#define DIRB DIR_B`.

    ## When to silence it
    On a definition that must stay what it is, for another compiler say.
    """
    if not subject.use_header:
        return
    own = OwnDefinitions(subject)
    found = own.hand_made()
    clashes = [CodeFinding(_NAME_OF_THE_HEADER, WARNING, "", item.at) for item in own.clashes()]
    is_free = not audible(clashes, subject)
    includes = Includes(subject, found)
    for item in found:
        name, header = item.definition.name, subject.use_header
        message = f"{name} is defined in {header}: take this definition out"
        if item.body:
            message = f"{name} is {item.body} of {header}: write that in place of the number"
        edits = (*includes.edits(item), _edit(subject, item)) if is_free else ()
        branch = item.definition.branch
        yield CodeProblem(message, item.definition.name_at, branch, edits, item.body)


@rule(_NAME_OF_THE_HEADER, WARNING)
def name_of_the_header(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A name of the emitted header stands for something else in a source.

    ## What it catches
    With `--use-header NAME`: a macro, a constant, a variable or a member that has the name of one
    of the header's macros and is not the same as that, and the `#undef` of such a name.

    ## Why it matters
    With the header included it does not compile, or it compiles and means something else. So
    `--fix` includes the header nowhere as long as there is one.

    ## Example
    `#define OUT_B ((volatile uint8_t *)0x38)`, used as `*OUT_B`; in the header `OUT_B` is the
    object itself.

    ## Instead
    Use the name as the header has it: `OUT_B`, or `&OUT_B` for its address; then take the
    definition out.

    ## When to silence it
    Where the file never sees the header.
    """
    if not subject.use_header:
        return
    for clash in OwnDefinitions(subject).clashes():
        yield CodeProblem(_clash(clash, subject.use_header), clash.at, clash.branch)


def _clash(clash: Clash, header: str) -> str:
    if clash.is_undef:
        return f"{clash.name} is taken away here, and {header} defines it: remove this line first"
    return (
        f"{clash.name} is something else in {header}, which cannot be included yet: give this "
        "another name, or use the name as the header does and take this out"
    )


def _edit(subject: AuditSubject, item: HandMade) -> CodeEdit:
    """Return the edit that puts the header's own definition in the place of ``item``."""
    definition = item.definition
    if item.body:
        return CodeEdit(definition.body, item.body)
    data = subject.files[definition.whole.file].data
    _, start, end = definition.whole
    while start > 0 and data[start - 1 : start] in (b" ", b"\t"):
        start -= 1
    for line_break in (b"\r\n", b"\n"):
        if data.startswith(line_break, end):
            end += len(line_break)
            break
    return CodeEdit(Where(definition.whole.file, start, end), "")
