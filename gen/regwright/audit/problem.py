"""What a rule about code yields, and the edits that would repair it."""

from __future__ import annotations

from typing import NamedTuple

from regwright.code.seen import Branch, Where


class CodeEdit(NamedTuple):
    """Text to put in the place of a part of a source; an empty part is an insertion."""

    at: Where
    text: str


class CodeProblem(NamedTuple):
    """A message about a part of a source.

    ``edits`` repair it where that is certain; ``repair`` says in words what is right then.
    """

    message: str
    at: Where
    branch: Branch = ()
    edits: tuple[CodeEdit, ...] = ()
    repair: str | None = None
