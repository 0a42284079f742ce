"""Parse XML of others: no network, no entities, no document type, bounded depth.

Unlike a description, such a file may be in another encoding than UTF-8, if ASCII is part of it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from regwright.read import hardened
from regwright.read.source import SIZE_LIMIT

if TYPE_CHECKING:
    from lxml import etree

_ENCODING = rb"""(?:\xef\xbb\xbf)?<\?xml\s[^>]*?\bencoding\s*=\s*["']([^"'>]*)["']"""
_PLAIN = re.compile("(utf-?8|(us-)?ascii|iso-8859-[0-9]{1,2}|latin-?1|windows-125[0-8])", re.I)
_DECLARATION = re.compile(r"\s*<\?xml\s[^>]*\?>")
_IN_OTHER_WORDS = {
    "Excessive depth": "elements are nested more than 255 deep",
    "Resource limit exceeded": "a text is longer than 10,000,000 characters",
}


class Unreadable(Exception):
    """The bytes cannot be read as XML; carries the message, line and column."""

    def __init__(self, message: str, line: int = 1, column: int = 1) -> None:
        super().__init__(message)
        self.message, self.line, self.column = message, max(line, 1), max(column, 1)


def parse(data: bytes) -> etree._Element:
    """Return the root element. Raises :class:`Unreadable`."""
    if len(data) > SIZE_LIMIT:
        raise Unreadable(f"the file is larger than {SIZE_LIMIT >> 20} MB, which is not read")
    data = _in_a_plain_encoding(data)
    end = hardened.doctype_at(data)
    if end is not None:
        message = "a document type (<!DOCTYPE …>) has no place in a file of IEEE 1685; remove it"
        raise Unreadable(message, data.count(b"\n", 0, end) + 1)
    try:
        return hardened.parse(data, _IN_OTHER_WORDS)
    except hardened.NotWellFormed as problem:
        raise Unreadable(problem.message, problem.line, problem.column) from None


def _in_a_plain_encoding(data: bytes) -> bytes:
    """Return ``data`` in an encoding of which ASCII is a part."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            text = data.decode("utf-16")
        except UnicodeDecodeError:
            raise Unreadable("the file starts as UTF-16 and is not") from None
        return _DECLARATION.sub("", text, count=1).encode("utf-8", "replace")
    declared = re.match(_ENCODING, data)
    if declared is not None and not _PLAIN.fullmatch(declared[1].decode("latin-1")):
        name = declared[1].decode("latin-1")[:40]
        raise Unreadable(f"the encoding {name!r} is not read; save the file as UTF-8")
    if b"\0" in data:
        raise Unreadable("the file has zero bytes in it: it is no XML in UTF-8")
    return data
