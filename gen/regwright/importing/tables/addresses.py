"""Find out which of two printed addresses is of which space, from all rows together."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from regwright.importing.draft import Draft
from regwright.importing.spelled import hexadecimal
from regwright.importing.tables.facts import RegisterFacts

IO, DATA = "io", "data"
#: The spaces of two addresses whose meaning is not known, named by where they are printed.
OUTSIDE, INSIDE = "outside", "parentheses"
OFFSET_SPACE = "+"
_FEWEST = 2


class Scheme(NamedTuple):
    """How addresses are printed: the space of the one outside parentheses and of the one within.

    Both are empty where only one address is ever printed. ``offset`` is what is added to an I/O
    address to get the data address.
    """

    outer: str = ""
    inner: str = ""
    offset: int | None = None


class Wanted(NamedTuple):
    """What the user said: ``parentheses`` is ``data`` or ``io``; both may be ``None``."""

    parentheses: str | None = None
    offset: int | None = None


def place(registers: list[RegisterFacts], wanted: Wanted, draft: Draft) -> Scheme:
    """Work out the scheme and give each register its first address in each space."""
    counted = [item for item in registers if not item.is_offset and not item.space]
    scheme = _scheme(counted, wanted, draft)
    for register in registers:
        register.placed = _placed(register, scheme)
    _mark_outliers(counted, scheme)
    return scheme


def _difference(register: RegisterFacts) -> int | None:
    address = register.address
    if address is None or address.outer is None or address.inner is None:
        return None
    return address.inner.first.value - address.outer.first.value


def _scheme(registers: list[RegisterFacts], wanted: Wanted, draft: Draft) -> Scheme:
    pairs = [(item, diff) for item in registers if (diff := _difference(item)) is not None]
    if not pairs:
        return _scheme_of_singles(registers, wanted, draft)
    differences = Counter(diff for _, diff in pairs)
    if wanted.offset is not None:
        likely = max((wanted.offset, -wanted.offset), key=lambda diff: differences[diff])
    else:
        likely = differences.most_common(1)[0][0]
    count, total = differences[likely], len(pairs)
    line = pairs[0][0].spot.line
    said = next((item.address.spaces for item, _ in pairs if item.address), ("", ""))
    if said[0]:
        draft.tell("addresses-inferred", "the headers say which address is of which space", line)
        return Scheme(IO, DATA, likely if likely >= 0 and count * 2 > total else None)
    if wanted.parentheses:
        is_data = wanted.parentheses == DATA
        offset = wanted.offset
        if offset is None and (likely > 0) == is_data and count * 2 > total:
            offset = abs(likely)
        return Scheme(IO, DATA, offset) if is_data else Scheme(DATA, IO, offset)
    is_told = wanted.offset is not None and count > 0
    if likely and (is_told or (count >= _FEWEST and count * 3 >= total * 2)):
        inner = DATA if likely > 0 else IO
        _say(draft, inner, abs(likely), (count, total), line)
        return Scheme(IO if inner == DATA else DATA, inner, abs(likely))
    draft.assume("needs-review", _why_open(likely, count, total), line)
    return Scheme(OUTSIDE, INSIDE)


def _say(draft: Draft, inner: str, offset: int, rows: tuple[int, int], line: int) -> None:
    what = "data" if inner == DATA else "I/O"
    direction = "higher" if inner == DATA else "lower"
    draft.tell(
        "addresses-inferred",
        f"the address in parentheses is the {what} address: it is {hexadecimal(offset)} "
        f"{direction} than the one before it in {rows[0]} of {rows[1]} rows with two",
        line,
    )


def _why_open(likely: int, count: int, total: int) -> str:
    if likely == 0 and count * 2 > total:
        reason = "the two addresses of a row are the same"
    elif total == 1:
        reason = "one row has two addresses, and one row shows nothing"
    else:
        reason = f"the two addresses differ by the same amount in only {count} of {total} rows"
    return (
        f"{reason}: which is the data address? Say it with --parentheses data or io; until then "
        f"the spaces are called {OUTSIDE!r} and {INSIDE!r}"
    )


def _scheme_of_singles(registers: list[RegisterFacts], wanted: Wanted, draft: Draft) -> Scheme:
    """Return the scheme of rows that never print two addresses."""
    printed = [item for item in registers if item.address]
    said = next((item.address.spaces for item in printed if item.address), ("", ""))
    if said[0]:
        return Scheme(IO, DATA)
    within = [item for item in printed if item.address and item.address.outer is None]
    if wanted.parentheses and within:
        is_data = wanted.parentheses == DATA
        return Scheme(*((IO, DATA) if is_data else (DATA, IO)), wanted.offset)
    if within and len(within) < len(printed):
        draft.assume(
            "needs-review",
            "some addresses stand in parentheses and some do not, but no row has two: what do "
            "parentheses mean? Say it with --parentheses data or io",
            within[0].spot.line,
        )
        return Scheme(OUTSIDE, INSIDE)
    if wanted.parentheses or wanted.offset is not None:
        draft.tell(
            "addresses-inferred",
            "each row prints one address, so there is nothing that --parentheses or "
            "--window-offset could say; all are taken as data addresses",
        )
    return Scheme()


def _placed(register: RegisterFacts, scheme: Scheme) -> dict[str, int]:
    address = register.address
    if address is None:
        return {}
    if register.is_offset:
        return {OFFSET_SPACE: address.first.first.value}
    if register.space:
        return {register.space: address.first.first.value}
    if not scheme.inner:
        return {DATA: address.first.first.value}
    found: dict[str, int] = {}
    for space, span in ((scheme.outer, address.outer), (scheme.inner, address.inner)):
        if span is not None:
            found[space] = span.first.value
    # I/O first, as most documents print it
    return {space: found[space] for space in (IO, DATA, OUTSIDE, INSIDE) if space in found}


def _mark_outliers(registers: list[RegisterFacts], scheme: Scheme) -> None:
    if scheme.inner == INSIDE:
        for register in registers:
            if len(register.placed) == 2:
                register.review("two addresses: which is the I/O address, which the data address?")
        return
    if scheme.offset is None:
        return
    highest = max((item.placed[IO] for item in registers if len(item.placed) == 2), default=0)
    for register in registers:
        io, data = register.placed.get(IO), register.placed.get(DATA)
        if io is not None and data is not None and data - io != scheme.offset:
            sign = "-" if data < io else ""
            apart = sign + hexadecimal(abs(data - io))
            register.review(
                f"its addresses are {apart} apart, those of the other rows "
                f"{hexadecimal(scheme.offset)}; one of them is wrong"
            )
        elif io is not None and data is None and scheme.inner == DATA and io > highest:
            if io > highest + scheme.offset:
                register.placed = {DATA: io}
                register.review(
                    "printed alone, without parentheses and above the I/O addresses: "
                    "taken as a data address"
                )
            else:
                register.review("printed alone and without parentheses: is it an I/O address?")
