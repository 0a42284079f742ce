"""Write elements as text: the same bytes for the same elements, and nothing that XML forbids."""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element
from xml.sax.saxutils import escape, quoteattr

#: What XML 1.0 has no place for, however it is escaped.
_FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_WIDTH = 100


def to_text(root: Element, prefixes: dict[str, str]) -> str:
    """Return ``root`` as a document; ``prefixes`` has the prefix of each namespace in it."""
    declared = [f'xmlns:{prefix}="{namespace}"' for namespace, prefix in prefixes.items()]
    names = {f"{{{namespace}": f"{prefix}:" for namespace, prefix in prefixes.items()}
    lines = ['<?xml version="1.0" encoding="UTF-8"?>']
    _add(root, names, "", declared, lines)
    return "\n".join(lines) + "\n"


def _add(
    element: Element, names: dict[str, str], indent: str, declared: list[str], lines: list[str]
) -> None:
    namespace, _, local = element.tag.partition("}")
    name = names[namespace] + local
    attributes = [f"{key}={quoteattr(_legal(value))}" for key, value in element.attrib.items()]
    start = _start(indent, name, declared + attributes)
    if len(element):
        lines.append(f"{start}>")
        for child in element:
            _add(child, names, indent + "  ", [], lines)
        lines.append(f"{indent}</{name}>")
    elif element.text:
        lines.append(f"{start}>{escape(_legal(element.text))}</{name}>")
    else:
        lines.append(f"{start}/>")


def _start(indent: str, name: str, attributes: list[str]) -> str:
    """Return a start tag without its end, its attributes on several lines if there are many."""
    line = " ".join([f"{indent}<{name}", *attributes])
    if len(line) < _WIDTH or len(attributes) < 2:
        return line
    margin = "\n" + indent + " " * (len(name) + 2)
    return f"{indent}<{name} {margin.join(attributes)}"


def _legal(text: str) -> str:
    return _FORBIDDEN.sub("\ufffd", text)
