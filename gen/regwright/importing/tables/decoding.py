"""Turn the bytes of a table into text, whatever program wrote them."""

from __future__ import annotations

import codecs
import re

from regwright.importing.tables.cells import Unreadable

#: Larger files are refused; the longest data sheet's tables are far smaller.
MOST_BYTES = 32 << 20
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_CHARSET = re.compile(rb"charset=[\"']?([A-Za-z0-9_-]{1,40})")


def decoded(data: bytes, *, is_html: bool = False) -> str:
    """Return ``data`` as text: UTF-8 or UTF-16 where it is one, else what old spreadsheets write.

    Raises :class:`Unreadable` for a file that is too large or holds no text.
    """
    if len(data) > MOST_BYTES:
        raise Unreadable(f"the file has more than {MOST_BYTES >> 20} MB; keep the table alone")
    for mark, name in _MARKS:
        if data.startswith(mark):
            return data.decode(name, "replace")
    if wide := _without_mark(data[:4096]):
        return data.decode(wide, "replace")
    if b"\0" in data:
        raise Unreadable("this is no text: it holds zero bytes; name the form with --form")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode(_declared(data) if is_html else "cp1252", "replace")


def _without_mark(start: bytes) -> str:
    """Return the kind of UTF-16 that ``start`` is in, told by the zeros of plain letters."""
    if len(start) < 4 or len(start) % 2:
        return ""
    even, odd = start[::2].count(0), start[1::2].count(0)
    if odd > len(start) * 0.3 and even == 0:
        return "utf-16-le"
    return "utf-16-be" if even > len(start) * 0.3 and odd == 0 else ""


def _declared(data: bytes) -> str:
    found = _CHARSET.search(data[:2048])
    try:
        return codecs.lookup(found[1].decode("ascii")).name if found else "cp1252"
    except LookupError:
        return "cp1252"
