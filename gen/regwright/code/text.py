"""The text of one source file: its bytes, and the lines and columns of places in it."""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property

C, CPP, ASSEMBLER = "c", "c++", "assembler"

_ENDINGS = {
    ".c": C,
    ".h": C,
    ".inc": C,
    ".cc": CPP,
    ".cpp": CPP,
    ".cxx": CPP,
    ".c++": CPP,
    ".hh": CPP,
    ".hpp": CPP,
    ".hxx": CPP,
    ".h++": CPP,
    ".ino": CPP,
    ".s": ASSEMBLER,
    ".sx": ASSEMBLER,
    ".asm": ASSEMBLER,
}


def language_of(name: str) -> str | None:
    """Return the language that the ending of a file's name tells, if it is one of a source."""
    dot = name.rfind(".")
    ending = name[dot:] if dot >= 0 else ""
    return CPP if ending == ".C" else _ENDINGS.get(ending.lower())


_MARK = b"\xef\xbb\xbf"
#: So many bytes are decoded at once to count the characters of a line.
_STRIDE = 4096


class CodeText:
    """A source: ``data`` as it is on disk, ``language`` one of ``c``, ``c++``, ``assembler``.

    Places are counted in bytes, as the grammar counts them.
    """

    def __init__(self, name: str, data: bytes, language: str) -> None:
        """Hold ``data`` under the name that messages give it."""
        self.name = name
        self.data = data
        self.language = language
        self._long_lines: dict[int, tuple[list[int], list[int]]] = {}

    @cached_property
    def _line_starts(self) -> list[int]:
        starts = [0]
        position = self.data.find(b"\n")
        while position >= 0:
            starts.append(position + 1)
            position = self.data.find(b"\n", position + 1)
        return starts

    def line(self, offset: int) -> int:
        """Return the line, counted from 1, of the byte ``offset``."""
        return bisect_right(self._line_starts, offset)

    def line_start(self, line: int) -> int:
        """Return the byte with which ``line``, counted from 1, starts."""
        return self._line_starts[min(line, len(self._line_starts)) - 1]

    def line_end(self, line: int) -> int:
        """Return the byte of the line break that ends ``line``, or the end of the text."""
        starts = self._line_starts
        if line >= len(starts):
            return len(self.data)
        end = starts[line] - 1
        return end - 1 if end > starts[line - 1] and self.data[end - 1 : end] == b"\r" else end

    def line_and_column(self, offset: int) -> tuple[int, int]:
        """Return line and column, both from 1; columns count characters, as editors do."""
        line = self.line(offset)
        start = self._line_starts[line - 1]
        if line == 1 and self.data.startswith(_MARK):
            start = min(len(_MARK), offset)
        column = 1
        if offset - start > _STRIDE:
            places, columns = self._columns_in(line, start)
            last = bisect_right(places, offset) - 1
            start, column = places[last], columns[last]
        return line, column + len(self.slice(start, offset))

    def _columns_in(self, line: int, start: int) -> tuple[list[int], list[int]]:
        """Return places in a long line, a stride apart, and the column of each.

        With them the columns of many places cost little, however long their line is.
        """
        found = self._long_lines.get(line)
        if found is None:
            places, columns = [start], [1]
            end = self.line_end(line)
            while True:
                place = places[-1] + _STRIDE
                while place < end and self.data[place] & 0xC0 == 0x80:  # within a character
                    place += 1
                if place >= end:
                    break
                columns.append(columns[-1] + len(self.slice(places[-1], place)))
                places.append(place)
            found = self._long_lines[line] = places, columns
        return found

    def slice(self, start: int, end: int) -> str:
        """Return the text of the bytes ``start:end``; what is no UTF-8 is replaced."""
        return self.data[start:end].decode("utf-8", "replace")
