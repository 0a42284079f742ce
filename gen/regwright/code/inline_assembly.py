"""Inline assembly: the statements in the strings of an ``asm("…" "…")``, and their operands.

Sources: ISO C11 6.4.4.4 and 6.4.5 for escapes and adjacent strings; the gcc manual, "Extended Asm",
for ``%0``, ``%[name]`` and ``%%``.
"""

from __future__ import annotations

import re
from array import array
from collections.abc import Iterator, Sequence

from regwright.code.assembler import Equate, Piece, Statement, statements

_ESCAPE = re.compile(
    rb"\\(?:(?P<line>\r?\n)|(?P<octal>[0-7]{1,3})|x(?P<hex>[0-9A-Fa-f]++)|(?P<other>.)|\Z)",
    re.DOTALL,
)
#: What escapes stand for; the others of C, as ``\"``, stand for their own character.
_ESCAPED = dict(zip(b"abefnrtv", b"\a\b\x1b\f\n\r\t\v", strict=True))

_REFERENCE = re.compile(r"%[A-Za-z]?(?:(?P<index>[0-9]{1,3})|\[(?P<name>[A-Za-z_][A-Za-z0-9_]*)\])")


def template_statements(strings: Sequence[tuple[bytes, int]]) -> Iterator[Statement | Equate]:
    """Yield the statements in the strings of one ``asm``, with places in the file.

    Each string is the bytes between its quotes, as they are in the file, and the offset of the
    first of them. The strings make one text, as for the compiler, in which escapes are read; so a
    place may enclose quotes and what is between two strings. Operands of the ``asm`` stay as they
    are written, ``%0``; see :func:`reference`. Statements are separated by line breaks and by
    semicolons, as :mod:`regwright.code.assembler` tells.
    """
    text, starts, ends = _read(strings)

    def place(start: int, end: int) -> tuple[int, int]:
        if start < end:
            return starts[start], ends[end - 1]
        # Nothing, as between two commas: it stands behind the byte before it.
        return ends[start - 1], ends[start - 1]

    def piece(found: Piece) -> Piece:
        return Piece(found.text, *place(found.start, found.end))

    for found in statements(text, semicolons_separate=True):
        whole = place(found.start, found.end)
        if isinstance(found, Equate):
            yield Equate(piece(found.name), piece(found.expression), *whole)
        else:
            operands = tuple(map(piece, found.operands))
            mnemonic_end = place(found.start, found.mnemonic_end)[1]
            yield Statement(found.label, found.mnemonic, operands, *whole, mnemonic_end)


def _read(strings: Sequence[tuple[bytes, int]]) -> tuple[bytes, array[int], array[int]]:
    """Return the text that strings mean, and where each of its bytes starts and ends."""
    text, starts, ends = bytearray(), array("q"), array("q")
    for raw, offset in strings:
        position = 0
        while position < len(raw):
            escape = _ESCAPE.match(raw, position)
            if escape is None:
                end = raw.find(b"\\", position)
                end = len(raw) if end < 0 else end
                text += raw[position:end]
                starts.extend(range(offset + position, offset + end))
                ends.extend(range(offset + position + 1, offset + end + 1))
            else:
                end = escape.end()
                for byte in _meaning(escape):
                    text.append(byte)
                    starts.append(offset + position)
                    ends.append(offset + end)
            position = end
    return bytes(text), starts, ends


def _meaning(escape: re.Match[bytes]) -> bytes:
    if escape["octal"]:
        return bytes([int(escape["octal"], 8) & 0xFF])
    if escape["hex"]:
        return bytes([int(escape["hex"][-2:], 16)])
    other = escape["other"] or b""
    return bytes(_ESCAPED.get(byte, byte) for byte in other)


def reference(text: str) -> str | int | None:
    """Return which operand of its ``asm`` all of a text stands for: its index or its name.

    A letter that changes how the operand is printed, ``%a0``, makes no difference. ``None`` is for
    text that holds more than one reference or none, as ``%0+1`` or the register ``%%r1``.
    """
    match = _REFERENCE.fullmatch(text)
    if match is None:
        return None
    return match["name"] or int(match["index"])
