"""Texts of a component file as a description holds them: plain, bounded, without mark-up."""

from __future__ import annotations

import html
import re

from regwright.importing.names import line, prose

_TAGS = (
    "a|abbr|b|big|blockquote|body|br|center|code|dd|div|dl|dt|em|font|h[1-6]|head|hr|html|i|img"
    "|li|ol|p|pre|s|small|span|strong|style|sub|sup|table|tbody|td|tfoot|th|thead|title|tr|tt|u|ul"
)
_BREAK = re.compile(
    r"<\s*(?:br|/p|/div|/li|/tr|/h[1-6]|/table|hr|li)\b[^<>]{0,500}>", re.IGNORECASE
)
_TAG = re.compile(rf"</?(?:{_TAGS})(?:\s[^<>]{{0,500}})?/?>", re.IGNORECASE)
_BLANK_LINES = re.compile(r"\n(?:[ \t]*\n)+")
LONGEST_LINE = 200
LONGEST_PROSE = 4000


def without_markup(text: str) -> str:
    """Return ``text`` with tags of HTML taken out and its entities read."""
    if "<" in text:
        text = _TAG.sub("", _BREAK.sub("\n", text))
    return html.unescape(text) if "&" in text else text


def is_plain(text: str) -> bool:
    """Tell whether ``text``, without space around it, is one line that nothing needs doing to."""
    if "<" in text or "&" in text or "  " in text:
        return False
    return _is_one_printable_line(text)


def _is_one_printable_line(text: str) -> bool:
    """Tell whether XML text has no control characters; of ASCII it can have but four."""
    if text.isascii():  # much faster than isprintable
        return not ("\n" in text or "\t" in text or "\r" in text or "\x7f" in text)
    return text.isprintable()


def one_line(text: str) -> str:
    """Return ``text`` on one line of at most 200 characters."""
    if len(text) <= LONGEST_LINE and is_plain(text):
        return text
    return line(without_markup(text))


def paragraphs(text: str) -> str:
    """Return ``text`` in at most 4000 characters, its lines kept, empty ones made single."""
    if len(text) <= LONGEST_PROSE and "<" not in text and "&" not in text:
        if "  " not in text and _is_one_printable_line(text):
            return text
        lines = [item.strip() for item in text.split("\n")]
        plain = "\n".join(filter(None, lines))
        if "  " not in plain and _is_one_printable_line("".join(lines)):
            return plain
    return prose(_BLANK_LINES.sub("\n", without_markup(text.expandtabs(1))))


def is_too_long(text: str) -> bool:
    """Tell whether :func:`paragraphs` leaves something of ``text`` out."""
    return len(text) > LONGEST_PROSE and len(" ".join(text.split())) > LONGEST_PROSE
