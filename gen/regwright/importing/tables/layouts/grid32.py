"""A register of 32 bits (or 64) in rows of 16 or 8 columns, cells merged for its fields."""

from __future__ import annotations

from regwright.importing.tables.facts import FieldFacts, RegisterFacts
from regwright.importing.tables.layouts import stacked
from regwright.importing.tables.recognise import Section


def read(section: Section) -> list[RegisterFacts]:
    """Return the register in the grid; a field that goes on in the row beneath is one field."""
    found = stacked.read(section)
    for register in found:
        register.fields = _joined(register.fields)
    return found


def _joined(fields: list[FieldFacts]) -> list[FieldFacts]:
    """Join two cells of the same name where the second goes on with the bit below the first."""
    found: list[FieldFacts] = []
    for item in fields:
        before = found[-1] if found else None
        goes_on = (
            before is not None
            and before.name == item.name
            and before.index is None
            and item.index is None
            and before.bits[-1][1] == item.bits[0][0] + 1
        )
        if before is not None and goes_on:
            before.bits = [(before.bits[0][0], item.bits[0][1])]
            before.reviews += item.reviews
            if before.access != item.access:
                before.reviews.append("its two parts have different access")
        else:
            found.append(item)
    return found
