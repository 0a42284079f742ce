"""Text whose spaces are all single: empty cells have vanished, and counting words lies.

What is left is what words look like: addresses, ranges of bits, words for access. Where they fill
the columns in one way only, the row is read; otherwise what is certain is read and the rest is
left for a person.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from regwright.importing.tables import headers, notation, words
from regwright.importing.tables.cells import Cell, Row, cell
from regwright.importing.tables.headers import Header, bank_of, bit_of, header, role_of
from regwright.importing.tables.pages import page_number
from regwright.importing.tables.printed_address import printed_address

_NAME = re.compile(r"[A-Za-z_]\w*(\[[\d:.]+\]|<[\d:]+>|\([\d:]+\))?[*†‡§⁰¹²³⁴-⁹]*(\(\d\))?")
_NAME_UPPER = re.compile(r"[A-Z_][A-Z0-9_a-z]*")
_LABELS = re.compile(
    r"((read ?/ ?write|access|initial value|initial|reset value|reset|default|name|bit name|type)\b"
    r"|r/w(?= (r|w|r/w)\b.* (r|w|r/w)$))",
    re.IGNORECASE,
)
_LONGEST_HEADER = 3
_LONGEST_PAGE = 6
#: An address and a name that is broken at its hyphen: ``0x31 (0x51) OSC-``.
_BROKEN = re.compile(r"(\S*\d\S*(?: \(\S+\))?) ([A-Z]\w*)-")


def collapsed_rows(lines: list[str], page: int | None, line: int) -> list[Row]:
    """Return the rows of ``lines``, the first of which is the ``line``-th of its file."""
    rows: list[Row] = []
    current: Header | None = None
    for at, text, doubt in _joined(lines, page, line):
        found = _header(text, at)
        if found is not None:
            current = found
            rows.append(found.row)
            continue
        row = _aligned(text.split(), current, at) if current else None
        if row is not None and doubt:
            row = row._replace(doubt="; ".join(filter(None, (doubt, row.doubt))))
        rows.append(row or Row((cell(text, 0),), *at))
    return rows


def _joined(
    lines: list[str], page: int | None, line: int
) -> Iterator[tuple[tuple[int, int | None, int], str, str]]:
    """Yield each line with its place, and with the next one where its name is broken at its end.

    The last of the three says that it was.
    """
    index = 0
    while index < len(lines):
        text, at = lines[index].strip(), (index + 1, page, line + index)
        below = lines[index + 1].strip() if index + 1 < len(lines) else ""
        index += 1
        if not text:
            continue
        goes_on = re.match(r"[A-Z0-9_]+ ", below) and not _starts_row(below)
        if _BROKEN.fullmatch(text) and goes_on and _header(below, at) is None:
            yield at, f"{text[:-1]}{below}", f"its name is broken over two lines: {text[:60]}"
            index += 1
        else:
            yield at, text, ""


def _starts_row(text: str) -> bool:
    """Tell whether a line starts with an address of its own."""
    first = text.split(maxsplit=1)[0]
    return first[0].isdigit() and printed_address(first) is not None


def _header(text: str, at: tuple[int, int | None, int]) -> Header | None:
    """Return the header that ``text`` is, when each of its words names a column."""
    found = text.split()
    named = sum(word.lower() == "bit" for word in found)
    pieces: list[str] = []
    while found:
        for length in range(min(_LONGEST_HEADER, len(found)), 0, -1):
            phrase = " ".join(found[:length])
            is_one_label = named == 1 and length > 1 and bit_of(phrase) is not None
            if _names_a_column(phrase) and not is_one_label:
                pieces.append(phrase)
                del found[:length]
                break
        else:
            return None
    if bit_of(pieces[0]) is not None:
        pieces.insert(0, "")  # the column of labels has no header
    cells = tuple(cell(piece, column) for column, piece in enumerate(pieces))
    result = header(Row(cells, *at))
    return result if result.is_one else None


def _names_a_column(phrase: str) -> bool:
    is_bit = bit_of(phrase) is not None or phrase in "ABCDEF"
    return is_bit or bool(role_of(phrase)) or bank_of(phrase) is not None


def _aligned(found: list[str], head: Header, at: tuple[int, int | None, int]) -> Row | None:
    """Return the row that the words ``found`` are under ``head``; ``None`` if they are none."""
    order = [_role(head, column) for column in range(len(head.row.cells))]
    is_summary = head.bits and head.roles.keys() - {headers.ADDRESS}
    is_matrix = (head.digits or head.banks) and not is_summary
    if is_matrix and _taken(headers.ADDRESS, found[:1]):
        return _of_matrix(found, head, at)
    if head.bits and head.roles.keys() <= {headers.BITS}:
        return _stacked(found, head, at)
    left = list(found)
    held: dict[int, str] = {}
    for column, role in enumerate(order):
        if role == "bit":
            break
        taken = _taken(role, left)
        if taken:
            held[column] = " ".join(left[:taken])
            del left[:taken]
    is_row = any(
        order[column] in (headers.ADDRESS, headers.OFFSET, headers.BITS, headers.BIT_POSITION)
        for column in held
    )
    if not is_row:
        return None
    doubt = _fill_bits(left, order, head, held) if head.bits else ""
    if not head.bits and left:
        doubt = f"it is not certain which columns {' '.join(left)[:60]!r} belongs to"
    return _built(held, head, at, doubt, " ".join(found))


def _role(head: Header, column: int) -> str:
    if column in head.bits:
        return "bit"
    return next((role for role, at in head.roles.items() if at == column), "")


def _taken(role: str, left: list[str]) -> int:
    """Return how many of the words ``left`` are the cell of a column with ``role``."""
    if not left:
        return 0
    if role in (headers.ADDRESS, headers.OFFSET, headers.IO, headers.DATA):
        return _words_of_address(left)
    if role == headers.NAME:
        is_name = _NAME.fullmatch(left[0]) or notation.is_nothing(left[0])
        has_mark = len(left) > 1 and re.fullmatch(r"\(\d\)", left[1])
        return (2 if has_mark else 1) if is_name else 0
    if role == headers.DESCRIPTION:
        return len(left)
    fits = _FITS.get(role)
    return 1 if fits is not None and fits(left[0]) else 0


def _is_reset(word: str) -> bool:
    found = words.reset(word, 64)
    return (found is not None and not found.doubt) or notation.is_nothing(word)


#: What the one word of a cell must look like, by the role of its column.
_FITS: dict[str, Callable[[str], object]] = {
    headers.BIT_POSITION: lambda word: ":" in word and notation.bit_range(word),
    headers.BITS: notation.bit_range,
    headers.ACCESS: words.access,
    headers.RESET: _is_reset,
    headers.PAGE: page_number,
    headers.WIDTH: str.isdigit,
}


def _words_of_address(left: list[str]) -> int:
    for length in range(min(4, len(left)), 0, -1):
        text = " ".join(left[:length])
        if printed_address(text) is not None and _is_address(text):
            return length
    return 0


def _is_address(text: str) -> bool:
    """Tell an address from a word, which has no digit, and from bits, as ``15:8``."""
    return any(letter.isdigit() for letter in text) and notation.bit_range(text) is None


def _fill_bits(left: list[str], order: list[str], head: Header, held: dict[int, str]) -> str:
    """Put the words ``left`` into the columns of bits and behind them; return what is in doubt."""
    columns = sorted(head.bits)
    behind = list(range(columns[-1] + 1, len(order)))
    left = _with_page(left) if headers.PAGE in head.roles else left
    ways = []
    for last in range(min(len(behind), len(left)) + 1):
        count = len(left) - last
        tail = dict(zip(behind[:last], left[count:], strict=True))
        fits = all(_taken(order[column], [word]) for column, word in tail.items())
        if fits and (count == 0 or _widths(left[:count]) == len(columns)):
            ways.append((left[:count], tail))
    if len(ways) != 1:
        return _undecided(left, len(columns), order, behind, held)
    middle, tail_words = ways[0]
    held.update(tail_words)
    column = columns[0]
    for word in middle:
        held[column] = word
        column += _width(word)
    return ""


def _with_page(left: list[str]) -> list[str]:
    """Return words with ``page 45`` at their end, or ``68, 70``, as one."""
    for length in range(min(_LONGEST_PAGE, len(left)), 1, -1):
        text = " ".join(left[-length:])
        if page_number(text) is not None:
            return [*left[:-length], text]
    return left


def _undecided(
    left: list[str], width: int, order: list[str], behind: list[int], held: dict[int, str]
) -> str:
    """Keep the page, which is a number alone behind names, and say that the bits are open."""
    shown = list(left)
    has_page = len(behind) == 1 and order[behind[0]] == headers.PAGE
    is_page = bool(shown) and len(shown[-1]) > 1 and page_number(shown[-1]) is not None
    if has_page and is_page:
        held[behind[0]] = shown.pop()
    if not shown:
        return ""
    text = " ".join(shown)[:80]
    return f"the spaces do not tell which of the {width} bits {text!r} are"


def _width(word: str) -> int:
    return notation.name_and_slice(word).width or 1


def _widths(found: list[str]) -> int:
    """Return how many columns words fill; -1 when one of them is no name of a bit."""
    for word in found:
        if len(word) > 1 and word.isalpha() and word.islower():
            return -1  # a sentence
        is_bit = _NAME.fullmatch(word) or notation.is_nothing(word) or word in ("0", "1")
        if not is_bit:
            return -1
    return sum(map(_width, found))


def _of_matrix(found: list[str], head: Header, at: tuple[int, int | None, int]) -> Row:
    """Return a row of a matrix: its base, and a name for each column if there are as many."""
    columns = sorted({*head.digits, *head.banks})
    held = {0: found[0]}
    doubt = ""
    if len(found) - 1 == len(columns):
        held.update(zip(columns, found[1:], strict=True))
    elif len(found) > 1:
        doubt = f"the spaces do not tell in which of {len(columns)} columns these names stand"
    return _built(held, head, at, doubt, " ".join(found))


def _stacked(found: list[str], head: Header, at: tuple[int, int | None, int]) -> Row | None:
    """Return a row of a register's box: a label, a cell for each bit, perhaps a name behind."""
    text = " ".join(found)
    label = ""
    if match := _LABELS.match(text):
        label, text = match[0], text[match.end() :]
    elif taken := _taken(headers.ADDRESS, found):
        label, text = " ".join(found[:taken]), " ".join(found[taken:])
    left = text.split()
    columns = sorted(head.bits)
    is_names = not match
    name = ""
    has_name = is_names and len(left) > 1 and bool(_NAME_UPPER.fullmatch(left[-1]))
    if has_name and _widths(left[:-1]) == len(columns):
        name = left.pop()
    if _widths(left) != len(columns) and len(left) != len(columns):
        if not label:
            return None
        held = {0: label}
        shown = " ".join(left)[:80]
        doubt = f"the spaces do not tell which of the {len(columns)} bits {shown!r} are"
        return _built(held, head, at, doubt, " ".join(found))
    held = {0: label}
    column = columns[0]
    for word in left:
        held[column] = word
        column += _width(word) if is_names else 1
    if name:
        held[columns[-1] + 1] = name
    return _built(held, head, at, "", " ".join(found))


def _built(
    held: dict[int, str], head: Header, at: tuple[int, int | None, int], doubt: str, raw: str
) -> Row:
    """Return the row whose columns hold ``held``; slices cover the columns of their width."""
    cells: list[Cell] = []
    column = 0
    last = max(max(held, default=0) + 1, len(head.row.cells))
    while column < last:
        text = held.get(column, "")
        span = 1
        if column in head.bits and text:
            span = min(_width(text), len(head.bits))
        cells.append(cell(text, column, span))
        column += span
    return Row(tuple(cells), *at, doubt, raw)
