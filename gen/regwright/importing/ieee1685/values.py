"""The named values of a field."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.labels import Node, is_fine, named
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.texts import LONGEST_LINE, is_plain, one_line
from regwright.importing.spelled import hexadecimal

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts

#: So many values a field of a description may have.
MOST_VALUES = 1024
_USUAL = frozenset({"name", "value", "description"})
_KINDS = frozenset({"enumeratedValue", "values"})
#: A value called so would be the macro that its field has anyway.
_MACROS = frozenset({"BITPOS", "MASK", "EXTRACT", "INSERT", "CLEAR", "TO_CLEAR"})


digits = lru_cache(maxsize=4096)(hexadecimal)


def values_of(document: Document, facts: Facts, bits: int, where: str) -> list[Node]:
    """Return the named values of a field of ``bits`` bits."""
    container = facts.get("enumeratedValues")
    if container is None:
        return _all(document, facts["values"], bits, where) if "values" in facts else []
    reference = container[0] if len(container) else None
    if reference is None or document.names[reference.tag] != "enumerationDefinitionRef":
        return _all(document, container, bits, where)
    with document.opened(reference, "enumerationDefinition") as found:
        if found is None:
            return []
        other, definition = found
        elements = definition.findall(other.tag("enumeratedValue"))
        return _all(other, elements, bits, where)


def _all(
    document: Document, elements: list[etree._Element] | etree._Element, bits: int, where: str
) -> list[Node]:
    taken = set(_MACROS)
    found: list[Node] = []
    for element in elements:
        if document.names[element.tag] not in _KINDS:
            continue
        if len(found) == MOST_VALUES:
            message = f"{where} has more than {MOST_VALUES} named values; the others were left out"
            document.log.refuse("too-much", message, element)
            break
        node = _simple(document, element, bits, taken)
        if node is None:
            node = _value(document, element, bits, taken, where)
        if node is not None:
            found.append(node)
    return found


def _simple(document: Document, element: etree._Element, bits: int, taken: set[str]) -> Node | None:
    """Return a value that has a plain name and number and nothing else to say, the usual case."""
    names = document.names
    texts = {names[child.tag]: child.text for child in element}
    if len(texts) != len(element) or texts.keys() - _USUAL or element.keys():
        return None
    name, number = texts.get("name"), document.clean.get(texts.get("value"))
    if number is None or number >> bits or not name or name in taken or not is_fine(name):
        return None
    taken.add(name)
    node: Node = {"name": name, "value": digits(number, bits)}
    title = (texts.get("description") or "").strip()
    if title and title != name:
        if len(title) > LONGEST_LINE or not is_plain(title):
            taken.remove(name)
            return None
        node["title"] = title
    return node


def _value(
    document: Document, element: etree._Element, bits: int, taken: set[str], where: str
) -> Node | None:
    facts = document.facts(element, "enumeratedValue")
    if "value" not in facts:
        return None
    try:
        number, unknown = document.bits(facts["value"])
    except Unclear as problem:
        message = f"a value of {where} is not clear: {problem}; it was left out"
        document.log.assume("number-unclear", message, problem.element)
        return None
    if unknown or number >> bits not in (0, -1):
        why = "stands for several values" if unknown else f"does not fit {bits} bits"
        message = f"a value of {where} {why}; it was left out"
        document.log.assume("value-cut", message, element)
        return None
    node = named(Part(element, facts, document, facts, document), taken, "value")
    node["value"] = digits(number & ((1 << bits) - 1), bits)
    if "notes" in node:
        _put_notes_into_title(node, document, element)
    if element.keys():
        usage = document.attribute(element, "usage")
        if usage in ("read", "write"):
            node["usage"] = usage
    return node


def _put_notes_into_title(node: Node, document: Document, element: etree._Element) -> None:
    """A value has no notes: they go into the title, as far as they fit."""
    notes = node.pop("notes")
    whole = f"{node['title']}: {notes}" if "title" in node else notes
    node["title"] = one_line(whole)
    if len(" ".join(whole.split())) > 200:
        message = "the text of a named value is longer than 200 characters and lost its end"
        document.log.tell_often("text-shortened", message, element)
