"""What the column headers of register tables say."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from regwright.importing.tables.cells import Row
from regwright.importing.tables.notation import strip_marks
from regwright.importing.tables.printed_address import span

ADDRESS, OFFSET, NAME, BIT_POSITION = "address", "offset", "name", "bit position"
BITS, ACCESS, RESET, DESCRIPTION = "bits", "access", "reset", "description"
PAGE, WIDTH, VALUE, IO, DATA = "page", "width", "value", "io address", "data address"

#: The first pattern that fits a header tells the role of its column.
_ROLES = [
    (role, re.compile(pattern, re.IGNORECASE))
    for role, pattern in (
        (OFFSET, r"(address |addr\.? )?offset( address)?( \(.*\))?|rel(ative|\.)? addr(ess|\.)?"),
        (IO, r"i/?o[ -]?(space )?addr(ess|\.)?|i/?o( space)?|addr(ess|\.)? \(?i/?o\)?"),
        (DATA, r"(data|mem(ory|\.)?)[ -]?(space )?addr(ess|\.)?|addr(ess|\.)? \(?(data|mem)\)?"),
        (
            ADDRESS,
            r"((hex|register|reg\.?|virtual|physical|absolute) )?addr(ess(es)?|\.)?"
            r"( ?[(\[].*[)\]])?|location|base",
        ),
        (BIT_POSITION, r"bit pos(ition)?\.?(\(?s\)?)?|bit range"),
        (BITS, r"bits?(\(s\)|\[s\])?|bit (no\.?|number|offset)s?"),
        (
            NAME,
            r"((register|reg\.?|field|bit|short) )?(names?|acronym|symbol|mnemonic)"
            r"|register|(bit ?)?field",
        ),
        (ACCESS, r"access( type)?|r/?w|r-w|read ?/ ?write|type|attr(ibutes?|\.)?|mode"),
        (
            RESET,
            r"(all )?(resets?|initial|init\.?|default|por|power[- ]on)( (value|state)s?)?( \(.*\))?"
            r"|(value|state) (after|on|at) (reset|por)|after reset",
        ),
        (DESCRIPTION, r"desc(ription|r\.?)?|function|meaning|comments?|remarks?|notes?|title"),
        (PAGE, r"(see |details on )?(page|pg\.?)( no\.?)?s?|on page"),
        (WIDTH, r"(width|size)( ?[(\[]?(in )?bits?[)\]]?)?"),
        (VALUE, r"values?|codes?|settings?|encoding"),
    )
]
_LONGEST = 60
_BIT = re.compile(r"(?:bits?|b|d)?[ #]?(\d{1,2})", re.IGNORECASE)
_DIGIT = re.compile(r"(?:0x|\+|\$|x|_)?([0-9A-F])(?:h)?", re.IGNORECASE)
_TWO_BITS = re.compile(r"(\d{1,2})/(\d{1,2})")
_TWO_DIGITS = re.compile(r"([0-7])/([89A-F])", re.IGNORECASE)
_BANK = re.compile(r"bank ?#?(\d{1,2})(?:[ ,:]*[(\[]?([^()\[\]]*?)[)\]]?)?", re.IGNORECASE)


class Bank(NamedTuple):
    """The header of a bank's column: its number, and the address it starts at if printed."""

    number: int
    base: int | None


class Header(NamedTuple):
    """What the columns of a table hold.

    ``roles`` gives the column of each role; ``bits``, ``digits`` and ``banks`` say for a column
    the bit, the low digit of an address or the bank that it stands for.
    """

    roles: dict[str, int]
    bits: dict[int, int]
    digits: dict[int, int]
    banks: dict[int, Bank]
    row: Row

    @property
    def is_one(self) -> bool:
        """Whether the row heads columns at all."""
        has_many = len(self.roles) > 1 or self.bits or self.digits
        return bool(has_many or self.banks)

    @property
    def known(self) -> int:
        """How many columns say what they hold."""
        return len(self.roles) + len({*self.bits, *self.digits, *self.banks})

    @property
    def width(self) -> int:
        """How many bits have a column."""
        return len(self.bits)


