"""One register's box: bits, names, read/write and initial values, its address at the side."""

from __future__ import annotations

from regwright.importing.tables.facts import RegisterFacts
from regwright.importing.tables.layouts import stacked
from regwright.importing.tables.recognise import Section


def read(section: Section) -> list[RegisterFacts]:
    """Return the register in the box; two when each of two bytes has its own name."""
    return stacked.read(section)
