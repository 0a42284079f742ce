"""A finding: what a reader or a rule has to say about one place of a description."""

from typing import NamedTuple

from regwright.model.origin import Origin

ERROR = "error"
WARNING = "warning"
NOTE = "note"
#: The levels, the gravest first.
LEVELS = (ERROR, WARNING, NOTE)

#: What a finding speaks of, and its repair takes the place of: a value without its quotes, the
#: name of a property or element, or a value as its spelling writes it, quotes and all.
VALUE = "value"
NAME = "name"
LITERAL = "literal"


class Finding(NamedTuple):
    """Something to tell the user. Finding it never stops the search for more."""

    rule: str
    level: str
    message: str
    origin: Origin
    #: A word within the text at ``origin`` that the finding is about, such as ``data:`` in
    #: ``io:0x18 data:0x38``; empty for all of it.
    word: str = ""
    #: A place that the reader knew outright (line and column, both from 1), for text that has no
    #: structure to speak of.
    at: tuple[int, int] | None = None
    #: What should stand there instead, when that is certain: in place of the word that starts
    #: with ``word``, or of the whole ``part``.
    repair: str | None = None
    part: str = VALUE


class Place(NamedTuple):
    """A place in a file; line and column count characters from 1."""

    file: str
    line: int
    column: int
