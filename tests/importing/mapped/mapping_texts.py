"""Small documents and mappings for the tests of mapped imports."""

from __future__ import annotations

import json
from typing import Any

from regwright.importing.draft import Draft
from regwright.importing.mapped.mapping import map_document

SPACES = {"spaces": [{"name": "data", "size": "0x1000"}]}


def mapping(chip: dict[str, Any], reads: str = "xml", **more: Any) -> bytes:
    """Return the text of a mapping for ``chip``, which gets a name and a space unless it has."""
    whole = {"name": {"value": "demo"}, "fixed": SPACES, **chip}
    data = {"format": 1, "reads": reads, "numbers": "c", **more, "chip": whole}
    return json.dumps(data, indent=1).encode()


def mapped(document: str, chip: dict[str, Any], reads: str = "xml", **more: Any) -> Draft:
    """Return what the mapping for ``chip`` makes of ``document``."""
    text = mapping(chip, reads, **more)
    return map_document(f"chip.{reads}", document.encode(), "map.json", text)


def of_registers(rule: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Return a chip with registers at ``reg``, each with a name at ``@n`` and ``rule``."""
    registers = {"at": "reg", "name": "@n", "address": {"value": "0x10"}, **rule}
    return {"registers": registers, **more}


def first_register(draft: Draft) -> dict[str, Any]:
    """Return the first register of a draft that has no errors."""
    assert draft.tree is not None, draft.remarks
    found: dict[str, Any] = draft.tree["registers"][0]
    return found


def said(draft: Draft, level: str = "") -> list[tuple[str, str]]:
    """Return the rules and messages of the remarks of a level, or of all."""
    return [(item.rule, item.message) for item in draft.remarks if level in ("", item.level)]


def errors(draft: Draft) -> list[tuple[str, str]]:
    """Return the rules and messages of what stands in the way; nothing came of the document."""
    assert draft.tree is None, "a description was made in spite of errors"
    return said(draft, "error")
