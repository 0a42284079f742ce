"""What the standard's elements do not say of an object, as an extension of regwright's own."""

from __future__ import annotations

from typing import Any
from xml.etree.ElementTree import Element

from regwright.format.shape import shapes
from regwright.importing.ieee1685.own_spelling import MEMBERS, Tree, element_of, meaning
from regwright.importing.ieee1685.own_standard import Said

#: What other elements say, or only an editor wants to know.
_ELSEWHERE = MEMBERS | {"spaces", "instances", "$schema"}


def extension(
    tag: str, tree: Tree, said: Said, kind: str, hints: dict[str, str] | None = None
) -> Element | None:
    """Return what ``said``, the standard's part, leaves open of ``tree``, an object of this kind.

    The extension has the attribute ``given`` for what the standard's part repeats and the
    description says there all the same, ``implied`` for what the standard's part must say and the
    description does not, and otherwise what a description in XML has. ``None`` if all is said.
    """
    missing, given = _missing(tree, said, kind)
    implied = [name for name in said.certain if name not in tree or tree[name] == []]
    element: Element = element_of(tag, missing, shapes()[kind])
    for name, names in (("given", given), ("implied", implied)):
        if names:
            element.set(name, " ".join(names))
    for name, value in (hints or {}).items():
        element.set(name, value)
    return element if element.attrib or len(element) else None


def _missing(tree: Tree, said: Said, kind: str) -> tuple[Tree, list[str]]:
    missing: Tree = {}
    given = []
    for name, value in tree.items():
        if name in _ELSEWHERE or value == []:
            continue
        wanted = meaning(value, name, kind)
        if name in said.certain:
            if wanted == meaning(said.certain[name], name, kind):
                continue
        elif name in said.repeated and wanted == meaning(said.repeated[name], name, kind):
            given.append(name)
            continue
        if name in ("address", "base"):
            known = said.certain.get(name, said.repeated.get(name))
            value = _without_number(value, known, kind, name)  # noqa: PLW2901
        missing[name] = value
    return missing, given


def _without_number(text: str, known: str | None, kind: str, name: str) -> str:
    """Return addresses, the one that the standard's part says without its number."""
    items = text.split(" ")
    wanted: Any = None if known is None else meaning(known, name, kind)
    for index, item in enumerate(items):
        if meaning(item, name, kind) == wanted:
            items[index] = item.partition(":")[0]
            break
    return " ".join(items)
