"""Read the text above a table: which register it is of, and what is said of it as a whole."""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.importing.tables.characters import plain
from regwright.importing.tables.facts import RegisterFacts
from regwright.importing.tables.notation import DASHES
from regwright.importing.tables.printed_address import PrintedAddress, Span
from regwright.importing.tables.said import Said, Steps

_CAPTION = re.compile(
    r"^\s*(?:table|register|figure|fig\.?)\s+\d[\d.\-\u2013]*\s*[.:]?\s*", re.IGNORECASE
)
_CALLED = re.compile(r"^\s*(?:the\s+)?register\s+(?=[A-Z])", re.IGNORECASE)
_NUMBERED = re.compile(r"^\s*\d+(?:\.\d+)+\.?\s+")
_LONGEST_LINE = 300
_NAME = r"[A-Z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)*"
_FIRST = re.compile(rf"^({_NAME})\s*(?:[{DASHES}:,]\s*(.+))?$")
_IN_PARENTHESES = re.compile(rf"^(.+?)\s*[{DASHES}:]?\s*\(({_NAME})\)$")
_BEFORE_REGISTER = re.compile(rf"^({_NAME})\s+(.*register.*)$", re.IGNORECASE)
_LAST = re.compile(rf"^(.+?)\s*[{DASHES}:]\s*({_NAME})$")
_LABELLED = re.compile(
    rf"^(?:register |reg\. )?(?:name|acronym|symbol|mnemonic)\s*[:=]\s*({_NAME})$", re.IGNORECASE
)
_FOR_EACH = re.compile(
    r"\(?\b(?:where )?([a-z])\s*=\s*"
    r"(\w{1,4}(?:\s*(?:\.\.\.?|…|,|\bto\b|\band\b|[-\u2013])\s*\w{1,4})+)\s*\)?"
)


class Title(NamedTuple):
    """What the text above a table says; each part may be empty."""

    name: str = ""
    title: str = ""
    address: PrintedAddress | None = None
    is_offset: bool = False
    base: int | None = None
    reset: str = ""
    access: str = ""
    width: int = 0
    text: str = ""
    #: The space of a single address, where a word before it says so.
    space: str = ""
    steps: Steps | None = None
    #: The places of the block, each with its name, where it has several.
    instances: tuple[tuple[str, int], ...] = ()
    doubts: tuple[str, ...] = ()


def title_of(text: str) -> Title:
    """Return what ``text``, one or more lines, says of the table beneath."""
    lines = [plain(line)[:_LONGEST_LINE] for line in text.split("\n") if line.strip()]
    said = Said()
    names: list[tuple[str, str]] = []
    for line in lines:
        rest = said.take_trailing(said.take(line))
        has_said = rest != line
        rest = _for_each(rest, said)
        found = _name(rest)
        if has_said or found[0]:
            said.left(rest)
        names.append(found)
    name, title = next(
        (item for item in reversed(names) if item[0]),
        next((item for item in reversed(names) if item[1]), ("", "")),
    )
    address, space = said.address()
    if address is not None and said.steps is not None:
        name, address = _as_row(name, address, said)
    doubts = [*(address.doubts if address else ()), *said.doubts]
    return Title(
        name,
        title,
        address._replace(doubts=tuple(dict.fromkeys(doubts))) if address else None,
        said.offset is not None,
        _base(said),
        said.reset,
        said.access,
        said.width,
        " / ".join(lines[-2:]),
        space,
        said.steps if address else None,
        _instances(said),
        tuple(dict.fromkeys(said.doubts)),
    )


def _for_each(line: str, said: Said) -> str:
    """Take ``(x = A..C)`` out of a heading: it is of several registers, and one is described."""
    found = _FOR_EACH.search(line)
    if found is None or said.steps is not None:
        return line
    said.doubts.append(f"it is printed for {found[1]} = {found[2]}; only one is described")
    return f"{line[: found.start()]} {line[found.end() :]}"


