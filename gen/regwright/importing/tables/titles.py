"""Read the text above a table: which register it is of, and what is said of it as a whole."""

from __future__ import annotations

import re
from typing import NamedTuple

from regwright.importing.tables.notation import DASHES
from regwright.importing.tables.printed_address import PrintedAddress, printed_address

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
_ADDRESS_TEXT = r"[$0-9A-Fa-fOolxXh_]+(?:\s*\([$0-9A-Fa-fOolxXh_]+\))?"
_SAID = {
    "base": re.compile(rf"base(?: address)?\s*[:=]?\s*({_ADDRESS_TEXT})", re.IGNORECASE),
    "offset": re.compile(rf"(?:address )?offset\s*[:=]?\s*({_ADDRESS_TEXT})", re.IGNORECASE),
    "address": re.compile(rf"\baddress(?:es)?\s*[:=]?\s*({_ADDRESS_TEXT})", re.IGNORECASE),
    "reset": re.compile(
        r"(?:reset|initial|default)(?: value)?\s*[:=]?\s*((?:0x|0b|\$)?[0-9A-Fa-fxX_]+h?)\b",
        re.IGNORECASE,
    ),
    "access": re.compile(r"\baccess\s*[:=]?\s*([A-Za-z/0-9-]+)", re.IGNORECASE),
    "width": re.compile(r"\b(8|16|32|64)[ -]bits?\b", re.IGNORECASE),
}
_TRAILING = re.compile(r"\s+(?:at\s+)?[(\[]?((?:0x|\$)[0-9A-Fa-f_]+(?:\s*\([^)]*\))?)[)\]]?\s*$")


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


def title_of(text: str) -> Title:
    """Return what ``text``, one or more lines, says of the table beneath."""
    lines = [line.strip()[:_LONGEST_LINE] for line in text.split("\n") if line.strip()]
    said: dict[str, str] = {}
    names: list[tuple[str, str]] = []
    for line in lines:
        rest = line
        for key, pattern in _SAID.items():
            if key not in said and (found := pattern.search(rest)):
                said[key] = found[1]
                if key != "width":
                    rest = rest[: found.start()] + " " + rest[found.end() :]
        if "address" not in said and "base" not in said and (found := _TRAILING.search(rest)):
            said["address"] = found[1]
            rest = rest[: found.start()]
        names.append(_name(rest))
    name, title = next(
        (item for item in reversed(names) if item[0]),
        next((item for item in reversed(names) if item[1]), ("", "")),
    )
    address = printed_address(said.get("offset") or said.get("address", ""))
    base = printed_address(said.get("base", ""))
    return Title(
        name,
        title,
        address,
        "offset" in said,
        base.first.first.value if base else None,
        said.get("reset", ""),
        said.get("access", ""),
        int(said.get("width", 0)),
        " / ".join(lines[-2:]),
    )


def _name(line: str) -> tuple[str, str]:
    """Return the register's name in a line, and what else the line says."""
    line = _NUMBERED.sub("", _CAPTION.sub("", line))
    line = _CALLED.sub("", re.sub(r"\(\s*\)|\[\s*\]", "", line)).strip(" ,;:.|" + DASHES)
    line = " ".join(line.split())
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
    return len(text) > 1 and (text.isupper() or "_" in text or any(map(str.isdigit, text)))
