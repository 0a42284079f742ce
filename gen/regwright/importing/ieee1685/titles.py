"""What a description says of itself: its name, title, and the document it was taken from."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from regwright.format.devices import DEVICES
from regwright.importing.ieee1685.labels import Node
from regwright.importing.ieee1685.texts import one_line, paragraphs
from regwright.importing.names import identifier, line

if TYPE_CHECKING:
    from regwright.importing.ieee1685.documents import Document

_LONGEST_NAME = 48


def chip_head(document: Document, map_name: str, *, several: bool, file: str) -> Node:
    """Return the head of the description; with ``several`` maps its name has the map's too.

    A component without a name is called like its ``file``.
    """
    vendor, library, name, version = document.identifier
    name = name or file.replace("\\", "/").rpartition("/")[2].partition(".")[0]
    text = f"{name}_{map_name}" if several else name
    tree: Node = {"format": 1, "name": _chip_name(text)}
    display, short, long = (
        document.text(document.root.find(document.tag(kind)))
        for kind in ("displayName", "shortDescription", "description")
    )
    title = one_line(display or short)
    if not title and long and len(long) <= 200 and "\n" not in long:
        title, long = one_line(long), ""
    _put(tree, "title", title or (line(text) if tree["name"] != text else ""))
    source: Node = {}
    _put(source, "title", line(":".join(part for part in (vendor, library, name) if part)))
    _put(source, "revision", line(version))
    if "title" in source:
        tree["document"] = source
    _put(tree, "notes", paragraphs(long))
    return tree


def _put(node: Node, key: str, text: str) -> None:
    if text:
        node[key] = text


def _chip_name(text: str) -> str:
    name = re.sub("_{2,}", "_", identifier(text, set())).strip("_")
    name = re.sub("^[^A-Za-z]+", "", name)[:_LONGEST_NAME].rstrip("_") or "component"
    return f"{name[: _LONGEST_NAME - 5]}_chip" if name.lower() in DEVICES else name
