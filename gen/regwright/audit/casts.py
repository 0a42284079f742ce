"""Where a type stands in a source, before which ``volatile`` can be put with certainty."""

from __future__ import annotations

import re

from regwright.audit.subject import AuditSubject
from regwright.audit.verdicts import Claim
from regwright.code.seen import Where

_STORAGE = re.compile(
    rb"(?:(?:static|extern|register|inline|constexpr|constinit|thread_local|_Thread_local|__thread)"
    rb"\s+)*+"
)
#: The words of a type; and those with the ``*`` behind them.
_WORDS = re.compile(rb"[A-Za-z_][\w:]*+(?:\s++[A-Za-z_][\w:]*+)*+")
_POINTED = re.compile(rb"(" + _WORDS.pattern + rb")\s*+\*")
#: A type in a source is not longer than this.
_LONGEST = 400


def place_in_cast(subject: AuditSubject, qualifier: Where) -> Where | None:
    """Return the type at ``qualifier``, when it is that of a cast to a pointer with its ``*``.

    Before a name that stands for a pointer type ``volatile`` would be the pointer's; and a type
    that came with a macro may be that of other things as well.
    """
    data = subject.files[qualifier.file].data
    start = qualifier.start
    before = data[max(start - _LONGEST, 0) : start].rstrip()
    pointed = _POINTED.match(data, start, start + _LONGEST)
    if pointed is None or before[-1:] not in (b"(", b"<"):
        return None
    return Where(qualifier.file, start, pointed.end(1))


def place_in_declaration(
    subject: AuditSubject, qualifier: Where, claim: Claim, *, is_object: bool
) -> Where | None:
    """Return the type at the start of the declaration of a pointer, or of a placed object."""
    start, name = qualifier.start, claim.at.start
    if qualifier.file != claim.whole.file or not claim.whole.start <= start < name:
        return None
    data = subject.files[qualifier.file].data
    storage = _STORAGE.match(data, start, name)
    begin = storage.end() if storage else start
    found = (_WORDS if is_object else _POINTED).match(data, begin, name)
    if found is None or (is_object and data[found.end() : name].strip()):
        return None
    return Where(qualifier.file, begin, found.end(0 if is_object else 1))
