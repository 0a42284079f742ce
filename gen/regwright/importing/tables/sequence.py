"""Hold the addresses of a column against each other: their base, and what a spreadsheet did."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from regwright.importing.draft import Draft
from regwright.importing.tables.facts import RegisterFacts
from regwright.importing.tables.notation import Number
from regwright.importing.tables.printed_address import PrintedAddress, Span

#: So many times must addresses count on over a ten until they are decimal without a doubt.
_ENOUGH_STEPS = 2
_ROUND = re.compile(r"([1-9])(0{1,9})")


def mend(registers: list[RegisterFacts], draft: Draft) -> None:
    """Read bare numbers in the base that all of them together have, and mark what breaks off."""
    _choose_base(registers, draft)
    _undo_spreadsheet(registers)


def _numbers(registers: list[RegisterFacts]) -> Iterator[Number]:
    for register in registers:
        for span in (register.address.outer, register.address.inner) if register.address else ():
            if span is not None:
                yield from (span.first, span.last)


def _choose_base(registers: list[RegisterFacts], draft: Draft) -> None:
    """Tell decimal from hexadecimal where no number says it."""
    numbers = list(_numbers(registers))
    bare = [item for item in numbers if item.style == "bare"]
    if not bare or any(not item.digits.isdigit() for item in bare):
        return
    if any(item.style != "bare" for item in numbers) or all(item.value < 10 for item in bare):
        return
    if any(len(item.digits) > 1 and item.digits.startswith("0") for item in bare):
        return  # 00, 01 ... 10: digits are filled up as hexadecimal ones are
    steps = _tens(bare)
    if steps:
        _read_as_decimal(registers, steps, draft)
        return
    for register in registers:
        if register.address and register.address.first.first.value > 9:
            register.review("its address is printed without a base, read as hexadecimal")


def _tens(bare: list[Number]) -> list[tuple[str, str]]:
    """Return where numbers count on over a ten in decimal: 9 to 10, 19 to 20."""
    counted = list(dict.fromkeys(item.digits for item in bare))
    return [
        (before, after)
        for before, after in pairwise(counted)
        if before.endswith("9") and int(after) == int(before) + 1
    ]


def _read_as_decimal(
    registers: list[RegisterFacts], steps: list[tuple[str, str]], draft: Draft
) -> None:
    """Read all addresses as decimal, for what ``steps`` show; a single step proves little."""
    shown = " and ".join(f"{before} is followed by {after}" for before, after in steps[:2])
    for register in registers:
        if register.address is None:
            continue
        register.address = _mapped(register.address)
        if len(steps) < _ENOUGH_STEPS and register.address.first.first.value > 9:
            register.review(
                f"its address is printed without a base; read as decimal because {shown}"
            )
    if len(steps) >= _ENOUGH_STEPS:
        draft.tell(
            "addresses-inferred",
            f"the addresses are printed without a base; read as decimal because {shown}",
            registers[0].spot.line,
        )


def _mapped(address: PrintedAddress) -> PrintedAddress:
    def decimal(span: Span | None) -> Span | None:
        if span is None:
            return None
        ends = (end._replace(value=int(end.digits)) for end in span)
        return Span(*ends)

    return address._replace(outer=decimal(address.outer), inner=decimal(address.inner))


def _undo_spreadsheet(registers: list[RegisterFacts]) -> None:
    """Find 1E3 that became 1000: a round number among hexadecimal ones, where 1E3 would fit."""
    placed = [item for item in registers if item.address and item.address.outer]
    values = [item.address.outer.first for item in placed if item.address and item.address.outer]
    if not any(item.style == "bare" and not item.digits.isdigit() for item in values):
        return
    for index, (register, number) in enumerate(zip(placed, values, strict=True)):
        found = _ROUND.fullmatch(number.digits) if number.style == "bare" else None
        if found is None:
            continue
        digits = f"{found[1]}E{len(found[2])}"
        value = int(digits, 16)
        before = values[index - 1].value if index else -1
        after = values[index + 1].value if index + 1 < len(values) else 1 << 64
        fits = before < value < after and (index > 0 or index + 1 < len(values))
        if before < number.value < after or not fits:
            continue
        register.review(
            f"{number.digits} looks like {digits}, which a spreadsheet took for a number; "
            f"0x{digits} fits between its neighbours"
        )
        end = Number(value, "hex", digits)
        if register.address is not None:
            register.address = register.address._replace(outer=Span(end, end))
