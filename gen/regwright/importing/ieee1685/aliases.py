"""Fields that are other names of fields (2022): they take what those say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.literals import shown
from regwright.importing.ieee1685.numbers import Unclear

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document

#: Containers that a path passes over.
_PASSED_OVER = frozenset({"memoryMaps", "addressSpaces", "localMemoryMap", "alternateRegisters"})
#: What of its target an alias has as its own.
_TAKEN_OVER = ("bitWidth", "volatile", "resets")


def alias_target(part: Part, register: str) -> Part:
    """Return ``part`` with the width, reset and volatility of the field that it is an alias of.

    Raises :class:`Unclear` when that is not found.
    """
    document, alias = part.document, part.facts["aliasOf"]
    path = [(document.names[step.tag], _name(document, step)) for step in alias]
    words = ".".join(name for _, name in path)
    target = _find(document, part.element, path)
    if target is None:
        raise Unclear(f"it is an alias of {shown(words)}, which is not found", alias)
    found = document.facts(target, "field")
    if "bitWidth" not in found:
        raise Unclear(f"it is an alias of {shown(words)}, which does not say its width", alias)
    message = f"that a field of {register} is another name for the field {words}"
    document.log.lose(message, alias)
    taken = {name: found[name] for name in _TAKEN_OVER if name in found}
    facts = {**part.facts, **taken}
    own = facts if part.own is part.facts else part.own
    return part._replace(facts=facts, own=own)


def _name(document: Document, step: etree._Element) -> str:
    return document.attribute(step, document.names[step.tag])


def _find(
    document: Document, element: etree._Element, path: list[tuple[str, str]]
) -> etree._Element | None:
    """Return the element that ``path`` leads to, from the innermost container that has it."""
    container: etree._Element | None = element.getparent()
    while container is not None:
        here: etree._Element | None = container
        for step, name in path:
            if here is not None:
                here = _named_children(document, here).get((step.removesuffix("Ref"), name))
        if here is not None:
            return here
        container = container.getparent()
    return None


def _named_children(
    document: Document, container: etree._Element
) -> dict[tuple[str, str], etree._Element]:
    """Return the children of ``container`` by kind and name, those of some children too."""
    found = document.children_by_name.get(container)
    if found is None:
        found = document.children_by_name[container] = {}
        waiting = list(container)
        for child in waiting:
            kind = document.names[child.tag]
            if kind in _PASSED_OVER:
                waiting.extend(child)
            else:
                name = document.text(child.find(document.tag("name")))
                found.setdefault((kind, name), child)
    return found
