"""One thing to do for a program that moves to another chip."""

from __future__ import annotations

from typing import NamedTuple

from regwright.audit.usage import Place


class Work(NamedTuple):
    """One thing to do.

    ``danger`` is one of :data:`regwright.compare.porting_kinds.DANGERS`. ``thing`` is what it is
    about, as A calls it; ``message`` says what is different, ``instead`` what to write; empty where
    building with the new header is enough.
    """

    danger: str
    rank: int
    thing: str
    message: str
    instead: str
    places: tuple[Place, ...]
