"""Spell an imported description in a few lines, to be held against what a fixture prints."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from regwright.importing.draft import Draft
from regwright.importing.tables.reading import Wishes, import_table

FIXTURES = Path(__file__).parent / "fixtures"


def imported(name: str, **wishes: Any) -> Draft:
    """Return the draft of a fixture."""
    data = (FIXTURES / name).read_bytes()
    return import_table(name, data, Wishes("demo", **wishes))


def registers(tree: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """Return every register of a description by its name, those in blocks too."""
    found = list(tree.get("registers", []))
    for block in tree.get("blocks", []):
        found += block["registers"]
    return {register["name"]: register for register in found}


def fields(register: dict[str, Any]) -> dict[str, str]:
    """Return the bits of each field of a register."""
    return {field["name"]: field["bits"] for field in register.get("fields", [])}


def lines(draft: Draft) -> list[str]:
    """Return a draft's description, then what was said about it, a line for each thing."""
    found = list(_tree_lines(draft.tree or {}))
    for remark in draft.remarks:
        if remark.rule != "name-mapped":
            found.append(f"! {remark.line} {remark.level} {remark.rule}: {remark.message}")
    return found


def _tree_lines(tree: dict[str, Any]) -> Iterator[str]:
    for space in tree.get("spaces", []):
        spans = [f"{item['first']}-{item['last']}" for item in space.get("regions", [])]
        yield " ".join([f"space {space['name']} {space['size']}", *spans])
    for window in tree.get("windows", []):
        yield f"window {window['first']}-{window['last']} + {window['offset']}"
    for register in tree.get("registers", []):
        yield from _register_lines(register)
    for block in tree.get("blocks", []):
        yield f"block {block['name']} {block['base']}"
        for register in block["registers"]:
            yield from _register_lines(register)


def _register_lines(register: dict[str, Any]) -> Iterator[str]:
    known = ("name", "fields", "reserved", "review", "halves", "printed")
    yield " ".join([register["name"], *_facts(register, known)])
    yield f"  = {register['printed']}"
    for which, half in register.get("halves", {}).items():
        yield f"  {which} {half['name']} {half['address']}"
    for field in register.get("fields", []):
        facts = _facts(field, ("name", "bits", "values", "review", "printed", "page"))
        yield " ".join([f"  {field['bits']} {field['name']}", *facts])
        for value in field.get("values", []):
            title = f" {value['title']}" if "title" in value else ""
            yield f"    {value['value']} {value['name']}{title}"
    if "reserved" in register:
        yield "  - " + " ".join(item["bits"] for item in register["reserved"])


def _facts(node: dict[str, Any], known: tuple[str, ...]) -> list[str]:
    return [f"{key}={value}" for key, value in node.items() if key not in known]
