"""The rule about what an audit could not look at."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.problem import CodeProblem
from regwright.audit.subject import AuditSubject
from regwright.model.finding import WARNING
from regwright.rules.catalogue import rule


@rule("not-understood", WARNING)
def not_understood(subject: AuditSubject) -> Iterator[CodeProblem]:
    """A part of a source could not be looked at.

    ## What it catches
    A comment or a conditional that never ends, a macro with a pointer whose parentheses do not
    match, and a file most of which is no C at all.

    ## Why it matters
    What was passed over may hold the mistake that is looked for: no finding in it means nothing.

    ## Example
    `#define OUT_B (*(volatile unsigned char *)0x18`

    ## Instead
    Close what is open. A file in another language is named with `--as`, or left out.

    ## When to silence it
    Where the part is put together elsewhere, by a macro of the build say.
    """
    for item in subject.seen.unread:
        yield CodeProblem(item.reason, item.at)
