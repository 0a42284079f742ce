"""Names, titles and notes of what is imported."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from regwright.importing.ieee1685.texts import is_too_long, one_line, paragraphs
from regwright.importing.names import identifier, line

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts, Part

Node = dict[str, Any]
#: Among so many names a second one of a kind is numbered by how many there are.
_MANY = 500
_UNDERSCORES = re.compile("_{2,}")
_FINE = re.compile("[A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)*")


@lru_cache(maxsize=4096)
def is_fine(name: str) -> bool:
    """Tell whether ``name`` can be a name of a description as it is."""
    return len(name) <= 80 and _FINE.fullmatch(name) is not None


def named(part: Part, taken: set[str], kind: str) -> Node:
    """Return a node with the name, title and notes of ``part``; the name is added to ``taken``."""
    document, own = part.own_document, part.own
    element = own.get("name")
    text = document.text(element) if element is not None else ""
    node: Node = {"name": text}
    if text in taken or not is_fine(text):
        node["name"] = _mapped(document, text, taken, part.element, kind)
        if line(text):
            node["title"] = line(text)
    else:
        taken.add(text)
    _describe(node, own, document)
    if part.facts is not own:
        _describe(node, part.facts, part.document)
    return node


def _mapped(
    document: Document, text: str, taken: set[str], element: etree._Element, kind: str
) -> str:
    plain = _UNDERSCORES.sub("_", text).strip("_") or kind.upper()
    if len(taken) >= _MANY and plain in taken:  # do not try every number for each of them
        plain = f"{plain[:60]}_{len(taken) + 1}"
    name = identifier(plain, taken)
    if not text:
        document.log.assume("name-mapped", f"a {kind} without a name became {name}", element)
    elif is_fine(text):
        message = f"a second {kind} called {text!r} became {name}"
        document.log.assume("name-mapped", message, element)
    else:
        message = f"the {kind} {line(text, 80)!r} became {name}, a name that C can use"
        document.log.tell("name-mapped", message, element)
    return name


def _describe(node: Node, facts: Facts, document: Document) -> None:
    """Add the title and notes that ``facts`` have, where ``node`` has none."""
    if "displayName" in facts:
        display = document.text(facts["displayName"])
        if display != node["name"]:
            _add_title(node, display)
    short = document.text(facts["shortDescription"]) if "shortDescription" in facts else ""
    if short and "title" not in node:
        _add_title(node, short)
        short = ""
    long = document.text(facts["description"]) if "description" in facts else ""
    if short and short != long:
        long = f"{short}\n{long}" if long else short
    if long and "notes" not in node:
        _add_notes(node, long, document, facts)


def _add_notes(node: Node, text: str, document: Document, facts: Facts) -> None:
    """Add a description; a short one on one line is the title if there is none yet."""
    if "title" not in node and len(text) <= 200 and "\n" not in text:
        _add_title(node, text)
        return
    notes = paragraphs(text)
    if notes and notes != node.get("title"):
        node["notes"] = notes
        if len(text) > 4000 and is_too_long(text):
            element = facts.get("description", facts.get("shortDescription"))
            document.log.tell_often("text-shortened", _SHORTENED, element)


_SHORTENED = "a text of more than 4000 characters lost its end"


def _add_title(node: Node, text: str) -> None:
    own = one_line(text)
    if not own:
        return
    if "title" in node:
        if node["title"] != own and ": " not in node["title"]:
            node["title"] = line(f"{node['title']}: {own}")
    else:
        node["title"] = own


def note(node: Node, text: str) -> None:
    """Add a line to the notes of ``node``."""
    before = node.get("notes")
    node["notes"] = paragraphs(f"{before}\n{text}" if before else text)