def _as_row(name: str, address: PrintedAddress, said: Said) -> tuple[str, PrintedAddress]:
    """Return the name and the addresses of a row of registers, without the counting letter."""
    steps = said.steps
    if steps is None:
        return name, address
    bare = re.sub(rf"(?<=[A-Z0-9_]){steps.letter}$|\[{steps.letter}\]$", "", name).rstrip("_")
    if bare == name and steps.letter in name:
        said.doubts.append(f"the letter {steps.letter} in its name stands for a number")

    def row(span: Span | None) -> Span | None:
        if span is None:
            return None
        first = span.first.value + steps.start * steps.stride
        last = first + steps.number * steps.stride - 1
        return Span(span.first._replace(value=first), span.first._replace(value=last))

    return bare or name, address._replace(outer=row(address.outer), inner=row(address.inner))


def _base(said: Said) -> int | None:
    """Return the base address; it is told by an address and an offset, too."""
    address = said.places[0].span.first.value if said.offset and said.places else None
    offset = said.offset.span.first.value if said.offset else 0
    if not said.bases:
        return address - offset if address is not None and address >= offset else None
    base = said.bases[0][1]
    if len(said.bases) > 1 and not _instances(said):
        shown = ", ".join(f"0x{value:02X}" for _, value in said.bases)
        said.doubts.append(f"several base addresses are printed, {shown}: which is meant?")
    elif address is not None and address not in {base + offset for _, base in said.bases}:
        said.doubts.append(f"its address 0x{address:02X} is not its offset from 0x{base:02X}")
    return base


def _instances(said: Said) -> tuple[tuple[str, int], ...]:
    names = {name for name, _ in said.bases}
    is_told = len(said.bases) > 1 and len(names) == len(said.bases) and "" not in names
    return tuple(said.bases) if is_told else ()


def _name(line: str) -> tuple[str, str]:
    """Return the register's name in a line, and what else the line says."""
    line = _NUMBERED.sub("", _CAPTION.sub("", line))
    line = _CALLED.sub("", re.sub(r"[(\[][\s,;/]*[)\]]", "", line)).strip(" ,;:.|@" + DASHES)
    line = " ".join(line.split())
    if found := _LABELLED.fullmatch(line):
        return found[1], ""
    if (found := _FIRST.fullmatch(line)) and _is_name(found[1]):
        return found[1], (found[2] or "").strip()
    if found := _IN_PARENTHESES.fullmatch(line):
        return found[2], found[1].strip()
    if (found := _BEFORE_REGISTER.fullmatch(line)) and _is_name(found[1]):
        return found[1], "" if found[2].strip().lower() == "register" else found[2].strip()
    if (found := _LAST.fullmatch(line)) and _is_name(found[2]):
        return found[2], found[1].strip()
    return "", line


def _is_name(text: str) -> bool:
    """Tell a register's name from a word: it has an underscore, a digit or capitals alone."""
    bare = re.sub(r"(?<=[A-Z])[nxmi]$", "", text)
    return len(bare) > 1 and (bare.isupper() or "_" in bare or any(map(str.isdigit, bare)))


def give_block(registers: list[RegisterFacts], said: Title) -> None:
    """Give registers that have offsets the places of their block, and the first the marks."""
    counted = [register for register in registers if register.is_offset]
    for register in counted:
        register.instances = said.instances
    for doubt in said.doubts if counted else ():
        counted[0].review(doubt)


def give_place(register: RegisterFacts, said: Title) -> None:
    """Give a register the place that a title says, and the marks on what the title says."""
    register.is_offset = said.is_offset
    register.base = said.base if said.is_offset else None
    register.instances = said.instances if said.is_offset else ()
    register.space, register.steps = said.space, said.steps
    for doubt in (*(said.address.doubts if said.address else ()), *said.doubts):
        register.review(doubt)
