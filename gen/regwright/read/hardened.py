"""Parse XML that nobody vouches for: no network, no entities, bounded depth and texts.

Every reader of XML goes through here, so that a bound is set once.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from lxml import etree

#: What every parser is made with.
OPTIONS: dict[str, Any] = {
    "resolve_entities": False,
    "no_network": True,
    "load_dtd": False,
    "huge_tree": False,
}
_PROLOG = rb"(?s)(?:\xef\xbb\xbf)?(?:\s+|<\?.*?\?>|<!--.*?-->)*"


class NotWellFormed(Exception):
    """The bytes are no XML; carries the message, line and column, both from 1."""

    def __init__(self, message: str, line: int, column: int) -> None:
        super().__init__(message)
        self.message, self.line, self.column = message, max(line, 1), max(column, 1)


def parse(
    data: bytes,
    in_other_words: Mapping[str, str],
    *,
    encoding: str | None = None,
    keep_comments: bool = False,
) -> etree._Element:
    """Return the root element. Raises :class:`NotWellFormed`.

    ``in_other_words`` are the beginnings of what libxml2 says that is no advice, and what to say
    instead.
    """
    from lxml import etree

    parser = etree.XMLParser(
        encoding=encoding, remove_comments=not keep_comments, remove_pis=True, **OPTIONS
    )
    try:
        return etree.fromstring(data, parser)
    except etree.XMLSyntaxError as problem:
        words = _plain(str(problem.msg), in_other_words)
        raise NotWellFormed(f"no XML: {words}", *problem.position) from None


def _plain(message: str, in_other_words: Mapping[str, str]) -> str:
    """Return what libxml2 says, on one line and without advice that only programs can follow."""
    for start, words in in_other_words.items():
        if message.startswith(start):
            return words
    return " ".join(message.partition(", line ")[0].split())


def doctype_at(data: bytes) -> int | None:
    """Return the byte at which a document type stands; one can only stand in the prolog."""
    if b"<!DOCTYPE" not in data:
        return None
    prolog = re.match(_PROLOG, data)
    end = prolog.end() if prolog else 0
    return end if data.startswith(b"<!DOCTYPE", end) else None
