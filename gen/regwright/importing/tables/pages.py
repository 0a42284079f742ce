"""Read the cell that says on which pages a register is described."""

from __future__ import annotations

import re

from regwright.importing.tables.notation import DASHES

_PAGES = re.compile(
    rf"(?:pp?\.?|pages?)?\s*(\d{{1,5}})(?:\s*(?:[,;/&{DASHES}]|\band\b|\bto\b)\s*"
    r"(?:pp?\.?|pages?)?\s*\d{1,5})*",
    re.IGNORECASE,
)


def page_number(text: str) -> int | None:
    """Return the page that a cell names, the first of several."""
    found = _PAGES.fullmatch(text.strip())
    return int(found[1]) or None if found else None
