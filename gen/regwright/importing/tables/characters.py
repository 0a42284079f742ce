"""Take the accidents of typesetting out of a text: ligatures, odd spaces, soft hyphens, breaks."""

from __future__ import annotations

import re

#: Characters that stand for others: ligatures, and letters and digits of full width.
_LIGATURES = {
    0xFB00: "ff",
    0xFB01: "fi",
    0xFB02: "fl",
    0xFB03: "ffi",
    0xFB04: "ffl",
    0xFB05: "st",
    0xFB06: "st",
}
_FULL_WIDTH = {code: chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)}
#: The byte-order mark, and what joins or parts words without being seen.
_UNSEEN = dict.fromkeys([0xFEFF, 0x200B, 0x200C, 0x200D, 0x2060, 0x200E, 0x200F], "")
_MENDED = {**_LIGATURES, **_FULL_WIDTH, **_UNSEEN}
_SOFT_HYPHEN = re.compile("\u00ad[ \t]*(\r?\n)?[ \t]*")
_BROKEN_WORD = re.compile("(?<=[A-Za-z0-9])[-\u2010][ \t]*\r?\n[ \t]*(?=[a-z])")
_BROKEN_NAME = re.compile(
    "(?<=_)[ \t]*\r?\n[ \t]*(?=[A-Za-z0-9])|[ \t]*\r?\n[ \t]*(?=_[A-Za-z0-9])"
)
_BROKEN_UPPER = re.compile("(?<=[A-Z0-9_])[-\u2010][ \t]*\r?\n[ \t]*(?=[A-Z])")


def plain(text: str) -> str:
    """Return ``text`` on one line as it was meant.

    A word broken at the end of a line is whole again, a soft hyphen is none, a ligature is its
    letters, every space is a plain and single one.
    """
    text = _SOFT_HYPHEN.sub("", text.translate(_MENDED))
    if "\n" in text:
        for broken in (_BROKEN_WORD, _BROKEN_UPPER, _BROKEN_NAME):
            text = broken.sub("", text)
    return " ".join(text.split())