@lru_cache(maxsize=4096)
def role_of(text: str) -> str:
    """Return the role that a column header names, or nothing."""
    if len(text) > _LONGEST:
        return ""
    plain = strip_marks(text)[0].rstrip(":").strip()
    return next((role for role, pattern in _ROLES if pattern.fullmatch(plain)), "")


@lru_cache(maxsize=4096)
def bit_of(text: str) -> int | None:
    """Return the bit that a column header names: ``Bit 7``, ``7``."""
    found = _BIT.fullmatch(strip_marks(text)[0])
    return int(found[1]) if found and int(found[1]) < 64 else None


@lru_cache(maxsize=4096)
def digit_of(text: str) -> int | None:
    """Return the low digit of an address that a column header names: ``+3``, ``A``."""
    found = _DIGIT.fullmatch(text)
    return int(found[1], 16) if found else None


@lru_cache(maxsize=4096)
def bank_of(text: str) -> Bank | None:
    """Return the bank that a column header names: ``Bank 1``, ``Bank 1 (80h-FFh)``."""
    found = _BANK.fullmatch(text) if len(text) <= _LONGEST else None
    if found is None:
        return None
    base = span(found[2]) if found[2] else None
    return Bank(int(found[1]), base.first.value if base else None)


def header(row: Row, below: Row | None = None) -> Header:
    """Return what ``row`` says of its columns, where it is a header.

    ``below`` is the row beneath when the header stands in two: its bits go under a merged cell.
    """
    roles: dict[str, int] = {}
    bits: dict[int, int] = {}
    digits: dict[int, int] = {}
    banks: dict[int, Bank] = {}
    under = {item.column: item for item in below.cells} if below else {}
    for item in row.cells:
        columns = range(item.column, item.column + item.span)
        lower = [under[column] for column in columns if column in under]
        numbers = {low.column: bit_of(low.text) for low in lower if not low.continued}
        is_above = not item.text or "bit" in item.text.lower()
        if is_above and any(number is not None for number in numbers.values()):
            bits.update({at: bit for at, bit in numbers.items() if bit is not None})
            continue
        bit = bit_of(item.text)
        if (digit := digit_of(item.text)) is not None and item.span == 1:
            digits[item.column] = digit
        if bit is not None and item.span == 1:
            bits[item.column] = bit
        elif bank := bank_of(item.text):
            banks[item.column] = bank
        elif role := role_of(item.text):
            roles.setdefault(role, item.column)
    if any("/" in item.text for item in row.cells):
        bits = bits or (_bits_of_two(row) if BIT_POSITION in roles else {})
        digits = digits or _digits_of_two(row)
    ascending = sorted(digits.values()) == list(digits.values()) == list(range(len(digits)))
    is_matrix = len(digits) in (8, 16) and ascending
    return Header(roles, bits if _is_run(bits) else {}, digits if is_matrix else {}, banks, row)


def _bits_of_two(row: Row) -> dict[int, int]:
    """Return the lower bit of columns that stand for two, ``31/15`` ... ``16/0``.

    Which of the two is meant says the row, in its range of bits.
    """
    found = {item.column: _TWO_BITS.fullmatch(item.text) for item in row.cells if item.span == 1}
    pairs = {column: (int(pair[1]), int(pair[2])) for column, pair in found.items() if pair}
    apart = {high - low for high, low in pairs.values()}
    return {column: low for column, (_, low) in pairs.items()} if apart == {len(pairs)} else {}


def _digits_of_two(row: Row) -> dict[int, int]:
    """Return the low digit of columns that stand for two, ``0/8`` ... ``7/F``.

    The base of a row says which half of the sixteen addresses is meant.
    """
    found = {item.column: _TWO_DIGITS.fullmatch(item.text) for item in row.cells if item.span == 1}
    pairs = {column: (int(pair[1]), int(pair[2], 16)) for column, pair in found.items() if pair}
    is_one = all(high == low + 8 for low, high in pairs.values())
    return {column: low for column, (low, _) in pairs.items()} if is_one else {}


def _is_run(bits: dict[int, int]) -> bool:
    """Tell whether bits follow each other, from either end, so that they head columns."""
    numbers = [bits[column] for column in sorted(bits)]
    if len(numbers) < 4:
        return False
    steps = {after - before for before, after in pairwise(numbers)}
    return steps in ({1}, {-1})
